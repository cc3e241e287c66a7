"""Every registered formula: its function, its two printed equations and its ranges say the same thing."""

import dataclasses
import random

import pytest

from question_bank.check import check_formulas
from question_bank.equations import printed
from question_bank.formulas import all_formulas
from question_bank.formulas.formula import FORMULAS
from question_bank.units import register
from tests.bank.pencil import pencil

INPUTS = 50
AGREES = 0.002
every_formula = pytest.mark.parametrize("name", all_formulas())
both_systems = pytest.mark.parametrize("system", ["us", "metric"])


@every_formula
@both_systems
def test_a_printed_equation_gives_what_the_function_gives(name, system):
    """Within 0.2 % on 50 random inputs, worked out by a reader that shares nothing with the bank."""
    formula = all_formulas()[name]
    equation = formula.printed(system)
    picks = random.Random(f"{name} {system}")
    for _ in range(INPUTS):
        base, texts = {}, {}
        for given, register_name in formula.takes.items():
            value = picks.uniform(*formula.holds_in_base(given))
            factor = register(register_name).unit(equation.units[given]).factor
            texts[given] = f"{value / factor:.12f}"
            base[given] = float(texts[given]) * factor
        own = formula(**base) / register(formula.gives).unit(equation.gives).factor
        assert pencil(equation.filled(texts)) == pytest.approx(own, rel=AGREES), texts


@every_formula
@both_systems
def test_a_printed_equation_uses_each_of_its_values_in_a_unit_of_its_system(name, system):
    formula = all_formulas()[name]
    equation = formula.printed(system)
    assert set(equation.names) == set(equation.units) == set(formula.takes) == set(formula.holds)
    for given, symbol in equation.units.items():
        assert register(formula.takes[given]).unit(symbol).system in (system, None), f"{given} in {symbol}"
    assert register(formula.gives).unit(equation.gives).system in (system, None)


@every_formula
def test_a_formula_says_what_it_is_for_and_where_it_comes_from(name):
    formula = all_formulas()[name]
    assert formula.doc and formula.source
    assert set(formula.symbols) == {"return", *formula.takes}
    for given in formula.takes:
        low, high = formula.holds_in_base(given)
        assert low < high


def test_the_check_finds_nothing_amiss_with_them():
    assert [str(each) for each in check_formulas()] == []


@pytest.mark.parametrize(
    "us, what",
    [
        (printed("{mass} × {height} × 1.003", "ft·lbf", mass="lb", height="ft"), "a factor 0.3 % off"),
        (printed("{mass} / {height}", "ft·lbf", mass="lb", height="ft"), "the wrong operator"),
        (printed("{mass} × {height}", "ft·lbf", mass="kg", height="ft"), "the wrong unit put in"),
        (printed("{mass} × {height}", "J", mass="lb", height="ft"), "the wrong unit given"),
        (printed("{mass} × {mass}", "ft·lbf", mass="lb"), "a value left out"),
        (printed("{mass} × {height} ×", "ft·lbf", mass="lb", height="ft"), "half an equation"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_the_check_refuses_a_printed_equation_with(monkeypatch, us, what):
    """The fault names the formula and the system."""
    monkeypatch.setitem(FORMULAS, "drop_energy", dataclasses.replace(FORMULAS["drop_energy"], us=us))
    found = [each for each in check_formulas() if each.item == "drop_energy"]
    assert [each.field for each in found] == ["us"]
