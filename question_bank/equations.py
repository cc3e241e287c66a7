"""Equations as a hand writes them: text with a solidus, filled with words or numbers, and worked out from the text.

A printed equation holds for one choice of trade units: '{torque} × {speed} / 5,252' takes ft·lbf and rpm and gives hp.
"""

import ast
import functools
import math
import operator
import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from question_bank.rounding import rounded_up, whole_part
from question_bank.units import registers

PLACE = re.compile(r"\{(\w+)\}")
RAISED = re.compile(r"\{(\w+)\}(?:\^([234])(?!\d)|(?=\^))|(?<=\^)\{(\w+)\}")
SMALL = {"2": "²", "3": "³", "4": "⁴"}
BINARY = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
}
FUNCTIONS = {
    "sqrt": math.sqrt,
    "exp": math.exp,
    "ln": math.log,
    "sine": lambda degrees: math.sin(math.radians(degrees)),
    "cosine": lambda degrees: math.cos(math.radians(degrees)),
    "tangent": lambda degrees: math.tan(math.radians(degrees)),
    "roundup": rounded_up,
    "whole": whole_part,
}
"""What a printed line may call with one number, angles in degrees as on a pocket calculator. `least` takes several."""
IN_PYTHON = str.maketrans({"×": "*", "−": "-", "^": "**", "π": "pi", "²": "**2", "³": "**3", "⁴": "**4", "√": "sqrt"})
NUMBER = r"(\d[\d,]*(?:\.\d+)?)"


class EquationError(ValueError):
    """A printed line that can't be worked out."""


@dataclass(frozen=True)
class Printed:
    """One printed equation: its text with {names}, the unit each name is put in with, and the unit it gives."""

    text: str
    units: Mapping[str, str]
    gives: str

    @property
    def names(self) -> list[str]:
        """The names in the order they are first printed."""
        return list(dict.fromkeys(PLACE.findall(self.text)))

    def filled(self, texts: Mapping[str, str]) -> str:
        """The equation with each name replaced; what is raised to a power stands in brackets, as in (4.5 in)²."""
        text = RAISED.sub(lambda at: _in_brackets(texts[at[1] or at[3]]) + SMALL.get(at[2], ""), self.text)
        return PLACE.sub(lambda found: texts[found[1]], text)

    def work_out(self, numbers: Mapping[str, float]) -> float:
        """The value in `gives`, from numbers in the printed units. Raises EquationError."""
        return worked_out(self.filled({name: f"({number!r})" for name, number in numbers.items()}))


def _in_brackets(text: str) -> str:
    return f"({text})" if " " in text else text


def printed(text: str, gives: str, **units: str) -> Printed:
    """A Printed as a formula's file writes it: printed('{pull} × {arm}', 'ft·lbf', pull='lbf', arm='ft')."""
    return Printed(text, MappingProxyType(units), gives)


def worked_out(text: str) -> float:
    """The value of a printed line of numbers, with units or without: '300,000 lbf / (8 × 0.841)'.

    Raises EquationError.
    """
    plain = _unit_after_number().sub(r"\1", text)
    plain = re.sub(r"(?<=\d),(?=\d{3})", "", plain).translate(IN_PYTHON)
    try:
        return _value(ast.parse(plain.strip(), mode="eval").body)
    except (SyntaxError, ArithmeticError, ValueError) as error:
        raise EquationError(f"“{text}” can't be worked out: {error}.") from None


def _value(node: ast.expr) -> float:
    match node:
        case ast.Constant(value=int() | float() as number):
            return float(number)
        case ast.Name(id="pi"):
            return math.pi
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return -_value(operand)
        case ast.BinOp(left=left, op=op, right=right) if type(op) in BINARY:
            return BINARY[type(op)](_value(left), _value(right))
        case ast.Call(func=ast.Name(id="least"), args=[_, _, *_] as args, keywords=[]):
            return min(map(_value, args))
        case ast.Call(func=ast.Name(id=name), args=[arg], keywords=[]) if name in FUNCTIONS:
            return FUNCTIONS[name](_value(arg))
    raise EquationError(f"“{ast.unparse(node)}” has no place in a printed line")


@functools.cache
def _unit_after_number() -> re.Pattern[str]:
    symbols = {each for one in registers().values() for each in one.units if each}
    longest_first = sorted(symbols, key=len, reverse=True)
    return re.compile(rf"{NUMBER} (?:{'|'.join(map(re.escape, longest_first))})(?![\w·/])")
