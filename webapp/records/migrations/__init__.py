"""The levels of the records file. They are numbered, only added to, and go forward only."""

from pathlib import Path

from sqlite_utils import Database, Migrations

from webapp.records.errors import RecordsError
from webapp.records.migrations.m0001_first_tables import m0001_first_tables
from webapp.records.migrations.m0002_cases import m0002_cases
from webapp.records.migrations.m0003_ten_drills import m0003_ten_drills
from webapp.records.migrations.m0004_crews import m0004_crews
from webapp.records.migrations.m0005_assignments import m0005_assignments
from webapp.records.migrations.m0006_sign_offs import m0006_sign_offs
from webapp.records.migrations.m0007_sittings import m0007_sittings
from webapp.records.migrations.m0008_study_plan import m0008_study_plan
from webapp.records.migrations.m0009_papers import m0009_papers

APPLICATION_ID = 0x50264258
"""'P&BX' in the head of the file: how a records file is told from another program's SQLite file."""

LEVELS = (
    m0001_first_tables, m0002_cases, m0003_ten_drills, m0004_crews, m0005_assignments, m0006_sign_offs, m0007_sittings,
    m0008_study_plan, m0009_papers,
)  # fmt: skip

_migrations = Migrations("pinandbox")
for _level in LEVELS:
    _migrations(name=_level.__name__)(_level)


def bring_up(db: Database, path: Path) -> list[str]:
    """Apply what is missing; the names applied. Call it inside a writing transaction: two processes may start at once.

    Raises RecordsError as refuse_stranger does.
    """
    refuse_stranger(db, path)
    missing = [each.name for each in _migrations.pending(db)]
    if missing:
        db.execute(f"pragma application_id = {APPLICATION_ID}")
        _migrations.apply(db)
    return missing


def refuse_stranger(db: Database, path: Path, new: bool = True) -> None:
    """Raises RecordsError unless this is a records file of a level that this version knows, or `new` and empty."""
    if new and db.execute("select 1 from sqlite_master limit 1").fetchone() is None:
        return
    (application,) = db.execute("pragma application_id").fetchone()
    applied = {each.name for each in _migrations.applied(db)}
    if application != APPLICATION_ID or not applied:
        raise RecordsError(f"{path} is an SQLite file, but not a records file of Pin & Box. Name another file.")
    newer = sorted(applied - {level.__name__ for level in LEVELS})
    if newer:
        raise RecordsError(
            f"{path} was written by a newer version of Pin & Box: this one does not know {', '.join(newer)}. "
            "Install the newer version."
        )
