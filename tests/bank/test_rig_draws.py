"""Items drawn with a rig's own numbers: they stand in the question, and an item that can't take them says why."""

import dataclasses

import pytest

from question_bank.check import check_item, check_question
from question_bank.kinds.numeric_item import NumericItem
from question_bank.rig_draws import check_draws, draw_with_sheet, is_fit, labels_taken, taken, takes, trouble
from tests.bank.rigs import SEVEN, TWELVE, TWELVE_OLD


@pytest.fixture(scope="module")
def found(bank):
    """What the check of both rigs gives."""
    return {"seven": check_draws(bank.values(), SEVEN), "twelve": check_draws(bank.values(), TWELVE)}


def refused(found):
    return {name: each for name, each in found.items() if each["us"] or each["metric"]}


def test_most_items_take_the_numbers_of_the_invented_rigs(found):
    for rig in ("seven", "twelve"):
        assert len(found[rig]) > 60
        assert len(refused(found[rig])) <= 6


def test_who_can_not_take_them_says_why_in_a_sentence(found):
    for each in (*refused(found["seven"]).values(), *refused(found["twelve"]).values()):
        for told in filter(None, (each["us"], each["metric"])):
            assert told[0].isupper() and told.endswith(".") and "seed" not in told and "None" not in told
    # 300 klbf of setback and 500 klbf of rotary: a string and racked pipe that the item draws pass 800 klbf together.
    assert "The answer comes to −" in found["seven"]["masts.rotary-and-setback"]["us"]
    # With an elevator so much weaker than the rest, forgetting the rest leads to the same answer.
    assert "a common mistake gives nearly the right answer" in found["twelve"]["units.mast-or-elevator"]["us"]


@pytest.mark.parametrize("rig", [SEVEN, TWELVE], ids=["seven", "twelve"])
@pytest.mark.parametrize("system", ["us", "metric"])
def test_other_draws_than_those_that_were_checked_are_well_too(bank, found, rig, system):
    known = found["seven" if rig is SEVEN else "twelve"]
    for name, each in known.items():
        if each[system] is None:
            question = draw_with_sheet(bank[name], 7_001, system, rig)
            check_question(bank[name], question)


# Worked by hand. 314.91 klbf on 12 lines: 314,910 / (12 × 0.782) = 33,558 lbf. On 10 lines of Rig 7:
# 185,840 / (10 × 0.811) = 22,915 lbf. The line of 12 at a factor of 3: 192,000 × 12 × 0.782 / 3 = 600,576 lbf.
def test_the_pull_in_the_fast_line_of_both_rigs(bank):
    item = bank["loads.fast-line-pull"]
    assert draw_with_sheet(item, 1, "us", TWELVE).value == pytest.approx(33_558, rel=1e-3)
    assert draw_with_sheet(item, 1, "us", SEVEN).value == pytest.approx(22_915, rel=1e-3)
    assert draw_with_sheet(item, 1, "metric", TWELVE).value == pytest.approx(33_558 * 4.4482216e-3, rel=1e-3)


def test_the_hook_load_that_the_line_of_twelve_allows(bank):
    item = bank["loads.hook-load-the-line-allows"]
    values = {taken(item, TWELVE)["lines"], taken(item, TWELVE)["nominal_strength"]}
    assert values == {"12", "192000 lbf"}
    for seed in range(30):
        question = draw_with_sheet(item, seed, "us", TWELVE)
        if dict(question.givens)["design factor to keep"] == "3":
            # 600,576 lbf by hand, as the item prints it: rounded down.
            assert question.value == pytest.approx(600.576 if question.unit == "klbf" else 600_576, rel=1e-3)
            return
    pytest.fail("No draw of 30 kept a factor of 3.")


def test_the_old_sheet_of_twelve_leads_to_another_answer(bank):
    """Its travelling weight is 5,250 lb short, so the string would seem that much heavier."""
    item = bank["units.string-under-block"]
    new, old = (draw_with_sheet(item, 3, "us", sheet) for sheet in (TWELVE, TWELVE_OLD))
    factor = 1000 if new.unit == "klbf" else 1
    assert (old.value - new.value) * factor == pytest.approx(5_250, rel=1e-6)


def test_a_value_stands_in_its_own_unit_and_in_the_hands(bank):
    us, metric = (draw_with_sheet(bank["loads.fast-line-pull"], 1, system, TWELVE) for system in ("us", "metric"))
    assert "314.91 klbf (1,401 kN)" in us.stem and "1,401 kN (314.91 klbf)" in metric.stem


def test_an_item_that_shows_a_number_alone_shows_both_units_of_a_foreign_one(bank):
    """Drawn, its bore stands alone in the hand's unit; a sheet in inches is no help to a hand who reads millimetres."""
    question = draw_with_sheet(bank["pipe.mud-inside-the-pipe"], 1, "metric", TWELVE)
    assert "108.6 mm (4.276 in)" in question.stem


def test_a_change_of_units_takes_nothing(bank):
    conversions = [each for each in bank.values() if isinstance(each, NumericItem) and each.is_conversion]
    assert conversions and all(takes(each) == {} for each in conversions)


def test_a_wrong_line_takes_what_its_sum_takes(bank):
    of = [each for each in bank.values() if each.kind == "find-the-wrong-line" and takes(each)]
    assert of
    question = draw_with_sheet(bank["top-drive.pipe-given-up-gone-wrong"], 4, "metric", TWELVE)
    assert "(12 lb/gal)" in question.task


def test_lines_that_a_table_has_no_row_for_are_told(bank):
    told = trouble(bank["loads.fast-line-pull"], "us", TWELVE | {"lines_strung": "16"})
    assert told == "Efficiency: its table has no row for lines = 16."


def test_a_value_outside_the_range_of_a_formula_is_told(bank):
    held = trouble(bank["hoisting.drum-turning"], "us", {"line_size": "9 in"})
    assert held is not None and held.startswith("Its formula holds for") and "The sheet has 9 in." in held


def test_what_was_found_counts_until_the_item_changes(bank):
    item = bank["loads.fast-line-pull"]
    said = {item.id: {"hash": item.text_hash, "us": "It was told so.", "metric": None}}
    assert not is_fit(item, "us", TWELVE, said) and is_fit(item, "metric", TWELVE, said)
    stale = {item.id: said[item.id] | {"hash": "0" * 16}}
    assert is_fit(item, "us", TWELVE, stale), "An item that was changed since is checked anew."
    assert is_fit(item, "us", TWELVE, {}), "So is one that is new."
    assert not is_fit(bank["units.string-in-tonnes"], "us", TWELVE, {})


def test_the_labels_of_what_was_taken(bank):
    assert labels_taken(bank["loads.fast-line-pull"], "us", TWELVE) == ["hook load", "lines strung"]


def test_the_check_of_the_bank_tells_a_key_that_no_sheet_has(bank):
    item = bank["units.string-under-block"]
    wrong = {name: dataclasses.replace(each, rig=each.rig and "hook_lode") for name, each in item.givens.items()}
    kept, item.givens = item.givens, wrong
    try:
        [fault] = list(check_item(item, 1))
    finally:
        item.givens = kept
    assert "a rig sheet has no load called 'hook_lode'" in str(fault)
