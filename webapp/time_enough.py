"""What an assignment would take, before it is made: who has too little time for it, and the first day that fits."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import islice

from course import Module
from webapp.allowed import coordinating
from webapp.assigned import rotation_of
from webapp.assigning import Aim, Terms, drafted
from webapp.at_hand import store, today
from webapp.crewing import RIG_TYPES
from webapp.records import crews, rotations
from webapp.records.crews import Crew, Membership
from webapp.standings import Row, rows_of
from webapp.study.pace import NOT_ENOUGH, Load, Pace, fits_by, minutes_ahead
from webapp.study.rotation import Rotation, last_day_of_hitch
from webapp.study.standing import NEED_STUDY

FARTHEST = 730
"""Days that are looked at for one by which it fits."""


@dataclass(frozen=True, slots=True)
class Ahead:
    """One hand who has something of it to study: the day it is due for them, and the pace for all that is due then."""

    member: Membership
    due: date
    pace: Pace

    @property
    def wont(self) -> bool:
        """Whether there is too little time."""
        return self.pace.verdict == NOT_ENOUGH


@dataclass(frozen=True, slots=True)
class Outlook:
    """What it takes, hand by hand.

    `fits` is the first day by which it fits for all who have too little time, but for those in `never`, for whom no
    day is near; None where there are no others. `elsewhere` are modules about the other type of rig.
    """

    people: int
    ahead: Sequence[Ahead]
    fits: date | None
    never: Sequence[Membership]
    elsewhere: Sequence[Module]

    @property
    def wont(self) -> list[Ahead]:
        """Those who have too little time."""
        return [each for each in self.ahead if each.wont]

    @property
    def asks(self) -> bool:
        """Whether it is worth a question before it is assigned."""
        return bool(self.wont or self.elsewhere)


def outlook(crew: Crew, aim: Aim, modules: Collection[Module], terms: Terms) -> Outlook:
    """What it would ask of the hands of that aim, if it were assigned now. Nothing is written down."""
    new = drafted(aim, modules, terms)
    ids = {each.id for each in new}
    members = _members(crew, aim)
    held = rotations.of_members(store(), members)
    found, days = [], {}
    for row in rows_of(members, as_if=new):
        ahead = _ahead(row, ids)
        if ahead:
            found.append(ahead)
            if ahead.wont:
                days[row.membership] = _fits(row, ids, held[row.membership.person.id].rotation)
    fits = max((day for day in days.values() if day), default=None)
    if fits and terms.due_by == "hitch":
        fits = last_day_of_hitch(rotation_of(crew), fits)
    elsewhere = [each for each in modules if about_another_rig(each, crew.rig.rig_type)]
    never = [member for member, day in days.items() if day is None]
    return Outlook(len(members), found, fits, never, [] if terms.rig_type else elsewhere)


def about_another_rig(module: Module, rig_type: str) -> bool:
    """Whether the module is the one about the other type of rig: those two have the names of the types."""
    return module.id in RIG_TYPES and module.id != rig_type


def _members(crew: Crew, aim: Aim) -> list[Membership]:
    if aim.to == "rig":
        return crews.members(store(), [each.id for each in coordinating() if each.rig.id == aim.id])
    members = crews.members(store(), [crew.id])
    return [each for each in members if aim.to == "crew" or each.person.id == aim.id]


def _ahead(row: Row, new: Collection[str]) -> Ahead | None:
    cells = [each for each in row.cells.values() if each.asked and each.asked.assignment in new and each.pace]
    last = max(cells, key=lambda each: each.asked.due, default=None)
    return last and Ahead(row.membership, last.asked.due, last.pace)


def _fits(row: Row, new: Collection[str], rotation: Rotation) -> date | None:
    asked = [each for each in row.cells.values() if each.asked and each.state in NEED_STUDY]
    loads = [Load(each.module.id, each.left, each.asked.due) for each in asked]
    modules = {each.module.id for each in asked if each.asked.assignment in new}
    return fits_by(loads, modules, islice(minutes_ahead(rotation, today()), FARTHEST), today())
