"""Failed tries to sign in, by key. What a key stands for is access.py's business; it is kept hashed."""

from collections.abc import Sequence
from datetime import datetime

from webapp.records.connection import Store
from webapp.records.moments import as_moment, as_text


def add(store: Store, keys: Sequence[str], now: datetime, forget_before: datetime) -> None:
    """Write down one failed try under each key, and forget all tries from before that moment."""
    with store.writing() as db:
        db.execute("delete from tries where at < ?", [as_text(forget_before)])
        for key in keys:
            db.execute("insert into tries (key, at) values (?, ?)", [key, as_text(now)])


def since(store: Store, key: str, start: datetime) -> list[datetime]:
    """When there were failed tries under that key since the start, oldest first."""
    rows = store.db.execute("select at from tries where key = ? and at > ? order by at", [key, as_text(start)])
    return [as_moment(at) for (at,) in rows]


def clear(store: Store, keys: Sequence[str]) -> None:
    """Forget the failed tries under these keys."""
    with store.writing() as db:
        for key in keys:
            db.execute("delete from tries where key = ?", [key])
