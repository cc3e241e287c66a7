"""Which ten conversions a drill asks."""

import re

import pytest

from question_bank.conversions import HOW_MANY, table, ten
from question_bank.numbers import in_comma
from question_bank.reading import has_no_unit

DRILLS = range(300)


@pytest.fixture(scope="module")
def drills(bank):
    return [ten(bank, seed) for seed in DRILLS]


def shown_units(bank, item_id, system):
    """The two units as a drawn question shows them."""
    question = bank[item_id].draw(1, system)
    return frozenset({question.unit, question.givens[0][1].split(" ", 1)[1]})


def test_the_table_holds_pure_conversions_of_one_given(bank):
    rows = table(bank)
    assert len(rows) >= 20
    for item in rows:
        assert len(item.givens) == 1 and item.draw(1).conversion
    assert "units.string-under-block" not in {item.id for item in rows}


def test_a_drill_has_ten_and_no_two_between_the_same_units(bank, drills):
    for drill in drills:
        assert len(drill) == HOW_MANY == len({item for item, _ in drill})
        assert len({shown_units(bank, *way) for way in drill}) == HOW_MANY


def test_six_of_ten_at_least_are_ratings_and_loads_and_never_all(bank, drills):
    for drill in drills:
        assert 6 <= sum(bank[item].register == "load" for item, _ in drill) < HOW_MANY


def test_every_conversion_comes_both_ways_sooner_or_later(bank, drills):
    ways = {way for drill in drills for way in drill}
    assert ways == {(item.id, system) for item in table(bank) for system in ("us", "metric")}


def test_a_drill_is_the_same_for_the_same_seed_and_another_for_another(bank, drills):
    assert ten(bank, 5) == drills[5]
    assert len({tuple(drill) for drill in drills}) == len(drills)


def asked(bank, item_id, given):
    """That conversion of a given number, in the system that its unit is drawn in."""
    item = bank[item_id]
    ((name, grids),) = item.givens.items()
    symbol = given.split(" ")[1]
    system = next(system for system in ("us", "metric") if grids.own_unit(system).symbol == symbol)
    return item.draw(1, system, {name: given})


@pytest.mark.parametrize("item_id, given, key, past", [
    # 920 / 0.7456999 = 1,233.74; 1,480 / 0.7456999 = 1,984.71. A rating is never read up.
    ("units.power-in-kw", "920 kW", "1,233 hp", "1,234 hp"),
    ("units.power-in-kw", "1,480 kW", "1,984 hp", "1,985 hp"),
    # 142 × 2.2046226 = 313.056: what the hook must hold is never read down.
    ("units.string-in-tonnes", "142 t", "313.1 klbf", "313 klbf"),
    # 46.5 / 0.3048 = 152.559: there is no more room than there is.
    ("units.mast-height", "46.5 m", "152.5 ft", "152.6 ft"),
])  # fmt: skip
def test_a_rating_and_room_round_down_and_a_load_to_be_held_up(bank, item_id, given, key, past):
    """By hand, from NIST SP 811, Appendix B."""
    question = asked(bank, item_id, given)
    assert question.key_text == key and question.grade(key).outcome == "right"
    assert (question.grade(past).outcome, question.grade(past).mistake) == ("close", "rounded-past")


def test_a_conversion_that_is_rounded_to_one_side_says_so_in_its_stem(bank):
    sided = [item for item in table(bank) if item.tolerance.side != "either"]
    assert len(sided) >= 9
    for item in sided:
        assert re.search(rf"\b[Rr]ound(ed)? {item.tolerance.side}\.", item.stem), item.id


