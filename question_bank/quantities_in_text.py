"""Quantities in our own text, written once and shown for the system that the hand reads.

    {{286 klbf}}        both systems, the hand's first: 286 klbf (1,272 kN)
    {{286 klbf -> t}}   the same, with that companion:  286 klbf (129.7 t)
    {{=4.448 N}}        as it is, for definitions; the unit may be left out
    {{=31.42 ft | 9.58 m}}  the first for a hand in US units, the second for a metric one: a sum worked in either

Lessons, glossary, stems and figures all hold this notation; only this file reads it. No text that a learner types
comes here.
"""

import math
import re

from question_bank.numbers import in_comma
from question_bank.units import both, register, registers, split_quantity, unit

MARK = re.compile(r"\{\{([^{}]*)\}\}")
NUMBER = re.compile(r"−?(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?")
SYSTEMS = ("us", "metric")
APART = 0.02
"""How far the two sides of {{=31.42 ft | 9.58 m}} may differ, as a share: each is worked by itself and rounded."""


def fill(text: str, system: str, comma: bool = False) -> str:
    """The text with each {{quantity}} shown in both systems; comma=True is for a hand who writes 12,5.

    Raises ValueError, a sentence: an unknown unit or system, a number that can't be read, a mark that isn't closed.
    """
    filled = MARK.sub(lambda found: shown(found[1], system, comma), text)
    if "{{" in filled or "}}" in filled:
        raise ValueError(
            f"A quantity in {_start_of(text)!r} is not closed. Write it on one line, like {{{{286 klbf}}}}."
        )
    return filled


def shown(inside: str, system: str, comma: bool = False) -> str:
    """One quantity as text, from what stands between its braces: shown('286 klbf', 'metric') -> '1,272 kN (286 klbf)'.

    Raises ValueError, a sentence.
    """
    if system not in SYSTEMS:
        raise ValueError(f"{system!r} is not a system of units. The systems are 'us' and 'metric'.")
    as_it_is = inside.startswith("=")
    if "|" in inside:
        inside = "=" + _side(inside, system)
    quantity, _, companion = inside.lstrip("=").partition("->")
    number, symbol = _number_and_symbol(quantity, inside)
    if as_it_is and companion:
        raise ValueError(f"{{{{{inside}}}}} is shown as it is, so it takes no companion. Drop the '=' or the '->'.")
    if as_it_is:
        text = f"{number} {unit(symbol).symbol}" if symbol else number
    else:
        text = _in_both(number, symbol, companion.strip() or None, system)
    text = text.replace(" °", "°")
    return in_comma(text) if comma else text


def _number_and_symbol(quantity: str, inside: str) -> tuple[str, str]:
    number, symbol = split_quantity(quantity)
    if not NUMBER.fullmatch(number):
        raise ValueError(
            f"{{{{{inside}}}}} has no number that can be read. Write it like {{{{2,000 lbf}}}} or {{{{=4.448 N}}}}."
        )
    return number, symbol


def _side(inside: str, system: str) -> str:
    """What stands for that system in '=31.42 ft | 9.58 m'. The two must be one quantity, but for rounding."""
    sides = inside.lstrip("=").split("|")
    if not inside.startswith("=") or len(sides) != 2:
        raise ValueError(f"{{{{{inside}}}}} needs an '=' and two sides, like {{{{=31.42 ft | 9.58 m}}}}.")
    values = []
    for side, its in zip(sides, SYSTEMS, strict=True):
        number, symbol = _number_and_symbol(side, inside)
        if symbol and unit(symbol).system not in (its, None):
            raise ValueError(f"{{{{{inside}}}}} has the US side first and the metric one second.")
        values.append((float(number.replace(",", "").replace("−", "-")), unit(symbol) if symbol else None))
    (us, us_unit), (metric, metric_unit) = values
    if us_unit and metric_unit:
        if us_unit.register != metric_unit.register:
            raise ValueError(f"{{{{{inside}}}}}: the two sides measure different things.")
        if not math.isclose(us * us_unit.factor, metric * metric_unit.factor, rel_tol=APART):
            raise ValueError(f"{{{{{inside}}}}}: the two sides are not one quantity.")
    return sides[SYSTEMS.index(system)].strip()


def _in_both(number: str, symbol: str, companion: str | None, system: str) -> str:
    """Both systems. A named companion decides the register: ft·lbf beside J is an energy, beside N·m a torque."""
    if not symbol:
        raise ValueError(f"{{{{{number}}}}} has no unit. A plain number is written {{{{={number}}}}}.")
    if companion is None:
        return both(f"{number} {symbol}", system)
    for each in registers():
        if symbol in register(each).units and companion in register(each).units:
            return both(f"{number} {symbol}", system, companion, each)
    unit(symbol), unit(companion)
    raise ValueError(f"{number} {symbol} can't be shown in {companion}: they measure different things.")


def _start_of(text: str) -> str:
    at = max(text.find("{{"), text.find("}}"), 0)
    return text[max(0, at - 20) : at + 30].strip()
