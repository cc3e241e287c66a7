"""A records file of an older level is brought up with all that it holds."""

import sqlite3

import pytest
from sqlite_utils import Migrations

from tests.webapp.records.samples import START, ask, attempt, join
from webapp.records import answers, attempts, hints
from webapp.records.answers import UncountedAnswer
from webapp.records.connection import Store
from webapp.records.migrations import APPLICATION_ID, LEVELS


@pytest.fixture
def old(tmp_path):
    """A file of level 1 with a question in each place, answers of both sorts and a hint."""
    store = Store(tmp_path / "old.sqlite")
    first = Migrations("pinandbox")
    first(name=LEVELS[0].__name__)(LEVELS[0])
    with store.writing() as db:
        db.execute(f"pragma application_id = {APPLICATION_ID}")
        first.apply(db)
    ines = join(store, "Ines Okoro")
    attempts.record(store, attempt(store, ines.id))
    hints.shown(store, ask(store, ines.id, place="practice"), START)
    drilled = ask(store, None, place="ten", drill="a-drill")
    answers.keep_first(store, UncountedAnswer(drilled, "5", "5 kN", "wrong", None, START))
    ask(store, ines.id, place="lesson", lesson="units/force-mass-weight")
    yield store
    store.close()


def rows(store: Store) -> dict[str, list[tuple]]:
    """Every row of the tables that were there at level 1."""
    tables = ("questions", "attempts", "hints", "uncounted_answers", "memory", "people", "item_texts")
    return {table: store.db.execute(f"select * from {table} order by 1").fetchall() for table in tables}


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