@pytest.mark.parametrize("item_id, given, typed, mistake", [
    ("units.plate-as-indicator-shows", "350 st", "175 klbf", "factor-upside-down"),    # 350 / 2
    ("units.plate-as-indicator-shows", "315 t", "3,150 kN", "ten-for-a-tonne"),        # 315 × 10
    ("units.winch-pull", "10,200 lbf", "4,627 daN", "kgf-for-dan"),                    # 10,200 × 0.45359237
    ("units.indicator-in-klbf", "85 kdaN", "187.4 klbf", "tonne-for-kdan"),            # 85 × 2.2046226
    ("units.string-in-tonnes", "285 klbf", "285 t", "number-copied"),
    ("units.hook-load-in-kn", "286 klbf", "286 kN", "number-copied"),
    ("units.torque-in-kn-m", "26,000 ft·lbf", "26 kN·m", "thousands-copied"),
    ("units.limit-on-lifting-gear", "8.5 t", "3,855 lb", "factor-upside-down-in-thousands"),        # 8,500 / 2.2046226
    ("units.mast-height", "142 ft", "432.8 m", "ten-times-too-large"),                 # 142 × 3.048
    ("units.standpipe-in-bar", "3,000 psi", "3,000 bar", "number-copied"),
    ("units.mud-in-kg-per-m3", "12 lb/gal", "0.1001 kg/m³", "factor-upside-down"),     # 12 / 119.8264
    ("units.hook-load-in-kn", "286 klbf", "1,272,000 kN", "a-thousand-times-too-large"),
])  # fmt: skip
def test_a_known_wrong_way_is_named(bank, item_id, given, typed, mistake):
    """Each typed number by hand, from NIST SP 811, Appendix B."""
    question = asked(bank, item_id, given)
    verdict = question.grade(typed)
    assert (verdict.outcome, verdict.mistake) == ("wrong", mistake)
    assert question.slip(mistake).title and question.tell("wrong", mistake) == verdict.message


def test_every_conversion_names_a_copied_number_a_factor_upside_down_and_ten_times(bank):
    """By the item's own word where it has one; never what lies within four tolerances of the key.

    What is more than a thousand times off is no sum that a hand writes: there an item says upside down of thousands.
    """
    for item in table(bank):
        for system in ("us", "metric"):
            for seed in range(20):
                question = item.draw(seed, system)
                given = float(question.givens[0][1].split(" ")[0].replace(",", ""))
                for wrong in (given, given**2 / question.value, question.value * 10, question.value / 10):
                    apart = abs(wrong - question.value) >= 4 * question.half_width * question.value
                    if apart and 1e-3 <= wrong / question.value <= 1e3:
                        verdict = question.grade(f"{wrong:.12g}")
                        assert verdict.outcome == "wrong" and verdict.mistake, f"{item.id} {system} {seed}: {wrong}"
                        assert question.slip(verdict.mistake).tell == verdict.message


def test_what_needs_two_numbers_is_no_conversion_and_names_no_number_copied(bank):
    question = bank["units.string-under-block"].draw(1, "us")
    assert question.slip("number-copied") is None
    assert question.grade(f"{question.value * 10:.9g}").mistake is None


@pytest.mark.parametrize("typed, comma, doubtful", [
    # 1,480 kW are 1,984 hp
    ("1,984", True, True), ("2,100", True, True), ("1,480", True, True), ("1.984", False, True), ("2.100", False, True),
    ("1,984", False, False), ("2 100", True, False), ("1,98", True, False), ("30,000", True, False),
    ("0.0007", False, False), ("many", False, False), ("1,984 m", True, False),
])  # fmt: skip
def test_the_other_mark_is_asked_of_right_and_wrong_numbers_alike(bank, typed, comma, doubtful):
    """Far off as read, and not far the other way: 30,000 is more than ten times 1,984 and 30 less than a tenth."""
    doubt = asked(bank, "units.power-in-kw", "1,480 kW").doubt(typed, comma)
    assert bool(doubt) == doubtful
    if doubt:
        other = typed if comma else in_comma(typed.replace(".", ","))
        assert doubt.outcome == "ask-back" and (in_comma(other) if comma else typed.replace(".", ",")) in doubt.message


@pytest.mark.parametrize("typed, comma, bare", [
    ("485.6", False, True), ("485,6", True, True), ("1,234", False, True), ("1 1/2", False, True), ("-3", False, True),
    ("485.6 kN", False, False), ("30' 6", False, False), ("30'", False, False), ("many", False, False),
    ("", False, False), ("485,6", False, False), ("5 x", False, False), ("1" * 1_000_000, False, True),
])  # fmt: skip
def test_a_number_alone_has_no_unit(typed, comma, bare):
    assert has_no_unit(typed, comma) == bare


def test_the_factor_of_a_working_has_its_unit(bank):
    equation = asked(bank, "units.plate-as-indicator-shows", "350 st").working[-1].equation
    assert equation == "klbf = st × 2 klbf per st"
    assert asked(bank, "units.mast-height", "46.5 m").working[-1].equation == "ft = m × 3.28084 ft per m"
