"""Level 4: rigs and crews, who is in them, who may see and sign, sign-on slips, and the log of what was done."""

from sqlite_utils import Database

from webapp.records.migrations.m0001_first_tables import DAY, MOMENT, append_only

COORDINATORS = f"""
    create table coordinators (
        person text not null primary key references people (id),
        named_by text references people (id),
        since  text not null check (since glob '{MOMENT}'),
        until  text check (until glob '{MOMENT}')
    ) strict, without rowid
"""

SETUP_ADDRESSES = f"""
    create table setup_addresses (
        code_hash text not null primary key,
        made_at   text not null check (made_at glob '{MOMENT}'),
        until     text not null check (until glob '{MOMENT}'),
        used_at   text check (used_at glob '{MOMENT}'),
        used_by   text references people (id),
        check ((used_at is null) = (used_by is null))
    ) strict, without rowid
"""

RIGS = f"""
    create table rigs (
        id       text not null primary key,
        name     text not null,
        name_key text not null unique,
        rig_type text not null check (rig_type in ('kelly', 'top-drive')),
        made_by  text not null references people (id),
        made_at  text not null check (made_at glob '{MOMENT}')
    ) strict, without rowid
"""

# A rotation: days on the rig, days off it, and a first day on. `nights_from` is the day of the hitch (1 is its first)
# from which the crew works nights; none where it works days.
CREWS = f"""
    create table crews (
        id          text not null primary key,
        rig         text not null references rigs (id),
        name        text not null,
        name_key    text not null,
        days_on     integer not null check (days_on between 1 and 120),
        days_off    integer not null check (days_off between 0 and 120),
        first_day   text not null check (first_day glob '{DAY}'),
        nights_from integer check (nights_from between 1 and days_on),
        made_by     text not null references people (id),
        made_at     text not null check (made_at glob '{MOMENT}'),
        closed_at   text check (closed_at glob '{MOMENT}'),
        unique (rig, name_key)
    ) strict, without rowid
"""

# Somebody's time in a crew. Its coordinators see what the hand did from `sees_from` on: the day of joining, or earlier
# where the hand shares it or came from another crew of the same house.
MEMBERSHIPS = f"""
    create table memberships (
        id        text not null primary key,
        person    text not null references people (id),
        crew      text not null references crews (id),
        job       text not null,
        joined_at text not null check (joined_at glob '{MOMENT}'),
        sees_from text not null check (sees_from glob '{MOMENT}'),
        left_at   text check (left_at glob '{MOMENT}'),
        left_why  text,
        check ((left_at is null) = (left_why is null))
    ) strict, without rowid
"""

# What somebody may do in a crew. An observer's right has tasks (a JSON list of their ids) and a last day.
RIGHTS = f"""
    create table rights (
        id       text not null primary key,
        person   text not null references people (id),
        crew     text not null references crews (id),
        kind     text not null check (kind in ('coordinator', 'observer')),
        tasks    text check (tasks is null or json_valid(tasks)),
        until    text check (until glob '{DAY}'),
        given_by text not null references people (id),
        given_at text not null check (given_at glob '{MOMENT}'),
        ended_at text check (ended_at glob '{MOMENT}'),
        check ((kind = 'observer') = (tasks is not null)),
        check ((kind = 'observer') = (until is not null))
    ) strict, without rowid
"""

# A slip for anybody who joins the crew, or for one person's first sign-in.
SLIPS = f"""
    create table slips (
        id         text not null primary key,
        code_hash  text not null unique,
        crew       text not null references crews (id),
        person     text references people (id),
        most_uses  integer not null check (most_uses between 1 and 200),
        made_by    text not null references people (id),
        made_at    text not null check (made_at glob '{MOMENT}'),
        until      text not null check (until glob '{MOMENT}'),
        revoked_at text check (revoked_at glob '{MOMENT}')
    ) strict, without rowid
"""

SLIP_USES = f"""
    create table slip_uses (
        slip   text not null references slips (id),
        person text not null references people (id),
        at     text not null check (at glob '{MOMENT}'),
        primary key (slip, person)
    ) strict, without rowid
"""

# What coordinators and observers did, for whoever asks later. `what` is a word of ours, `detail` a sentence.
LOG = f"""
    create table log (
        id     text not null primary key,
        at     text not null check (at glob '{MOMENT}'),
        who    text not null references people (id),
        crew   text references crews (id),
        about  text references people (id),
        what   text not null check (what <> ''),
        detail text not null
    ) strict
"""

INDEXES = (
    "create unique index memberships_now on memberships (person) where left_at is null",
    "create index memberships_by_person on memberships (person, joined_at)",
    "create index memberships_by_crew on memberships (crew, left_at)",
    "create index rights_by_person on rights (person, kind)",
    "create index rights_by_crew on rights (crew, kind)",
    "create index slips_by_crew on slips (crew, made_at)",
    "create index slips_by_person on slips (person) where person is not null",
    "create index log_by_crew on log (crew, at)",
)

# Two hands may have one name; what they type to sign in tells them apart, and `name_key` is the key of that.
SIGN_IN = (
    "alter table people add column sign_in text not null default ''",
    "update people set sign_in = name",
)


def m0004_crews(db: Database) -> None:
    """Add rigs, crews, memberships, rights, slips, the set-up address and the log."""
    tables = (COORDINATORS, SETUP_ADDRESSES, RIGS, CREWS, MEMBERSHIPS, RIGHTS, SLIPS, SLIP_USES, LOG)
    for statement in (*tables, *INDEXES, *SIGN_IN, *append_only("log")):
        db.execute(statement)
