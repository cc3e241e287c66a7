"""How one person stands in one module, in a word: a pure function of what is asked, excused, passed and begun.

A day is late when it is past; on the day itself there is still time. What is passed stays passed until a refresher is
called for: each lesson of a module is to be shown again so many months after it was last passed.
"""

import calendar
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from webapp.study.rotation import Rotation, last_day_of_hitch

PASSED = "passed"
REFRESH = "refresh"
LATE = "late"
ON_THE_WAY = "on the way"
NOT_BEGUN = "not begun"
EXCUSED = "excused"
REPLACED = "replaced"
STATES = (LATE, NOT_BEGUN, ON_THE_WAY, REFRESH, PASSED, EXCUSED, REPLACED)
"""All states, those that need somebody first."""
NEED_STUDY = (LATE, NOT_BEGUN, ON_THE_WAY)


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of a person in a module: by which day, with which pass mark, and whether must-pass items count.

    `assignment` is the id of the assignment that says so; `by_hitch`: its day is the end of a hitch.
    """

    assignment: str
    due: date
    pass_mark: int
    must_pass: bool
    by_hitch: bool = False


@dataclass(frozen=True, slots=True)
class Result:
    """A test of a module, handed in. `mark` is the percent that were right; `must_passed`: every must-pass item was.

    `lessons` are those that it asked of, or None for all of the module.
    """

    day: date
    mark: int
    passed: bool
    must_passed: bool
    lessons: Collection[str] | None = None

    def counts_for(self, asked: Asked | None) -> bool:
        """Whether it is a pass by what is asked now. Without an assignment it counts as it was marked on the day."""
        if asked is None:
            return self.passed
        return self.mark >= asked.pass_mark and (self.must_passed or not asked.must_pass)


@dataclass(frozen=True, slots=True)
class Standing:
    """The state, the day it was first passed on or None, and the day a refresher is called for from, or None."""

    state: str
    passed_on: date | None = None
    refresh_on: date | None = None


def due_day(due_by: str, day: date, rotation: Rotation) -> date:
    """The day something is due: that very day, or by 'hitch' the last day of the hitch that day belongs to."""
    return last_day_of_hitch(rotation, day) if due_by == "hitch" else day


def due_day_of_joiner(due: date, joined: date, rotation: Rotation) -> date:
    """The day by which somebody who joined on that day has to do what their crew was assigned by `due`.

    Nobody is late on the day they come: where it was past already, it is the last day of their first hitch in the crew.
    """
    return due if due >= joined else last_day_of_hitch(rotation, joined)


def standing(
    asked: Asked | None,
    excuse: str | None,
    results: Iterable[Result],
    refreshers: Mapping[str, int],
    begun: bool,
    today: date,
) -> Standing:
    """How somebody stands in a module.

    `excuse` is 'excused', 'replaced' or None; `results` are of their tests of the module and its refreshers;
    `refreshers` has the months after which each lesson is to be shown again; `begun`: some of it was read or answered.
    """
    passes = [each for each in results if each.counts_for(asked)]
    passed_on = min((each.day for each in passes if each.lessons is None), default=None)
    refresh_on = refresh_day([each for each in passes if each.day >= passed_on], refreshers) if passed_on else None
    if passed_on and (refresh_on is None or today < refresh_on):
        return Standing(PASSED, passed_on, refresh_on)
    if excuse:
        return Standing(excuse, passed_on, refresh_on)
    if passed_on:
        return Standing(REFRESH, passed_on, refresh_on)
    if asked and today > asked.due:
        return Standing(LATE)
    return Standing(ON_THE_WAY if begun else NOT_BEGUN)


def refresh_day(passes: Iterable[Result], refreshers: Mapping[str, int]) -> date | None:
    """The first day on which a lesson of the module is to be shown again; None where no lesson was passed."""
    return min((day for _, day in lesson_refresh_days(passes, refreshers)), default=None)


def lesson_refresh_days(passes: Iterable[Result], refreshers: Mapping[str, int]) -> list[tuple[str, date]]:
    """(lesson, the day it is to be shown again), for each lesson that a pass asked of."""
    passed: dict[str, date] = {}
    for each in sorted(passes, key=lambda each: each.day):
        passed |= dict.fromkeys(refreshers if each.lessons is None else each.lessons, each.day)
    return [(lesson, months_after(passed[lesson], months)) for lesson, months in refreshers.items() if lesson in passed]


def months_after(day: date, months: int) -> date:
    """The same day of the month so many months later; the month's last day where it has no such day."""
    years, month = divmod(day.month - 1 + months, 12)
    year, month = day.year + years, month + 1
    return date(year, month, min(day.day, calendar.monthrange(year, month)[1]))
