"""A records file of an older level is brought up with all that it holds."""

import json
import sqlite3
from contextlib import closing

import pytest
from sqlite_utils import Database, Migrations

from tests.webapp.records.samples import START, Drawn, ask, attempt
from webapp.records import answers, attempts, hints, questions
from webapp.records.answers import UncountedAnswer
from webapp.records.connection import Store
from webapp.records.ids import new_id
from webapp.records.migrations import APPLICATION_ID, LEVELS
from webapp.records.moments import as_text


@pytest.fixture
def old(tmp_path):
    """A file of level 1 with a question in each place, answers of both sorts and a hint."""
    store = Store(tmp_path / "old.sqlite")
    first = Migrations("pinandbox")
    first(name=LEVELS[0].__name__)(LEVELS[0])
    with store.writing() as db:
        db.execute(f"pragma application_id = {APPLICATION_ID}")
        first.apply(db)
    ines = _joined_at_level_one(store)
    attempts.record(store, attempt(store, ines, id=_asked_at_level_one(store, ines, "today")))
    hints.shown(store, _asked_at_level_one(store, ines, "practice"), START)
    drilled = _asked_at_level_one(store, None, "ten", drill="a-drill")
    answers.keep_first(store, UncountedAnswer(drilled, "5", "5 kN", "wrong", None, START))
    _asked_at_level_one(store, ines, "lesson", lesson="units/force-mass-weight")
    yield store
    store.close()


def _joined_at_level_one(store: Store) -> str:
    """A person's row as level 1 has it; their id."""
    with store.writing() as db:
        db.execute(
            "insert into people (id, name, name_key, password_hash, code_hash, system, comma, minutes, free_entry,"
            " created_at) values ('ines', 'Ines Okoro', 'ines okoro', 'hash', 'code', 'us', 0, 20, 0, ?)",
            [as_text(START)],
        )
    return "ines"


def _asked_at_level_one(
    store: Store, person: str | None, place: str, drill: str | None = None, lesson: str | None = None
) -> str:
    """A question's row as level 1 has it; its id."""
    drawn, question = Drawn("units.rating-in-kn"), new_id(START)
    questions.keep_texts(store, {drawn.item_hash: "stem = 'How many kN?'"})
    with store.writing() as db:
        db.execute(
            "insert into questions (id, person, item, item_hash, place, drill, lesson, body, drawn_at)"
            " values (?, ?, ?, ?, ?, ?, ?, ?, ?)",
            [
                question, person, drawn.item, drawn.item_hash, place, drill, lesson, json.dumps(drawn.body()),
                as_text(START),
            ],
        )  # fmt: skip
    return question


def rows(store: Store) -> dict[str, list[tuple]]:
    """Every row of the tables that were there at level 1."""
    tables = ("questions", "attempts", "hints", "uncounted_answers", "memory", "people", "item_texts")
    first = {table: _columns_of_level_one(table) for table in tables}
    return {table: store.db.execute(f"select {first[table]} from {table} order by 1").fetchall() for table in tables}


def _columns_of_level_one(table: str) -> str:
    """The columns that the table had at level 1, for later levels add to them."""
    with closing(Database(memory=True)) as db:
        LEVELS[0](db)
        return ", ".join(db[table].columns_dict)


def test_a_file_of_level_one_loses_nothing(old):
    before = rows(old)
    assert old.migrate() == [level.__name__ for level in LEVELS[1:]]
    assert rows(old) == before and len(before["questions"]) == 4
    assert old.db.execute("pragma foreign_key_check").fetchall() == []
    assert old.migrate() == []


def test_the_new_table_of_questions_is_as_firm_as_the_old_one(old):
    """Keys of attempts lead to it still, its checks hold, and it has its indexes."""
    ines = old.db.execute("select id from people").fetchone()[0]
    old.migrate()
    kept = ask(old, ines, place="case", drill="a-run")
    (place,) = old.db.execute("select place from questions where id = ?", [kept]).fetchone()
    assert place == "case"
    assert attempts.record(old, attempt(old, ines, id=kept))
    for place in ("market", "Case", ""):
        with pytest.raises(sqlite3.IntegrityError):
            ask(old, ines, place=place)
    with pytest.raises(sqlite3.IntegrityError), old.writing() as db:
        db.execute("delete from questions where id = ?", [kept])
    names = {row[0] for row in old.db.execute("select name from sqlite_master where tbl_name = 'questions'")}
    assert {"questions_by_person", "questions_by_drill"} <= names
    strict = old.db.execute("select strict from pragma_table_list where name = 'questions'").fetchone()
    assert strict == (1,)
