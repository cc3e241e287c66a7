"""What an item's recall would be after answers that nobody has given yet: after one more, and after two.

These are the library's own sums, on plain floats: a plan needs them for hundreds of items, and one call of the library
takes as long as looking ahead at three. The tests hold the two to the same result. `look_once` and `again_at_most` take
half the time of `look_ahead`, and tell what a second answer would add only at most.
"""

from datetime import date
from functools import cache
from math import exp
from typing import NamedTuple

from webapp.study.memory import BEND, FADE, PARAMETERS, Answer, after

Floats = tuple[float, float]
"""Days to ninety and toughness, where a State with its day would only be in the way."""

_GROWTH, _TIRES, _SURPRISE = exp(PARAMETERS[8]), -PARAMETERS[9], PARAMETERS[10]
_LEFT, _LEFT_TOUGH, _LEFT_LONG, _LEFT_SURPRISE = PARAMETERS[11], -PARAMETERS[12], PARAMETERS[13], PARAMETERS[14]
_MOST_LEFT, _LEAST = exp(-PARAMETERS[17] * PARAMETERS[18]), 0.001
_TOUGHER, _KEEPS = 2 * PARAMETERS[6] / 9, 1 - PARAMETERS[7]
_MIDDLE = PARAMETERS[7] * (PARAMETERS[4] - exp(PARAMETERS[5] * 3) + 1)
_ANY_DAY = date(2000, 1, 1)


class Outlook(NamedTuple):
    """What an item's recall looks like ahead: chances from 0 to 1.

    `now`: that it is answered right today. `as_it_is`, `after_one`, `after_two`: recall on the far day if nothing is
    done, after an answer today, and after a second one tomorrow, each over right and wrong as likely as they are.
    `again`: that the second one is right.
    """

    now: float
    as_it_is: float
    after_one: float
    after_two: float
    again: float


def look_ahead(days_to_ninety: float, toughness: float, elapsed: int, days: int) -> Outlook:
    """The outlook on a day `days` from today, 1 at least, of an item last answered `elapsed` days ago."""
    # `kept` stands written out here and below: of all that a plan does, this takes longest.
    now = (1 + FADE * elapsed / days_to_ninety) ** BEND
    as_it_is = (1 + FADE * (elapsed + days) / days_to_ninety) ** BEND
    right, wrong = _days_after(days_to_ninety, toughness, now)
    return _outlook(now, as_it_is, (right, _tough_right(toughness)), (wrong, _tough_wrong(toughness)), days)


def look_ahead_unseen(kind: str, chance: float, days: int) -> Outlook:
    """The outlook of an item never asked, whose first answer is right by that chance."""
    return _outlook(chance, chance, first_if_right(kind), first_if_wrong(), days)


def look_once(days_to_ninety: float, toughness: float, now: float, days: int) -> tuple[float, float, float]:
    """`after_one` of the outlook with that chance `now`, and days to ninety after a right and after a wrong answer."""
    right, wrong = _days_after(days_to_ninety, toughness, now)
    one = now * (1 + FADE * days / right) ** BEND + (1 - now) * (1 + FADE * days / wrong) ** BEND
    return one, right, wrong


def again_at_most(days_to_ninety: float, toughness: float, days: int) -> float:
    """Recall at most, `days` after an answer that comes a day after the last one: that of a right one, to a rounding.

    `days_to_ninety` are those of the day between, `toughness` is that before the last answer, which leaves it no less
    but for a trifle. The sum of `_days_after` stands written out: this runs for every item of the course.
    """
    missed = 1 - (1 + FADE / days_to_ninety) ** BEND
    growth = _GROWTH * (11 - _MIDDLE - _KEEPS * toughness) * days_to_ninety**_TIRES * (exp(missed * _SURPRISE) - 1)
    return (1 + FADE * days / (days_to_ninety * (1 + growth))) ** BEND


def _outlook(now: float, as_it_is: float, right: Floats, wrong: Floats, days: int) -> Outlook:
    slow, fast, missed = right[0], wrong[0], 1 - now
    again_right, two_right = _one_more(*right, days - 1)
    again_wrong, two_wrong = _one_more(*wrong, days - 1)
    one = now * (1 + FADE * days / slow) ** BEND + missed * (1 + FADE * days / fast) ** BEND
    two = now * two_right + missed * two_wrong
    return Outlook(now, as_it_is, one, two, now * again_right + missed * again_wrong)


def _one_more(days_to_ninety: float, toughness: float, days: int) -> tuple[float, float]:
    """The chance that an answer a day after the last one is right, and recall `days` after it."""
    chance = (1 + FADE / days_to_ninety) ** BEND
    right, wrong = _days_after(days_to_ninety, toughness, chance)
    ahead = FADE * days
    return chance, chance * (1 + ahead / right) ** BEND + (1 - chance) * (1 + ahead / wrong) ** BEND


def kept(days_to_ninety: float, days: int) -> float:
    """The chance of recall so many days after the last answer: `recall` without dates."""
    return (1 + FADE * days / days_to_ninety) ** BEND


def if_right(days_to_ninety: float, toughness: float, chance: float) -> Floats:
    """Days to ninety and toughness after a right answer that came with that chance."""
    return _days_after(days_to_ninety, toughness, chance)[0], _tough_right(toughness)


def if_wrong(days_to_ninety: float, toughness: float, chance: float) -> Floats:
    """Days to ninety and toughness after a wrong answer, where right would have come with that chance."""
    return _days_after(days_to_ninety, toughness, chance)[1], _tough_wrong(toughness)


def _days_after(days_to_ninety: float, toughness: float, chance: float) -> tuple[float, float]:
    """Days to ninety after a right answer, and after a wrong one."""
    missed = 1 - chance
    growth = _GROWTH * (11 - toughness) * days_to_ninety**_TIRES * (exp(missed * _SURPRISE) - 1)
    left = _LEFT * toughness**_LEFT_TOUGH * ((days_to_ninety + 1) ** _LEFT_LONG - 1) * exp(missed * _LEFT_SURPRISE)
    most = days_to_ninety * _MOST_LEFT
    if left > most:
        left = most
    return days_to_ninety * (1 + growth), left if left > _LEAST else _LEAST


def _tough_right(toughness: float) -> float:
    return _clamped(_MIDDLE + _KEEPS * toughness)


def _tough_wrong(toughness: float) -> float:
    return _clamped(_MIDDLE + _KEEPS * (toughness + (10 - toughness) * _TOUGHER))


def _clamped(toughness: float) -> float:
    return 1.0 if toughness < 1 else 10.0 if toughness > 10 else toughness


@cache
def first_if_right(kind: str) -> Floats:
    """Days to ninety and toughness after a first answer that is right."""
    return _after_first(Answer("right", kind))


@cache
def first_if_wrong() -> Floats:
    """Days to ninety and toughness after a first answer that is wrong."""
    return _after_first(Answer("wrong", "numeric"))


def _after_first(answer: Answer) -> Floats:
    state = after(None, answer, _ANY_DAY)
    return state.days_to_ninety, state.toughness
