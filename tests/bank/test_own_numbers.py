"""A hand's own numbers: every item in any units, ranges, and what is no such quantity."""

import random

import pytest

from question_bank import load_bank
from question_bank.kinds.hold_range import ranges
from question_bank.kinds.own_numbers import NumbersError
from question_bank.numbers import in_comma
from question_bank.units import register
from tests.bank.pencil import pencil

BANK = load_bank()
SUMS = [each.id for each in BANK.values() if each.kind == "numeric" and not each.is_conversion]
UNDER_BLOCK = "units.string-under-block"
DROP = "safety.drop-energy"


def in_any_units(item, question, picker):
    """The drawn numbers of a question, each in a unit that is picked. The pencil reads no unit of two words."""
    texts = {}
    for (_, shown), (name, given) in zip(question.givens, item.givens.items(), strict=True):
        number, _, symbol = shown.partition(" (")[0].partition(" ")
        units = register(given.register).units
        other = picker.choice([each for each in units.values() if " " not in each.symbol])
        value = float(number.replace(",", "")) * units[symbol].factor / other.factor
        texts[name] = f"{value:.12g} {other.symbol}".strip()
    return texts


@pytest.mark.parametrize("system", ["us", "metric"])
@pytest.mark.parametrize("item_id", SUMS)
def test_every_line_can_be_followed_with_a_pencil_whatever_units_were_typed(item_id, system):
    """The givens of 20 draws, each in units picked at random: the same answer, and no line that mixes units."""
    item, picker = BANK[item_id], random.Random(item_id)
    for seed in range(20):
        question = item.draw(seed, system)
        work = item.work(in_any_units(item, question, picker), system)
        assert work.value == pytest.approx(question.value, rel=1e-9, abs=1e-9)
        for lines in work.workings.values():
            for line in lines:
                result = pencil(line.result)
                allowed = max(0.01 * abs(result), question.half_width if not question.relative else 0, 1e-9)
                assert abs(pencil(line.put_in) - result) <= allowed, line


@pytest.mark.parametrize("item_id", SUMS)
def test_both_systems_are_worked_and_agree(item_id):
    item = BANK[item_id]
    question = item.draw(3, "us")
    texts = in_any_units(item, question, random.Random(3))
    us, metric = item.work(texts, "us"), item.work(texts, "metric")
    assert us.answers == metric.answers and us.workings == metric.workings
    assert us.workings["us"][-1].result == us.answers["us"]
    factors = [item.units[system].factor for system in ("us", "metric")]
    assert us.value * factors[0] == pytest.approx(metric.value * factors[1], rel=1e-12, abs=1e-12)


@pytest.mark.parametrize("item_id", SUMS)
def test_what_a_draw_gives_is_inside_the_ranges_mostly(item_id):
    """A formula's range is for rigs, and so are the draws: a range that is read for the wrong given would show here."""
    item = BANK[item_id]
    outside = [
        each.name
        for seed in range(20)
        for each in item.work(in_any_units(item, item.draw(seed, "us"), random.Random(seed)), "us").numbers
        if each.outside
    ]
    assert len(outside) <= 4, outside


def test_the_range_is_that_of_the_formula_in_the_unit_that_was_typed():
    """string_under_block holds for hook loads of 50 to 1,500 klbf: in kN 222 and 6,670 by hand (× 4.44822)."""
    item = BANK[UNDER_BLOCK]
    work = item.work({"hook_load": "1,400 kN", "travelling_weight": "20 t"}, "us")
    assert [each.range for each in work.numbers] == ["222 to 6,670 kN", "2.27 to 45.4 t"]
    assert not any(each.outside for each in work.numbers) and work.warnings == ()


def test_outside_the_range_is_worked_and_said():
    work = BANK[UNDER_BLOCK].work({"hook_load": "9,000 kN", "travelling_weight": "20 t"}, "metric")
    assert [each.outside for each in work.numbers] == [True, False]
    assert work.answers["metric"] == "8,804 kN"  # 9,000 − 20 × 9.80665 = 8,803.9 by hand


def test_an_answer_below_zero_is_warned_of():
    work = BANK[UNDER_BLOCK].work({"hook_load": "60 klbf", "travelling_weight": "90 klbf"}, "us")
    assert work.answers["us"] == "−30 klbf"
    assert any("below zero" in text for text in work.warnings)


def test_a_name_said_again_in_another_unit_is_held_to_the_same_range():
    """Steps that only say a given in another unit are seen through."""
    for item_id in SUMS:
        names = set(BANK[item_id].givens) | {step.name for step in BANK[item_id].steps}
        assert set(ranges(BANK[item_id])) <= names


@pytest.mark.parametrize(
    ("item_id", "texts", "name", "told"),
    [
        (UNDER_BLOCK, {"hook_load": "-5 lb"}, "hook_load", "This can’t be below 0. You wrote −5 lb."),
        (UNDER_BLOCK, {"hook_load": "0"}, "hook_load", "can’t be 0"),
        (UNDER_BLOCK, {"hook_load": "300 ft"}, "hook_load", "You gave a length"),
        (UNDER_BLOCK, {"hook_load": "300 ton"}, "hook_load", "Which ton?"),
        (UNDER_BLOCK, {"hook_load": "315k"}, "hook_load", "is a thousand, but of what?"),
        (UNDER_BLOCK, {"hook_load": ""}, "hook_load", "Nothing was typed."),
        (DROP, {"height": "−3 m"}, "height", "This can’t be below 0. You wrote −3 m."),
    ],
)
def test_what_is_no_such_quantity_is_told_beside_its_number(item_id, texts, name, told):
    right = {
        UNDER_BLOCK: {"hook_load": "300 klbf", "travelling_weight": "40 klbf"},
        DROP: {"mass": "2 kg", "height": "9 m"},
    }
    with pytest.raises(NumbersError) as caught:
        BANK[item_id].work({**right[item_id], **texts})
    assert set(caught.value.problems) == {name} and told in caught.value.problems[name]


