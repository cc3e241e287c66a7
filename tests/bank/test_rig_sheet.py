"""A rig sheet is read in either system, and what can't be or is unlike a rig's is told beside its field."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from question_bank.rig_draws import takes
from question_bank.rig_sheet import base_of, read_sheet, remarks, sheet_fields, shown_value
from tests.bank.rigs import SEVEN, TWELVE, TWELVE_OLD


def read(comma=False, system="us", **typed):
    return read_sheet(typed, {}, system, comma)


def test_every_field_is_taken_by_an_item_and_every_key_is_a_field(bank):
    keys = {field for item in bank.values() for field in takes(item).values()}
    assert keys == set(sheet_fields())


def test_the_invented_rigs_are_read_without_a_word():
    for sheet in (SEVEN, TWELVE, TWELVE_OLD):
        for system in ("us", "metric"):
            found = read_sheet(sheet, {}, system, False)
            assert (found.problems, found.doubts) == ({}, {})
            assert found.values == sheet


def test_the_seven_tools_equal_its_mast_to_the_pound_and_twelve_has_a_weak_elevator():
    """250 st are 500 klbf: nothing to remark. The elevator of 12 is under mast and links: nothing either."""
    assert remarks(SEVEN, "us") == [] and remarks(TWELVE, "us") == []
    [told] = remarks(SEVEN | {"tool_rating": "350 st"}, "us")[:1]
    assert "The elevator is rated 350 st (317.5 t), more than the mast’s 500 klbf (2,224 kN)." in told


@pytest.mark.parametrize(
    ("field", "typed", "kept"),
    [
        ("line_size", "1-3/8", "1.375 in"),
        ("line_size", "35 mm", "35 mm"),
        ("stand_length", "95' 1.2\"", "95.1 ft"),
        ("mast_rating", "750,000 lbf", "750000 lbf"),
        ("lines_strung", "12", "12"),
        ("mud_weight", "12 ppg", "12 lb/gal"),
        ("tool_rating", "350", "350 st"),
        ("make_up_torque", "38 kN·m", "38 kN·m"),
    ],
)
def test_a_number_is_kept_in_the_unit_of_its_plate(field, typed, kept):
    found = read(**{field: typed})
    assert found.values == {field: kept} and not found.problems and not found.doubts


def test_a_bare_number_takes_the_chosen_unit_or_that_of_the_system():
    assert read(system="metric", tool_rating="318").values == {"tool_rating": "318 t"}
    assert read_sheet({"tool_rating": "350"}, {"tool_rating": "st"}, "metric", False).values == {
        "tool_rating": "350 st"
    }
    assert read(comma=True, tong_arm="4,25").values == {"tong_arm": "4.25 ft"}


@pytest.mark.parametrize(
    ("typed", "field", "told"),
    [
        ({"mast_rating": "350 tons"}, "mast_rating", "Which ton?"),
        ({"line_size": "350 kN"}, "line_size", "You gave a load"),
        ({"lines_strung": "11"}, "lines_strung", "Write an even number"),
        ({"lines_strung": "7.5"}, "lines_strung", "Write a whole number"),
        ({"mud_weight": "-9"}, "mud_weight", "This must be above 0"),
        ({"hook_load": "40", "travelling_weight": "44500"}, "hook_load", "travelling equipment alone weighs 44,500 lb"),
        ({"hook_load": "600", "mast_rating": "500"}, "hook_load", "more than the 500 klbf on the mast plate"),
        (
            {"hook_load": "560", "travelling_weight": "21000", "tool_rating": "250"}, "tool_rating",
            "more than the 250 st of the elevator",
        ),
        ({"stand_length": "95", "clear_height": "92"}, "stand_length", "has no room"),
    ],
)  # fmt: skip
def test_what_can_not_be_is_a_problem(typed, field, told):
    found = read(**typed)
    assert told in found.problems[field]


@pytest.mark.parametrize(
    ("typed", "field", "told"),
    [
        ({"line_strength": "159.800"}, "line_strength", "If you mean 159,800 lbf, write it like that."),
        ({"tool_rating": "5"}, "tool_rating", "Read as 5 st. Most rigs have 20 to 1,500 st."),
        ({"line_strength": "96000", "line_size": "1 3/8"}, "line_strength", "far from what a line of 1.375 in usually"),
        ({"drum_diameter": "16", "line_size": "1 3/8"}, "drum_diameter", "unusual for a line of 1.375 in"),
        (
            {"hook_load": "700", "line_strength": "192000", "lines_strung": "10"}, "hook_load",
            "the line’s factor is under 3 even at rest",
        ),
        ({"combined_rating": "300", "setback_rating": "500"}, "combined_rating", "less than the setback alone"),
    ],
)  # fmt: skip
def test_what_is_unlike_a_rig_is_a_doubt_and_its_value_is_there(typed, field, told):
    found = read(**typed)
    assert told in found.doubts[field] and not found.problems
    assert field in found.values


def test_the_strengths_of_6x19_line_with_a_steel_core_are_no_doubt():
    """Rope tables of the strongest and the weakest usual grade, from memory, but 1⅜ in: API RP 9B has 192,000 lbf."""
    for size, strength in (("1", 89_800), ("1", 113_800), ("1 3/8", 192_000), ("1 3/4", 266_000), ("2", 434_000)):
        assert read(line_size=size, line_strength=str(strength)).doubts == {}, size


def test_a_value_is_shown_in_the_hands_system_first():
    assert shown_value("tool_rating", "350 st", "metric") == "317.5 t (350 st)"  # 350 × 0.907185, by hand
    assert shown_value("tool_rating", "350 st", "us") == "350 st (317.5 t)"
    assert shown_value("lines_strung", "12", "metric") == "12"


def test_a_limit_is_rounded_down_in_the_other_unit():
    """By hand: 500 st × 0.90718 = 453.59 t; 750 klbf × 4.44822 = 3,336.2 kN; 44,500 lb × 0.453592 = 20,184.9 kg."""
    assert shown_value("links_rating", "500 st", "us") == "500 st (453.5 t)"
    assert shown_value("mast_rating", "750 klbf", "metric") == "3,336 kN (750 klbf)"
    assert shown_value("travelling_weight", "44500 lb", "us") == "44,500 lb (20,180 kg)"


@given(st.dictionaries(st.sampled_from(sorted(sheet_fields())), st.text(max_size=70), max_size=6), st.booleans())
def test_nothing_typed_raises(typed, comma):
    found = read_sheet(typed, {}, "us", comma)
    assert {*found.values, *found.problems, *found.doubts} <= {name for name, text in typed.items() if text.strip()}
    for name, text in found.values.items():
        assert base_of(text, sheet_fields()[name].register) > 0


@given(st.sampled_from(sorted(sheet_fields())), st.floats(0.01, 0.99), st.sampled_from(["us", "metric"]))
def test_a_kept_value_is_read_back_as_it_was(name, share, system):
    """Kept text typed into the form again, whoever opens it, is the same number in the same unit."""
    field = sheet_fields()[name]
    base = field.usual.low + share * (field.usual.high - field.usual.low)
    unit = field.unit(system)
    number = 2 * round(base / 2) if name == "lines_strung" else base / unit.factor
    first = read_sheet({name: f"{number:.6f} {unit.symbol}".strip()}, {}, system, False)
    again = read_sheet(first.values, {}, "us" if system == "metric" else "metric", False)
    assert again.values == first.values
    assert base_of(first.values[name], field.register) == pytest.approx(number * unit.factor, rel=1e-4)


# By hand: 500 × 0.90718474 = 453.592 t; 350 klbf × 4.4482216 = 1,556.88 kN; 90 ft × 0.3048 = 27.432 m.
def test_a_limit_is_rounded_down_beside_its_own_unit_in_sheets_and_questions(bank):
    assert shown_value("tool_rating", "500 st", "us") == "500 st (453.5 t)"
    pull = bank["loads.overpull-left"].givens["line_limit"]
    assert pull.fixed("350 klbf", "us").beside("us") == "350 klbf (1,556 kN)"
    assert pull.fixed("350 klbf", "us").beside("metric") == "1,556 kN (350 klbf)"


def test_what_is_no_limit_is_rounded_to_the_nearest(bank):
    pull = bank["loads.overpull-left"].givens["hook_load"]
    assert pull.fixed("350 klbf", "us").beside("us") == "350 klbf (1,557 kN)"


def test_every_given_that_takes_a_limit_of_the_sheet_is_one(bank):
    fields = sheet_fields()
    for item in bank.values():
        for each in getattr(item, "givens", {}).values():
            if each.rig and fields[each.rig].limit:
                assert each.limit, (item.id, each.name)
