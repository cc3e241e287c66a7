"""Level 7: rig sheets, and sittings (tests of a module, refreshers, practice papers) with their drafts."""

from sqlite_utils import Database

from webapp.records.migrations.m0001_first_tables import MOMENT, QUESTIONS

# A sheet is of a rig, or of one hand who fills in the numbers of the rig they are on. Each saving is a new version.
RIG_SHEETS = f"""
    create table rig_sheets (
        id         text not null primary key,
        rig        text references rigs (id),
        person     text references people (id),
        version    integer not null check (version > 0),
        system     text not null check (system in ('us', 'metric')),
        body       text not null check (json_valid(body)),
        made_by    text not null references people (id),
        made_at    text not null check (made_at glob '{MOMENT}'),
        checked_by text references people (id),
        checked_at text check (checked_at glob '{MOMENT}'),
        check ((rig is not null) + (person is not null) = 1),
        check ((checked_by is null) = (checked_at is null))
    ) strict, without rowid
"""

# One sitting: its questions are drawn together for it and answered as drafts until it is handed in.
# `body` keeps what it was drawn to (items, marks, versions); `result` what it came to.
SITTINGS = f"""
    create table sittings (
        id           text not null primary key,
        person       text not null references people (id),
        kind         text not null check (kind in ('module', 'refresher', 'paper-a', 'paper-b')),
        module       text,
        pass_mark    integer not null check (pass_mark between 0 and 100),
        body         text not null check (json_valid(body)),
        started_at   text not null check (started_at glob '{MOMENT}'),
        deadline     text check (deadline glob '{MOMENT}'),
        handed_in_at text check (handed_in_at glob '{MOMENT}'),
        handed_in_by text check (handed_in_by in ('hand', 'clock')),
        passed       integer check (passed in (0, 1)),
        result       text check (result is null or json_valid(result)),
        check ((module is not null) = (kind in ('module', 'refresher'))),
        check ((handed_in_at is null) = (handed_in_by is null)),
        check ((handed_in_at is null) = (passed is null) and (handed_in_at is null) = (result is null))
    ) strict, without rowid
"""

DRAFTS = f"""
    create table drafts (
        question text not null primary key references questions (id),
        given    text not null check (json_valid(given)),
        at       text not null check (at glob '{MOMENT}')
    ) strict, without rowid
"""

COLUMNS = "id, person, item, item_hash, place, drill, lesson, body, drawn_at"

# As in level 2: the table is made anew for its check, and a question may now name the rig sheet it took numbers from.
PLACES = (
    "pragma defer_foreign_keys = on",
    f"create temp table questions_aside as select {COLUMNS} from questions",
    "drop table questions",
    QUESTIONS.replace("'lesson', 'ten')", "'lesson', 'ten', 'case', 'sitting')").replace(
        "        drawn_at ", "        rig_sheet text references rig_sheets (id),\n        drawn_at "
    ),
    f"insert into questions ({COLUMNS}) select {COLUMNS} from questions_aside",
    "drop table questions_aside",
    "create index questions_by_person on questions (person, place, drawn_at)",
    "create index questions_by_pair on questions (person, item, drawn_at)",
    "create index questions_by_drill on questions (drill, drawn_at) where drill is not null",
)

INDEXES = (
    "create unique index rig_sheets_of_rig on rig_sheets (rig, version) where rig is not null",
    "create unique index rig_sheets_of_person on rig_sheets (person, version) where person is not null",
    "create index sittings_by_person on sittings (person, kind, module, started_at)",
)


def m0007_sittings(db: Database) -> None:
    """Add rig sheets, sittings and drafts; questions of sittings, and of a rig sheet."""
    for statement in (RIG_SHEETS, SITTINGS, DRAFTS, *INDEXES, *PLACES):
        db.execute(statement)
