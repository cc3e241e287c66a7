"""What a drill shows at its end: times, powers of ten, and what came twice. Checked by hand."""

from datetime import UTC, datetime, timedelta

import pytest

from question_bank import load_bank
from webapp.study.drill import Asked, all_seconds, came_twice, quick_sizes, right_answers, right_sizes

BEGAN = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def bank():
    return load_bank()


def asked(bank, item, given, *, system="us", size_after=5, answer_after=30, **more):
    """A conversion of a given value, chosen and answered so many seconds after it was shown."""
    bank_item = bank[item]
    (name,) = bank_item.givens
    question = bank_item.draw(1, system, {name: given})
    times = {
        "shown_at": BEGAN,
        "chosen_at": BEGAN + timedelta(seconds=size_after),
        "answered_at": BEGAN + timedelta(seconds=answer_after),
    }
    return Asked(1, question, **{**times, **more})


def test_286_klbf_are_thousands_of_kn(bank):
    """286 × 4.448 = 1,272."""
    row = asked(bank, "units.hook-load-in-kn", "286 klbf", chosen=2)
    assert (row.right_size.power, row.right_size.text, row.size_is_right) == (3, "1,000 to 9,999 kN", False)
    assert asked(bank, "units.hook-load-in-kn", "286 klbf", chosen=3).size_is_right
    assert not asked(bank, "units.hook-load-in-kn", "286 klbf").size_is_right


def test_a_slip_out_of_the_right_size_could_have_been_seen(bank):
    """Dividing by 4.448 gives 64 kN: not in the thousands. A ton for a tonne: 500 for 454, the same hundreds."""
    seen = asked(bank, "units.hook-load-in-kn", "286 klbf", chosen=3, outcome="wrong", mistake="factor-upside-down")
    assert seen.estimate_told
    assert not asked(
        bank, "units.hook-load-in-kn", "286 klbf", chosen=2, outcome="wrong", mistake="factor-upside-down"
    ).estimate_told
    assert not asked(
        bank, "units.rating-in-tonnes", "500 st", chosen=2, outcome="wrong", mistake="same-number"
    ).estimate_told
    assert not asked(bank, "units.hook-load-in-kn", "286 klbf", chosen=3, outcome="wrong").estimate_told


@pytest.mark.parametrize(
    "item, given, system, way",
    [
        ("units.hook-load-in-kn", "286 klbf", "us", "from US to metric units"),
        ("units.hook-load-in-kn", "1,200 kN", "metric", "from metric to US units"),
        ("units.indicator-in-klbf", "85 kdaN", "us", "from metric to US units"),
        ("units.plate-as-indicator-shows", "350 st", "us", "within one system"),
        ("units.plate-as-indicator-shows", "315 t", "metric", "within one system"),
    ],
)
def test_which_way_a_conversion_goes(bank, item, given, system, way):
    assert asked(bank, item, given, system=system).way == way


def test_times_are_from_the_first_showing(bank):
    row = asked(bank, "units.hook-load-in-kn", "286 klbf", size_after=8, answer_after=41)
    assert (row.seconds_to_size, row.seconds) == (8, 41)
    late = asked(bank, "units.hook-load-in-kn", "286 klbf", answer_after=601)
    assert late.seconds is None and late.seconds_to_size == 5
    assert asked(bank, "units.hook-load-in-kn", "286 klbf", answered_at=None).seconds is None
    assert all_seconds([row, late]) == 41


def test_the_counts(bank):
    rows = [
        asked(bank, "units.hook-load-in-kn", "286 klbf", chosen=3, outcome="right", size_after=10),
        asked(bank, "units.hook-load-in-kn", "286 klbf", chosen=3, outcome="close", size_after=11),
        asked(bank, "units.hook-load-in-kn", "286 klbf", chosen=1, outcome="right", size_after=2),
        asked(bank, "units.hook-load-in-kn", "286 klbf", chosen=None, outcome=None),
    ]
    assert (right_answers(rows), right_sizes(rows), quick_sizes(rows)) == (2, 2, 1)


def test_what_came_twice_is_said_once(bank):
    upside = {"outcome": "wrong", "mistake": "factor-upside-down"}
    rows = [
        asked(bank, "units.hook-load-in-kn", "286 klbf", **upside),
        asked(bank, "units.power-in-kw", "1,500 hp", **upside),
        asked(bank, "units.rating-in-tonnes", "500 st", outcome="wrong", mistake="same-number"),
        asked(bank, "units.mast-height", "40 m", system="metric", outcome="wrong"),
        asked(bank, "units.mast-height", "142 ft", outcome="right"),
    ]
    assert came_twice(rows) == ["Factor upside down: twice.", "Missed three times from US to metric units."]
    assert came_twice(rows[3:]) == []


def test_sums_rounded_to_the_unsafe_side_say_nothing_of_the_way(bank):
    past = {"outcome": "close", "mistake": "rounded-past"}
    rows = [
        asked(bank, "units.rating-in-tonnes", "500 st", **past),
        asked(bank, "units.power-in-kw", "1,500 hp", **past),
        asked(bank, "units.mast-height", "142 ft", **past),
    ]
    assert came_twice(rows) == ["Rounded to the unsafe side: three times."]
    assert came_twice(rows[:1]) == []


def test_what_any_conversion_knows_counts_with_what_the_item_says(bank):
    """A number copied is told by the item of a string's weight, and of a pressure by no item."""
    copied = {"outcome": "wrong", "mistake": "number-copied"}
    rows = [
        asked(bank, "units.string-in-tonnes", "285 klbf", system="metric", **copied),
        asked(bank, "units.standpipe-in-bar", "3,000 psi", **copied),
    ]
    assert came_twice(rows)[0] == "Number copied: twice."
