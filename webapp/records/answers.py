"""Answers that don't count, in a lesson and in Ten conversions: the first one to a question is kept and shown again."""

from dataclasses import dataclass
from datetime import datetime

from webapp.records.connection import Store
from webapp.records.moments import as_moment, as_text


@dataclass(frozen=True, slots=True)
class UncountedAnswer:
    """The first answer to a question outside the count. `outcome` is right, close or wrong."""

    question: str
    typed: str
    read_as: str
    outcome: str
    mistake: str | None
    at: datetime


def keep_first(store: Store, answer: UncountedAnswer) -> bool:
    """Keep an answer; True the first time. A later answer to the same question gives False and changes nothing."""
    with store.writing() as db:
        added = db.execute(
            "insert into uncounted_answers (question, typed, read_as, outcome, mistake, at) values (?, ?, ?, ?, ?, ?)"
            " on conflict (question) do nothing",
            [answer.question, answer.typed, answer.read_as, answer.outcome, answer.mistake, as_text(answer.at)],
        ).rowcount
    return bool(added)


def get(store: Store, question_id: str) -> UncountedAnswer | None:
    """The answer that was kept for that question, or None."""
    row = store.db.execute(
        "select question, typed, read_as, outcome, mistake, at from uncounted_answers where question = ?",
        [question_id],
    ).fetchone()
    return row and UncountedAnswer(*row[:-1], as_moment(row[-1]))
