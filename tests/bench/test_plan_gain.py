"""The bench of the plan on a few hands: its models against sums by hand, and that it measures what it says."""

import math
from dataclasses import replace
from datetime import timedelta

import pytest

from tests.bench.memory_models import FOREIGN, MODELS, Activation, ManyScales, TheirOwn, Windows
from tests.bench.plan_cost import ITEMS, TODAY, mid_course, nothing_rests, the_offers
from tests.bench.plan_gain import Bands, bars_of_bands, bars_of_model, interval, judged, quick_mark, study
from tests.bench.simulated_hand import FIRST_DAY, Study, hand_of, the_course
from tests.bench.study_orders import ORDERS, ByDueDate, ThePlan
from webapp.study.aim import Aim
from webapp.study.looking_ahead import kept
from webapp.study.planner import plan_today
from webapp.study.readiness import Mark
from webapp.study.rotation import every_day
from webapp.study.sitting import RESTS

SEEDS = range(71_000, 71_004)


def test_activation_by_hand():
    """One right answer on day 0, ease 0: 7 days at 0.025 are 15,120 s, and exp(−0.177 × 9.62378) is 0.18206.

    Before it was known to 0.0001: exp(−0.704 + 0.255 × −9.21024 − 1.2) = 0.01423. So the activity is
    1.2 + ln(0.19629) = −0.42817, and recall 1 / (1 + exp((−0.704 + 0.42817) / 0.255)) = 0.7468.
    """
    model = Activation([1e-4], [0.0], ["numeric"])
    model.answered(0, 0, True)
    assert model.recall(0, 7) == pytest.approx(0.7468, abs=1e-4)


def test_many_scales_by_hand():
    """One right answer: nothing was there, so each trace takes up 0.7, and has faded to exp(−30 / its scale)."""
    model = ManyScales([1e-4], [0.0], ["numeric"])
    model.answered(0, 0, True)
    weights = [0.8**n for n in range(8)]
    strength = sum(w * 0.7 * math.exp(-30 / (0.2 * 3**n)) for n, w in enumerate(weights)) / sum(weights)
    assert model.recall(0, 30) == pytest.approx(1 / (1 + math.exp(-(strength - 0.25) / 0.1)))


def test_windows_by_hand():
    """One right answer, at once: 4 windows of (0.35 + 0.45) ln 2 on log odds of ln(0.35 / 0.65): 2.21807 − 0.61904."""
    model = Windows([0.35], [0.0], ["numeric"])
    model.answered(0, 0, True)
    assert model.recall(0, 0) == pytest.approx(1 / (1 + math.exp(-1.59903)), abs=1e-5)


def test_the_plan_s_own_is_the_memory_of_the_course_with_a_spread():
    model = TheirOwn([0.3], [1.0], ["numeric"])
    model.answered(0, 0, True)
    assert model.recall(0, 10) == pytest.approx(kept(8.2956 * math.exp(0.4), 10), abs=1e-4)


@pytest.mark.parametrize("model_of", MODELS)
def test_every_model_fades_and_learns(model_of):
    """Recall falls with the days, and an answer raises it."""
    model = model_of([0.01], [0.0], ["numeric"])
    model.answered(0, 0, True)
    marks = [model.recall(0, day) for day in (1, 3, 10, 40)]
    assert marks == sorted(marks, reverse=True) and marks[0] > marks[-1] > 0
    before = model.recall(0, 60)
    model.answered(0, 40, True)
    assert model.recall(0, 60) > before


def test_a_hand_follows_from_the_seed_and_hands_differ():
    assert hand_of(71_000) == hand_of(71_000) != hand_of(71_001)
    assert sum(the_course()[2]) == pytest.approx(1)
    assert len(the_course()[0]) == 250


@pytest.mark.parametrize("model", FOREIGN)
def test_the_plan_gains_over_the_order_by_due_date(model):
    """Four hands: each ends with a better mark, in minutes that are no more than one item's apart a day."""
    for seed in SEEDS:
        hand = hand_of(seed)
        plan, due = study(hand, model, ThePlan), study(hand, model, ByDueDate)
        assert plan.mark > due.mark
        assert plan.minutes <= due.minutes + 3 * hand.days


def test_minutes_are_what_is_compared():
    """No order studies on a day missed, or over the minutes by more than one item."""
    hand = hand_of(71_000)
    for order_of in ORDERS:
        course, order = Study(hand, Windows), order_of(hand)
        longest = 2 * max(hand.seconds)
        for number in range(20):
            before = course.seconds_used
            course.day(number, order)
            allowed = 60 * hand.minutes(FIRST_DAY + timedelta(number))
            assert course.seconds_used - before <= (allowed + longest if allowed else 0)


def test_more_minutes_give_a_better_mark():
    hand = hand_of(71_001)
    rotation = replace(hand.rotation, minutes_on=60, minutes_off=60)
    for order_of in (ThePlan, ByDueDate):
        assert quick_mark(replace(hand, rotation=rotation), Windows, order_of) > quick_mark(hand, Windows, order_of)


def test_bands_are_counted():
    bands = Bands()
    bands.add("one", Mark(0.5, 0.4, 0.6), 0.55)
    bands.add("one", Mark(0.5, 0.4, 0.6), 0.65)
    assert bands.held["one"] == [True, False]
    assert bands.off["one"] == pytest.approx([-0.05, -0.15])


def test_a_bar_that_is_not_met_is_told(capsys):
    """Each bar on either side of its line."""
    good = {"by due date": (0.1, 0.05, 0.15), "weight per second": (0.0, -0.01, 0.01)}
    poor = {"by due date": (0.1, 0.0, 0.2), "weight per second": (0.0, -0.011, 0.01)}
    assert [met for _, met in bars_of_model("one", good, -0.05)] == [True, True, True]
    assert [met for _, met in bars_of_model("one", poor, -0.051)] == [False, False, False]
    bands = {model.name: Bands() for model in FOREIGN}
    for number in range(20):
        for each in bands.values():
            each.add("often", Mark(0.5, 0.4, 0.6), 0.5 if number else 0.7)
            each.add("always", Mark(0.5, 0.4, 0.6), 0.5)
            each.add("seldom", Mark(0.5, 0.4, 0.6), 0.5 if number % 2 else 0.7)
    assert [met for _, met in bars_of_bands(bands)] == [True, False, False]
    assert judged([("a", True), ("b", False)]) == 1
    assert judged([("a", True)]) == 0
    assert "NOT MET b" in capsys.readouterr().out


def test_the_interval_by_hand():
    """1, 2, 3: mean 2, standard deviation 1, half width 1.96 / sqrt 3 = 1.13161."""
    assert interval([1.0, 2.0, 3.0]) == pytest.approx((2, 0.86839, 3.13161), abs=1e-5)


def test_the_cost_is_measured_where_it_is_said_to_be():
    """Four hundred items; where nothing rests, nothing does."""
    offers = the_offers()
    assert len(offers) == ITEMS == 400
    aim, read = Aim(every_day(15)), {each.lesson for each in offers}
    worst = plan_today(offers, nothing_rests(offers), read, aim, TODAY)
    assert RESTS not in worst.left_out.values()
    assert len(mid_course(offers)) == 200
