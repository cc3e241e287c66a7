"""Attempts: counted once, never changed, and folded into memory in the order they were answered."""

import itertools
import sqlite3
import tempfile
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.webapp.records.samples import START, ask, attempt, join, memory_rows, record_all
from webapp.records import attempts, decisions, memory
from webapp.records.connection import Store
from webapp.study.memory import Answer, fold


def test_an_attempt_comes_back_as_it_was_recorded(store, person):
    made = attempt(store, person.id, outcome="wrong", mistake="even-share", hint=True, seconds=None, usual_seconds=None)
    assert attempts.record(store, made) is True
    assert attempts.get(store, made.id) == made
    assert attempts.get(store, "nobody") is None


def test_a_second_sending_counts_once_and_changes_nothing(store, person):
    """The double click says no, whatever the second sending claims; attempts and memory stay as they were."""
    made = attempt(store, person.id)
    record_all(store, [made])
    before = store.db.execute("select * from attempts").fetchall(), memory_rows(store)
    assert attempts.record(store, made) is False
    assert attempts.record(store, replace(made, outcome="wrong", typed="12")) is False
    assert (store.db.execute("select * from attempts").fetchall(), memory_rows(store)) == before


def test_memory_is_the_fold_of_the_attempts_as_they_were_answered(store, person):
    """Neither the order in which they arrive nor the order in which the questions were drawn matters."""
    record_all(
        store,
        [
            attempt(store, person.id, days=20),
            attempt(store, person.id, days=2, hint=True),
            attempt(store, person.id, days=9, seconds=151.0),
            attempt(store, person.id, days=0, outcome="wrong"),
        ],
    )
    expected = fold(
        [
            (START.date(), Answer("wrong", "numeric", False, 41.5, 60)),
            (START.date() + timedelta(2), Answer("right", "numeric", True, 41.5, 60)),
            (START.date() + timedelta(9), Answer("right", "numeric", False, 151.0, 60)),
            (START.date() + timedelta(20), Answer("right", "numeric", False, 41.5, 60)),
        ]
    )
    assert memory.of_person(store, person.id) == {"units.rating-in-kn": expected}


def test_the_memory_of_the_morning_is_what_stood_before_that_day(store, person):
    """Answers of the day and later are left out: one item had none before it, another hand's do not count."""
    other = join(store, "Ines Okoro")
    record_all(
        store,
        [
            attempt(store, person.id, "units.a", days=0),
            attempt(store, person.id, "units.a", days=5, outcome="wrong"),
            attempt(store, person.id, "units.b", days=5),
            attempt(store, person.id, "units.c", days=3),
            attempt(store, other.id, "units.b", days=1),
        ],
    )
    day = START.date() + timedelta(5)
    morning = memory.before_day(store, person.id, day)
    first = (START.date(), Answer("right", "numeric", False, 41.5, 60))
    assert morning == {"units.a": fold([first]), "units.c": memory.of_person(store, person.id)["units.c"]}
    assert memory.before_day(store, person.id, day + timedelta(1)) == memory.of_person(store, person.id)
    assert memory.before_day(store, person.id, START.date()) == {}


def test_the_middle_one_of_three_may_arrive_last(store, person):
    """The row is bit for bit what it would be if the answers had arrived in order."""
    first, middle, last = (
        attempt(store, person.id, days=days, outcome=outcome)
        for days, outcome in [(0, "right"), (3, "wrong"), (5, "close")]
    )
    record_all(store, [first, last])
    without = memory_rows(store)
    record_all(store, [middle])
    late = memory_rows(store)

    other = Store(store.path.with_name("in-order.sqlite"))
    other.migrate()
    theirs = join(other, "Marek Osei-Lund")
    for each in (first, middle, last):
        record_all(other, [replace(each, id=ask(other, theirs.id), person=theirs.id)])
    assert [row[1:] for row in late] == [row[1:] for row in memory_rows(other)]
    assert late != without


@settings(max_examples=25, deadline=None)
@given(
    answered=st.lists(
        st.tuples(
            st.sampled_from(["units.a", "units.b"]),
            st.integers(0, 30 * 24),
            st.sampled_from(["right", "close", "wrong"]),
            st.booleans(),
        ),
        min_size=2,
        max_size=7,
    ),
    order=st.randoms(use_true_random=False),
)
def test_any_order_of_arrival_gives_the_same_memory(answered, order):
    """Answers of two items within a month: memory does not depend on which arrived first, nor on sending one twice."""
    with tempfile.TemporaryDirectory() as folder:
        store = Store(Path(folder) / "records.sqlite")
        store.migrate()
        person = join(store, "Sunniva Adeyemi-Park")
        made = [
            attempt(store, person.id, item, days=hours / 24, outcome=outcome, hint=hint)
            for item, hours, outcome, hint in answered
        ]
        record_all(store, made)
        in_order = memory_rows(store)
        with store.writing() as db:
            db.execute("drop trigger attempts_keep_rows")
            db.execute("delete from attempts")
            db.execute("delete from memory")
        arrived = [*made, made[0]]
        order.shuffle(arrived)
        for each in arrived:
            attempts.record(store, each)
        assert memory_rows(store) == in_order
        store.close()


def test_one_days_later_answers_leave_the_memory(store, person):
    """Two answers on one study day leave what the first one left; the second is in the record all the same."""
    record_all(store, [attempt(store, person.id, outcome="wrong")])
    before = memory_rows(store)
    record_all(store, [attempt(store, person.id, days=0.1)])
    assert memory_rows(store) == before
    assert [each.outcome for each in attempts.of_person(store, person.id, 10)] == ["right", "wrong"]


