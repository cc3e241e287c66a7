"""Own numbers that could hurt: shares over 1, steps that can't be, what a result means, and which way is safe."""

import pytest

from question_bank import BankError, load_bank
from question_bank.item_fields import Fields
from question_bank.kinds.hold_range import ranges
from question_bank.kinds.meanings import read_meanings
from question_bank.kinds.own_numbers import ImpossibleStep, NumbersError, likely_other_way
from question_bank.kinds.refusals import is_share, kinds_of

BANK = load_bank()
SUMS = [each.id for each in BANK.values() if each.kind == "numeric" and not each.is_conversion]
SHARES = [
    (item_id, name)
    for item_id in SUMS
    for name, given in BANK[item_id].givens.items()
    if is_share(given, ranges(BANK[item_id]).get(name))
]
LINKS, FACTOR, OVERPULL = "hoisting.worn-links", "loads.design-factor-of-the-line", "loads.overpull-left"
LOWERING = "hoisting.lowering-speed-limit"


def drawn(item_id: str, system: str = "us") -> dict[str, str]:
    """The numbers of a draw as texts, by name."""
    item = BANK[item_id]
    return {
        name: text.partition(" (")[0] for name, (_, text) in zip(item.givens, item.draw(1, system).givens, strict=True)
    }


@pytest.mark.parametrize(("item_id", "name"), SHARES)
def test_a_share_takes_percent_and_nothing_above_the_whole(item_id, name):
    given = BANK[item_id].givens[name]
    usual = given.ends[0]
    plain = BANK[item_id].work({**drawn(item_id), name: f"{usual:g}"}).value
    percent = BANK[item_id].work({**drawn(item_id), name: f"{usual * 100:g} %"}).value
    assert plain == pytest.approx(percent, rel=1e-9)
    with pytest.raises(NumbersError) as caught:
        BANK[item_id].work({**drawn(item_id), name: "90"})
    assert caught.value.problems[name] == (
        "This is 1 at most, which is 100 %. You wrote 90. If you mean 90 %, write it so."
    )


def test_the_shares_are_known_ones_and_what_goes_above_one_is_none():
    names = {name for _, name in SHARES}
    assert {"left", "share", "efficiency", "working_factor", "wall_left", "drive_efficiency", "buoyancy"} <= names
    assert not names & {"gear_ratio", "sheave_factor", "least_factor", "shape", "chain", "gears"}


def test_worn_links_in_percent():
    """1,000 klbf × 0.9 / 2 = 450 klbf by hand."""
    work = BANK[LINKS].work({"links": "2", "rating": "500 st", "left": "90 %"})
    assert work.answers["us"] == "450 klbf" and work.rounded == "Rounded down, to the safe side."


def test_a_number_that_has_no_range_and_is_like_no_draw_is_asked_about():
    work = BANK[LINKS].work({"links": "2", "rating": "500,000 st", "left": "0.9"})
    assert [each.far for each in work.numbers] == [False, True, False]
    assert "The course draws 250 to 500 st here." in work.warnings[0] and work.rounded == "Rounded down."


@pytest.mark.parametrize("item_id", SUMS)
@pytest.mark.parametrize("system", ["us", "metric"])
def test_what_the_course_draws_is_neither_far_nor_impossible_nor_read_otherwise(item_id, system):
    for seed in range(8):
        item = BANK[item_id]
        givens = item.draw(seed, system).givens
        texts = {name: text.partition(" (")[0] for name, (_, text) in zip(item.givens, givens, strict=True)}
        numbers = item.work(texts, system).numbers
        assert not any(each.far or each.other for each in numbers), (seed, texts)


@pytest.mark.parametrize(
    ("strength", "hook_load", "told"),
    [
        # By hand: 103 × 8 × 0.842 / 900 = 0.7709; / 300 = 2.313; / 200 = 3.469.
        ("103 klbf", "900 klbf", ["Below 1 the line parts: the pull is more than its strength."]),
        ("103 klbf", "300 klbf", ["Under 3. Many rules ask for 3 or more while hoisting."]),
        ("103 klbf", "200 klbf", []),
    ],
)
def test_a_design_factor_speaks(strength, hook_load, told):
    item = BANK[FACTOR]
    assert list(item.work({"nominal_strength": strength, "hook_load": hook_load, "lines": "8"}).warnings) == told
    assert item.beside == "Compare with your rig’s least factor."


@pytest.mark.parametrize("item_id", ["loads.raising-line-strength", "loads.hook-load-the-line-allows"])
def test_a_factor_to_keep_is_above_one_and_asked_about_when_low(item_id):
    with pytest.raises(NumbersError) as caught:
        BANK[item_id].work({**drawn(item_id), "least_factor": "1"})
    assert "This is above 1. At 1 the line parts" in caught.value.problems["least_factor"]
    low = BANK[item_id].work({**drawn(item_id), "least_factor": "1.5"})
    assert any("Compare with your rig’s least factor." in text for text in low.warnings)
    assert "safe side" not in low.rounded


def test_an_overload_is_said():
    """400 / 300 klbf is 133.3 %; 300 / 300 is 100 %, and no overload."""
    item = BANK["hoisting.elevator-used"]
    over = item.work({"string": "400 klbf", "rating": "150 st"})
    assert over.answers["us"] == "133.3 %" and "overload" in over.warnings[0]
    assert item.work({"string": "300 klbf", "rating": "150 st"}).warnings == ()


