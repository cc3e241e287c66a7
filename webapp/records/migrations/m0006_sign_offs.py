"""Level 6: hands-on tasks signed by an observer, and the decisions about them."""

from sqlite_utils import Database

from webapp.records.migrations.m0001_first_tables import COUNTED, DAY, DECISIONS, MOMENT, append_only

SIGN_OFFS = f"""
    create table sign_offs (
        id          text not null primary key,
        person      text not null references people (id),
        task        text not null,
        crew        text not null references crews (id),
        rig         text not null references rigs (id),
        observer    text not null references people (id) check (observer <> person),
        result      text not null check (result in ('alone', 'prompted', 'not-yet', 'not-possible')),
        observed_on text not null check (observed_on glob '{DAY}'),
        note        text not null,
        signed_at   text not null check (signed_at glob '{MOMENT}')
    ) strict
"""

INDEXES = (
    "create index sign_offs_by_person on sign_offs (person, task, observed_on)",
    "create index sign_offs_by_task on sign_offs (rig, task, observed_on)",
    "create index sign_offs_by_observer on sign_offs (observer, signed_at)",
)

COLUMNS = "id, kind, subject, outcome, who, why, at"

# SQLite can't change a check, so the table is made anew; dropping it takes its triggers with it.
DECISION_KINDS = (
    f"create temp table decisions_aside as select {COLUMNS} from decisions",
    "drop view counted",
    "drop table decisions",
    DECISIONS.replace("'sign-off-withdrawn'", "'sign-off-withdrawn', 'sign-offs-stand'"),
    f"insert into decisions ({COLUMNS}) select {COLUMNS} from decisions_aside",
    "drop table decisions_aside",
    "create index decisions_by_subject on decisions (kind, subject, at, id)",
    *append_only("decisions"),
)


def m0006_sign_offs(db: Database) -> None:
    """Add sign-offs, and 'sign-offs-stand' to the kinds of decision: of two that differ, both count."""
    for statement in (SIGN_OFFS, *INDEXES, *append_only("sign_offs"), *DECISION_KINDS, COUNTED):
        db.execute(statement)
