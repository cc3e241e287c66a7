"""Which questions had their hint shown before they were answered."""

from datetime import datetime

from webapp.records.connection import Store
from webapp.records.moments import as_text


def shown(store: Store, question_id: str, now: datetime) -> None:
    """Write down that the hint was shown; the first time stands."""
    with store.writing() as db:
        db.execute(
            "insert into hints (question, shown_at) values (?, ?) on conflict (question) do nothing",
            [question_id, as_text(now)],
        )


def was_shown(store: Store, question_id: str) -> bool:
    """Whether the hint of that question was shown."""
    return store.db.execute("select 1 from hints where question = ?", [question_id]).fetchone() is not None
