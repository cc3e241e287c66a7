"""Every shipped item, drawn 200 times in each system: what must hold of each question."""

import json
import re
from decimal import Decimal
from functools import cache

import pytest

from question_bank import BankError, load_bank, question_from_body
from question_bank.check import check_bank
from question_bank.numbers import in_comma
from question_bank.units import register, split_quantity
from tests.bank.pencil import Unworkable, pencil
from tests.bank.solved import SOLVED

SEEDS = range(200)
NUMBER = re.compile(r"\d[\d,]*(?:\.\d+)?")
SYSTEMS = ("us", "metric")
BLANK = re.compile(r"[{}]|\bNone\b|\bnan\b|\binf\b|Decimal|0000000\d")
IDS = list(load_bank())
NUMERIC = [each.id for each in load_bank().values() if each.kind == "numeric"]
every_item = pytest.mark.parametrize("item_id", IDS)
every_numeric = pytest.mark.parametrize("item_id", NUMERIC)
both_systems = pytest.mark.parametrize("system", SYSTEMS)


@cache
def draws(item_id, system):
    """The 200 questions of an item in a system, drawn once for all tests here."""
    item = load_once()[item_id]
    return [item.draw(seed, system) for seed in SEEDS]


@cache
def load_once():
    return load_bank()


def strings(value):
    """Every text in a question's body, whatever its depth."""
    if isinstance(value, dict):
        return [text for each in value.values() for text in strings(each)]
    if isinstance(value, list):
        return [text for each in value for text in strings(each)]
    return [value] if isinstance(value, str) else []


def shown_numbers(item, question):
    """The givens of a question by name, as the numbers that its own grid's unit has: read from what the hand sees."""
    names = {label: name for name, label in item.labels.items()}
    found = {}
    for label, text in question.givens:
        symbol = item.givens[names[label]].own_unit(question.system).symbol
        number = re.search(rf"([\d,.]+) {re.escape(symbol)}(?![\w·/])", text)
        found[names[label]] = float(number[1].replace(",", ""))
    return found


@every_item
@both_systems
def test_no_blank_is_left(item_id, system):
    """No brace, no None, no long float in any text that a hand may see."""
    for question in draws(item_id, system):
        for text in strings(question.body()):
            assert not BLANK.search(text), f"seed {question.seed}: {text}"


@every_item
@both_systems
def test_a_question_is_the_same_after_json(item_id, system):
    for question in draws(item_id, system):
        again = question_from_body(json.loads(json.dumps(question.body())))
        assert again == question and again.body() == question.body()


@every_item
@both_systems
def test_a_seed_gives_the_same_question_for_ever(item_id, system):
    """Drawn again from a bank that was read again."""
    item = load_bank()[item_id]
    for seed in (0, 7, 199):
        assert item.draw(seed, system) == draws(item_id, system)[seed]


@every_item
def test_seeds_give_different_questions(item_id):
    """A question in words can only change its order; a card is always the same."""
    item = load_once()[item_id]
    shown = {json.dumps({**question.body(), "seed": 0}) for question in draws(item_id, "us")}
    least = {"numeric": 10, "choice": 10, "match": 10, "order": 10, "card": 1}[item.kind]
    assert len(shown) >= least


@every_numeric
@both_systems
def test_every_printed_line_can_be_worked_out_with_a_pencil(item_id, system):
    """The numbers put in give the printed result within the item's tolerance, by a reader that is not the bank's."""
    for question in draws(item_id, system):
        for line in question.working:
            result = pencil(line.result)
            width = (
                question.half_width * abs(result) if question.relative else max(question.half_width, 1e-6 * abs(result))
            )
            assert abs(pencil(line.put_in) - result) <= width, f"seed {question.seed}: {line}"


@every_numeric
@both_systems
def test_no_number_in_the_working_falls_from_the_sky(item_id, system):
    """A number put in is a given as the question shows it, an earlier result, or stands in the line's own equation."""
    for question in draws(item_id, system):
        known = set(NUMBER.findall(" ".join(text for _, text in question.givens)))
        for line in question.working:
            new = set(NUMBER.findall(line.put_in)) - known - set(NUMBER.findall(line.equation))
            assert not new, f"seed {question.seed}: where does {new} in {line} come from?"
            known |= set(NUMBER.findall(line.result))