def test_an_impossible_step_stops_the_answer():
    """50 − 80 klbf is a string of −30 klbf."""
    texts = {"pipe_pull": "300 klbf", "line_limit": "400 klbf", "plate": "400 klbf"}
    with pytest.raises(ImpossibleStep) as caught:
        BANK[OVERPULL].work({**texts, "hook_load": "50 klbf", "travelling_weight": "80 klbf"})
    assert "the string weight comes to −30 klbf, below zero" in str(caught.value)


def test_more_than_the_whole_stops_the_answer():
    """400 klbf on the crown and four legs of at most 50: they carry 200 together, half of it."""
    texts = {"crown_load": "400 klbf", "heaviest_leg": "50 klbf", "legs": "4"}
    with pytest.raises(ImpossibleStep, match="It is a part of a whole"):
        BANK["loads.how-evenly-the-legs-share"].work(texts)


def test_a_hole_that_gives_mud_is_said_so():
    texts = {"expected": "13 bbl", "tank_before": "30 bbl", "tank_now": "38 bbl"}
    with pytest.raises(ImpossibleStep, match="the hole gives mud"):
        BANK["tripping.short-fill"].work(texts)


def test_no_room_is_an_overload():
    """420 − 28 = 392 klbf in an elevator of 300."""
    work = BANK["units.room-under-elevator"].work({"hook_load": "420 klbf", "above": "28 klbf", "rating": "150 st"})
    assert work.answers["us"] == "−92 klbf" and "overload" in work.warnings[0] and work.rounded == "Rounded down."


def test_the_weakest_part_is_named():
    """String 320 klbf: room of the pipe 280, of the line 50, of the mast 100."""
    texts = {"pipe_pull": "600 klbf", "line_limit": "400 klbf", "hook_load": "350 klbf", "travelling_weight": "30 klbf"}
    work = BANK[OVERPULL].work({**texts, "plate": "450 klbf"})
    assert work.answers["us"] == "50 klbf" and work.weakest == "The weakest here: room of the line."
    both = BANK[OVERPULL].work({**texts, "plate": "400 klbf"})
    assert both.weakest == "The weakest here: room of the line and room of the mast."
    assert BANK[LINKS].work(drawn(LINKS)).weakest is None


@pytest.mark.parametrize("item_id", SUMS)
def test_the_safe_side_is_for_what_is_allowed_or_needed(item_id):
    item = BANK[item_id]
    rounded = item.work(drawn(item_id)).rounded
    if item.tolerance.side == "either":
        assert rounded is None and not item.allowed
    elif not item.allowed:
        assert rounded == f"Rounded {item.tolerance.side}." and item.beside


def test_a_limit_at_yield_is_not_called_safe():
    yields = {
        "tripping.height-in-one-line",
        "kelly.slips-crush-pipe",
        "pipe.tube-strength-in-pull",
        "pipe.worn-tube-strength",
    }
    assert not any(BANK[each].allowed for each in yields) and BANK[LOWERING].allowed
    assert "hot, wet or worn" in BANK[LOWERING].beside


def test_thousands_read_as_thousandths_are_asked_about():
    """A hand who writes 12,5 and types 394,000 lbf means 394 thousand: 394 lbf is no string."""
    texts = {"brake_limit": "950 hp", "string": "394,000 lbf", "travelling_weight": "49,000 lb"}
    work = BANK[LOWERING].work(texts, "us", comma=True)
    assert sum("If you mean 394,000 lbf" in text or "If you mean 49,000 lb" in text for text in work.warnings) == 2
    assert work.rounded == "Rounded down."
    assert BANK[LOWERING].work(texts, "us").warnings == ()
    assert likely_other_way(BANK["hoisting.bend-of-the-line"], "rope", "1.375", "in", False) is None


def test_lines_under_another_name_are_even_too():
    with pytest.raises(NumbersError) as caught:
        BANK["drilling-line.dial-on-wrong-lines"].work({"hook_load": "300 klbf", "strung": "8", "set_for": "9"})
    assert "Write an even number" in caught.value.problems["set_for"]
    assert kinds_of(BANK["loads.raising-line-strength"])["legs"] == set()


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ({"of": "nothing", "above": "1", "say": "x"}, "no given and no step"),
        ({"above": "1", "below": "1", "say": "x"}, "above or below"),
        ({"above": "1 ft", "say": "x"}, "is no value of"),
        ({"above": "1"}, "missing"),
    ],
)
def test_a_warning_that_can_not_be_read_is_a_fault_of_the_file(row, told):
    item = BANK[FACTOR]
    with pytest.raises(BankError, match=told):
        read_meanings(Fields("file", "item", {"warn": [row]}), item.givens, item.steps)


def test_a_share_typed_in_percent_is_worked_in_a_line_that_can_be_read():
    texts = {"hook_load": "300 klbf", "block_speed": "100 ft/min", "lines": "6", "efficiency": "87.4 %"}
    lines = BANK["loads.drum-power"].work(texts).working
    assert any(line.find == "efficiency as a plain number" and line.result == "0.874" for line in lines)
    assert not any(" )" in line.put_in or line.result.endswith(" ") for line in lines)
