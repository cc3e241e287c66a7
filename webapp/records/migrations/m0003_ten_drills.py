"""Level 3: Ten conversions. Drills, when their questions were first shown, the powers of ten chosen."""

from sqlite_utils import Database

from webapp.records.migrations.m0001_first_tables import MOMENT

DRILLS = f"""
    create table drills (
        id         text not null primary key,
        person     text references people (id),
        clock      integer not null check (clock in (0, 1)),
        started_at text not null check (started_at glob '{MOMENT}')
    ) strict, without rowid
"""

FIRST_SHOWN = f"""
    create table first_shown (
        question text not null primary key references questions (id),
        at       text not null check (at glob '{MOMENT}')
    ) strict, without rowid
"""

# `lowest` is the first of the powers of ten that were offered, so that the choice can be shown again as it stood.
SIZES = f"""
    create table sizes_chosen (
        question text not null primary key references questions (id),
        lowest   integer not null,
        chosen   integer not null check (chosen >= lowest),
        at       text not null check (at glob '{MOMENT}')
    ) strict, without rowid
"""


def m0003_ten_drills(db: Database) -> None:
    """Add drills, when their questions were first shown, and the powers of ten that were chosen."""
    for statement in (DRILLS, FIRST_SHOWN, SIZES):
        db.execute(statement)
