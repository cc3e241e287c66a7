"""Sittings: sets of questions drawn together, answered as drafts, and handed in once.

A test of a module, a refresher and a practice paper are one thing here. The questions of a sitting are rows of
`questions` whose `drill` is the sitting's id; an answer is a draft until the sitting is handed in.
"""

import json
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from webapp.records.connection import Store
from webapp.records.moments import as_moment, as_text

COLUMNS = "id, person, kind, module, pass_mark, body, started_at, deadline, handed_in_at, handed_in_by, passed, result"


@dataclass(frozen=True, slots=True)
class Sitting:
    """One sitting of a person. `module` is None for a practice paper, `deadline` None where there is all the time.

    `body` is what it was drawn to, `result` what it came to; both are plain JSON. `handed_in_by` is 'hand', or 'clock'
    where the deadline did it.
    """

    id: str
    person: str
    kind: str
    module: str | None
    pass_mark: int
    body: dict[str, Any]
    started_at: datetime
    deadline: datetime | None = None
    handed_in_at: datetime | None = None
    handed_in_by: str | None = None
    passed: bool | None = None
    result: dict[str, Any] | None = None

    @property
    def is_open(self) -> bool:
        """Whether it is not handed in yet."""
        return self.handed_in_at is None

    def is_overdue(self, now: datetime) -> bool:
        """Whether the clock is to hand it in."""
        return self.is_open and self.deadline is not None and now >= self.deadline


@dataclass(frozen=True, slots=True)
class Draft:
    """The newest answer to a question of a sitting: `given` is plain JSON, and `at` when it was kept."""

    question: str
    given: dict[str, Any]
    at: datetime


def start(store: Store, sitting: Sitting) -> None:
    """Keep a new sitting. Call it in the transaction that keeps its questions."""
    with store.writing() as db:
        db.execute(
            "insert into sittings (id, person, kind, module, pass_mark, body, started_at, deadline)"
            " values (?, ?, ?, ?, ?, ?, ?, ?)",
            [
                sitting.id, sitting.person, sitting.kind, sitting.module, sitting.pass_mark, _json(sitting.body),
                as_text(sitting.started_at), sitting.deadline and as_text(sitting.deadline),
            ],
        )  # fmt: skip


def get(store: Store, sitting_id: str) -> Sitting | None:
    """The sitting with that id, or None."""
    row = store.db.execute(f"select {COLUMNS} from sittings where id = ?", [sitting_id]).fetchone()
    return row and _sitting(row)


def of_person(store: Store, person_id: str) -> list[Sitting]:
    """All sittings of a person, newest first."""
    rows = store.db.execute(
        f"select {COLUMNS} from sittings where person = ? order by started_at desc, id desc", [person_id]
    )
    return [_sitting(row) for row in rows]


def open_of(store: Store, person_id: str) -> list[Sitting]:
    """The sittings that a person has begun and not handed in, newest first."""
    rows = store.db.execute(
        f"select {COLUMNS} from sittings where person = ? and handed_in_at is null order by started_at desc, id desc",
        [person_id],
    )
    return [_sitting(row) for row in rows]


def overdue(store: Store, person_ids: Iterable[str], now: datetime) -> list[Sitting]:
    """The open sittings of these people whose deadline is past: the clock is to hand them in."""
    ids = list(person_ids)
    marks = ", ".join("?" for _ in ids)
    rows = store.db.execute(
        f"select {COLUMNS} from sittings where person in ({marks}) and handed_in_at is null and deadline <= ?",
        [*ids, as_text(now)],
    )
    return [_sitting(row) for row in rows]


def keep_draft(store: Store, draft: Draft) -> bool:
    """Keep an answer in the place of any older one. False, and nothing is kept, once the sitting is over.

    It is over when it is handed in or its deadline has come, whichever of two pages or phones saw it first.
    """
    with store.writing() as db:
        kept = db.execute(
            "insert into drafts (question, given, at) select :question, :given, :at"
            " where exists (select 1 from questions join sittings on sittings.id = questions.drill"
            "  where questions.id = :question and handed_in_at is null and (deadline is null or deadline > :at))"
            " on conflict (question) do update set given = excluded.given, at = excluded.at"
            " where excluded.at >= drafts.at",
            {"question": draft.question, "given": _json(draft.given), "at": as_text(draft.at)},
        ).rowcount
    return bool(kept)


def drop_draft(store: Store, question_id: str, now: datetime) -> bool:
    """Leave a question open again. False, and nothing is changed, if it was open or the sitting is over."""
    with store.writing() as db:
        dropped = db.execute(
            "delete from drafts where question = :question"
            " and exists (select 1 from questions join sittings on sittings.id = questions.drill"
            "  where questions.id = :question and handed_in_at is null and (deadline is null or deadline > :at))",
            {"question": question_id, "at": as_text(now)},
        ).rowcount
    return bool(dropped)


def drafts_of(store: Store, sitting_id: str) -> dict[str, Draft]:
    """The drafts of a sitting by the id of their question."""
    rows = store.db.execute(
        "select question, given, at from drafts join questions on questions.id = question where drill = ?",
        [sitting_id],
    )
    return {question: Draft(question, json.loads(given), as_moment(at)) for question, given, at in rows}


def close(store: Store, sitting_id: str, at: datetime, by: str, passed: bool, result: dict[str, Any]) -> bool:
    """Write down what a sitting came to. True the first time; a second closing changes nothing.

    Call it in the transaction that appends its attempts. `by` is 'hand' or 'clock'.
    """
    with store.writing() as db:
        closed = db.execute(
            "update sittings set handed_in_at = ?, handed_in_by = ?, passed = ?, result = ?"
            " where id = ? and handed_in_at is null",
            [as_text(at), by, int(passed), _json(result), sitting_id],
        ).rowcount
    return bool(closed)


def _json(value: dict[str, Any]) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)


def _sitting(row: tuple) -> Sitting:
    id, person, kind, module, pass_mark, body, started_at, deadline, handed_in_at, by, passed, result = row
    return Sitting(
        id, person, kind, module, pass_mark, json.loads(body), as_moment(started_at),
        deadline and as_moment(deadline), handed_in_at and as_moment(handed_in_at), by,
        None if passed is None else bool(passed), result and json.loads(result),
    )  # fmt: skip
