"""Which statements read a whole table: told by SQLite's own program for them, not by the words of its plan.

A plan names a table by its alias; the program opens it by its root page. A statement that starts at the first or last
row of a table or index (Rewind, Last) or counts it, without a search in front, reads all of it.
"""

from collections.abc import Iterable
from contextlib import contextmanager
from sqlite3 import Connection, Error

OPENS = ("OpenRead", "OpenWrite", "ReopenIdx")
READS_ALL = ("Rewind", "Last", "Count")
READING = ("select", "with", "insert", "update", "delete")


@contextmanager
def statements_of(conn: Connection):
    """The statements that the connection runs meanwhile, as they were run, each once."""
    seen: dict[str, None] = {}
    conn.set_trace_callback(lambda statement: seen.setdefault(statement))
    try:
        yield seen
    finally:
        conn.set_trace_callback(None)


def full_scans(conn: Connection, statements: Iterable[str], tables: Iterable[str]) -> list[str]:
    """Those of the statements that read all of one of these tables, or of an index on it."""
    roots = _root_pages(conn, tables)
    return [each for each in statements if _is_reading(each) and _scanned(conn, each, roots)]


def _root_pages(conn: Connection, tables: Iterable[str]) -> set[int]:
    rows = conn.execute("select rootpage, tbl_name from sqlite_master where rootpage > 0")
    return {page for page, table in rows if table in tables}


def _is_reading(statement: str) -> bool:
    """SQLite traces a trigger's statements as a comment; those and pragmas have no program to look at."""
    return statement.lstrip().lower().startswith(READING)


def _scanned(conn: Connection, statement: str, roots: set[int]) -> bool:
    try:
        program = conn.execute(f"explain {statement}").fetchall()
    except Error as error:
        raise AssertionError(f"SQLite can't explain {statement!r}: {error}") from error
    cursors = {row[2] for row in program if row[1] in OPENS and row[3] in roots and row[4] == 0}
    return any(row[1] in READS_ALL and row[2] in cursors for row in program)