@every_numeric
@both_systems
def test_the_working_uses_every_given_and_ends_with_the_key(item_id, system):
    for question in draws(item_id, system):
        put_in = set(NUMBER.findall(" ".join(line.put_in for line in question.working)))
        shown = [NUMBER.findall(text) for _, text in question.givens]
        missing = [numbers for numbers in shown if not put_in & set(numbers)]
        assert missing == [], f"seed {question.seed}: {missing} is left out"
        assert question.working[-1].result == question.key_text


@every_numeric
@both_systems
def test_the_answer_is_what_definitions_give(item_id, system):
    """Solved once more from the numbers in the question, without the bank's formulas and without pint."""
    item = load_once()[item_id]
    for question in draws(item_id, system):
        again = SOLVED[item_id][system](**shown_numbers(item, question))
        assert question.value == pytest.approx(again, rel=1e-12), f"seed {question.seed}"


@every_numeric
@both_systems
def test_the_key_as_printed_grades_right_for_both_hands(item_id, system):
    for question in draws(item_id, system):
        assert question.grade(question.key_text).outcome == "right"
        assert question.grade(split_quantity(question.key_text)[0]).outcome == "right"
        assert question.grade(in_comma(question.key_text), comma=True).outcome == "right"


@every_numeric
@both_systems
def test_the_companion_of_the_key_grades_right_too(item_id, system):
    """'44,590 lbf (198.3 kN)': the hand may type what stands in the brackets."""
    for question in draws(item_id, system):
        beside = re.fullmatch(r".* \((.*)\)", question.key_both)
        if beside:
            assert question.grade(beside[1]).outcome == "right", f"seed {question.seed}: {question.key_both}"


@every_numeric
@both_systems
def test_every_known_mistake_is_met_by_name_and_stands_apart(item_id, system):
    for question in draws(item_id, system):
        width = question.half_width * (abs(question.value) if question.relative else 1)
        for slip in question.mistakes:
            assert abs(slip.value - question.value) >= 4 * width * (1 - 1e-9)
            assert question.grade(f"{slip.value:.12g}").mistake == slip.name
            for other in question.mistakes:
                assert other is slip or abs(slip.value - other.value) >= 2 * width * (1 - 1e-9)


@every_numeric
@both_systems
def test_the_asked_unit_is_offered_first_and_each_unit_reads_right(item_id, system):
    question = draws(item_id, system)[0]
    assert question.units[0] == question.unit and len(set(question.units)) == len(question.units)
    for symbol in question.units:
        unit = register(question.register).unit(symbol)
        value = question.value * register(question.register).unit(question.unit).factor / unit.factor
        assert question.grade(f"{value:.15f} {symbol}").outcome == "right", symbol


@every_numeric
@pytest.mark.parametrize("system, other", [SYSTEMS, SYSTEMS[::-1]])
def test_the_same_givens_in_the_other_system_give_the_same_value(item_id, system, other):
    """Converted exactly and fixed in a draw of the other system: equal to 1e-9."""
    item = load_once()[item_id]
    compared = 0
    for question in draws(item_id, system):
        converted = {}
        for name, number in shown_numbers(item, question).items():
            given = item.givens[name]
            own, theirs = given.own_unit(system), given.own_unit(other)
            converted[name] = f"{number * own.factor / theirs.factor!r} {theirs.symbol}"
        try:
            twin = item.draw(question.seed, other, converted)
        except BankError:
            continue  # the other system's own mistakes may lie too near for these numbers
        factor = register(question.register).unit(question.unit).factor
        theirs = register(twin.register).unit(twin.unit).factor
        assert twin.value * theirs == pytest.approx(question.value * factor, rel=1e-9)
        compared += 1
    assert compared > len(SEEDS) / 2


