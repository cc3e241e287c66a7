"""Whether there is time: the minutes of study that are left, against those that the rotation gives until a day. Pure.

A hand's days off are their own. So what fits into the days on the rig is enough; what fits only with days off is tight;
what does not fit at all can't be met, and somebody has to move the day, or give time.
"""

import math
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import count

from webapp.study.rotation import Rotation, minutes_of, on_nights, on_the_rig

ENOUGH = "enough"
TIGHT = "tight"
NOT_ENOUGH = "not enough"


@dataclass(frozen=True, slots=True)
class Minutes:
    """Minutes for study, on days on the rig and on days off."""

    on: float
    off: float


@dataclass(frozen=True, slots=True)
class Pace:
    """What is left to study, what there is until the day, and what that comes to: enough, tight or not enough."""

    left: float
    on: float
    off: float
    verdict: str


@dataclass(frozen=True, slots=True)
class Load:
    """One module that is still to be passed: its minutes of study, and the day it is due."""

    module: str
    left: float
    due: date


def minutes_ahead(rotation: Rotation, today: date) -> Iterator[Minutes]:
    """The minutes up to and with today, tomorrow, the day after it and so on, without end."""
    on = off = 0.0
    for number in count():
        day = today + timedelta(number)
        if on_the_rig(rotation, day):
            on += minutes_of(rotation, day)
        else:
            off += minutes_of(rotation, day)
        yield Minutes(on, off)


def pace(left: float, minutes: Minutes) -> Pace:
    """The verdict on so many minutes of study within these minutes."""
    if left <= minutes.on:
        verdict = ENOUGH
    else:
        verdict = TIGHT if left <= minutes.on + minutes.off else NOT_ENOUGH
    return Pace(left, minutes.on, minutes.off, verdict)


def added_up(loads: Iterable[Load]) -> list[tuple[Load, float]]:
    """Each load with all that has to be studied by its day: its own minutes and those of what is due no later."""
    loads = sorted(loads, key=lambda each: each.due)
    return [(load, sum(each.left for each in loads if each.due <= load.due)) for load in loads]


def say(pace: Pace) -> str:
    """The pace in a sentence, without the day. What is left is rounded up, what there is down."""
    left, there_is = hours(pace.left, up=True), hours(pace.on + pace.off)
    if pace.verdict == ENOUGH:
        return f"About {left} of study are left, and the days on the rig give {hours(pace.on)}."
    if pace.verdict == TIGHT:
        return (
            f"About {left} of study are left. The days on the rig give {hours(pace.on)},"
            f" so it fits only with days off ({hours(pace.off)})."
        )
    return f"About {left} of study are left, and there are only {there_is} until then, days off counted in."


def short(pace: Pace) -> str:
    """What it needs and what there is, for a cell of a table: 'needs 10½ hours, has 3½ hours'. Rounded as in `say`."""
    return f"needs {hours(pace.left, up=True)}, has {hours(pace.on + pace.off)}"


def fits_by(loads: Iterable[Load], new: Collection[str], ahead: Iterable[Minutes], today: date) -> date | None:
    """The first day by which the modules `new` can be done, with all else that is due no later; None if by no day.

    `loads` are all that is to be passed; the day that the new ones have there does not count. `ahead` are the minutes
    up to today, tomorrow and so on: it says how far is looked.
    """
    loads = list(loads)
    mine = sum(each.left for each in loads if each.module in new)
    for number, minutes in enumerate(ahead):
        day = today + timedelta(number)
        rest = sum(each.left for each in loads if each.module not in new and each.due <= day)
        if mine + rest <= minutes.on + minutes.off:
            return day
    return None


def hours(minutes: float, up: bool = False) -> str:
    """'40 minutes'; from two hours on '2½ hours', to the half hour. Rounded down, or `up`."""
    whole = math.ceil if up else math.floor
    if minutes < 120:
        number = whole(minutes)
        return f"{number} minute" if number == 1 else f"{number} minutes"
    halves = whole(minutes / 30)
    return f"{halves // 2}{'½' if halves % 2 else ''} hours"


def exam_day_fault(rotation: Rotation, day: date) -> str | None:
    """Why that is no day for an exam: 'nights' or 'off'; None for a day tour on the rig."""
    if not on_the_rig(rotation, day):
        return "off"
    return "nights" if on_nights(rotation, day) else None


def days_for_an_exam(rotation: Rotation, day: date, earliest: date) -> tuple[date | None, date | None]:
    """The nearest days before and after that one, from `earliest` on, on which the hand works days on the rig."""
    reach = rotation.days_on + rotation.days_off
    before = (day - timedelta(number) for number in range(1, reach + 1))
    after = (max(day, earliest) + timedelta(number) for number in range(1, reach + 1))
    return (
        next((each for each in before if each >= earliest and exam_day_fault(rotation, each) is None), None),
        next((each for each in after if exam_day_fault(rotation, each) is None), None),
    )
