"""What is said of an answer before it is graded: the same of a right one and of a wrong one."""

import pytest

from question_bank import load_bank

BANK = load_bank()
OF_EACH_KIND = list({item.kind: item for item in BANK.values()}.values())


@pytest.mark.parametrize("item", OF_EACH_KIND, ids=lambda item: item.kind)
def test_what_is_not_an_answer_is_told_and_only_that(item):
    question = item.draw(1)
    for amiss in ("", "no such answer", None, [], {}, ["1", "1"]):
        said = question.not_read(amiss)
        assert said is not None and not said.counted and said.message
        assert said == question.grade(amiss)


def test_a_conversion_in_another_unit_is_told():
    question = BANK["units.rating-in-kn"].draw(1)
    said = question.not_read("5 lb")
    assert said.outcome == "ask-back" and "kN" in said.message


def test_no_verdict_comes_through_for_a_mark_that_would_put_it_right():
    """The grade asks back where the other reading is right; before grading, right digits and others are told alike."""
    question = BANK["units.rating-in-kn"].draw(1)
    assert question.key_text == "1,334 kN"
    assert question.grade("1.334 kN").outcome == "ask-back" and question.grade("1.234 kN").outcome == "wrong"
    for text in ("1.334 kN", "1.234 kN"):
        assert question.not_read(text) is None
        assert question.doubt(text).outcome == "ask-back"


@pytest.mark.parametrize("item", OF_EACH_KIND, ids=lambda item: item.kind)
def test_only_typed_numbers_are_doubted(item):
    question = item.draw(1)
    assert question.is_typed or question.doubt("1.334") is None
