"""Rigs, the crews on them, and who is in which crew."""

from dataclasses import dataclass
from datetime import date, datetime

from webapp.records import people
from webapp.records.connection import Store
from webapp.records.ids import new_id
from webapp.records.moments import as_moment, as_text
from webapp.records.people import Person, name_key

RIG_TYPES = ("kelly", "top-drive")


class NameInUse(ValueError):
    """A rig, or a crew on that rig, has the name already."""


@dataclass(frozen=True, slots=True)
class Rig:
    """One rig. `rig_type` is 'kelly' or 'top-drive'."""

    id: str
    name: str
    rig_type: str


@dataclass(frozen=True, slots=True)
class Crew:
    """One crew and its rotation: days on the rig, days off it, a first day on.

    `nights_from` is the day of the hitch from which they work nights, its first day being 1; None where they don't.
    """

    id: str
    name: str
    rig: Rig
    days_on: int
    days_off: int
    first_day: date
    nights_from: int | None
    closed_at: datetime | None

    @property
    def full_name(self) -> str:
        """Rig and crew, as people speak of it."""
        return f"{self.rig.name}, {self.name}"


@dataclass(frozen=True, slots=True)
class Membership:
    """Somebody's time in a crew. Its coordinators see what they did from `sees_from` on."""

    id: str
    person: Person
    crew: Crew
    job: str
    joined_at: datetime
    sees_from: datetime
    left_at: datetime | None
    left_why: str | None


RIG = "rigs.id, rigs.name, rigs.rig_type"
CREW = "crews.id, crews.name, crews.days_on, crews.days_off, crews.first_day, crews.nights_from, crews.closed_at"
CREWS = f"select {CREW}, {RIG} from crews join rigs on rigs.id = crews.rig"
MEMBERSHIP = "memberships.id, job, joined_at, sees_from, left_at, left_why"
MEMBERSHIPS = (
    f"select {MEMBERSHIP}, {CREW}, {RIG}, {people.COLUMNS} from memberships"
    " join crews on crews.id = memberships.crew join rigs on rigs.id = crews.rig"
    " join people on people.id = memberships.person"
)


def add_rig(store: Store, name: str, rig_type: str, by: str, now: datetime) -> Rig:
    """Add a rig. Raises NameInUse."""
    rig = Rig(new_id(now), " ".join(name.split()), rig_type)
    with store.writing() as db:
        if db.execute("select 1 from rigs where name_key = ?", [name_key(name)]).fetchone():
            raise NameInUse(f"There is a rig called {rig.name} already. Choose it, or write another name.")
        db.execute(
            "insert into rigs (id, name, name_key, rig_type, made_by, made_at) values (?, ?, ?, ?, ?, ?)",
            [rig.id, rig.name, name_key(name), rig_type, by, as_text(now)],
        )
    return rig


def rig(store: Store, rig_id: str) -> Rig | None:
    """The rig with that id, or None."""
    row = store.db.execute(f"select {RIG} from rigs where id = ?", [rig_id]).fetchone()
    return row and Rig(*row)


def rigs(store: Store) -> list[Rig]:
    """All rigs of this house, by name."""
    return [Rig(*row) for row in store.db.execute(f"select {RIG} from rigs order by name_key")]


def add_crew(
    store: Store,
    rig: Rig,
    name: str,
    *,
    days_on: int,
    days_off: int,
    first_day: date,
    nights_from: int | None,
    by: str,
    now: datetime,
) -> Crew:
    """Add a crew to a rig. Raises NameInUse."""
    name = " ".join(name.split())
    crew = Crew(new_id(now), name, rig, days_on, days_off, first_day, nights_from, None)
    with store.writing() as db:
        if db.execute("select 1 from crews where rig = ? and name_key = ?", [rig.id, name_key(name)]).fetchone():
            raise NameInUse(f"{rig.name} has a crew called {name} already. Write another name.")
        db.execute(
            "insert into crews (id, rig, name, name_key, days_on, days_off, first_day, nights_from, made_by, made_at)"
            " values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            [
                crew.id, rig.id, name, name_key(name), days_on, days_off, first_day.isoformat(), nights_from, by,
                as_text(now),
            ],
        )  # fmt: skip
    return crew


def change_rotation(
    store: Store, crew_id: str, days_on: int, days_off: int, first_day: date, nights_from: int | None
) -> None:
    """Set a crew's rotation anew."""
    with store.writing() as db:
        db.execute(
            "update crews set days_on = ?, days_off = ?, first_day = ?, nights_from = ? where id = ?",
            [days_on, days_off, first_day.isoformat(), nights_from, crew_id],
        )


