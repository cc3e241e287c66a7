"""The mark to expect: worked by hand on small courses, and its bounds."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.webapp.study.situations import TODAY, situations, told
from webapp.study.aim import Aim
from webapp.study.memory import State, recall
from webapp.study.readiness import banded, readiness, shift_of, shifted, spread_ahead
from webapp.study.rotation import every_day
from webapp.study.worth import Offer, Section

UNITS, KELLY, CARDS = Section("units", "numeric"), Section("kelly", "choice"), Section("kelly", "card")
OFFERS = [
    Offer("a", "units/1", UNITS, 60.0),
    Offer("b", "units/1", UNITS, 60.0),
    Offer("c", "kelly/1", KELLY, 60.0),
    Offer("d", "kelly/1", CARDS, 60.0),
]
EXAM = TODAY + timedelta(20)
records = st.lists(st.tuples(st.floats(0.05, 0.99), st.booleans()), max_size=250)


def test_the_mark_weighs_what_the_exam_weighs():
    """By hand: a and b weigh 1 each, c weighs 2, the card nothing. a is told by r, b and c are unseen, 0.3 and 0.6.

    (r + 0.3 + 2 × 0.6) / 4; units (r + 0.3) / 2; kelly 0.6, of its choice alone.
    """
    memory = {"a": State(10.0, 5.0, TODAY - timedelta(4)), "d": State(0.1, 5.0, date(2026, 1, 1))}
    r = told(recall(memory["a"], EXAM))
    aim = Aim(every_day(15), EXAM, {UNITS: 1.0, KELLY: 2.0}, {"numeric": 0.3, "choice": 0.6, "card": 0.0})
    found = readiness(OFFERS, memory, aim, TODAY)
    assert found.mark.about == pytest.approx((r + 0.3 + 1.2) / 4)
    assert found.modules == pytest.approx({"units": (r + 0.3) / 2, "kelly": 0.6})
    assert found.kinds == pytest.approx({"numeric": (r + 0.3) / 2, "choice": 0.6})
    assert set(found.sections) == {UNITS, KELLY}
    assert found.mark.low < found.mark.about < found.mark.high


def test_without_an_exam_all_weigh_the_same_on_a_day_a_month_ahead():
    memory = {each.item: State(10.0, 5.0, TODAY - timedelta(4)) for each in OFFERS}
    found = readiness(OFFERS, memory, Aim(every_day(15)), TODAY)
    assert found.mark.about == pytest.approx(told(recall(memory["a"], TODAY + timedelta(30))))


def test_recall_is_told_lower_than_memory_has_it_and_a_guess_at_first_sight_is_not():
    """By hand: e to the −0.2 is 0.818731. Of 0.9, odds 9, 7.36858 is left: 0.880505. Of 0.5 there is 0.450166."""
    assert (told(0.9), told(0.5)) == pytest.approx((0.880505, 0.450166), abs=1e-6)
    aim = Aim(every_day(15), EXAM, first={"numeric": 0.9, "choice": 0.9, "card": 0.9})
    assert readiness(OFFERS, {}, aim, TODAY).mark.about == pytest.approx(0.9)
    ninety = {each.item: State(20.0, 5.0, TODAY) for each in OFFERS}
    assert readiness(OFFERS, ninety, aim, TODAY).mark.about == pytest.approx(0.880505, abs=1e-6)


def test_the_band_is_wider_while_more_is_unseen():
    memory = {each.item: State(30.0, 5.0, TODAY - timedelta(4)) for each in OFFERS}
    aim = Aim(every_day(15), EXAM, first={"numeric": 0.5, "choice": 0.5, "card": 0.5})
    widths = [
        found.mark.high - found.mark.low
        for seen in range(5)
        for found in [readiness(OFFERS, dict(list(memory.items())[:seen]), aim, TODAY)]
    ]
    assert widths == sorted(widths, reverse=True)
    assert widths[0] > 1.5 * widths[-1]


def test_a_record_just_as_foretold_shifts_nothing():
    """Of 100 answers foretold at 0.8, eighty came right."""
    assert shift_of([(0.8, number < 80) for number in range(100)]) == pytest.approx(0, abs=1e-9)
    assert shift_of([]) == 0


def test_a_record_shifts_by_the_likeliest_odds_against_fifty_as_foretold():
    """By hand: foretold 0.5, and 150 of 150 right. At the shift found, 150 (1 − p) is 50 × 0.25 × shift."""
    shift = shift_of([(0.5, True)] * 150)
    assert 150 * (1 - shifted(0.5, shift)) == pytest.approx(50 * 0.25 * shift)
    assert 1.5 < shift < 4


def test_only_the_latest_two_hundred_count():
    old = [(0.5, False)] * 500
    new = [(0.7, number % 10 < 7) for number in range(200)]
    assert shift_of(old + new) == shift_of(new) == pytest.approx(0, abs=1e-9)


@given(records)
def test_a_shift_goes_the_way_of_the_record_and_not_past_what_it_says(record):
    """Between nothing and what would make the mean foretold the mean that came."""
    shift, latest = shift_of(record), record[-200:]
    came = sum(right for _, right in latest)
    foretold = sum(chance for chance, _ in latest)
    after = sum(shifted(chance, shift) for chance, _ in latest)
    assert min(foretold, came) - 1e-6 <= after <= max(foretold, came) + 1e-6


@given(situations(), records)
def test_marks_are_shares_and_the_band_holds_the_middle(situation, record):
    found = readiness(situation.offers, situation.memory, situation.aim, TODAY, record)
    assert 0 <= found.mark.low <= found.mark.about <= found.mark.high <= 1 + 1e-12
    for means in (found.modules, found.kinds, found.sections):
        assert all(0 <= each <= 1 + 1e-12 for each in means.values())


def test_the_spread_of_what_is_foretold():
    """By hand: 0.03 at hand, sqrt(0.0009 + 0.01) = 0.104403 over the whole time, sqrt(0.0009 + 0.0025) half way on."""
    assert spread_ahead(0) == pytest.approx(0.03)
    assert spread_ahead(1) == pytest.approx(0.104403, abs=1e-6)
    assert spread_ahead(0.25) == pytest.approx(0.058310, abs=1e-6)
    mark = banded(0.7, 0.1)
    assert (mark.low, mark.high) == pytest.approx((0.5355, 0.8645))
    assert banded(0.99, 0.1).high == 1.0