@every_numeric
@both_systems
def test_fixed_givens_are_taken_as_they_stand(item_id, system):
    """A rig sheet's numbers: shown in the stem, with or without their unit, whatever the seed."""
    item = load_once()[item_id]
    question = draws(item_id, system)[3]
    fixed = {name: f"{number:,.10g}" for name, number in shown_numbers(item, question).items()}
    with_units = {name: f"{text} {item.givens[name].own_unit(system).symbol}" for name, text in fixed.items()}
    for seed in (3, 4, 5):
        bare, full = item.draw(seed, system, fixed), item.draw(seed, system, with_units)
        assert bare == full and bare.stem == question.stem and bare.value == pytest.approx(question.value, rel=1e-12)


@every_numeric
@both_systems
def test_every_drawn_given_lies_on_the_grid_of_its_own_system(item_id, system):
    """Start + i × step, as decimal text: never 0.30000000000000004, never the other system's grid."""
    item = load_once()[item_id]
    for question in draws(item_id, system):
        for name, number in shown_numbers(item, question).items():
            grid = item.givens[name].grids.get(system)
            if grid:
                place, left = divmod(Decimal(str(number)) - grid.start, grid.step)
                assert left == 0 and 0 <= place < grid.count, f"seed {question.seed}: {name} = {number}"


def test_a_fixed_number_is_shown_as_numbers_are_shown_here():
    """A rig sheet holds plain numbers: 1300 stands as 1,300 in the stem, and no float shows its last digits."""
    item = load_once()["units.string-under-block"]
    stem = item.draw(1, "metric", {"hook_load": 1300, "travelling_weight": 10_000 * (0.1 + 0.2) * 5}).stem
    assert "1,300 kN" in stem and "15,000 kg" in stem


@every_numeric
@both_systems
def test_one_given_may_be_fixed_and_the_rest_drawn(item_id, system):
    item = load_once()[item_id]
    for name in item.givens:
        number = f"{shown_numbers(item, draws(item_id, system)[3])[name]:,.10g}"
        for seed in range(10):
            drawn = item.draw(seed, system, {name: number})
            assert shown_numbers(item, drawn)[name] == float(number.replace(",", ""))


@every_numeric
@both_systems
def test_the_bench_agrees_with_the_draw(item_id, system):
    """The same numbers typed at the bench: same value, same working, for both hands."""
    item = load_once()[item_id]
    for question in draws(item_id, system)[:50]:
        typed = {name: f"{number:,.10g}" for name, number in shown_numbers(item, question).items()}
        work = item.work(typed, system)
        assert (work.value, work.unit, work.text) == (
            pytest.approx(question.value, rel=1e-12), question.unit, question.key_both,
        )  # fmt: skip
        assert work.working == question.working
        in_commas = {name: in_comma(text) for name, text in typed.items()}
        assert item.work(in_commas, system, comma=True).value == work.value


@every_numeric
def test_an_item_has_its_own_solution_here(item_id):
    assert set(SOLVED[item_id]) == set(SYSTEMS)


def test_the_check_finds_nothing():
    """What `pinandbox check` runs, with 20 seeds in each system."""
    assert [str(each) for each in check_bank(load_once(), 20)] == []


def test_the_pencil_can_do_sums_and_refuses_what_is_none():
    """The reader that judges the printed lines is itself held against sums done by hand."""
    assert pencil("300,000 lbf / (8 × 0.5)") == 75_000
    assert pencil("2 kg × 9.80665 × 25 m") == pytest.approx(490.3325)
    assert pencil("√(2 × 32 × 4 ft)") == 16
    assert pencil("10 m/s² × 3² − −1") == 91
    assert pencil("10 − 4 − 3") == 3 and pencil("64 / 4 / 2") == 8 and pencil("2 ^ 3 × 2") == 16
    assert pencil("whole(7 / 2) + roundup(7 / 2)") == 7 and pencil("4 ft × sine(30°)") == pytest.approx(2)
    for line in ("", "2 ×", "(2 × 3", "2 3", "lbf", "2 ** 3", "ft / 2"):
        with pytest.raises(Unworkable):
            pencil(line)
