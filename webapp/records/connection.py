"""The records file: one held connection for each thread, and the one way to write to it."""

import sqlite3
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlite_utils import Database

from webapp.records.errors import RecordsError
from webapp.records.migrations import bring_up, refuse_stranger

WAIT_SECONDS = 10
PRAGMAS = (
    f"pragma busy_timeout = {WAIT_SECONDS * 1000}",
    # An answer that the page confirmed must survive a power cut: every commit waits for the disk.
    "pragma synchronous = full",
    "pragma foreign_keys = on",
)


class Store:
    """The records in one SQLite file.

    Reads go through `store.db` at any time; writes only inside `with store.writing() as db`.
    """

    def __init__(self, path: str | Path):
        self.path = Path(path)
        self._held = threading.local()

    @property
    def db(self) -> Database:
        """This thread's connection, opened at its first use and held: closing the last one would copy the whole WAL."""
        held = getattr(self._held, "db", None)
        if held is None:
            held = self._held.db = self._open()
        return held

    @contextmanager
    def writing(self) -> Iterator[Database]:
        """A transaction that has the write lock from its start; rolled back on any error. An inner one joins the outer.

        A transaction that reads first and asks for the lock later fails at once when another thread wrote in between,
        however long the busy timeout is. With BEGIN IMMEDIATE it waits its turn.
        """
        db = self.db
        if db.conn.in_transaction:
            yield db
            return
        db.execute("begin immediate")
        try:
            yield db
            db.commit()
        finally:
            db.rollback()

    def migrate(self) -> list[str]:
        """Bring the file to this program's level; the names of the migrations applied. Raises RecordsError.

        Another program's file is refused before anything in it changes.
        """
        refuse_stranger(self.db, self.path)
        self._keep_a_log()
        with self.writing() as db:
            return bring_up(db, self.path)

    def _keep_a_log(self) -> None:
        """Set the write-ahead log; it is kept in the file, and every later connection finds it so.

        SQLite does not wait here as it does elsewhere when another process is just setting it too, so we do.
        """
        until = time.monotonic() + WAIT_SECONDS
        while self.db.execute("pragma journal_mode").fetchone() != ("wal",):
            try:
                self.db.execute("pragma journal_mode = wal")
            except sqlite3.OperationalError:
                if time.monotonic() > until:
                    raise
                time.sleep(0.02)

    def close(self) -> None:
        """Close this thread's connection. The next use opens a new one."""
        held = self._held.__dict__.pop("db", None)
        if held is not None:
            held.close()

    def _open(self) -> Database:
        try:
            conn = sqlite3.connect(self.path, timeout=WAIT_SECONDS, isolation_level=None)
        except sqlite3.Error as error:
            raise RecordsError(
                f"{self.path} can't be opened: {error}. Name a file in a folder that is there."
            ) from error
        try:
            for pragma in PRAGMAS:
                conn.execute(pragma)
        except sqlite3.Error as error:
            conn.close()
            raise RecordsError(f"{self.path} can't be used as a records file: {error}. Name another file.") from error
        return Database(conn, strict=True, execute_plugins=False)
