"""Who is signed in. Only a hash of the cookie's value is kept: a copy of this file signs nobody in."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from webapp.records import people
from webapp.records.connection import Store
from webapp.records.moments import as_moment, as_text
from webapp.records.people import Person

IDLE = timedelta(days=14)
LONGEST = timedelta(days=60)
# Every write waits for the disk, and a page view is not worth that: who was here within the hour is near enough.
SEEN_AGAIN = timedelta(hours=1)


@dataclass(frozen=True, slots=True)
class Session:
    """One signed-in browser."""

    person: Person
    token_hash: str
    opened_at: datetime
    seen_at: datetime


def open_session(store: Store, token_hash: str, person_id: str, now: datetime, show_once: str | None = None) -> None:
    """Begin a session. `show_once` is a text for the page after, such as a recovery code. Stale sessions are swept."""
    with store.writing() as db:
        db.execute(
            "delete from sessions where seen_at < ? or opened_at < ?", [as_text(now - IDLE), as_text(now - LONGEST)]
        )
        db.execute(
            "insert into sessions (token_hash, person, opened_at, seen_at, show_once) values (?, ?, ?, ?, ?)",
            [token_hash, person_id, as_text(now), as_text(now), show_once],
        )


def find(store: Store, token_hash: str, now: datetime) -> Session | None:
    """The session with that hash, unless it was idle for IDLE or is older than LONGEST; then it ends here."""
    row = store.db.execute(
        f"select {people.COLUMNS}, opened_at, seen_at from sessions join people on people.id = sessions.person"
        " where token_hash = ?",
        [token_hash],
    ).fetchone()
    if row is None:
        return None
    session = Session(people.from_row(row[:-2]), token_hash, as_moment(row[-2]), as_moment(row[-1]))
    if now - session.seen_at > IDLE or now - session.opened_at > LONGEST:
        end(store, token_hash)
        return None
    if now - session.seen_at > SEEN_AGAIN:
        with store.writing() as db:
            db.execute("update sessions set seen_at = ? where token_hash = ?", [as_text(now), token_hash])
    return session


def take_show_once(store: Store, token_hash: str) -> str | None:
    """The text that waits to be shown in this session, and forget it; None if there is none."""
    with store.writing() as db:
        row = db.execute("select show_once from sessions where token_hash = ?", [token_hash]).fetchone()
        db.execute("update sessions set show_once = null where token_hash = ?", [token_hash])
    return row and row[0]


def end(store: Store, token_hash: str) -> None:
    """End one session."""
    with store.writing() as db:
        db.execute("delete from sessions where token_hash = ?", [token_hash])


def end_all_of(store: Store, person_id: str) -> None:
    """End every session of a person."""
    with store.writing() as db:
        db.execute("delete from sessions where person = ?", [person_id])