def close(store: Store, crew_id: str, now: datetime) -> None:
    """Close a crew that is open. Its rows stay, and its name is free for another crew of the rig."""
    with store.writing() as db:
        db.execute(
            "update crews set closed_at = ?, name_key = id where id = ? and closed_at is null", [as_text(now), crew_id]
        )


def crew(store: Store, crew_id: str) -> Crew | None:
    """The crew with that id, or None."""
    row = store.db.execute(f"{CREWS} where crews.id = ?", [crew_id]).fetchone()
    return row and _crew(row)


def crews_with_right(store: Store, person_id: str, kind: str, day: date) -> list[Crew]:
    """The open crews in which the person is 'coordinator' or 'observer' on that day, by rig and name."""
    rows = store.db.execute(
        f"{CREWS} where crews.closed_at is null and crews.id in ("
        "select crew from rights where person = ? and kind = ? and ended_at is null and (until is null or until >= ?)"
        ") order by rigs.name_key, crews.name_key",
        [person_id, kind, day.isoformat()],
    )
    return [_crew(row) for row in rows]


def open_crews_of_rig(store: Store, rig_id: str) -> set[str]:
    """The ids of a rig's crews that are not closed."""
    return {id for (id,) in store.db.execute("select id from crews where rig = ? and closed_at is null", [rig_id])}


def join(store: Store, person: Person, crew_id: str, job: str, now: datetime, sees_from: datetime | None = None) -> str:
    """Put a person in a crew; the new membership's id. Raises sqlite3.IntegrityError for somebody who is in one."""
    membership_id = new_id(now)
    with store.writing() as db:
        db.execute(
            "insert into memberships (id, person, crew, job, joined_at, sees_from) values (?, ?, ?, ?, ?, ?)",
            [membership_id, person.id, crew_id, job, as_text(now), as_text(sees_from or now)],
        )
    return membership_id


def leave(store: Store, membership_id: str, why: str, now: datetime) -> None:
    """End a membership that has not ended yet."""
    with store.writing() as db:
        db.execute(
            "update memberships set left_at = ?, left_why = ? where id = ? and left_at is null",
            [as_text(now), why, membership_id],
        )


def share_from(store: Store, membership_id: str, moment: datetime) -> None:
    """Let the crew's coordinators see what the hand did from that moment on."""
    with store.writing() as db:
        db.execute("update memberships set sees_from = ? where id = ?", [as_text(moment), membership_id])


def membership_now(store: Store, person_id: str) -> Membership | None:
    """The membership that somebody has now, or None."""
    row = store.db.execute(
        f"{MEMBERSHIPS} where memberships.person = ? and memberships.left_at is null", [person_id]
    ).fetchone()
    return row and _membership(row)


def memberships_of(store: Store, person_id: str) -> list[Membership]:
    """All memberships of a person, the newest first."""
    rows = store.db.execute(f"{MEMBERSHIPS} where memberships.person = ? order by joined_at desc", [person_id])
    return [_membership(row) for row in rows]


def members(store: Store, crew_ids: list[str]) -> list[Membership]:
    """Who is in these crews now, by name."""
    marks = ", ".join("?" for _ in crew_ids)
    rows = store.db.execute(
        f"{MEMBERSHIPS} where memberships.crew in ({marks}) and memberships.left_at is null"
        " order by people.name, people.sign_in",
        crew_ids,
    )
    return [_membership(row) for row in rows]


def left(store: Store, crew_ids: list[str]) -> list[Membership]:
    """Who has left these crews, the latest first."""
    marks = ", ".join("?" for _ in crew_ids)
    rows = store.db.execute(
        f"{MEMBERSHIPS} where memberships.crew in ({marks}) and memberships.left_at is not null"
        " order by memberships.left_at desc",
        crew_ids,
    )
    return [_membership(row) for row in rows]


def jobs_in(store: Store, crew_id: str) -> list[str]:
    """The jobs that the people of a crew have or had, by name, each spelling once."""
    rows = store.db.execute("select distinct job from memberships where crew = ? order by job", [crew_id])
    return [job for (job,) in rows]


def _crew(row: tuple) -> Crew:
    id, name, days_on, days_off, first_day, nights_from, closed_at, *of_rig = row
    closed = as_moment(closed_at) if closed_at else None
    return Crew(id, name, Rig(*of_rig), days_on, days_off, date.fromisoformat(first_day), nights_from, closed)


def _membership(row: tuple) -> Membership:
    id, job, joined_at, sees_from, left_at, left_why = row[:6]
    when = as_moment(joined_at), as_moment(sees_from), as_moment(left_at) if left_at else None
    return Membership(id, people.from_row(row[16:]), _crew(row[6:16]), job, *when, left_why)
