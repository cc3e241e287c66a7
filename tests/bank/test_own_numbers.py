"""A hand's own numbers: every item in any units, ranges, and what is no such quantity."""

import random

import pytest

from question_bank import load_bank
from question_bank.kinds.own_numbers import NumbersError, ranges
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
        (UNDER_BLOCK, {"hook_load": "-5 lb"}, "hook_load", "Hook load can’t be below 0. You wrote −5 lb."),
        (UNDER_BLOCK, {"hook_load": "0"}, "hook_load", "can’t be 0"),
        (UNDER_BLOCK, {"hook_load": "300 ft"}, "hook_load", "You gave a length"),
        (UNDER_BLOCK, {"hook_load": "300 ton"}, "hook_load", "Which ton?"),
        (UNDER_BLOCK, {"hook_load": "315k"}, "hook_load", "is a thousand, but of what?"),
        (UNDER_BLOCK, {"hook_load": ""}, "hook_load", "Nothing was typed."),
        (DROP, {"height": "−3 m"}, "height", "Height can’t be below 0"),
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
