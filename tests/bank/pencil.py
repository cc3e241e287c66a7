"""A printed line worked out as a hand with a pencil would, by a reader of its own: it shares nothing with the bank.

    sum     = product {("+" | "−") product}
    product = power {("×" | "/") power}
    power   = sign ["^" sign] | sign "²" | sign "³" | sign "⁴"
    sign    = ["−"] (number [unit] | "π" | "(" sum ")" | "√" sign | function "(" sum ")" | "least(" sum {", " sum} ")")

A unit is a word right after a number and a space, such as 'ft·lbf' or 'm/s²'; it is passed over.
"""

import math
import re

TOKEN = re.compile(
    r"(?P<number>\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?)(?P<unit> (?!×)[^\W\d_][^\s()×−+^,]*| ?[°%])?"
    r"|(?P<sign>[+−×/^()√π²³⁴,])|(?P<function>[a-z]+(?=\())|(?P<space> )"
)
FUNCTIONS = {
    "sine": lambda degrees: math.sin(degrees * math.pi / 180),
    "cosine": lambda degrees: math.cos(degrees * math.pi / 180),
    "tangent": lambda degrees: math.tan(degrees * math.pi / 180),
    "exp": math.exp,
    "ln": math.log,
    "roundup": lambda quotient: math.ceil(quotient - 1e-9),
    "whole": lambda quotient: math.floor(quotient + 1e-9),
}


class Unworkable(ValueError):
    """A line that no pencil could follow."""


def tokens(line):
    """The numbers and signs of a line, units left out."""
    found, at = [], 0
    while at < len(line):
        met = TOKEN.match(line, at)
        if not met:
            raise Unworkable(f"{line!r} has {line[at:]!r} in it")
        if met["number"]:
            found.append(float(met["number"].replace(",", "")))
        elif met["sign"] or met["function"]:
            found.append(met["sign"] or met["function"])
        at = met.end()
    return [*found, "end"]


def pencil(line):
    """The value of a printed line. Raises Unworkable."""
    left = tokens(line)
    value = _sum(left)
    if left != ["end"]:
        raise Unworkable(f"{line!r} goes on with {left[:-1]}")
    return value


def _sum(left):
    value = _product(left)
    while left[0] in ("+", "−"):
        value += _product(left) if left.pop(0) == "+" else -_product(left)
    return value


def _product(left):
    value = _power(left)
    while left[0] in ("×", "/"):
        value = value * _power(left) if left.pop(0) == "×" else value / _power(left)
    return value


def _power(left):
    value = _signed(left)
    while left[0] in ("^", "²", "³", "⁴"):
        sign = left.pop(0)
        value **= {"²": 2, "³": 3, "⁴": 4}.get(sign) or _signed(left)
    return value


def _signed(left):
    first = left.pop(0)
    if isinstance(first, float):
        return first
    if first == "−":
        return -_power(left)
    if first == "π":
        return math.pi
    if first == "√":
        return math.sqrt(_signed(left))
    if first == "least":
        return _least(left)
    if first in FUNCTIONS:
        return FUNCTIONS[first](_signed(left))
    if first == "(":
        value = _sum(left)
        if left.pop(0) != ")":
            raise Unworkable("a bracket is left open")
        return value
    raise Unworkable(f"{first!r} stands where a number should")


def _least(left):
    """The smallest of the sums between the brackets, parted by commas."""
    if left.pop(0) != "(":
        raise Unworkable("least stands without its bracket")
    sums = [_sum(left)]
    while left[0] == ",":
        left.pop(0)
        sums.append(_sum(left))
    if left.pop(0) != ")":
        raise Unworkable("a bracket is left open")
    return min(sums)
