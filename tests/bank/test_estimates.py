"""Estimates: a wide range and no close, a quick way that is right on every draw, known wrong ways apart by range."""

from itertools import pairwise

import pytest

from question_bank import load_bank
from question_bank.errors import BankError
from question_bank.kinds.estimate import AGAIN
from question_bank.numbers import in_comma
from tests.bank.items import ESTIMATE, faults, item
from tests.bank.pencil import pencil

ESTIMATES = [each.id for each in load_bank().values() if each.kind == "estimate"]
GIVENS = {"pull": "100 klbf"}


@pytest.fixture(scope="module")
def question():
    """100 klbf is 444.8 kN, to within 10 %: 400.34 to 489.30 kN is right."""
    return item(ESTIMATE).draw(1, "us", GIVENS)


@pytest.fixture(scope="module", params=ESTIMATES)
def shipped(request, bank):
    """200 questions of each estimate of the bank, in both systems."""
    return [bank[request.param].draw(seed, system) for system in ("us", "metric") for seed in range(100)]


@pytest.mark.parametrize("typed, outcome, mistake", [
    ("450", "right", None), ("445", "right", None), ("400.4", "right", None), ("489.2", "right", None),
    ("400.2", "wrong", None), ("489.4", "wrong", None), ("540", "wrong", None), ("100", "wrong", "number-copied"),
    ("109", "wrong", "number-copied"), ("112", "wrong", None), ("22.5", "wrong", "wrong-way-round"),
    ("450 kN", "right", None), ("100 klbf", "ask-back", None), ("45 ft", "other-dimension", None),
])  # fmt: skip
def test_the_range_has_its_edges_and_nothing_is_close(question, typed, outcome, mistake):
    """By hand: 100 × 4.448222 = 444.82; nine tenths and eleven tenths of it are 400.34 and 489.30."""
    verdict = question.grade(typed)
    assert (verdict.outcome, verdict.mistake) == (outcome, mistake)


def test_who_is_merely_too_far_off_is_sent_to_the_quick_way(question):
    assert question.grade("600").message == AGAIN == question.tell("wrong")
    assert question.grade("100").message == question.tell("wrong", "number-copied") != AGAIN


def test_the_decimal_mark_is_asked_back_as_of_a_numeric_item(question):
    assert question.grade("0,445 MN", comma=False).outcome == "ask-back"
    assert question.grade("450,5", comma=True).outcome == "right"


def test_the_page_is_given_the_quick_value_and_the_exact_one(question):
    assert question.quick == "450 kN" and question.key_both == "444.8 kN (100 klbf)"
    assert "roughly" in question.wanted and "10 %" in question.wanted


def test_the_quick_way_and_the_exact_value_are_right_for_both_hands(shipped):
    for question in shipped:
        for text in (question.quick, question.key_text):
            assert question.grade(text).outcome == "right"
            assert question.grade(in_comma(text), comma=True).outcome == "right"


def test_no_range_of_a_known_mistake_touches_the_right_one_or_another(shipped):
    """Lowest and highest values that count as each, worked out again: no two spans meet."""
    for question in shipped:
        ways = [question.value, *(each.value for each in question.mistakes)]
        spans = sorted(sorted((way * (1 - question.half_width), way * (1 + question.half_width))) for way in ways)
        assert all(low[1] < high[0] for low, high in pairwise(spans)), question.stem
        for slip in question.mistakes:
            assert question.grade(f"{slip.value:.12g} {question.unit}").mistake == slip.name


def test_the_exact_working_can_be_followed_with_a_pencil(shipped):
    """To 1 % however wide the range is, and its last line is the exact value."""
    for question in shipped:
        for line in question.working:
            assert pencil(line.put_in) == pytest.approx(pencil(line.result), rel=0.01)
        assert question.working[-1].result == question.key_text


def test_estimates_are_no_numeric_items(bank):
    """So they stay out of the drill of ten and out of the bench, which take kind 'numeric' alone."""
    assert len(ESTIMATES) >= 5 and all(bank[each].kind == "estimate" for each in ESTIMATES)


def test_the_unspoilt_estimate_has_no_fault():
    assert faults(ESTIMATE) == []


@pytest.mark.parametrize("old, new, field, words", [
    ("range = 0.1", "range = 0.04", "tolerance range", ["0.05"]),
    ("range = 0.1", "range = 0.51", "tolerance range", ["0.5"]),
    ("range = 0.1", "relative = 0.01", "tolerance relative", ["not a field"]),
    ("About what is", "What is", "stem", ["about"]),
    ('why = "Four and a half times as many."', "", "why", ["quickly"]),
    ("[roughly.quick]", "[roughly.slow]", "slow", ["not a field"]),
    ("pull / klbf * 4.5 * kN", "pull / klbf * 4.5", "quick formula", ["a plain number"]),
    ("pull / klbf * 4.5 * kN", "pull / klbf * tens * kN", "quick formula", ["tens"]),
    ('gives = { us = "450 kN", metric', 'gives = { metric', "quick", ["both systems"]),
])  # fmt: skip
def test_a_fault_of_form_is_refused_when_the_file_is_read(old, new, field, words):
    with pytest.raises(BankError) as caught:
        item(ESTIMATE, (old, new))
    assert caught.value.field == field and all(word in caught.value.problem for word in words), caught.value.problem


@pytest.mark.parametrize("old, new, field", [
    ("pull / klbf * 4.5 * kN", "pull / klbf * 4.6 * kN", "quick gives"),
    ('gives = { us = "450 kN"', 'gives = { us = "451 kN"', "quick gives"),
    ('gives = { us = "450 kN"', 'gives = { us = "450 ft"', "quick gives"),
    ("pull / kN / 4.5 * klbf", "pull / kN / 5 * klbf", "quick gives"),
    ('gives = "444.82 kN"', 'gives = "444.82 klbf"', "check gives"),
    ('gives = { us = "100 kN"', 'gives = { us = "110 kN"', "mistakes 1 gives"),
])  # fmt: skip
def test_a_fault_in_the_sums_is_found_by_the_check(old, new, field):
    found = faults(ESTIMATE, (old, new))
    assert found and found[0].field == field, found


def test_a_quick_way_that_leads_out_of_the_range_is_found():
    """Both its formula and its worked value say five: they agree, and only the draw shows that it is no good."""
    changes = [("klbf * 4.5 * kN", "klbf * 5 * kN"), ('gives = { us = "450 kN"', 'gives = { us = "500 kN"')]
    (found,) = faults(ESTIMATE, *changes)
    assert found.field == "quick" and "not right" in found.problem


def test_a_mistake_that_lies_within_the_range_is_refused():
    near = [("* kN / klbf", "* 1.15"), ('gives = { us = "100 kN"', 'gives = { us = "511.55 kN"')]
    (found,) = faults(ESTIMATE, *near)
    assert found.field == "mistakes" and "apart" in found.problem
