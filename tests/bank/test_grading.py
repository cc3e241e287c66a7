"""Verdicts on numbers: the band and its edges, the order of the tests, the decimal mark, other units."""

import dataclasses

import pytest

from question_bank import question_from_body
from question_bank.kinds.numeric import Slip
from question_bank.numbers import in_comma, show
from tests.bank.items import SOUND, item

GIVENS = {"rating": "500 klbf", "hook_load": "300 klbf"}
RELATIVE = "tolerance = { relative = 0.01 }"
ABSOLUTE = 'tolerance = { absolute = { us = "0.5 klbf", metric = "2 kN" } }'


@pytest.fixture(scope="module")
def question():
    """What is left of 500 klbf when 300 klbf hang there: 200 klbf, to within 1 %."""
    return item(SOUND).draw(1, "us", GIVENS)


@pytest.fixture(scope="module")
def to_half_a_klbf():
    """The same question with an absolute tolerance."""
    return item(SOUND, (RELATIVE, ABSOLUTE)).draw(1, "us", GIVENS)


@pytest.fixture(scope="module")
def counted():
    """A count: twice eight lines, exactly."""
    text = """
[lines-twice]
kind = "numeric"
title = "Lines counted twice"
lesson = "units/force-mass-weight"
stem = "There are {lines} lines. How many are twice as many?"
asks = "twice"
unit = ""
register = "count"
tolerance = { exact = true }
plausible = ["12", "20"]
source = "arithmetic"
check = { given = { lines = "8" }, gives = "16", by = "by hand: 8 + 8" }

[lines-twice.givens]
lines = { register = "count", among = [6, 8, 10] }

[[lines-twice.steps]]
name = "twice"
find = "twice the lines"
formula = "lines + lines"
"""
    return item(text).draw(1, "us", {"lines": "8"})


@pytest.mark.parametrize("typed, outcome", [
    ("200", "right"),
    ("202", "right"),
    ("201.999", "right"),
    ("202.001", "close"),
    ("198", "right"),
    ("198.001", "right"),
    ("197.999", "close"),
    ("205.999", "close"),
    ("206", "close"),
    ("206.001", "wrong"),
    ("194", "close"),
    ("193.999", "wrong"),
    ("−200", "wrong"),
    ("0", "wrong"),
])  # fmt: skip
def test_a_relative_band_has_its_edges_and_three_times_as_wide_a_close_one(question, typed, outcome):
    """At the edge of 1 % counts as right; up to 3 % is close; the rest is wrong."""
    assert question.band == (198, 202)
    assert question.grade(typed).outcome == outcome


@pytest.mark.parametrize("typed, outcome", [
    ("200", "right"), ("200.5", "right"), ("200.49", "right"), ("200.51", "wrong"),
    ("199.5", "right"), ("199.49", "wrong"), ("201", "wrong"),
])  # fmt: skip
def test_an_absolute_band_has_its_edges_and_no_close_one(to_half_a_klbf, typed, outcome):
    assert to_half_a_klbf.band == (199.5, 200.5)
    assert to_half_a_klbf.grade(typed).outcome == outcome


@pytest.mark.parametrize("typed, down, up", [
    ("200", "right", "right"),
    ("200.01", "right", "right"),   # 0.005 %: the trade's short factors lead there
    ("199.99", "right", "right"),
    ("200.02", "close", "right"),
    ("199.98", "right", "close"),
    ("202", "close", "right"),
    ("198", "right", "close"),
    ("202.01", "wrong", "close"),
    ("197.99", "close", "wrong"),
    ("194", "close", "wrong"),
    ("206", "wrong", "close"),
    ("193.9", "wrong", "wrong"),
    ("206.1", "wrong", "wrong"),
])  # fmt: skip
def test_a_rating_is_rounded_down_and_a_required_strength_up(typed, down, up):
    """Past the value nothing is right, however near: a rating is never read up, a need never read down."""
    for side, outcome in (("down", down), ("up", up)):
        drawn = item(SOUND, (RELATIVE, f"tolerance = {{ {side} = 0.01 }}")).draw(1, "us", GIVENS)
        assert drawn.grade(typed).outcome == outcome, side


