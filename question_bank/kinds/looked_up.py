"""A given that is looked up in its table, and past its table where the table follows a formula."""

import math

from question_bank.formulas.hoisting import tackle_efficiency
from question_bank.givens import Drawn, Given
from question_bank.kinds.hold_range import Range
from question_bank.numbers import show
from question_bank.reading import AnswerError

ROLLER_BEARINGS = 1.04
"""The sheave factor of API RP 9B behind the course's tables of tackle efficiency."""
LINES = Range(2, 16)
"""The lines strung for which its formula holds."""


def looked_up(given: Given, found: dict[str, Drawn], system: str) -> Drawn | None:
    """What the given's table has for the number that it is looked up by. None: it has no table, so it must be typed.

    Raises AnswerError where the other number is missing, or the table has nothing for it.
    """
    if given.by is None:
        return None
    if given.by not in found:
        raise AnswerError("unreadable", f"Write it, or write {given.by.replace('_', ' ')}: it is then looked up.")
    by = found[given.by]
    if by.number in given.table:
        return given.fixed(given.table[by.number], system)
    if is_efficiency(given) and LINES.has(by.base):
        return given.fixed(show(tackle_efficiency(by.base, ROLLER_BEARINGS), 3), system)
    known = ", ".join(given.table)
    raise AnswerError("unreadable", f"Write it. The table of this sum has {known}, and not {by.number}.")


def is_efficiency(given: Given) -> bool:
    """Whether each row of a table is the tackle efficiency of that many lines on roller bearings, to three places."""
    rows = [(float(key), float(value)) for key, value in (given.table or {}).items()]
    return bool(rows) and all(
        LINES.has(lines) and math.isclose(tackle_efficiency(lines, ROLLER_BEARINGS), value, abs_tol=6e-4)
        for lines, value in rows
    )


def table_in_words(given: Given) -> str | None:
    """'0.842 for 8, 0.811 for 10', and that other lines are worked like these; None where there is no table."""
    if not given.table:
        return None
    rows = ", ".join(f"{value} for {key}" for key, value in given.table.items())
    return f"{rows}; other lines from 2 to 16 in the same way" if is_efficiency(given) else rows
