"""Level 8: a hand's own rotation, the minutes of a day off, and single days that are otherwise."""

from sqlite_utils import Database

from webapp.records.migrations.m0001_first_tables import DAY

# Who has told no rotation of their own goes by their crew's, or studies the same minutes every day.
ROTATIONS = f"""
    create table rotations (
        person      text not null primary key references people (id),
        days_on     integer not null check (days_on between 1 and 120),
        days_off    integer not null check (days_off between 0 and 120),
        first_day   text not null check (first_day glob '{DAY}'),
        nights_from integer check (nights_from between 1 and days_on)
    ) strict, without rowid
"""

DAY_MINUTES = f"""
    create table day_minutes (
        person  text not null references people (id),
        day     text not null check (day glob '{DAY}'),
        minutes integer not null check (minutes between 0 and 720),
        primary key (person, day)
    ) strict, without rowid
"""

MINUTES_OFF = (
    "alter table people add column minutes_off integer not null default 0 check (minutes_off between 0 and 720)",
    "update people set minutes_off = minutes",
)


def m0008_study_plan(db: Database) -> None:
    """Add rotations and single days; a day off had the minutes of every day so far."""
    for statement in (ROTATIONS, DAY_MINUTES, *MINUTES_OFF):
        db.execute(statement)
