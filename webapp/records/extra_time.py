"""Extra time for practice papers: a grant by a coordinator, for a hand while they are in that crew."""

from dataclasses import dataclass
from datetime import datetime

from webapp.records.connection import Store
from webapp.records.ids import new_id
from webapp.records.moments import as_moment, as_text


@dataclass(frozen=True, slots=True)
class Grant:
    """A grant that holds: why, and by whom (their name) it was given when."""

    why: str
    who: str
    at: datetime


def grant(store: Store, person_id: str, crew_id: str, why: str, by: str, now: datetime) -> bool:
    """Grant it. False, and nothing is changed, where it is granted already."""
    with store.writing() as db:
        made = db.execute(
            "insert into extra_time (id, person, crew, why, who, at) values (?, ?, ?, ?, ?, ?)"
            " on conflict (person, crew) where ended_at is null do nothing",
            [new_id(now), person_id, crew_id, why, by, as_text(now)],
        ).rowcount
    return bool(made)


def end(store: Store, person_id: str, crew_id: str, by: str, now: datetime) -> bool:
    """Take it back for papers that are begun from now on. False where none is granted."""
    with store.writing() as db:
        ended = db.execute(
            "update extra_time set ended_at = ?, ended_by = ? where person = ? and crew = ? and ended_at is null",
            [as_text(now), by, person_id, crew_id],
        ).rowcount
    return bool(ended)


def granted(store: Store, person_id: str, crew_id: str) -> Grant | None:
    """The grant that holds for that hand in that crew, or None."""
    row = store.db.execute(
        "select why, people.name, at from extra_time join people on people.id = who"
        " where person = ? and crew = ? and ended_at is null",
        [person_id, crew_id],
    ).fetchone()
    return row and Grant(row[0], row[1], as_moment(row[2]))
