"""Cases: shared givens, parts that go on from the right results before them, and every fault told by its name."""

import re

import pytest

from question_bank import BankError, load_bank, load_cases
from question_bank.case_files import FOLDER, read_case
from question_bank.check import check_item
from question_bank.check_cases import check_case, worked_through
from question_bank.kinds.numeric_item import NumericItem
from question_bank.reading import read_quantity
from question_bank.units import register
from tests.bank.cases import CASE, bank, case, changed, faults

SEEDS = range(40)
SYSTEMS = pytest.mark.parametrize("system", ["us", "metric"])


def test_the_unspoilt_case_and_its_items_have_no_fault():
    """Else none of the tests below would show anything."""
    assert faults(seeds=40) == []
    assert [fault for item in bank().values() for fault in check_item(item, 40)] == []


def test_a_seed_gives_the_same_case_for_ever():
    one, other = case().draw(7, "us"), case().draw(7, "us")
    assert one == other
    assert one.givens != case().draw(8, "us").givens


def test_a_case_by_hand():
    """12.5 lb/gal, 200 klbf: 1 − 12.5/65.5 = 0.80916, printed 0.809; 200 × 0.809 = 161.8 klbf. By hand."""
    givens = (
        ("from = 200, to = 400, step = 10", "from = 200, to = 200, step = 10"),
        ("from = 900, to = 1800, step = 50", "from = 900, to = 900, step = 50"),
        ("from = 9, to = 16, step = 0.5", "from = 12.5, to = 12.5, step = 0.5"),
        ("from = 1080, to = 1900, step = 20", "from = 1500, to = 1500, step = 20"),
    )
    drawn = case(*givens).draw(1, "us")
    first, second, _, last = (part.question for part in drawn.parts)
    assert drawn.story == "A string of 200 klbf (889.6 kN) in air goes into the mud. Each ton is 2,000 lb."
    assert drawn.givens == (("string in air", "200 klbf (889.6 kN)"), ("mud weight", "12.5 lb/gal (1,498 kg/m³)"))
    assert first.key_text == "0.809"
    assert "The buoyancy factor is 0.809." in second.stem and second.key_text == "161.8 klbf"
    assert last.value == pytest.approx(161.8 + float(last.givens[1][1].split()[0]))


@SYSTEMS
def test_what_is_shared_or_found_before_is_fixed_and_shown(system):
    """A later part's stem has the earlier right result as its key is printed, and the shared givens as they are."""
    for seed in SEEDS:
        drawn = case().draw(seed, system)
        first, second, _, last = (part.question for part in drawn.parts)
        assert dict(second.givens)["buoyancy"] == first.key_text
        assert dict(second.givens)["air weight"] == drawn.givens[0][1]
        assert drawn.parts[1].result[1] == dict(last.givens)["string"]
        assert [part.result and part.result[0] for part in drawn.parts] == [
            "buoyancy factor", "string in mud", None, "hook load",
        ]  # fmt: skip
        assert drawn.givens[1][1] in first.stem and first.key_text in second.stem
        assert dict(last.givens)["string"].startswith(second.key_text) and second.key_text in last.stem


def second_units(drawn):
    """What stands in brackets for each quantity that a draw shows, by the quantity: more than one is a disagreement."""
    found = {}
    texts = [drawn.story, *(text for _, text in drawn.givens), *(part.result[1] for part in drawn.parts if part.result)]
    texts += [part.question.stem for part in drawn.parts]
    texts += [part.question.key_both for part in drawn.parts if part.question.kind == "numeric"]
    for first, beside in re.findall(r"([\d,.]+ \S+) \(([\d,.−]+ [^)]+)\)", " ".join(texts)):
        found.setdefault(first, set()).add(beside)
    return found


@SYSTEMS
@pytest.mark.parametrize("name", load_cases(load_bank()))
def test_a_quantity_has_one_second_unit_all_through_a_case(name, system):
    """A hand who reads 547.5 klbf once and 547.4 the next time thinks that he misread."""
    shipped = load_cases(load_bank())[name]
    for seed in SEEDS:
        found = second_units(shipped.draw(seed, system))
        assert found and {first: each for first, each in found.items() if len(each) > 1} == {}


@SYSTEMS
def test_what_a_plate_leaves_is_rounded_down_in_both_units(system):
    """2,551.2 kN is 573.5 klbf: 574 would be more than the plate leaves. The exact sum is worked here, by fractions."""
    shipped = load_cases(load_bank())["mast-plate"]
    for seed in SEEDS:
        for at in (5, 7):
            asked = shipped.draw(seed, system).parts[at - 1].question
            kilonewtons = asked.value if system == "metric" else asked.value * 4.4482216
            for number, each in re.findall(r"(−?[\d,.]+) (kN|klbf)", asked.key_both):
                shown = float(number.replace(",", "").replace("−", "-")) * (1 if each == "kN" else 4.4482216)
                assert kilonewtons - 6 < shown < kilonewtons + 0.001, asked.key_both


