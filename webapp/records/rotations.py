"""When a hand is on the rig, and how many minutes each day has for study."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from webapp.records import crews
from webapp.records.connection import Store
from webapp.records.crews import Membership
from webapp.records.people import Person
from webapp.study.rotation import Rotation, every_day

COLUMNS = "days_on, days_off, first_day, nights_from"


Hitch = tuple[int, int, date, int | None]
"""Days on, days off, first day on, and the day of the hitch that nights begin on, or None."""
EVERY_DAY = (1, 0)
"""Days on and off of a hand of a crew who goes by no rotation: it tells of minutes only, and of no day on the rig."""


@dataclass(frozen=True, slots=True)
class Held:
    """A member's rotation, and whether its days on and off are their own and not their crew's."""

    rotation: Rotation
    is_own: bool


def of_person(store: Store, person: Person) -> Rotation:
    """The hand's own rotation, else their crew's, else the same minutes every day; with their single days."""
    membership = crews.membership_now(store, person.id)
    if membership:
        return of_members(store, [membership])[person.id].rotation
    own_hitch, single = own(store, person), single_days(store, person.id)
    return _rotation(own_hitch, person, single) if own_hitch else every_day(person.minutes, single)


def of_members(store: Store, members: Sequence[Membership]) -> dict[str, Held]:
    """By person: what each of these members goes by, read with one query a table. Their crew is the membership's."""
    ids = [each.person.id for each in members]
    marks = ", ".join("?" for _ in ids)
    rows = store.db.execute(f"select person, {COLUMNS} from rotations where person in ({marks})", ids)
    hitches = {person: _hitch(row) for person, *row in rows}
    single: dict[str, dict[date, float]] = {}
    for person, day, minutes in store.db.execute(
        f"select person, day, minutes from day_minutes where person in ({marks}) order by day", ids
    ):
        single.setdefault(person, {})[date.fromisoformat(day)] = float(minutes)
    return {id: _held(each, hitches.get(id), single.get(id, {})) for id, each in zip(ids, members, strict=True)}


def own(store: Store, person: Person) -> Hitch | None:
    """The rotation that the hand told, or None."""
    row = store.db.execute(f"select {COLUMNS} from rotations where person = ?", [person.id]).fetchone()
    return row and _hitch(row)


def set_own(
    store: Store, person_id: str, days_on: int, days_off: int, first_day: date, nights_from: int | None
) -> None:
    """Keep a hand's own rotation in the place of an older one."""
    with store.writing() as db:
        db.execute(
            f"insert or replace into rotations (person, {COLUMNS}) values (?, ?, ?, ?, ?)",
            [person_id, days_on, days_off, first_day.isoformat(), nights_from],
        )


def forget_own(store: Store, person_id: str) -> None:
    """Go by the crew's rotation again, or by none."""
    with store.writing() as db:
        db.execute("delete from rotations where person = ?", [person_id])


def single_days(store: Store, person_id: str) -> dict[date, float]:
    """The minutes of the days that are otherwise than the rotation says, oldest first."""
    rows = store.db.execute("select day, minutes from day_minutes where person = ? order by day", [person_id])
    return {date.fromisoformat(day): float(minutes) for day, minutes in rows}


def set_day(store: Store, person_id: str, day: date, minutes: int) -> None:
    """Say how many minutes one day has, whatever the rotation says."""
    with store.writing() as db:
        db.execute(
            "insert or replace into day_minutes (person, day, minutes) values (?, ?, ?)",
            [person_id, day.isoformat(), minutes],
        )


def forget_day(store: Store, person_id: str, day: date) -> None:
    """Let the rotation decide about that day again."""
    with store.writing() as db:
        db.execute("delete from day_minutes where person = ? and day = ?", [person_id, day.isoformat()])


def _hitch(row: Sequence) -> Hitch:
    days_on, days_off, first_day, nights_from = row
    return days_on, days_off, date.fromisoformat(first_day), nights_from


def _held(member: Membership, own_hitch: Hitch | None, single: dict[date, float]) -> Held:
    crew, person = member.crew, member.person
    of_crew = crew.days_on, crew.days_off, crew.first_day, crew.nights_from
    if own_hitch is None:
        return Held(_rotation(of_crew, person, single), is_own=False)
    if own_hitch[:2] == EVERY_DAY:
        return Held(_rotation(of_crew, person, single, minutes_off=person.minutes), is_own=False)
    return Held(_rotation(own_hitch, person, single), is_own=True)


def _rotation(hitch: Hitch, person: Person, single: dict[date, float], minutes_off: float | None = None) -> Rotation:
    days_on, days_off, first_day, nights_from = hitch
    off = person.minutes_off if minutes_off is None else minutes_off
    return Rotation(days_on, days_off, first_day, person.minutes, off, nights_from, single)