ANCHOR = "drilling-line.dead-line-pull-still"
DRUM = "loads.drum-power"


@pytest.mark.parametrize(
    ("item_id", "texts", "name", "told"),
    [
        (ANCHOR, {"lines": "7.5"}, "lines", "Write a whole number: this is counted. You wrote 7.5."),
        (ANCHOR, {"lines": "7"}, "lines", "Write an even number"),
        (ANCHOR, {"lines": "8 ft"}, "lines", "You gave a length"),
        (DRUM, {"lines": "9"}, "lines", "Write an even number"),
        (DRUM, {"efficiency": "84"}, "efficiency", "This is 1 at most, which is 100 %. You wrote 84."),
        (DRUM, {"lines": "18"}, "lines", "The formula holds for 2 to 16. You wrote 18."),
        (DRUM, {"lines": "1e9"}, "lines", "The formula holds for 2 to 16. You wrote 1,000,000,000."),
        (DRUM, {"lines": "18", "efficiency": "84"}, "efficiency", "This is 1 at most"),
    ],
)
def test_counts_and_shares_that_can_not_be(item_id, texts, name, told):
    right = {
        ANCHOR: {"hook_load": "300 klbf", "lines": "8"},
        DRUM: {"hook_load": "300 klbf", "block_speed": "100 ft/min", "lines": "8"},
    }
    with pytest.raises(NumbersError) as caught:
        BANK[item_id].work({**right[item_id], **texts})
    assert set(caught.value.problems) == {name} and told in caught.value.problems[name]


def test_what_a_table_has_is_looked_up_and_said():
    """K = 1.04: 0.842 on 8 lines by the sheave-factor formula of API RP 9B; 300,000 × 100 / 33,000 / 0.842 by hand."""
    work = BANK[DRUM].work({"hook_load": "300 klbf", "block_speed": "100 ft/min", "lines": "8"})
    assert [each.drawn.text for each in work.numbers if each.looked_up] == ["0.842"]
    assert work.value == pytest.approx(1079.7, abs=0.05)
    typed = BANK[DRUM].work({"hook_load": "300 klbf", "block_speed": "100 ft/min", "lines": "8", "efficiency": "80 %"})
    assert typed.value == pytest.approx(1136.4, abs=0.05)


def test_lines_that_the_table_has_not_are_looked_up_in_the_same_way():
    """0.874 on 6 lines and 0.755 on 14: published in API RP 9B's table for roller bearings (from memory) and by hand,
    (1.04^6 − 1) / (6 × 1.04^6 × 0.04) = 0.265319 / 0.303677."""
    for lines, efficiency in (("6", "0.874"), ("14", "0.755")):
        texts = {"nominal_strength": "103 klbf", "hook_load": "300 klbf", "lines": lines}
        numbers = BANK["loads.design-factor-of-the-line"].work(texts).numbers
        assert [each.drawn.text for each in numbers if each.looked_up] == [efficiency]


def test_a_result_on_the_way_that_leaves_the_next_range_is_said():
    """3,000 ft/min of block on 8 lines runs the fast line at 24,000 ft/min; hook_power is for 5,000 at most."""
    work = BANK[DRUM].work({"hook_load": "300 klbf", "block_speed": "3,000 ft/min", "lines": "8"})
    assert any("comes to 24,000 ft/min" in text and "holds for 5 to 5,000 ft/min" in text for text in work.warnings)


@pytest.mark.parametrize("item_id", SUMS)
def test_what_the_course_draws_is_not_warned_of_on_the_way(item_id):
    for seed in range(20):
        question = BANK[item_id].draw(seed, "metric")
        work = BANK[item_id].work(in_any_units(BANK[item_id], question, random.Random(seed)), "metric")
        assert [text for text in work.warnings if text.startswith("On the way")] == []


def test_every_number_that_is_amiss_is_told_at_once_as_the_hand_writes():
    with pytest.raises(NumbersError) as caught:
        BANK[UNDER_BLOCK].work({"hook_load": "-1,5 kN", "travelling_weight": "much"}, "metric", comma=True)
    assert set(caught.value.problems) == {"hook_load", "travelling_weight"}
    assert "−1,5 kN" in caught.value.problems["hook_load"]


@pytest.mark.parametrize("item_id", SUMS)
@pytest.mark.parametrize("text", ["-5", "0", "1e15", "1e-12", "7.5", "7", "nan", "1e400", "½", "x" * 70])
def test_no_text_makes_a_silly_answer_or_an_error_of_ours(item_id, text):
    """Each given in turn: a refusal with sentences, no answer for lack of one, or a working that prints."""
    item = BANK[item_id]
    question = item.draw(1, "us")
    right = in_any_units(item, question, random.Random(1))
    for name in item.givens:
        try:
            work = item.work({**right, name: text}, "us")
        except ValueError as error:
            assert str(error)
            continue
        assert text not in ("-5", "nan", "1e400", "x" * 70) or item.givens[name].grids["us"].ends[0] < 0
        assert all(in_comma(line.result) for line in work.working)
