"""Modules assigned to a person, a crew or a rig, with a day, a pass mark and whether must-pass items count."""

from collections.abc import Collection
from dataclasses import dataclass, fields
from datetime import date, datetime

from webapp.records.connection import Store
from webapp.records.ids import new_id
from webapp.records.moments import as_moment, as_text


@dataclass(frozen=True, slots=True)
class Assignment:
    """One module assigned. Just one of `person`, `crew` and `rig` is an id, the others are None.

    `rig_type` narrows it to hands who are on such a rig now; None is any. `due_by` is 'date' (due on `due_day`) or
    'hitch' (due at the end of the hitch that runs on `due_day` or begins next after it). `pass_mark` is in percent.
    """

    id: str
    module: str
    person: str | None
    crew: str | None
    rig: str | None
    rig_type: str | None
    due_by: str
    due_day: date
    pass_mark: int
    must_pass: bool
    made_by: str
    made_at: datetime
    ended_at: datetime | None = None
    ended_why: str | None = None


COLUMNS = ", ".join(f"assignments.{field.name}" for field in fields(Assignment))


def add(store: Store, assignment: Assignment) -> None:
    """Write an assignment down. Raises sqlite3.IntegrityError unless it is to one of person, crew and rig."""
    each = assignment
    row = [
        each.id, each.module, each.person, each.crew, each.rig, each.rig_type, each.due_by, each.due_day.isoformat(),
        each.pass_mark, int(each.must_pass), each.made_by, as_text(each.made_at),
    ]  # fmt: skip
    with store.writing() as db:
        db.execute(
            "insert into assignments (id, module, person, crew, rig, rig_type, due_by, due_day, pass_mark, must_pass,"
            " made_by, made_at) values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            row,
        )


def new(module: str, to: str, whom: str, **rest) -> Assignment:
    """A new assignment, not yet written down. `to` is 'person', 'crew' or 'rig', and `whom` its id."""
    aims = dict.fromkeys(("person", "crew", "rig")) | {to: whom}
    return Assignment(id=new_id(rest["made_at"]), module=module, **aims, **rest)


def end(store: Store, assignment_id: str, by: str, why: str, now: datetime) -> bool:
    """End an assignment, with a reason; False if it had ended already."""
    with store.writing() as db:
        ended = db.execute(
            "update assignments set ended_at = ?, ended_by = ?, ended_why = ? where id = ? and ended_at is null",
            [as_text(now), by, why, assignment_id],
        ).rowcount
    return bool(ended)


def get(store: Store, assignment_id: str) -> Assignment | None:
    """The assignment with that id, ended or not, or None."""
    row = store.db.execute(f"select {COLUMNS} from assignments where id = ?", [assignment_id]).fetchone()
    return row and _assignment(row)


def running(store: Store, persons: Collection[str], crews: Collection[str], rigs: Collection[str]) -> list[Assignment]:
    """What is assigned now to these persons, crews and rigs by id, oldest first."""
    return _of(store, persons, crews, rigs, "assignments.ended_at is null", "order by id")


def ended(store: Store, persons: Collection[str], crews: Collection[str], rigs: Collection[str]) -> list[Assignment]:
    """What was assigned to them and has ended, the latest ending first."""
    return _of(store, persons, crews, rigs, "assignments.ended_at is not null", "order by ended_at desc")


def _of(
    store: Store, persons: Collection[str], crews: Collection[str], rigs: Collection[str], which: str, order: str
) -> list[Assignment]:
    """One search for each aim, so that each goes by its index."""
    parts, values = [], []
    for column, ids in (("person", persons), ("crew", crews), ("rig", rigs)):
        marks = ", ".join("?" for _ in ids)
        parts.append(f"select {COLUMNS} from assignments where {column} in ({marks}) and {which}")
        values += ids
    rows = store.db.execute(f"{' union all '.join(parts)} {order}", values)
    return [_assignment(row) for row in rows]


def _assignment(row: tuple) -> Assignment:
    *plain, due_day, pass_mark, must_pass, made_by, made_at, ended_at, ended_why = row
    times = as_moment(made_at), as_moment(ended_at) if ended_at else None
    return Assignment(*plain, date.fromisoformat(due_day), pass_mark, bool(must_pass), made_by, *times, ended_why)
