"""Every numeric item, drawn 200 times in each system: key, working, known mistakes, givens and bench."""

import re
from decimal import Decimal

import pytest

from question_bank import BankError, load_bank
from question_bank.givens import Listed
from question_bank.numbers import in_comma
from question_bank.units import register, split_quantity
from tests.bank.pencil import Unworkable, pencil
from tests.bank.solved import SOLVED

NUMBER = re.compile(r"\d[\d,]*(?:\.\d+)?")
NUMERIC = [each.id for each in load_bank().values() if each.kind == "numeric"]
OTHER = {"us": "metric", "metric": "us"}


@pytest.fixture(scope="module", params=NUMERIC)
def item(request, bank):
    """Each numeric item in turn."""
    return bank[request.param]


def shown_numbers(item, question):
    """The givens of a question by name, as numbers of its own grid's unit: read from what the hand sees."""
    names = {label: name for name, label in item.labels(question.system).items()}
    found = {}
    for label, text in question.givens:
        symbol = item.givens[names[label]].own_unit(question.system).symbol
        after = rf" {re.escape(symbol)}(?![\w·/])" if symbol else "$"
        number = re.search(rf"([\d,.]+){after}", text)
        found[names[label]] = float(number[1].replace(",", ""))
    return found


def as_typed(item, question):
    """The same givens as a hand types them at the bench, without units."""
    return {name: f"{number:,.10g}" for name, number in shown_numbers(item, question).items()}


def test_every_printed_line_can_be_worked_out_with_a_pencil(questions):
    """The numbers put in give the printed result within the item's tolerance, by a reader that is not the bank's."""
    for question in questions:
        for line in question.working:
            result = pencil(line.result)
            share = question.half_width * abs(result)
            width = share if question.relative else max(question.half_width, 1e-6 * abs(result))
            assert abs(pencil(line.put_in) - result) <= width, f"seed {question.seed}: {line}"


def test_no_number_in_the_working_falls_from_the_sky(questions):
    """A number put in is a given as the question shows it, an earlier result, or stands in the line's own equation."""
    for question in questions:
        known = set(NUMBER.findall(" ".join(text for _, text in question.givens)))
        for line in question.working:
            new = set(NUMBER.findall(line.put_in)) - known - set(NUMBER.findall(line.equation))
            assert not new, f"seed {question.seed}: where does {new} in {line} come from?"
            known |= set(NUMBER.findall(line.result))


def test_the_working_uses_every_given_and_ends_with_the_key(questions):
    for question in questions:
        put_in = set(NUMBER.findall(" ".join(line.put_in for line in question.working)))
        shown = [NUMBER.findall(text) for _, text in question.givens]
        missing = [numbers for numbers in shown if not put_in & set(numbers)]
        assert missing == [], f"seed {question.seed}: {missing} is left out"
        assert question.working[-1].result == question.key_text


@pytest.mark.parametrize("item_id", SOLVED)
@pytest.mark.parametrize("units", ["us", "metric"])
def test_the_answer_is_what_definitions_give(bank, item_id, units):
    """Solved once more from the numbers in the question, without the bank's formulas and without pint."""
    for seed in range(200):
        question = bank[item_id].draw(seed, units)
        again = SOLVED[item_id][units](**shown_numbers(bank[item_id], question))
        assert question.value == pytest.approx(again, rel=1e-12), f"seed {seed}"


@pytest.mark.parametrize("lesson", ["units/force-mass-weight", "safety/dropped-objects"])
def test_each_item_of_the_first_two_lessons_is_solved_once_more(bank, lesson):
    numeric = {each.id for each in bank.of_lesson(lesson) if each.kind == "numeric"}
    assert numeric and numeric <= set(SOLVED)


def test_the_key_as_printed_grades_right_for_both_hands(questions):
    for question in questions:
        assert question.grade(question.key_text).outcome == "right"
        assert question.grade(split_quantity(question.key_text)[0]).outcome == "right"
        assert question.grade(in_comma(question.key_text), comma=True).outcome == "right"


def test_the_companion_of_the_key_grades_right_too(questions):
    """'44,590 lbf (198.3 kN)': the hand may type what stands in the brackets."""
    for question in questions:
        beside = re.fullmatch(r".* \((.*)\)", question.key_both)
        if beside:
            # A conversion asks for one unit: what was given, copied with its own unit, is asked back.
            assert question.grade(beside[1]).outcome == ("ask-back" if question.conversion else "right"), (
                f"seed {question.seed}: {question.key_both}"
            )


def test_every_known_mistake_is_met_by_name_and_stands_apart(questions):
    """Four tolerances from the key, two from each other mistake."""
    for question in questions:
        width = question.half_width * (abs(question.value) if question.relative else 1) * (1 - 1e-9)
        for slip in question.mistakes:
            assert abs(slip.value - question.value) >= 4 * width
            assert question.grade(f"{slip.value:.12g}").mistake == slip.name
            for other in question.mistakes:
                assert other is slip or abs(slip.value - other.value) >= 2 * width


def test_the_asked_unit_is_offered_first_and_each_unit_reads_right(questions):
    question = questions[0]
    assert question.units[:1] in ([question.unit], []) or not question.unit
    assert len(set(question.units)) == len(question.units)
    base = question.value * register(question.register).unit(question.unit).factor
    for symbol in question.units:
        value = base / register(question.register).unit(symbol).factor
        assert question.grade(f"{value:.12f} {symbol}").outcome == "right", symbol


