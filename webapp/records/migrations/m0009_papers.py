"""Level 9: extra time that a coordinator grants, and questions of a sitting to come back to."""

from sqlite_utils import Database

from webapp.records.migrations.m0001_first_tables import MOMENT

# A grant holds for the papers that the hand begins while they are in that crew and it is not ended.
EXTRA_TIME = f"""
    create table extra_time (
        id       text not null primary key,
        person   text not null references people (id),
        crew     text not null references crews (id),
        why      text not null check (why != ''),
        who      text not null references people (id),
        at       text not null check (at glob '{MOMENT}'),
        ended_at text check (ended_at glob '{MOMENT}'),
        ended_by text references people (id),
        check ((ended_at is null) = (ended_by is null))
    ) strict, without rowid
"""

COME_BACK = f"""
    create table come_back_to (
        question text not null primary key references questions (id),
        at       text not null check (at glob '{MOMENT}')
    ) strict, without rowid
"""

ONE_AT_A_TIME = "create unique index extra_time_granted on extra_time (person, crew) where ended_at is null"


def m0009_papers(db: Database) -> None:
    """Add grants of extra time and marked questions."""
    for statement in (EXTRA_TIME, COME_BACK, ONE_AT_A_TIME):
        db.execute(statement)
