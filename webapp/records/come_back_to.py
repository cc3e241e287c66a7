"""Questions of an open sitting that the hand has marked to come back to. A mark says nothing of the answer."""

from datetime import datetime

from webapp.records.connection import Store
from webapp.records.moments import as_text


def mark(store: Store, question_id: str, now: datetime) -> None:
    """Mark a question; one that is marked stays so."""
    with store.writing() as db:
        db.execute(
            "insert into come_back_to (question, at) values (?, ?) on conflict (question) do nothing",
            [question_id, as_text(now)],
        )


def unmark(store: Store, question_id: str) -> None:
    """Take the mark away, if there is one."""
    with store.writing() as db:
        db.execute("delete from come_back_to where question = ?", [question_id])


def of_sitting(store: Store, sitting_id: str) -> set[str]:
    """The ids of the marked questions of a sitting."""
    rows = store.db.execute(
        "select question from come_back_to join questions on questions.id = question where drill = ?", [sitting_id]
    )
    return {question for (question,) in rows}