def test_a_right_sum_rounded_to_the_unsafe_side_is_told_so():
    drawn = item(SOUND, (RELATIVE, "tolerance = { down = 0.01 }")).draw(1, "us", GIVENS)
    verdict = drawn.grade("201")
    assert (verdict.outcome, verdict.mistake) == ("close", "rounded-past")
    assert "rounded down" in verdict.message and drawn.tell("close", "rounded-past") == verdict.message
    assert "rounded down" in drawn.wanted


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("item_id", ["units.rating-in-tonnes", "units.rating-in-kn"])
def test_no_key_of_a_rating_and_no_answer_called_right_stands_above_the_plate(bank, item_id, units):
    """The key is rounded down; 0.005 % is left to 9.807 in place of 9.80665."""
    for seed in range(200):
        drawn = bank[item_id].draw(seed, units)
        printed = float(drawn.key_text.split()[0].replace(",", ""))
        assert printed <= drawn.value * (1 + 1e-12)
        assert drawn.grade(f"{drawn.value * 1.0001:.6f}").outcome == "close"
        assert drawn.band[1] <= drawn.value * 1.00005000001


@pytest.mark.parametrize("value, down, up", [
    (358.251, "358.2", "358.3"), (325.0, "325", "325"), (324.99999999999994, "325", "325"),
    (325.00000000000006, "325", "325"), (44_592.2, "44,590", "44,600"), (0.017_763, "0.01776", "0.01777"),
])  # fmt: skip
def test_a_number_is_printed_down_or_up_and_float_noise_moves_nothing(value, down, up):
    assert (show(value, 4, "down"), show(value, 4, "up")) == (down, up)


@pytest.mark.parametrize("system, half", [("us", 0.5), ("metric", 2.0)])
def test_an_absolute_tolerance_may_differ_by_system(system, half):
    drawn = item(SOUND, (RELATIVE, ABSOLUTE)).draw(1, system)
    assert drawn.half_width == pytest.approx(half, rel=1e-12)


def test_an_absolute_tolerance_in_another_unit_is_the_same_width():
    drawn = item(SOUND, (RELATIVE, 'tolerance = { absolute = "500 lbf" }')).draw(1, "us", GIVENS)
    assert drawn.half_width == pytest.approx(0.5, rel=1e-12)


@pytest.mark.parametrize("typed, outcome", [
    ("16", "right"), ("16.0", "right"), ("16.", "right"), ("+16", "right"), ("1.6e1", "right"),
    ("15", "wrong"), ("17", "wrong"), ("16.001", "wrong"), ("16 ft", "other-dimension"),
])  # fmt: skip
def test_a_count_is_exact(counted, typed, outcome):
    assert counted.grade(typed).outcome == outcome


def test_an_exact_answer_survives_the_last_digit_of_a_float(counted):
    """0.1 + 0.2 is not 0.3 to a float; a hand must not pay for that."""
    third = dataclasses.replace(counted, value=0.1 + 0.2, unit="", half_width=0.0)
    assert third.grade("0.3").outcome == "right"


@pytest.mark.parametrize(
    "slip, outcome, named", [(201.0, "right", None), (204.0, "wrong", "near-by"), (206.5, "wrong", "near-by")]
)
def test_right_comes_first_then_a_known_mistake_then_close(question, slip, outcome, named):
    """A slip's own value is named as the slip although it lies in the close band, not where it is right."""
    asked = dataclasses.replace(question, mistakes=[Slip("near-by", "near by", slip, "You went near by.")])
    verdict = asked.grade(f"{slip}")
    assert (verdict.outcome, verdict.mistake) == (outcome, named)
    if named:
        assert verdict.message == "You went near by."


@pytest.mark.parametrize(
    "typed, mistake", [("800", "added"), ("808", "added"), ("792", "added"), ("808.01", None), ("791.99", None)]
)
def test_a_known_mistake_is_met_within_the_same_width(question, typed, mistake):
    verdict = question.grade(typed)
    assert (verdict.outcome, verdict.mistake) == ("wrong", mistake)


def test_a_wrong_answer_tells_the_mistake_and_a_close_one_what_to_tighten(question):
    assert question.grade("800").message == "You added what hangs there already."
    assert "to within 1 %" in question.grade("203").message
    assert question.grade("777").message


