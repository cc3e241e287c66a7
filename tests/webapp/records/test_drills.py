"""Drills: the clock, the first showing, the first power of ten; and a file of the level before."""

import sqlite3
from datetime import timedelta

import pytest

from tests.webapp.records.samples import START, ask
from webapp.records import drills
from webapp.records.connection import Store
from webapp.records.drills import Drill, SizeChosen


@pytest.fixture
def question(store):
    return ask(store, None, place="ten", drill="d-1")


@pytest.mark.parametrize("clock", [True, False])
def test_a_drill_keeps_whether_it_has_a_clock(store, clock):
    drills.start(store, Drill("d-1", None, clock, START))
    assert drills.has_clock(store, "d-1") is clock


def test_an_unknown_drill_has_no_clock(store):
    assert drills.has_clock(store, "d-9") is False


def test_the_first_showing_stands(store, question):
    assert drills.first_shown(store, question) is None
    assert drills.shown(store, question, START) == START
    assert drills.shown(store, question, START + timedelta(minutes=2)) == START
    assert drills.first_shown(store, question) == START


def test_the_first_power_of_ten_stands(store, question):
    assert drills.size_chosen(store, question) is None
    first = SizeChosen(question, 1, 3, START)
    drills.keep_first_size(store, first)
    drills.keep_first_size(store, SizeChosen(question, 1, 2, START + timedelta(seconds=9)))
    assert drills.size_chosen(store, question) == first


def test_a_choice_under_what_was_offered_or_of_no_question_is_refused(store, question):
    for wrong in (SizeChosen(question, 1, 0, START), SizeChosen("nothing", 1, 2, START)):
        with pytest.raises(sqlite3.IntegrityError):
            drills.keep_first_size(store, wrong)


def test_a_file_of_the_level_before_is_brought_up_and_loses_nothing(store, question):
    """The tables are taken away as if they had never been made; the next start makes them."""
    with store.writing() as db:
        for table in ("drills", "first_shown", "sizes_chosen"):
            db.execute(f"drop table {table}")
        db.execute("delete from _sqlite_migrations where name = 'm0003_ten_drills'")
    store.close()
    again = Store(store.path)
    assert again.migrate() == ["m0003_ten_drills"]
    assert again.db.execute("select id, drill from questions").fetchall() == [(question, "d-1")]
    assert drills.size_chosen(again, question) is None and not drills.has_clock(again, "d-1")
    again.close()
