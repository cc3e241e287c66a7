"""Level 1: people and sessions, questions, attempts, decisions, memory."""

from sqlite_utils import Database

MOMENT = "????-??-??T??:??:??.??????Z"
DAY = "????-??-??"

HOUSE = """
    create table house (
        name  text not null primary key,
        value text not null
    ) strict, without rowid
"""

PEOPLE = f"""
    create table people (
        id            text not null primary key,
        name          text not null,
        name_key      text not null unique,
        password_hash text not null,
        code_hash     text not null,
        system        text not null check (system in ('us', 'metric')),
        comma         integer not null check (comma in (0, 1)),
        minutes       integer not null check (minutes between 0 and 720),
        free_entry    integer not null check (free_entry in (0, 1)),
        created_at    text not null check (created_at glob '{MOMENT}')
    ) strict, without rowid
"""

SESSIONS = f"""
    create table sessions (
        token_hash text not null primary key,
        person     text not null references people (id),
        opened_at  text not null check (opened_at glob '{MOMENT}'),
        seen_at    text not null check (seen_at glob '{MOMENT}'),
        show_once  text
    ) strict, without rowid
"""

TRIES = f"""
    create table tries (
        key text not null,
        at  text not null check (at glob '{MOMENT}')
    ) strict
"""

ITEM_TEXTS = """
    create table item_texts (
        hash text not null primary key,
        toml text not null
    ) strict
"""

QUESTIONS = f"""
    create table questions (
        id        text not null primary key,
        person    text references people (id),
        item      text not null,
        item_hash text not null references item_texts (hash),
        place     text not null check (place in ('today', 'practice', 'lesson', 'ten')),
        drill     text,
        lesson    text check ((lesson is not null) = (place = 'lesson')),
        body      text not null check (json_valid(body)),
        drawn_at  text not null check (drawn_at glob '{MOMENT}')
    ) strict
"""

HINTS = f"""
    create table hints (
        question text not null primary key references questions (id),
        shown_at text not null check (shown_at glob '{MOMENT}')
    ) strict, without rowid
"""

ATTEMPTS = f"""
    create table attempts (
        id            text not null primary key references questions (id),
        person        text not null references people (id),
        item          text not null,
        kind          text not null,
        typed         text not null,
        read_as       text not null,
        outcome       text not null check (outcome in ('right', 'close', 'wrong')),
        mistake       text,
        hint          integer not null check (hint in (0, 1)),
        seconds       real check (seconds >= 0),
        usual_seconds real check (usual_seconds > 0),
        answered_at   text not null check (answered_at glob '{MOMENT}'),
        received_at   text not null check (received_at glob '{MOMENT}'),
        study_day     text not null check (study_day glob '{DAY}')
    ) strict
"""

UNCOUNTED = f"""
    create table uncounted_answers (
        question text not null primary key references questions (id),
        typed    text not null,
        read_as  text not null,
        outcome  text not null check (outcome in ('right', 'close', 'wrong')),
        mistake  text,
        at       text not null check (at glob '{MOMENT}')
    ) strict
"""

DECISIONS = f"""
    create table decisions (
        id      text not null primary key,
        kind    text not null check (kind in
                    ('item-withdrawn', 'attempt-corrected', 'sign-off-withdrawn', 'same-person')),
        subject text not null,
        outcome text check (outcome in ('right', 'close', 'wrong')),
        who     text not null check (who <> ''),
        why     text not null check (why <> ''),
        at      text not null check (at glob '{MOMENT}'),
        check ((outcome is not null) = (kind = 'attempt-corrected'))
    ) strict
"""

MEMORY = f"""
    create table memory (
        person         text not null references people (id),
        item           text not null,
        days_to_ninety real not null check (days_to_ninety > 0),
        toughness      real not null check (toughness between 1 and 10),
        last_day       text not null check (last_day glob '{DAY}'),
        back_on        text not null check (back_on glob '{DAY}' and back_on > last_day),
        primary key (person, item)
    ) strict, without rowid
"""

PARTS_READ = f"""
    create table parts_read (
        person text not null references people (id),
        lesson text not null,
        part   text not null,
        at     text not null check (at glob '{MOMENT}'),
        primary key (person, lesson, part)
    ) strict, without rowid
"""

# The pages read by person; a replay reads one pair in the order of the fold.
INDEXES = (
    "create index sessions_by_person on sessions (person)",
    "create index tries_by_key on tries (key, at)",
    "create index questions_by_person on questions (person, place, drawn_at)",
    "create index questions_by_drill on questions (drill, drawn_at) where drill is not null",
    "create index attempts_by_pair on attempts (person, item, answered_at, id)",
    "create index attempts_by_time on attempts (person, answered_at, id)",
    "create index decisions_by_subject on decisions (kind, subject, at, id)",
)

# An attempt as it counts: not of a withdrawn item, and with the outcome of the latest correction.
COUNTED = """
    create view counted as
    with corrected as (
        select a.*, (
            select d.outcome from decisions d where d.kind = 'attempt-corrected' and d.subject = a.id
            order by d.at desc, d.id desc limit 1
        ) as correction
        from attempts a
        where not exists (select 1 from decisions d where d.kind = 'item-withdrawn' and d.subject = a.item)
    )
    select id, person, item, kind, typed, read_as,
           coalesce(correction, outcome) as outcome,
           case when correction is null then mistake end as mistake,
           hint, seconds, usual_seconds, answered_at, received_at, study_day
    from corrected
"""


OWN_QUESTION = """
    select raise(abort, 'An attempt must have the person and the item that its question was drawn for.')
    where not exists (select 1 from questions q where q.id = new.id and q.person = new.person and q.item = new.item);
"""


def append_only(table: str, first: str = "") -> list[str]:
    """Triggers that refuse to change or delete a row, and that leave out a second row of the same id.

    The last one is there because INSERT OR REPLACE deletes the older row and may not ask the delete trigger.
    `first` is what it asks before that.
    """
    refuse = f"begin select raise(abort, 'Rows of {table} are never changed or deleted: append a decision.'); end"
    again = f"select raise(ignore) where exists (select 1 from {table} where id = new.id);"
    return [
        f"create trigger {table}_keep_text before update on {table} {refuse}",
        f"create trigger {table}_keep_rows before delete on {table} {refuse}",
        f"create trigger {table}_keep_first before insert on {table} begin {first} {again} end",
    ]


STATEMENTS = (
    HOUSE, PEOPLE, SESSIONS, TRIES, ITEM_TEXTS, QUESTIONS, HINTS, ATTEMPTS, UNCOUNTED, DECISIONS, MEMORY, PARTS_READ,
    *INDEXES, COUNTED, *append_only("attempts", first=OWN_QUESTION), *append_only("decisions"),
)  # fmt: skip


def m0001_first_tables(db: Database) -> None:
    """Make all tables, their indexes, the view `counted` and the triggers."""
    for statement in STATEMENTS:
        db.execute(statement)
