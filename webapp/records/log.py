"""The log of what coordinators and observers did: appended, never changed."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from webapp.records.connection import Store
from webapp.records.ids import new_id
from webapp.records.moments import as_moment, as_text
from webapp.records.people import known_as


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


def of_crews(
    store: Store,
    crew_ids: list[str],
    limit: int,
    before: str | None = None,
    *,
    alone: Sequence[str] = (),
    person: str | None = None,
    between: tuple[datetime, datetime] | None = None,
) -> list[Entry]:
    """Lines about these crews, newest first, with the names of who and about whom; `before` is the last id shown.

    `alone` are people of whom lines about no crew are wanted too; `person` keeps to what one did or what is about them,
    and `between` to what was written from one moment on and before another.
    """
    begin, end = (as_text(each) for each in between) if between else (None, None)
    rows = store.db.execute(
        "select log.id, log.at, doer.name, log.crew, hand.name, what, detail from log"
        " join people doer on doer.id = log.who left join people hand on hand.id = log.about"
        f" where {_which(crew_ids, alone)} and (? is null or log.id < ?)"
        " and (? is null or log.who = ? or log.about = ?) and (? is null or (log.at >= ? and log.at < ?))"
        " order by log.id desc limit ?",
        [*crew_ids, *alone, before, before, person, person, person, begin, begin, end, limit],
    )
    return [Entry(id, as_moment(at), *rest) for id, at, *rest in rows]


def people_in(store: Store, crew_ids: list[str], alone: Sequence[str] = ()) -> list[tuple[str, str]]:
    """Id and name of everybody who did something in these crews or about whom it was, by name; `alone` as above."""
    which = _which(crew_ids, alone)
    rows = store.db.execute(
        "select id, name, sign_in from people where id in ("
        f"select who from log where {which} union select about from log where {which}) order by name, sign_in",
        [*crew_ids, *alone, *crew_ids, *alone],
    )
    return [(id, known_as(name, sign_in)) for id, name, sign_in in rows]


def _which(crew_ids: Sequence[str], alone: Sequence[str]) -> str:
    marks, more = (", ".join("?" for _ in ids) for ids in (crew_ids, alone))
    return f"(log.crew in ({marks}) or (log.crew is null and log.who in ({more})))"
