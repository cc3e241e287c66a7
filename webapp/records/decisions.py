"""Decisions: appended records that change what counts. Nothing is erased; folds take attempts minus decisions."""

from dataclasses import dataclass
from datetime import datetime

from sqlite_utils import Database

from webapp.records import memory
from webapp.records.connection import Store
from webapp.records.ids import new_id
from webapp.records.moments import as_moment, as_text

ITEM_WITHDRAWN = "item-withdrawn"
ATTEMPT_CORRECTED = "attempt-corrected"

# The attempts whose counting each kind of decision changes.
TOUCHED = {
    ITEM_WITHDRAWN: "select distinct person, item from attempts where item = ?",
    ATTEMPT_CORRECTED: "select person, item from attempts where id = ?",
}


class DecisionError(ValueError):
    """A decision that can't be taken. The message says why."""


@dataclass(frozen=True, slots=True)
class Decision:
    """Who decided what about which subject (an item's or an attempt's id), when, and why."""

    id: str
    kind: str
    subject: str
    outcome: str | None
    who: str
    why: str
    at: datetime


def append(
    store: Store, kind: str, subject: str, who: str, why: str, now: datetime, outcome: str | None = None
) -> Decision:
    """Append a decision and replay the memory it touches, in one transaction.

    'item-withdrawn' takes every attempt at the item (its id is `subject`) out of marks and memory; 'attempt-corrected'
    puts `outcome` in place of the attempt's, and the latest correction holds. `who` and `why` are for the reader of
    the record. Raises DecisionError for any other kind, an attempt that is not there, or an empty who or why.
    """
    if kind not in TOUCHED:
        raise DecisionError(f"{kind!r} can't be decided here. Kinds are {', '.join(TOUCHED)}.")
    if not who.strip() or not why.strip():
        raise DecisionError("A decision says who took it and why. Fill in both.")
    if (kind == ATTEMPT_CORRECTED) != (outcome in ("right", "close", "wrong")):
        raise DecisionError("A corrected attempt gets the outcome right, close or wrong; nothing else gets one.")
    decision = Decision(new_id(now), kind, subject, outcome, who.strip(), why.strip(), now)
    with store.writing() as db:
        touched = db.execute(TOUCHED[kind], [subject]).fetchall()
        if kind == ATTEMPT_CORRECTED and not touched:
            raise DecisionError(f"There is no attempt {subject}, so it can't be corrected.")
        _insert(db, decision)
        for person_id, item in touched:
            memory.replay(db, person_id, item)
    return decision


def on(store: Store, kind: str, subject: str) -> list[Decision]:
    """The decisions of one kind about one subject, oldest first."""
    rows = store.db.execute(
        "select id, kind, subject, outcome, who, why, at from decisions where kind = ? and subject = ? order by at, id",
        [kind, subject],
    )
    return [Decision(*row[:-1], as_moment(row[-1])) for row in rows]


def _insert(db: Database, decision: Decision) -> None:
    db.execute(
        "insert into decisions (id, kind, subject, outcome, who, why, at) values (?, ?, ?, ?, ?, ?, ?)",
        [
            decision.id, decision.kind, decision.subject, decision.outcome, decision.who, decision.why,
            as_text(decision.at),
        ],
    )  # fmt: skip
