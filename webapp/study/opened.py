"""Which items may be asked today: modules open one after the other, and what is known well rests. Pure."""

from collections.abc import Mapping
from datetime import date, timedelta

from webapp.study.memory import FADING_BELOW
from webapp.study.rotation import Rotation, minutes_of, usual_minutes

OPENS_AT = 0.15
"""The share of each module before it that has been seen when a module opens."""
RESTS_ABOVE, RESTS_ABOVE_AT_LAST = FADING_BELOW, 0.985
LAST_DAYS = 5
WITHOUT_EXAM = 30
"""Days to look ahead where no exam has a date: the horizon moves on with each day."""
ENOUGH = 0.5
"""The share of the usual minutes that makes a day one that an item can wait for."""


def days_to_go(exam: date | None, today: date) -> int:
    """Days to the exam, 1 at least; without an exam to come, the days of the rolling horizon."""
    if exam is None or exam < today:
        return WITHOUT_EXAM
    return max((exam - today).days, 1)


def in_last_days(exam: date | None, today: date) -> bool:
    """Whether the exam is so near that an item rests only if it is known almost surely."""
    return exam is not None and 0 <= (exam - today).days <= LAST_DAYS


def days_to_wait(rotation: Rotation, today: date, days: int) -> int:
    """Days from today to the eve of the next day with enough minutes, within the `days` to go."""
    enough = ENOUGH * usual_minutes(rotation)
    for wait in range(1, days):
        if minutes_of(rotation, today + timedelta(wait)) >= enough:
            return wait - 1
    return days - 1


class Gate:
    """The modules of which new items may be asked.

    A module opens when enough of each module before it has been seen. `there` says how many items of each module count,
    in course order, `seen` how many of them were seen. What counts are the items seen and those whose lesson has been
    read: a lesson that nobody has read holds up no other module.
    """

    def __init__(self, there: Mapping[str, int], seen: Mapping[str, int]) -> None:
        self._there, self._seen = there, dict(seen)
        self._closed = list(self._there)
        self._open: set[str] = set()
        self._turn()

    def __contains__(self, module: str) -> bool:
        return module in self._open

    def see(self, module: str) -> None:
        """One more item of that module has been seen."""
        self._seen[module] += 1
        self._turn()

    def _turn(self) -> None:
        while self._closed and all(self._seen[each] >= OPENS_AT * self._there[each] for each in self._open):
            self._open.add(self._closed.pop(0))
