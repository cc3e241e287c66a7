"""Drills of Ten conversions: the clock, when a question was first shown, the power of ten chosen."""

from dataclasses import dataclass
from datetime import datetime

from webapp.records.connection import Store
from webapp.records.moments import as_moment, as_text


@dataclass(frozen=True, slots=True)
class Drill:
    """One run of ten. `person` is None for a visitor."""

    id: str
    person: str | None
    clock: bool
    started_at: datetime


@dataclass(frozen=True, slots=True)
class SizeChosen:
    """The power of ten chosen for a question. `lowest` is the first of those that were offered."""

    question: str
    lowest: int
    chosen: int
    at: datetime


def start(store: Store, drill: Drill) -> None:
    """Keep a new drill."""
    with store.writing() as db:
        db.execute(
            "insert into drills (id, person, clock, started_at) values (?, ?, ?, ?)",
            [drill.id, drill.person, int(drill.clock), as_text(drill.started_at)],
        )


def has_clock(store: Store, drill_id: str) -> bool:
    """Whether that drill was started with a clock."""
    row = store.db.execute("select clock from drills where id = ?", [drill_id]).fetchone()
    return bool(row and row[0])


def shown(store: Store, question_id: str, now: datetime) -> datetime:
    """Write down that a question is shown; the first time stands, and is given back."""
    before = first_shown(store, question_id)
    if before is not None:
        return before
    with store.writing() as db:
        db.execute(
            "insert into first_shown (question, at) values (?, ?) on conflict (question) do nothing",
            [question_id, as_text(now)],
        )
    return first_shown(store, question_id)


def first_shown(store: Store, question_id: str) -> datetime | None:
    """When a question was first shown, or None."""
    row = store.db.execute("select at from first_shown where question = ?", [question_id]).fetchone()
    return row and as_moment(row[0])


def keep_first_size(store: Store, size: SizeChosen) -> None:
    """Keep the power of ten chosen; the first choice stands."""
    with store.writing() as db:
        db.execute(
            "insert into sizes_chosen (question, lowest, chosen, at) values (?, ?, ?, ?)"
            " on conflict (question) do nothing",
            [size.question, size.lowest, size.chosen, as_text(size.at)],
        )


def size_chosen(store: Store, question_id: str) -> SizeChosen | None:
    """The power of ten chosen for a question, or None."""
    row = store.db.execute(
        "select question, lowest, chosen, at from sizes_chosen where question = ?", [question_id]
    ).fetchone()
    return row and SizeChosen(*row[:-1], as_moment(row[-1]))
