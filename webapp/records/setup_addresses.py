"""Set-up addresses: who opens one becomes a coordinator. Each works once, for two days; the newest ends the rest."""

from datetime import datetime, timedelta

from webapp.records.connection import Store
from webapp.records.moments import as_text

LASTS = timedelta(hours=48)


def make(store: Store, code_hash: str, now: datetime) -> datetime:
    """Keep a new address by the hash of its code, and end those before it; the moment until which it works."""
    until = now + LASTS
    with store.writing() as db:
        db.execute(
            "update setup_addresses set until = ? where used_at is null and until > ?", [as_text(now), as_text(now)]
        )
        db.execute(
            "insert into setup_addresses (code_hash, made_at, until) values (?, ?, ?)",
            [code_hash, as_text(now), as_text(until)],
        )
    return until


def state(store: Store, code_hash: str, now: datetime) -> str | None:
    """'open', 'used' or 'ended'; None for a code that was never given out."""
    row = store.db.execute("select used_at, until from setup_addresses where code_hash = ?", [code_hash]).fetchone()
    if row is None:
        return None
    used_at, until = row
    return "used" if used_at else "open" if as_text(now) < until else "ended"


def use(store: Store, code_hash: str, person_id: str, now: datetime) -> bool:
    """Use an address up; False, and nothing done, where it is not open any more."""
    with store.writing() as db:
        done = db.execute(
            "update setup_addresses set used_at = ?, used_by = ? where code_hash = ? and used_at is null and until > ?",
            [as_text(now), person_id, code_hash, as_text(now)],
        )
    return done.rowcount == 1
