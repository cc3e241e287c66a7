"""Study days put together by week. Pure."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby
from typing import Protocol


@dataclass(frozen=True, slots=True)
class Week:
    """A week from its Monday: on how many days something was answered, how many answers, and the minutes they took."""

    monday: date
    days: int
    answers: int
    minutes: float


class StudyDay(Protocol):
    """What is known of a day: how many answers, and the seconds they took."""

    day: date
    answers: int
    seconds: float


def weeks(days: Iterable[StudyDay], most: int) -> list[Week]:
    """Days, the latest first, put together by week; the last `most` weeks with an answer in them."""
    found = []
    for monday, of_week in groupby(days, key=lambda each: monday_of(each.day)):
        rows = list(of_week)
        seconds = sum(each.seconds for each in rows)
        found.append(Week(monday, len(rows), sum(each.answers for each in rows), seconds / 60))
    return found[:most]


def monday_of(day: date) -> date:
    """The Monday of that day's week."""
    return day - timedelta(day.weekday())
