"""What belongs to the whole house: the server's key, the mark of a demo file, what the memory was computed with."""

import secrets

from webapp.records.connection import Store

KEY = "server-key"
DEMO = "demo"


def server_key(store: Store) -> bytes:
    """The secret that signs form tokens: made at its first use, the same for every process on this file."""
    found = read(store, KEY)
    if found is None:
        with store.writing() as db:
            db.execute(
                "insert into house (name, value) values (?, ?) on conflict (name) do nothing",
                [KEY, secrets.token_hex(32)],
            )
        found = read(store, KEY)
    return bytes.fromhex(found)


def mark_demo(store: Store) -> None:
    """Mark the file as invented: its people and answers are nobody's."""
    write(store, DEMO, "yes")


def is_demo(store: Store) -> bool:
    """Whether the people and answers in this file are invented."""
    return read(store, DEMO) is not None


def read(store: Store, name: str) -> str | None:
    """The value kept under that name, or None."""
    row = store.db.execute("select value from house where name = ?", [name]).fetchone()
    return row and row[0]


def write(store: Store, name: str, value: str) -> None:
    """Keep a value under that name in place of the one before."""
    with store.writing() as db:
        db.execute(
            "insert into house (name, value) values (?, ?) on conflict (name) do update set value = excluded.value",
            [name, value],
        )
