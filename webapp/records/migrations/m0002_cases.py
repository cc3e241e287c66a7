"""Level 2: cases. A run of a case is a row; its questions are drawn for the place 'case'."""

from sqlite_utils import Database

from webapp.records.migrations.m0001_first_tables import MOMENT, QUESTIONS

RUNS = f"""
    create table case_runs (
        id         text not null primary key,
        person     text not null references people (id),
        name       text not null,
        body       text not null check (json_valid(body)),
        started_at text not null check (started_at glob '{MOMENT}')
    ) strict, without rowid
"""

COLUMNS = "id, person, item, item_hash, place, drill, lesson, body, drawn_at"

# SQLite can't change a check, so the table is made anew. Its rows are put aside and back under the same name: the keys
# that attempts and answers hold are then found again before the transaction ends.
PLACES = (
    "pragma defer_foreign_keys = on",
    f"create temp table questions_aside as select {COLUMNS} from questions",
    "drop table questions",
    QUESTIONS.replace("'lesson', 'ten')", "'lesson', 'ten', 'case')"),
    f"insert into questions ({COLUMNS}) select {COLUMNS} from questions_aside",
    "drop table questions_aside",
    "create index questions_by_person on questions (person, place, drawn_at)",
    "create index questions_by_drill on questions (drill, drawn_at) where drill is not null",
)


def m0002_cases(db: Database) -> None:
    """Add the runs of cases, and 'case' to the places that a question is asked in."""
    for statement in (RUNS, "create index case_runs_by_person on case_runs (person, name, id)", *PLACES):
        db.execute(statement)
