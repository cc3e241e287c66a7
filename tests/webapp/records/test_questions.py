"""Questions: kept when drawn, found again in their place, and answered outside the count."""

from dataclasses import replace
from datetime import timedelta

import pytest

from question_bank import load_bank
from tests.webapp.records.samples import START, Drawn, ask, attempt, join, record_all
from webapp.records import answers, hints, questions, rig_sheets
from webapp.records.answers import UncountedAnswer
from webapp.records.errors import RecordsError


@pytest.fixture(scope="module")
def bank():
    return load_bank()


def minute(number: int):
    return START + timedelta(minutes=number)


def items_of(kept):
    return kept and kept.item


@pytest.fixture
def plain(monkeypatch):
    """Bodies as they are, where a test is about rows and not about questions."""
    monkeypatch.setattr(questions, "question_from_body", lambda body: body)


@pytest.mark.parametrize("system", ["us", "metric"])
def test_every_item_of_the_bank_comes_back_word_for_word(store, person, bank, system):
    """A question of each item is kept and read back equal to the drawn one, and its item's text with it."""
    questions.keep_texts(store, {item.text_hash: item.text for item in bank.values()})
    for number, item in enumerate(bank.values()):
        drawn = item.draw(seed=number, system=system)
        kept = questions.get(store, questions.keep(store, drawn, person.id, "practice", minute(number)))
        assert kept.question == drawn
        assert (kept.person, kept.item, kept.place, kept.drawn_at) == (person.id, item.id, "practice", minute(number))
        assert questions.text_of(store, drawn.item_hash) == item.text
    assert number > 5


def test_a_question_that_is_not_there_is_none(store):
    assert questions.get(store, "nothing") is None


def test_a_question_without_its_items_text_is_refused(store, person):
    with pytest.raises(RecordsError, match=r"The text of units\.a is not in the records"):
        questions.keep(store, Drawn("units.a", "ffff"), person.id, "today", START)


@pytest.mark.parametrize(("place", "lesson"), [("lesson", None), ("today", "units/force")])
def test_a_lesson_is_named_in_a_lesson_only(store, person, place, lesson):
    with pytest.raises(ValueError, match="a lesson is named in a lesson only"):
        ask(store, person.id, place=place, lesson=lesson)


def test_the_newest_unanswered_question_waits_in_its_place(store, person, plain):
    """Each place has its own; an answered one waits no longer, and another person's never does."""
    other = join(store, "Priya")
    older = ask(store, person.id, "units.old", now=minute(0))
    newer = ask(store, person.id, "units.new", now=minute(1))
    ask(store, person.id, "units.elsewhere", place="practice", now=minute(2))
    assert items_of(questions.waiting(store, person.id, "today")) == "units.new"
    assert items_of(questions.waiting(store, person.id, "practice")) == "units.elsewhere"
    assert questions.waiting(store, other.id, "today") is questions.waiting(store, person.id, "ten") is None
    record_all(store, [attempt(store, person.id, "units.new", id=newer)])
    assert questions.waiting(store, person.id, "today").id == older
    record_all(store, [attempt(store, person.id, "units.old", id=older)])
    assert questions.waiting(store, person.id, "today") is None


def test_a_question_left_behind_long_ago_waits_no_longer(store, person, plain):
    ask(store, person.id, "units.left", place="practice", now=minute(0))
    for number in range(questions.WAITING_AMONG):
        assert items_of(questions.waiting(store, person.id, "practice")) == "units.left"
        question = ask(store, person.id, "units.a", place="practice", now=minute(1 + number))
        answers.keep_first(store, UncountedAnswer(question, "1", "1 kN", "right", None, START))
    assert questions.waiting(store, person.id, "practice") is None


def test_a_drill_is_found_in_the_order_it_was_drawn(store, plain):
    """A visitor's drill needs no person; drills do not mix."""
    for number, (drill, item) in enumerate(
        [("d1", "units.b"), ("d2", "units.x"), ("d1", "units.a"), ("d1", "units.b")]
    ):
        ask(store, None, item, place="ten", drill=drill, now=minute(number))
    found = questions.of_drill(store, "d1")
    assert [each.item for each in found] == ["units.b", "units.a", "units.b"]
    assert {each.person for each in found} == {None}
    assert questions.of_drill(store, "d3") == []


def test_in_a_lesson_the_latest_question_of_each_item_counts(store, person, plain):
    ask(store, person.id, "units.a", place="lesson", lesson="units/force", now=minute(0))
    latest = ask(store, person.id, "units.a", place="lesson", lesson="units/force", now=minute(1))
    only = ask(store, person.id, "units.b", place="lesson", lesson="units/force", now=minute(2))
    ask(store, person.id, "units.a", place="lesson", lesson="units/other", now=minute(3))
    ask(store, person.id, "units.a", place="practice", now=minute(4))
    found = questions.in_lesson(store, person.id, "units/force")
    assert {item: kept.id for item, kept in found.items()} == {"units.a": latest, "units.b": only}


def test_the_newest_draw_of_some_items_is_found_for_each_person(store, person, plain):
    """Of those items and places only, and nobody else's."""
    first = ask(store, person.id, "units.a")
    later = ask(store, person.id, "units.b", now=START + timedelta(minutes=1))
    ask(store, person.id, "units.c", now=START + timedelta(minutes=2))
    ask(store, None, "units.a", place="ten", drill="d1", now=START + timedelta(minutes=3))
    assert questions.newest_of(store, person.id, ["units.a", "units.b"], ["today"]).id == later
    assert questions.newest_of(store, person.id, ["units.a"], ["today", "practice"]).id == first
    assert questions.newest_of(store, person.id, ["units.a"], ["practice"]) is None


def test_a_question_names_the_rig_sheet_that_it_took_numbers_from(store, person, plain):
    sheet = rig_sheets.keep(
        store, {"lines_strung": "12"}, {}, {}, system="us", by=person.id, now=START, person=person.id
    )
    assert questions.get(store, ask(store, person.id, rig_sheet=sheet.id)).rig_sheet == sheet.id
    assert questions.get(store, ask(store, person.id)).rig_sheet is None


def test_the_first_uncounted_answer_stands(store, person):
    question = ask(store, person.id, place="lesson", lesson="units/force")
    first = UncountedAnswer(question, "44,6", "44.6 kN", "wrong", "st-for-t", START)
    assert answers.get(store, question) is None
    assert answers.keep_first(store, first) is True
    assert answers.keep_first(store, replace(first, typed="198", outcome="right")) is False
    assert answers.get(store, question) == first


def test_a_hint_once_shown_stays_shown(store, person):
    question, other = ask(store, person.id), ask(store, person.id)
    assert not hints.was_shown(store, question)
    hints.shown(store, question, START)
    hints.shown(store, question, minute(5))
    assert hints.was_shown(store, question)
    assert not hints.was_shown(store, other)
    assert store.db.execute("select count(*) from hints").fetchone() == (1,)
