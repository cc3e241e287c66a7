"""Level 5: modules assigned with a day and a pass mark, what is excused or replaced, and the day of the exam."""

from sqlite_utils import Database

from webapp.records.migrations.m0001_first_tables import DAY, MOMENT

# Due by a date, or by the end of the hitch that runs on `due_day` or begins next after it: each crew's own last day.
ASSIGNMENTS = f"""
    create table assignments (
        id        text not null primary key,
        module    text not null,
        person    text references people (id),
        crew      text references crews (id),
        rig       text references rigs (id),
        rig_type  text check (rig_type in ('kelly', 'top-drive')),
        due_by    text not null check (due_by in ('date', 'hitch')),
        due_day   text not null check (due_day glob '{DAY}'),
        pass_mark integer not null check (pass_mark between 50 and 100),
        must_pass integer not null check (must_pass in (0, 1)),
        made_by   text not null references people (id),
        made_at   text not null check (made_at glob '{MOMENT}'),
        ended_at  text check (ended_at glob '{MOMENT}'),
        ended_by  text references people (id),
        ended_why text,
        check ((person is not null) + (crew is not null) + (rig is not null) = 1),
        check ((ended_at is null) = (ended_by is null) and (ended_at is null) = (ended_why is null))
    ) strict, without rowid
"""

# One module or one task of one person is not asked for, or something else stands in its place.
EXCUSES = f"""
    create table excuses (
        id       text not null primary key,
        person   text not null references people (id),
        module   text,
        task     text,
        kind     text not null check (kind in ('excused', 'replaced')),
        instead  text not null,
        why      text not null check (why <> ''),
        who      text not null references people (id),
        at       text not null check (at glob '{MOMENT}'),
        ended_at text check (ended_at glob '{MOMENT}'),
        ended_by text references people (id),
        check ((module is null) <> (task is null)),
        check ((kind = 'replaced') = (instead <> ''))
    ) strict, without rowid
"""

# The newest row of a person counts; one without a day says that there is none any more.
EXAMS = f"""
    create table exams (
        id     text not null primary key,
        person text not null references people (id),
        paper  text not null check (paper in ('a', 'b')),
        day    text check (day glob '{DAY}'),
        set_by text not null references people (id),
        set_at text not null check (set_at glob '{MOMENT}')
    ) strict, without rowid
"""

INDEXES = (
    "create index assignments_by_person on assignments (person) where person is not null",
    "create index assignments_by_crew on assignments (crew) where crew is not null",
    "create index assignments_by_rig on assignments (rig) where rig is not null",
    "create index excuses_by_person on excuses (person)",
    "create index exams_by_person on exams (person, id)",
)


def m0005_assignments(db: Database) -> None:
    """Add assignments, excuses and exam days."""
    for statement in (ASSIGNMENTS, EXCUSES, EXAMS, *INDEXES):
        db.execute(statement)