@pytest.mark.parametrize("typed, outcome, read_as", [
    ("200 klbf", "right", "200 klbf"),
    ("200 kip", "right", "200 klbf"),
    ("200,000 lbf", "right", "200,000 lbf"),
    ("200,000 lb", "right", "200,000 lb"),
    ("889.6 kN", "right", "889.6 kN"),
    ("100 st", "right", "100 st"),
    ("90.7 t", "right", "90.7 t"),
    ("90,718 kg", "right", "90,718 kg"),
    ("88.96 kdaN", "right", "88.96 kdaN"),
    ("200 kN", "wrong", "200 kN"),
    ("3,559 kN", "wrong", "3,559 kN"),
    ("906 kN", "close", "906 kN"),
    ("100 ton", "ask-back", ""),
    ("200 m", "other-dimension", ""),
    ("200 J", "other-dimension", ""),
    ("many", "unreadable", ""),
    ("", "unreadable", ""),
])  # fmt: skip
def test_an_answer_in_another_unit_is_graded_by_what_it_weighs(question, typed, outcome, read_as):
    verdict = question.grade(typed)
    assert (verdict.outcome, verdict.read_as) == (outcome, read_as)
    assert verdict.counted == (outcome in ("right", "close", "wrong"))
    assert verdict.message or outcome == "right"


@pytest.mark.parametrize("typed, comma, outcome", [
    # 44,600 is the answer
    ("44,600", False, "right"),
    ("44,600", True, "ask-back"),
    ("44.600", True, "right"),
    ("44.600", False, "ask-back"),
    ("44 600", False, "right"),
    ("44 600", True, "right"),
    ("45,500", True, "ask-back"),
    ("47,000", True, "wrong"),
    ("44.6", False, "wrong"),
    ("44,6", True, "wrong"),
    ("44.6", True, "ask-back"),
    ("44,6", False, "ask-back"),
    ("44.6 klbf", False, "right"),
    ("44,6 klbf", True, "right"),
])  # fmt: skip
def test_the_other_decimal_mark_is_asked_back_where_it_would_be_right_or_close(question, typed, comma, outcome):
    """Not a slip in the sum but in the mark. Where the other reading would be wrong too, the hand's own one counts."""
    pull = dataclasses.replace(question, unit="lbf", value=44_600.0, mistakes=[])
    assert pull.grade(typed, comma).outcome == outcome


def test_what_is_asked_back_shows_both_readings(question):
    pull = dataclasses.replace(question, unit="lbf", value=44_600.0, mistakes=[])
    verdict = pull.grade("44.600")
    assert "44.6 lbf" in verdict.message and "44,600 lbf" in verdict.message
    verdict = pull.grade("44,600", comma=True)
    assert "44,6 lbf" in verdict.message and in_comma("44,600 lbf") in verdict.message


def test_a_mark_slip_that_lands_on_a_known_mistake_is_asked_back_too(question):
    """'44.600' read as 44.6 is a known mistake here; but 44,600 would be right, so nothing is counted yet."""
    pull = dataclasses.replace(question, unit="lbf", value=44_600.0, mistakes=[Slip("lost", "lost", 44.6, "Lost.")])
    assert pull.grade("44.600").outcome == "ask-back"
    assert pull.grade("44.6").mistake == "lost"


def test_a_right_answer_is_never_asked_back(question):
    """200.000 is right as it stands, although 200,000 can be read too."""
    assert question.grade("200.000").outcome == "right"
    assert question.grade("200,000", comma=True).outcome == "right"


@pytest.mark.parametrize("typed, outcome", [
    ("7' 5\"", "right"),
    ("7 ft 5 in", "right"),
    ("7' 5 1/4\"", "right"),
    ("7’ 5¼”", "right"),
    ("7.43", "right"),
    ('89"', "right"),
    ("89 in", "right"),
    ("2.266 m", "right"),
    ("7' 7\"", "close"),
    ("7' 9\"", "wrong"),
    ("7' 13\"", "unreadable"),
    ("7' 5\" lb", "unreadable"),
])  # fmt: skip
def test_a_height_may_be_given_in_feet_and_inches(bank, typed, outcome):
    """40 J and 1.8 kg: 2.266 m, which is 7.434 ft or 7 ft 5.2 in."""
    asked = bank["safety.height-for-forty-joules"].draw(1, "us", {"energy": "40 J", "mass": "1.8 kg"})
    assert asked.unit == "ft" and asked.value == pytest.approx(7.4345, rel=1e-4)
    assert asked.grade(typed).outcome == outcome


def test_a_text_of_a_megabyte_is_unreadable(question):
    assert question.grade("1" * 1_000_000).outcome == "unreadable"


def test_a_question_kept_before_one_sided_bands_is_shown_and_graded_as_it_was(question):
    body = question.body()
    del body["side"]
    assert question_from_body(body) == question
