"""A hand's rotation: which days are on the rig, which of them on nights, and how many minutes each has for study.

It is a value and knows no clock: every function takes the day it is asked about. Days are study days.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta

MOST_MINUTES = 24 * 60
MOST_DAYS = 366
ONE_DAY = timedelta(1)


@dataclass(frozen=True, slots=True)
class Rotation:
    """Days on and days off in turn, from `first_day`, the first day of a hitch; before it nobody is on the rig.

    `minutes_on` and `minutes_off` are for study on a day on and a day off. `nights_from` is the day of the hitch,
    counted from 1, from which the hand works nights; None is days all through. `exceptions` has the minutes of single
    days, such as a day of travel; 0 is a day without study. Raises ValueError for what can't be.
    """

    days_on: int
    days_off: int
    first_day: date
    minutes_on: float
    minutes_off: float
    nights_from: int | None = None
    exceptions: Mapping[date, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        if not 1 <= self.days_on <= MOST_DAYS:
            raise ValueError(f"A hitch has 1 to {MOST_DAYS} days, not {self.days_on}.")
        if not 0 <= self.days_off <= MOST_DAYS:
            raise ValueError(f"Days off are 0 to {MOST_DAYS}, not {self.days_off}.")
        if self.nights_from is not None and not 1 <= self.nights_from <= self.days_on:
            raise ValueError(f"Nights begin on a day of the hitch, 1 to {self.days_on}, not {self.nights_from}.")
        for minutes in (self.minutes_on, self.minutes_off, *self.exceptions.values()):
            if not 0 <= minutes <= MOST_MINUTES:
                raise ValueError(f"A day has 0 to {MOST_MINUTES} minutes for study, not {minutes}.")


def every_day(minutes: float, exceptions: Mapping[date, float] | None = None) -> Rotation:
    """The same minutes every day, for a hand who has told no rotation."""
    return Rotation(1, 0, date.min, minutes, minutes, exceptions=exceptions or {})


def day_of_hitch(rotation: Rotation, day: date) -> int | None:
    """Which day of the hitch it is, counted from 1; None off the rig."""
    since = (day - rotation.first_day).days
    if since < 0:
        return None
    place = since % (rotation.days_on + rotation.days_off)
    return place + 1 if place < rotation.days_on else None


def on_the_rig(rotation: Rotation, day: date) -> bool:
    """Whether the hand is on the rig that day."""
    return day_of_hitch(rotation, day) is not None


def on_nights(rotation: Rotation, day: date) -> bool:
    """Whether the hand is on the rig and works nights that day."""
    place = day_of_hitch(rotation, day)
    return place is not None and rotation.nights_from is not None and place >= rotation.nights_from


def last_day_of_hitch(rotation: Rotation, day: date) -> date:
    """The last day of the hitch that runs on that day; off the rig, of the next one."""
    since = (day - rotation.first_day).days
    if since < 0:
        return rotation.first_day + timedelta(rotation.days_on - 1)
    length = rotation.days_on + rotation.days_off
    hitches, place = divmod(since, length)
    if place >= rotation.days_on:
        hitches += 1
    return rotation.first_day + timedelta(hitches * length + rotation.days_on - 1)


def minutes_of(rotation: Rotation, day: date) -> float:
    """The minutes for study on that day."""
    if day in rotation.exceptions:
        return rotation.exceptions[day]
    return rotation.minutes_on if on_the_rig(rotation, day) else rotation.minutes_off


def days_between(first: date, end: date) -> Iterator[date]:
    """Each day from `first` up to the day before `end`."""
    for number in range((end - first).days):
        yield first + number * ONE_DAY


def usual_minutes(rotation: Rotation) -> float:
    """The mean minutes of a day over a whole turn of days on and days off, without the exceptions."""
    on, off = rotation.days_on, rotation.days_off
    return (on * rotation.minutes_on + off * rotation.minutes_off) / (on + off)
