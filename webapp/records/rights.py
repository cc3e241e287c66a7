"""Who may see and change what in a crew: coordinators, and observers with their tasks and last day."""

import json
from dataclasses import dataclass
from datetime import date, datetime

from webapp.records import people
from webapp.records.connection import Store
from webapp.records.ids import new_id
from webapp.records.moments import as_moment, as_text
from webapp.records.people import Person


@dataclass(frozen=True, slots=True)
class Right:
    """What somebody may do in one crew. An observer's has tasks and a last day; a coordinator's has neither."""

    id: str
    person: Person
    crew: str
    kind: str
    tasks: tuple[str, ...]
    until: date | None
    given_at: datetime
    ended_at: datetime | None

    def holds_on(self, day: date) -> bool:
        """Whether it has not ended, and its last day is not past."""
        return self.ended_at is None and (self.until is None or day <= self.until)


RIGHTS = (
    "select rights.id, crew, kind, tasks, until, given_at, ended_at, "
    f"{people.COLUMNS} from rights join people on people.id = rights.person"
)


def is_coordinator(store: Store, person_id: str) -> bool:
    """Whether somebody is a coordinator of this house: they may make crews."""
    row = store.db.execute("select 1 from coordinators where person = ? and until is null", [person_id]).fetchone()
    return row is not None


def any_coordinator(store: Store) -> bool:
    """Whether this house has a coordinator."""
    return store.db.execute("select 1 from coordinators where until is null limit 1").fetchone() is not None


def make_coordinator(store: Store, person_id: str, by: str | None, now: datetime) -> None:
    """Make somebody a coordinator of this house; `by` is None for the first, who came by the set-up address."""
    with store.writing() as db:
        db.execute(
            "insert into coordinators (person, named_by, since) values (?, ?, ?)"
            " on conflict (person) do update set until = null, named_by = excluded.named_by, since = excluded.since",
            [person_id, by, as_text(now)],
        )


def give(
    store: Store,
    person_id: str,
    crew_id: str,
    kind: str,
    by: str,
    now: datetime,
    tasks: tuple[str, ...] = (),
    until: date | None = None,
) -> str:
    """Give somebody a right in a crew; its id. An observer needs tasks and a last day (sqlite3.IntegrityError)."""
    right_id = new_id(now)
    listed = json.dumps(tasks) if kind == "observer" else None
    with store.writing() as db:
        db.execute(
            "insert into rights (id, person, crew, kind, tasks, until, given_by, given_at)"
            " values (?, ?, ?, ?, ?, ?, ?, ?)",
            [right_id, person_id, crew_id, kind, listed, until and until.isoformat(), by, as_text(now)],
        )
    return right_id


def end(store: Store, right_id: str, now: datetime) -> None:
    """End a right that has not ended yet."""
    with store.writing() as db:
        db.execute("update rights set ended_at = ? where id = ? and ended_at is null", [as_text(now), right_id])


def of_person(store: Store, person_id: str, kind: str) -> list[Right]:
    """All rights of that kind that somebody was ever given, oldest first."""
    rows = store.db.execute(f"{RIGHTS} where rights.person = ? and kind = ? order by rights.id", [person_id, kind])
    return [_right(row) for row in rows]


def in_crew(store: Store, crew_id: str, kind: str) -> list[Right]:
    """All rights of that kind that were ever given in a crew, oldest first."""
    rows = store.db.execute(f"{RIGHTS} where crew = ? and kind = ? order by rights.id", [crew_id, kind])
    return [_right(row) for row in rows]


def _right(row: tuple) -> Right:
    id, crew, kind, tasks, until, given_at, ended_at, *person = row
    return Right(
        id,
        people.from_row(tuple(person)),
        crew,
        kind,
        tuple(json.loads(tasks)) if tasks else (),
        date.fromisoformat(until) if until else None,
        as_moment(given_at),
        as_moment(ended_at) if ended_at else None,
    )