@SYSTEMS
def test_the_sheet_has_a_blank_where_an_earlier_result_stands(system):
    for seed in SEEDS:
        first, second, third, last = case().draw(seed, system).parts
        assert first.on_paper == first.question.stem and third.on_paper == third.question.stem
        assert "factor is ________ (answer 1)." in second.on_paper and first.question.key_text not in second.on_paper
        assert "weighs ________ (answer 2)," in last.on_paper and second.question.key_text not in last.on_paper


@SYSTEMS
def test_the_chain_in_one_go_agrees_with_the_printed_one(system):
    """By another way than the program's: the sum written out here, in base units, from the givens that were shown."""
    for seed in SEEDS:
        drawn = case().draw(seed, system)
        mud, air = drawn.bases["mud"], drawn.bases["air_weight"]
        gear = read_quantity(drawn.parts[3].question.givens[1][1].partition(" (")[0], "kN", False).base
        steel = 65.5 * register("density").unit("lb/gal").factor
        results = worked_through(case(), drawn)
        assert list(results) == [1, 2, 4]
        assert results[4] == pytest.approx(air * (1 - mud / steel) + gear, rel=1e-9)
        printed = drawn.parts[3].question
        low, high = printed.band
        assert low <= results[4] / register("load").unit(printed.unit).factor <= high


WHEN_READ = [
    # old, new, the field named, words of the message
    ('item = "units.which-ton"', 'item = "units.no-such"', "parts 3 item", ["units.no-such"]),
    ('item = "units.which-ton"', 'item = "units.one-ton"', "parts 3 item", ["card", "numeric, choice"]),
    ('item = "units.which-ton"', 'item = "units.which-ton"\ngiven = { mud = "mud" }', "parts 3 given", ["choice"]),
    ('given = { mud = "mud" }', 'given = { drift = "mud" }', "parts 1 given drift", ["mud"]),
    ('given = { mud = "mud" }', 'given = { mud = "air_weight" }', "parts 1 given mud", ["load", "density"]),
    ('given = { mud = "mud" }', 'given = { mud = "mad" }', "parts 1 given mud", ["'mad'", "air_weight, mud"]),
    ('given = { mud = "mud" }', 'given = { mud = "part 1" }', "parts 1 given mud", ["before"]),
    ('given = { mud = "mud" }', 'given = { mud = "part 0" }', "parts 1 given mud", ["before"]),
    ('given = { mud = "mud" }', "given = { mud = 12 }", "parts 1 given mud", ["text"]),
    ('given = { mud = "mud" }', 'given = "mud"', "parts 1 given", ["table"]),
    ('buoyancy = "part 1" }', 'buoyancy = "part 4" }', "parts 2 given buoyancy", ["before"]),
    ('string = "part 2"', 'string = "part 1"', "parts 4 given string", ["ratio", "load"]),
    ('string = "part 2"', 'string = "part 3"', "parts 4 given string", ["choice"]),
    ("from = 200, to = 400", "from = 100, to = 400", "parts 2 given air_weight", ["range"]),
    ("from = 900, to = 1800", "from = 900, to = 2150", "parts 2 given air_weight", ["range"]),
    ("{air_weight}", "{weight}", "story", ["{weight}"]),
    ('given = { mud = "mud" }', "", "givens mud", ["no part"]),
    ('title = "From air to hook"', "", "title", ["missing"]),
    ('source = "Test"', 'sauce = "Test"', "sauce", ["not a field"]),
    ('\nitem = "units.which-ton"', '\nitem = "units.which-ton"\nfixed = {}', "parts 3 fixed", ["not a field"]),
    ("step = 10", "step = 7", "givens air_weight us step", ["whole number"]),
]  # fmt: skip


@pytest.mark.parametrize("old, new, field, words", WHEN_READ, ids=[f"{row[2]} {row[1][:30]}" for row in WHEN_READ])
def test_a_fault_of_form_is_refused_when_the_file_is_read(old, new, field, words):
    with pytest.raises(BankError) as caught:
        case((old, new))
    error = caught.value
    assert (error.file, error.item, error.field) == ("cases/tried.toml", "tried", field)
    assert all(word in error.problem for word in words), error.problem


def test_one_part_is_no_case():
    head, first, *_ = CASE.split("[[parts]]")
    with pytest.raises(BankError, match="2 parts or more"):
        read_case("cases/tried.toml", "tried", f"{head}[[parts]]{first}", bank())


