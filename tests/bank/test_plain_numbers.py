"""A ratio is asked as a plain number: it is offered first, and a per cent beside the right number is told."""

from tests.bank.cases import bank
from tests.bank.items import COUNTED, item


def question():
    return bank()["units.buoyancy-of-mud"].draw(1, "us")


def test_a_plain_number_is_offered_first_where_there_is_another_unit():
    assert question().units == ["", "%"]


def test_a_count_has_nothing_to_choose():
    assert item(COUNTED).draw(1).units == []


def test_a_plain_number_and_the_same_in_per_cent_are_right():
    assert question().grade(question().key_text).outcome == "right"
    assert question().grade(f"{float(question().key_text) * 100:.1f} %").outcome == "right"


def test_the_right_number_with_a_per_cent_sign_is_told_as_that():
    verdict = question().grade(f"{question().key_text} %")
    assert (verdict.outcome, verdict.mistake) == ("wrong", "other-unit")
    assert verdict.message.startswith("Your number fits as a plain number, but")
