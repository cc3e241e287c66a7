"""The log of what coordinators and observers did: appended, never changed."""

from dataclasses import dataclass
from datetime import datetime

from webapp.records.connection import Store
from webapp.records.ids import new_id
from webapp.records.moments import as_moment, as_text


@dataclass(frozen=True, slots=True)
class Entry:
    """One line: when, who, in which crew, about whom, what (a word of ours) and the sentence that tells it."""

    id: str
    at: datetime
    who: str
    crew: str | None
    about: str | None
    what: str
    detail: str


def note(
    store: Store, who: str, what: str, detail: str, now: datetime, crew: str | None = None, about: str | None = None
) -> None:
    """Append a line. Call it inside the transaction of what it tells, so that neither is there without the other."""
    with store.writing() as db:
        db.execute(
            "insert into log (id, at, who, crew, about, what, detail) values (?, ?, ?, ?, ?, ?, ?)",
            [new_id(now), as_text(now), who, crew, about, what, detail],
        )


def of_crews(store: Store, crew_ids: list[str], limit: int, before: str | None = None) -> list[Entry]:
    """Lines about these crews, newest first, with the names of who and about whom; `before` is the last id shown."""
    marks = ", ".join("?" for _ in crew_ids)
    rows = store.db.execute(
        "select log.id, log.at, doer.name, log.crew, hand.name, what, detail from log"
        " join people doer on doer.id = log.who left join people hand on hand.id = log.about"
        f" where log.crew in ({marks}) and (? is null or log.id < ?) order by log.id desc limit ?",
        [*crew_ids, before, before, limit],
    )
    return [Entry(id, as_moment(at), *rest) for id, at, *rest in rows]
