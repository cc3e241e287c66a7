"""What the plan and the readiness read of the attempts: first answers, how many, since when, and the record."""

from datetime import date, timedelta

import pytest

from tests.webapp.records.samples import START, attempt, join, record_all
from webapp.records import attempts, decisions, memory
from webapp.study.memory import Answer, after, recall

DAY = START.date()


def test_first_answers_are_each_items_first_before_the_day(store, person):
    record_all(
        store,
        [
            attempt(store, person.id, "a.one", 2, outcome="right"),
            attempt(store, person.id, "a.one", 0, outcome="wrong"),
            attempt(store, person.id, "a.two", 1, outcome="right", kind="choice"),
            attempt(store, person.id, "a.three", 3, outcome="right"),
            attempt(store, join(store, "Ines Okoro").id, "a.four", 0),
        ],
    )
    assert sorted(attempts.first_answers(store, person.id, DAY + timedelta(3))) == [
        ("choice", True),
        ("numeric", False),
    ]


def test_a_close_answer_is_not_right(store, person):
    record_all(store, [attempt(store, person.id, outcome="close")])
    assert attempts.first_answers(store, person.id, DAY + timedelta(1)) == [("numeric", False)]


def test_how_much_is_studied_counts_what_counts(store, person):
    assert attempts.studied(store, person.id) == attempts.Studied(0, None, None)
    record_all(store, [attempt(store, person.id, "a.one", days) for days in (4, 1)])
    record_all(store, [attempt(store, person.id, "a.two", 9)])
    assert attempts.studied(store, person.id) == attempts.Studied(3, date(2026, 3, 3), date(2026, 3, 11))
    decisions.append(store, "item-withdrawn", "a.two", "lead", "the key was wrong", START)
    assert attempts.studied(store, person.id) == attempts.Studied(2, date(2026, 3, 3), date(2026, 3, 6))


def test_whether_anything_was_before_a_moment(store, person):
    record_all(store, [attempt(store, person.id, days=2)])
    assert not attempts.any_before(store, person.id, START + timedelta(2))
    assert attempts.any_before(store, person.id, START + timedelta(2, seconds=1))


def test_the_record_is_what_was_foretold_oldest_first(store, person):
    """Of each item all but the first answer, with the chance that the state before it gave."""
    record_all(
        store,
        [
            attempt(store, person.id, "a.one", 0), attempt(store, person.id, "a.one", 6, outcome="wrong"),
            attempt(store, person.id, "a.two", 1), attempt(store, person.id, "a.two", 4),
        ],
    )  # fmt: skip
    answer = Answer("right", "numeric", False, 41.5, 60)
    one, two = after(None, answer, DAY), after(None, answer, DAY + timedelta(1))
    assert memory.record_of(store, person.id, 200) == [
        (pytest.approx(recall(two, DAY + timedelta(4))), True),
        (pytest.approx(recall(one, DAY + timedelta(6))), False),
    ]


def test_the_record_reads_no_more_items_than_were_answered_of_late(store, person):
    record_all(
        store,
        [
            attempt(store, person.id, item, days)
            for item, days in (("a.one", 0), ("a.one", 3), ("a.two", 1), ("a.two", 9))
        ],
    )
    assert len(memory.record_of(store, person.id, 1)) == 1
    assert len(memory.record_of(store, person.id, 2)) == 2
