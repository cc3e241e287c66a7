"""Excuses: one module or one task that is not asked of one person, or in whose place something else stands."""

from collections.abc import Collection
from dataclasses import dataclass, fields
from datetime import datetime

from webapp.records.connection import Store
from webapp.records.ids import new_id
from webapp.records.moments import as_moment, as_text

KINDS = ("excused", "replaced")


@dataclass(frozen=True, slots=True)
class Excuse:
    """One module or one task, the other is None. `kind` is 'excused' or 'replaced'; only the latter has `instead`."""

    id: str
    person: str
    module: str | None
    task: str | None
    kind: str
    instead: str
    why: str
    who: str
    at: datetime
    ended_at: datetime | None


COLUMNS = ", ".join(f"excuses.{field.name}" for field in fields(Excuse))


def add(
    store: Store,
    person_id: str,
    by: str,
    now: datetime,
    *,
    why: str,
    module: str | None = None,
    task: str | None = None,
    instead: str = "",
) -> str:
    """Excuse a person from a module or a task, or replace it by `instead`; the excuse's id.

    What was excused before is ended by it, so that one excuse stands. Raises sqlite3.IntegrityError for both or neither
    of module and task, or an empty reason.
    """
    excuse_id = new_id(now)
    kind = "replaced" if instead else "excused"
    with store.writing() as db:
        db.execute(
            "update excuses set ended_at = ?, ended_by = ?"
            " where person = ? and module is ? and task is ? and ended_at is null",
            [as_text(now), by, person_id, module, task],
        )
        db.execute(
            "insert into excuses (id, person, module, task, kind, instead, why, who, at)"
            " values (?, ?, ?, ?, ?, ?, ?, ?, ?)",
            [excuse_id, person_id, module, task, kind, instead, why, by, as_text(now)],
        )
    return excuse_id


def end(store: Store, excuse_id: str, by: str, now: datetime) -> bool:
    """End an excuse: the module or task is asked for again. False if it had ended already."""
    with store.writing() as db:
        ended = db.execute(
            "update excuses set ended_at = ?, ended_by = ? where id = ? and ended_at is null",
            [as_text(now), by, excuse_id],
        ).rowcount
    return bool(ended)


def get(store: Store, excuse_id: str) -> Excuse | None:
    """The excuse with that id, or None."""
    row = store.db.execute(f"select {COLUMNS} from excuses where id = ?", [excuse_id]).fetchone()
    return row and _excuse(row)


def running(store: Store, persons: Collection[str]) -> list[Excuse]:
    """The excuses of these persons that stand now, oldest first."""
    marks = ", ".join("?" for _ in persons)
    rows = store.db.execute(
        f"select {COLUMNS} from excuses where person in ({marks}) and ended_at is null order by id", [*persons]
    )
    return [_excuse(row) for row in rows]


def _excuse(row: tuple) -> Excuse:
    *plain, at, ended_at = row
    return Excuse(*plain, as_moment(at), as_moment(ended_at) if ended_at else None)