def test_a_result_that_always_falls_outside_the_next_range_is_refused():
    """The string in mud is 120 klbf and more; a hook load that takes 50 to 60 klbf can't go on from it."""
    found = faults(items=[
        ("string = { us = { from = 100, to = 400", "string = { us = { from = 50, to = 60"),
        ("metric = { from = 450, to = 1780", "metric = { from = 220, to = 270"),
    ])  # fmt: skip
    assert found and found[0].field == "parts"
    assert "parts 4 given string" in found[0].problem and "outside the range" in found[0].problem


def test_a_result_that_sometimes_falls_outside_is_drawn_again():
    """The next item takes 200 klbf and more: only such cases are drawn."""
    narrow = case(items=[
        ("string = { us = { from = 100, to = 400", "string = { us = { from = 200, to = 400"),
        ("metric = { from = 450, to = 1780", "metric = { from = 890, to = 1780"),
    ])  # fmt: skip
    for seed in SEEDS:
        string = float(narrow.draw(seed, "us").parts[1].question.key_text.split()[0])
        assert string >= 200


def test_rounding_on_the_way_that_is_too_coarse_is_found():
    """A factor that is printed with one place: 0.8 for 0.809 and for 0.832 leads out of one per cent."""
    found = faults(items=[('tolerance = { absolute = "0.002" }', 'tolerance = { absolute = "0.1" }')])
    assert found and found[0].field == "parts 2" and "too coarse" in found[0].problem


def test_a_part_that_is_no_sound_question_is_found_and_named():
    found = faults(items=[('plausible = ["450 kN", "2,200 kN"]', 'plausible = ["450 kN", "460 kN"]')])
    assert found and found[0].field == "parts 4"
    assert "units.hook-load" in found[0].problem and "plausible" in found[0].problem


def test_the_lessons_of_a_case_are_those_of_its_items():
    assert case().lessons == ("units/force-mass-weight",)
    assert case().usual_seconds == sum(bank()[name].usual_seconds for name in (
        "units.buoyancy-of-mud", "units.string-in-mud", "units.which-ton", "units.hook-load"))  # fmt: skip


def test_the_shipped_cases_are_sound():
    shipped = load_bank()
    for each in load_cases(shipped).values():
        assert list(check_case(each, 60)) == []
        assert sum(isinstance(part.item, NumericItem) for part in each.parts) >= 2


def trip_tank_check(*changes):
    """The shipped check of the trip tank after (old, new) changes to its text."""
    text = (FOLDER / "trip-tank-check.toml").read_text(encoding="utf-8")
    return read_case("cases/trip-tank-check.toml", "trip-tank-check", changed(text, *changes), load_bank())


def test_the_check_of_the_trip_tank_by_hand():
    """Stands of 94 ft, pipe of 25 lb/ft, steel of 2,751 lb a barrel (65.5 × 42). By hand:

    5 × 94 × 25 / 2,751 = 11,750 / 2,751 = 4.271 bbl; 15 stands are 3 lines, 3 × 4.271 = 12.813, printed 12.81.
    What the tank gave is read off the question, since its readings are drawn.
    """
    drawn = trip_tank_check(
        ("from = 93, to = 95, step = 0.2", "from = 94, to = 94, step = 0.2"),
        ("from = 28.4, to = 28.9, step = 0.1", "from = 28.7, to = 28.7, step = 0.1"),
        ("from = 24, to = 26, step = 0.2", "from = 25, to = 25, step = 0.2"),
        ("from = 35.6, to = 38.4, step = 0.4", "from = 37.2, to = 37.2, step = 0.4"),
    ).draw(1, "us")
    fill, so_far, short, *then = (part.question for part in drawn.parts)
    assert fill.key_text == "4.271 bbl" and so_far.key_text == "12.81 bbl"
    before, now = (float(dict(short.givens)[each].split()[0]) for each in ("tank at the start", "tank now"))
    assert short.value == pytest.approx(12.81 - (before - now))
    assert [each.kind for each in then] == ["choice", "choice"]


@SYSTEMS
def test_in_the_check_of_the_trip_tank_the_hole_is_always_short(system):
    """Else its last two parts would ask what to do about nothing. At least half a barrel, or 80 litres."""
    case = trip_tank_check()
    for seed in SEEDS:
        short = case.draw(seed, system).parts[2].question
        assert short.value > (0.5 if system == "us" else 0.08)


LIMIT = ('step = 10, unit = "kN" } }\ngear', 'step = 10, unit = "kN" }, limit = true }\ngear')


def test_what_may_not_be_exceeded_is_made_only_of_what_is_rounded_down():
    """Else a case would show a limit that is rounded up in the second unit."""
    with pytest.raises(BankError, match="not rounded down") as caught:
        case(items=[LIMIT])
    assert caught.value.field == "parts 4 given string"
    case(
        items=[
            LIMIT,
            ('tolerance = { relative = 0.01 }\nplausible = ["400', 'tolerance = { down = 0.01 }\nplausible = ["400'),
        ]
    )
