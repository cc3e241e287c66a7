"""Where a hand stands with a hands-on task: how often seen of how often asked, and for how long it lasts. Pure."""

import calendar
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Protocol

ALONE, NOT_YET, NOT_POSSIBLE = "alone", "not-yet", "not-possible"

WORDS = {
    "waits": "waits for a decision",
    "done": "done",
    "old": "out of date",
    "some": "on the way",
    "none": "not seen",
    "not-possible": "not possible on this rig",
    "not-here": "not on this rig type",
    "not-asked": "not for this exam",
    "excused": "excused",
    "replaced": "replaced",
}
"""Each state of a task in words."""


class Signed(Protocol):
    """As much of a signature as is looked at here."""

    id: str
    person: str
    task: str
    rig: str
    observer: str
    result: str
    observed_on: date
    stands: object | None
    counts: bool


@dataclass(frozen=True, slots=True)
class Standing:
    """A task for one hand. `state` is a key of WORDS; `alone` counts of `needed`; `lasts_to` is the last good day.

    `last` is the day on which it was last done alone, `latest` the result of the latest signature that counts.
    """

    state: str
    alone: int
    needed: int
    last: date | None
    lasts_to: date | None
    latest: str | None


def standing(
    signed: Sequence[Signed],
    *,
    needed: int,
    months: int,
    fits: bool,
    rig: str | None,
    excuse: str | None,
    today: date,
) -> Standing:
    """Where a hand stands with a task, from all signatures of it.

    Only 'done alone' counts towards `needed`, and after a 'not yet' it has to be seen alone once more. `fits` says
    whether the rig type has the task, `excuse` is 'excused', 'replaced' or None, and `rig` is where the hand is now.
    """
    held = {each.id for group in waiting(signed) for each in group}
    counted = sorted(
        (each for each in signed if each.counts and each.id not in held), key=lambda each: (each.observed_on, each.id)
    )
    watched = [each for each in counted if each.result != NOT_POSSIBLE]
    alone = [each for each in watched if each.result == ALONE]
    last = alone[-1].observed_on if alone else None
    lasts_to = last and good_until(last, months)
    enough = len(alone) >= needed > 0 and watched[-1].result != NOT_YET
    if held:
        state = "waits"
    elif enough:
        state = "done" if today <= lasts_to else "old"
    else:
        state = _not_done(counted, bool(watched), needed, fits, rig, excuse)
    return Standing(state, len(alone), needed, last, lasts_to, counted[-1].result if counted else None)


def _not_done(
    counted: Sequence[Signed], watched: bool, needed: int, fits: bool, rig: str | None, excuse: str | None
) -> str:
    if excuse:
        return excuse
    if not fits:
        return "not-here"
    if not needed:
        return "not-asked"
    if counted and (counted[-1].result, counted[-1].rig) == (NOT_POSSIBLE, rig):
        return "not-possible"
    return "some" if watched else "none"


def waiting(signed: Iterable[Signed]) -> list[list[Signed]]:
    """The groups of signatures that wait for a decision: same hand, task and day, other observers, other results.

    A group does not wait once each of it was let stand; one that comes later makes all of it wait.
    """
    groups: dict[tuple, list[Signed]] = {}
    for each in signed:
        if each.counts:
            groups.setdefault((each.person, each.task, each.observed_on), []).append(each)
    return [group for group in groups.values() if _differ(group) and not all(each.stands for each in group)]


def _differ(group: Collection[Signed]) -> bool:
    return any(one.observer != other.observer and one.result != other.result for one in group for other in group)


def good_until(day: date, months: int) -> date:
    """The last day on which something seen on `day` is not out of date: the same day so many months later.

    Where that month is shorter, it is the month's last day: 31 August lasts six months to 28 February.
    """
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


def since(today: date, months: int) -> date:
    """The first day from which something seen is still good today: the reverse of `good_until`."""
    year, month = divmod(today.year * 12 + today.month - 1 - months, 12)
    first = date(year, month + 1, 1)
    days = calendar.monthrange(year, month + 1)[1]
    return next(
        (day for day in (first + timedelta(at) for at in range(days)) if good_until(day, months) >= today),
        first + timedelta(days),
    )
