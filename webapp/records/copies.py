"""Backup and restore: whole files, checked before anybody relies on them. No file is ever written over or lost."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from itertools import count
from pathlib import Path

from sqlite_utils import Database

from webapp.records.errors import RecordsError
from webapp.records.migrations import refuse_stranger

# SQLite keeps these beside the file while it is open; after a crash they can hold answers that the file does not.
BESIDE = ("-wal", "-shm", "-journal")

SQLITE_MARK = b"SQLite format 3\0"


@dataclass(frozen=True, slots=True)
class Contents:
    """How much a records file holds."""

    people: int
    attempts: int


def backup(path: Path, target: Path) -> Contents:
    """Copy a records file, in use or not, to a new file. Raises RecordsError; the target appears only when complete."""
    if target.exists():
        raise RecordsError(f"{target} is there already. A backup is never written over: choose another name.")
    with _sound_copy(path, beside=target) as (part, contents):
        try:
            _name_once(part, target)
        except FileExistsError:
            raise RecordsError(f"{target} was written by somebody else meanwhile. Choose another name.") from None
        _to_disk(target.parent)
    return contents


def restore(source: Path, path: Path) -> tuple[Contents, Path | None]:
    """Put a backup in the place of a records file; what it holds, and where the file before was put aside.

    Raises RecordsError, and leaves the file as it was, if the backup is not a sound records file of a level that this
    version knows, or if a running server has the file open.
    """
    if path.exists() and source.exists() and path.samefile(source):
        raise RecordsError(f"{source} is the records file itself. Name the backup to restore from.")
    with _sound_copy(source, beside=path) as (part, contents):
        aside = put_aside(path)
        os.replace(part, path)
        _to_disk(path.parent)
    return contents, aside


def put_aside(path: Path) -> Path | None:
    """Give a file that nobody has open a second name, NAME.before-restore-N; that name, or None if there is no file."""
    if path.exists():
        close_up(path)
    # Left beside it only if it is lost or too damaged to be closed up; beside a restored file they would spoil that.
    left = [ending for ending in BESIDE if _with(path, ending).exists()]
    if not left and not path.exists():
        return None
    number = next(each for each in count(1) if not _with(path, f".before-restore-{each}").exists())
    aside = _with(path, f".before-restore-{number}")
    for ending in left:
        _with(path, ending).rename(_with(aside, ending))
    if path.exists():
        _name_once(path, aside)
    return aside


def remove(path: Path) -> None:
    """Delete a records file that nobody has open, and what is beside it. Raises RecordsError if somebody has."""
    if path.exists():
        close_up(path)
    for ending in ("", *BESIDE):
        _with(path, ending).unlink(missing_ok=True)


def close_up(path: Path) -> None:
    """Bring everything that was committed into the one file. Raises RecordsError if somebody has it open.

    A file too damaged to open stays as it is: SQLite is not asked about one without its mark, for it might clear away
    the log beside it.
    """
    with path.open("rb") as file:
        if file.read(len(SQLITE_MARK)) != SQLITE_MARK:
            return
    with closing(sqlite3.connect(path, timeout=0, isolation_level=None)) as conn:
        try:
            # Leaving the write-ahead log needs the file for oneself: every open connection of a server hinders it.
            conn.execute("pragma journal_mode = delete")
        except sqlite3.OperationalError as error:
            raise RecordsError(f"{path} is in use ({error}). Stop the server that uses it, then try again.") from error
        except sqlite3.DatabaseError:
            return


def check(path: Path, called: Path | None = None) -> Contents:
    """What a records file holds. Raises RecordsError about `called` unless it is ours, of a known level, and sound."""
    called = called or path
    with _ours(path) as conn:
        found = [row[0] for row in conn.execute("pragma integrity_check")]
        if found != ["ok"]:
            raise RecordsError(f"{called} is damaged: {found[0]}. Use another backup.")
        astray = conn.execute("pragma foreign_key_check").fetchone()
        if astray:
            raise RecordsError(f"{called} is damaged: a row of {astray[0]} refers to nothing. Use another backup.")
        people, attempts = conn.execute(
            "select (select count(*) from people), (select count(*) from attempts)"
        ).fetchone()
    return Contents(people, attempts)


@contextmanager
def _ours(path: Path) -> Iterator[sqlite3.Connection]:
    """A passing connection to a records file of a known level. Raises RecordsError for anything else."""
    if not path.is_file():
        raise RecordsError(f"There is no file {path}. Check the name, or start the server to make one.")
    try:
        with closing(sqlite3.connect(f"{path.resolve().as_uri()}?mode=rw", uri=True)) as conn:
            refuse_stranger(Database(conn, execute_plugins=False), path, new=False)
            yield conn
    except sqlite3.DatabaseError as error:
        raise RecordsError(f"{path} is not a sound SQLite file ({error}). Name another file.") from error


@contextmanager
def _sound_copy(path: Path, beside: Path) -> Iterator[tuple[Path, Contents]]:
    """A checked copy of a records file, on the disk, under a passing name in the folder of `beside`."""
    part = beside.with_name(f".{beside.name}.{os.getpid()}.part")
    try:
        with _ours(path) as source:
            _copy(source, part)
        yield part, check(part, called=path)
    finally:
        part.unlink(missing_ok=True)


def _copy(source: sqlite3.Connection, part: Path) -> None:
    try:
        with closing(sqlite3.connect(part)) as copy:
            source.backup(copy)
            copy.execute("pragma journal_mode = delete")
        _to_disk(part)
    except (OSError, sqlite3.OperationalError) as error:
        raise RecordsError(f"A copy can't be written to {part.parent}: {error}. Choose another folder.") from error


def _name_once(path: Path, name: Path) -> None:
    """Give a file a name that nothing has yet. Raises FileExistsError."""
    try:
        os.link(path, name)
    except FileExistsError:
        raise
    except OSError:
        # A memory stick often has a file system without second names.
        if name.exists():
            raise FileExistsError(name) from None
        path.rename(name)


def _with(path: Path, ending: str) -> Path:
    return path.with_name(path.name + ending)


def _to_disk(path: Path) -> None:
    """Wait until a file, or a folder's list of names, is on the disk."""
    descriptor = os.open(path, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