def test_rebuilding_gives_the_same_rows_bit_for_bit(store):
    outcomes = itertools.cycle(["right", "wrong", "close", "right", "right"])
    for name in ("Marek", "Sunniva"):
        person = join(store, name)
        for days, item in itertools.product((25, 1, 11, 0, 4), ("units.a", "units.b", "safety.c")):
            record_all(store, [attempt(store, person.id, item, days=days, outcome=next(outcomes))])
    decisions.append(store, "item-withdrawn", "units.b", "lead", "wrong factor", START)
    before = memory_rows(store)
    told = []
    assert memory.rebuild(store, lambda done, pairs: told.append((done, pairs))) == 4
    assert memory_rows(store) == before
    assert told == [(1, 4), (2, 4), (3, 4), (4, 4)]


def test_rebuilding_mends_whatever_was_in_the_table(store, person):
    """Rows that are wrong, missing or left over are put right: the table is never believed over the attempts."""
    record_all(store, [attempt(store, person.id), attempt(store, person.id, "units.b")])
    before = memory_rows(store)
    with store.writing() as db:
        db.execute("update memory set days_to_ninety = 400 where item = 'units.rating-in-kn'")
        db.execute("update memory set item = 'units.nothing' where item = 'units.b'")
    assert memory_rows(store) != before
    memory.rebuild(store)
    assert memory_rows(store) == before


def test_memory_is_stale_until_rebuilt_with_todays_rule(store, monkeypatch):
    assert memory.is_stale(store)
    memory.rebuild(store)
    assert not memory.is_stale(store)
    monkeypatch.setattr(memory, "MODEL", "another release")
    assert memory.is_stale(store)


@pytest.mark.parametrize("table", ["attempts", "decisions"])
@pytest.mark.parametrize(
    "statement",
    [
        "update {} set outcome = 'right'",
        "update {} set id = 'another'",
        "delete from {}",
        "delete from {} where outcome = 'wrong'",
    ],
)
def test_the_database_itself_refuses_to_change_or_delete(store, person, table, statement):
    """With a plain connection, without any code of ours: rows stay."""
    made = attempt(store, person.id, outcome="wrong")
    record_all(store, [made])
    decisions.append(store, "attempt-corrected", made.id, "lead", "key was wrong", START, outcome="wrong")
    plain = sqlite3.connect(store.path)
    before = plain.execute(f"select * from {table}").fetchall()
    with pytest.raises(sqlite3.IntegrityError, match=f"Rows of {table} are never changed or deleted"):
        plain.execute(statement.format(table))
    assert plain.execute(f"select * from {table}").fetchall() == before
    plain.close()


def test_not_even_insert_or_replace_changes_a_row(store, person):
    """A replacing insert through a plain connection, which asks no delete trigger, leaves the first row."""
    record_all(store, [attempt(store, person.id, outcome="wrong")])
    plain = sqlite3.connect(store.path)
    before = plain.execute("select * from attempts").fetchall()
    values = tuple("right" if value == "wrong" else value for value in before[0])
    plain.execute(f"insert or replace into attempts values ({', '.join('?' * len(values))})", values)
    assert plain.execute("select * from attempts").fetchall() == before
    plain.close()


def test_an_attempt_belongs_to_the_person_and_item_of_its_question(store, person):
    other = join(store, "Priya Dunmore")
    made = attempt(store, person.id)
    for forged in (replace(made, person=other.id), replace(made, item="units.other"), replace(made, id="unasked")):
        with pytest.raises(sqlite3.IntegrityError, match="that its question was drawn for"):
            attempts.record(store, forged)
    record_all(store, [made])
    with pytest.raises(sqlite3.IntegrityError, match="that its question was drawn for"):
        attempts.record(store, replace(made, person=other.id))
    assert attempts.of_person(store, other.id, 10) == []


@pytest.mark.parametrize(
    "changes",
    [{"outcome": "ask-back"}, {"outcome": "unreadable"}, {"seconds": -1.0}, {"usual_seconds": 0.0}, {"typed": None}],
)
def test_values_out_of_range_are_an_error_and_not_a_silent_no(store, person, changes):
    with pytest.raises(sqlite3.IntegrityError):
        attempts.record(store, replace(attempt(store, person.id), **changes))
    assert memory_rows(store) == []


def test_pages_of_attempts_come_newest_first_and_miss_none(store, person):
    """Pages of two over seven attempts, two of them at one moment, give each once."""
    record_all(store, [attempt(store, person.id, f"units.{day}", days=day) for day in (0, 1, 1, 2, 5, 3, 4)])
    pages, before = [], None
    while page := attempts.of_person(store, person.id, 2, before):
        pages.append(page)
        before = page[-1].id
    found = [each for page in pages for each in page]
    assert [len(page) for page in pages] == [2, 2, 2, 1]
    assert [(each.answered_at - START).days for each in found] == [5, 4, 3, 2, 1, 1, 0]
    assert len({each.id for each in found}) == 7


def test_mistakes_are_counted_the_commonest_first(store, person):
    for item, mistake in [("a", "x"), ("b", "y"), ("b", "y"), ("a", None), ("b", "x")]:
        record_all(store, [attempt(store, person.id, item, outcome="wrong", mistake=mistake)])
    found = [(each.item, each.mistake, each.count) for each in attempts.mistakes_of(store, person.id)]
    assert found == [("b", "y", 2), ("a", "x", 1), ("b", "x", 1)]


def test_nobody_sees_another_persons_answers(store, person):
    other = join(store, "Priya Dunmore")
    record_all(store, [attempt(store, person.id, outcome="wrong", mistake="x")])
    assert attempts.of_person(store, other.id, 10) == attempts.counted(store, other.id) == []
    assert attempts.mistakes_of(store, other.id) == []
    assert memory.of_person(store, other.id) == {}