def test_the_same_givens_in_the_other_system_give_the_same_value(item, system, questions):
    """Converted exactly and fixed in a draw of the other system: equal to 1e-9."""
    other, compared = OTHER[system], 0
    for question in questions:
        converted = {}
        for name, number in shown_numbers(item, question).items():
            own, theirs = item.givens[name].own_unit(system), item.givens[name].own_unit(other)
            converted[name] = f"{number * own.factor / theirs.factor!r} {theirs.symbol}".strip()
        try:
            twin = item.draw(question.seed, other, converted)
        except BankError:
            continue  # the other system's own mistakes may lie too near for these numbers
        factor = register(question.register).unit(question.unit).factor
        theirs = register(twin.register).unit(twin.unit).factor
        assert twin.value * theirs == pytest.approx(question.value * factor, rel=1e-9)
        compared += 1
    assert compared > len(questions) / 2


def test_every_drawn_given_lies_on_the_grid_of_its_own_system(item, system, questions):
    """Start + i × step, or a listed value, as decimal text: never 0.30000000000000004, never the other grid."""
    for question in questions:
        for name, number in shown_numbers(item, question).items():
            grid = item.givens[name].grids.get(system)
            if isinstance(grid, Listed):
                assert Decimal(str(number)) in map(Decimal, grid.values), f"seed {question.seed}: {name} = {number}"
            elif grid:
                place, left = divmod(Decimal(str(number)) - grid.start, grid.step)
                assert left == 0 and 0 <= place < grid.count, f"seed {question.seed}: {name} = {number}"


def test_fixed_givens_are_taken_as_they_stand(item, system, questions):
    """A rig sheet's numbers: shown in the stem, with or without their unit, whatever the seed."""
    question = questions[3]
    fixed = as_typed(item, question)
    with_units = {name: f"{text} {item.givens[name].own_unit(system).symbol}".strip() for name, text in fixed.items()}
    for seed in (3, 4, 5):
        bare, full = item.draw(seed, system, fixed), item.draw(seed, system, with_units)
        assert bare == full and bare.stem == question.stem and bare.value == pytest.approx(question.value, rel=1e-12)


def test_one_given_may_be_fixed_and_the_rest_drawn(item, system, questions):
    for name, typed in as_typed(item, questions[3]).items():
        for seed in range(10):
            try:
                drawn = item.draw(seed, system, {name: typed})
            except BankError:
                continue  # beside this number the rest can lie where a mistake is too near
            assert shown_numbers(item, drawn)[name] == float(typed.replace(",", ""))


def test_a_fixed_number_is_shown_as_numbers_are_shown_here(bank):
    """A rig sheet holds plain numbers: 1300 stands as 1,300 in the stem, and no float shows its last digits."""
    givens = {"hook_load": 1300, "travelling_weight": 10_000 * (0.1 + 0.2) * 5}
    stem = bank["units.string-under-block"].draw(1, "metric", givens).stem
    assert "1,300 kN" in stem and "15,000 kg" in stem


def test_the_bench_agrees_with_the_draw(item, system, questions):
    """The same numbers typed at the bench: same value, same working, for both hands."""
    for question in questions[:50]:
        typed = as_typed(item, question)
        work = item.work(typed, system)
        assert work.value == pytest.approx(question.value, rel=1e-12)
        assert (work.unit, work.text, work.working) == (question.unit, question.key_both, question.working)
        in_commas = {name: in_comma(text) for name, text in typed.items()}
        assert item.work(in_commas, system, comma=True).value == work.value


def test_the_pencil_can_do_sums_and_refuses_what_is_none():
    """The reader that judges the printed lines is itself held against sums done by hand."""
    assert pencil("300,000 lbf / (8 × 0.5)") == 75_000
    assert pencil("2 kg × 9.80665 × 25 m") == pytest.approx(490.3325)
    assert pencil("√(2 × 32 × 4 ft)") == 16
    assert pencil("10 m/s² × 3² − −1") == 91
    assert pencil("10 − 4 − 3") == 3 and pencil("64 / 4 / 2") == 8 and pencil("2 ^ 3 × 2") == 16
    assert pencil("whole(7 / 2) + roundup(7 / 2)") == 7 and pencil("4 ft × sine(30°)") == pytest.approx(2)
    assert pencil("least(7 klbf, 2 × 3 klbf, 1,700 klbf)") == 6
    for line in ("", "2 ×", "(2 × 3", "2 3", "lbf", "2 ** 3", "ft / 2"):
        with pytest.raises(Unworkable):
            pencil(line)


def test_the_key_has_the_decimals_that_the_stem_asks_for(bank):
    """By hand, 1 − 9.825 / 65.5: in mud of 9.825 lb/gal steel keeps 0.85 of its weight. The key says 0.850."""
    item = bank["loads.buoyancy-factor"]
    question = item.draw(1, "us", fixed={"mud_density": "9.825 lb/gal"})
    assert question.key_text == "0.850" and question.working[-1].result == "0.850"
    asked = [each for each in bank.values() if each.kind == "numeric" and each.decimals is not None]
    assert {each.decimals for each in asked} >= {2, 3}
    for each in asked:
        for seed in range(20):
            number = each.draw(seed, "us").key_text.split(" ")[0]
            assert len(number.partition(".")[2]) == each.decimals, each.id
