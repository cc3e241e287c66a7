"""Quantities in our own text, written once and shown for the system that the hand reads.

    {{286 klbf}}        both systems, the hand's first: 286 klbf (1,272 kN)
    {{286 klbf -> t}}   the same, with that companion:  286 klbf (129.7 t)
    {{=4.448 N}}        as it is, for definitions; the unit may be left out

Lessons, glossary, stems and figures all hold this notation; only this file reads it. No text that a learner types
comes here.
"""

import re

from question_bank.numbers import in_comma
from question_bank.units import both, register, registers, split_quantity, unit

MARK = re.compile(r"\{\{([^{}]*)\}\}")
NUMBER = re.compile(r"−?(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?")
SYSTEMS = ("us", "metric")


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
    quantity, _, companion = inside.lstrip("=").partition("->")
    number, symbol = split_quantity(quantity)
    if not NUMBER.fullmatch(number):
        raise ValueError(
            f"{{{{{inside}}}}} has no number that can be read. Write it like {{{{2,000 lbf}}}} or {{{{=4.448 N}}}}."
        )
    if as_it_is and companion:
        raise ValueError(f"{{{{{inside}}}}} is shown as it is, so it takes no companion. Drop the '=' or the '->'.")
    if as_it_is:
        text = f"{number} {unit(symbol).symbol}" if symbol else number
    else:
        text = _in_both(number, symbol, companion.strip() or None, system)
    text = text.replace(" °", "°")
    return in_comma(text) if comma else text


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
