"""How each formula is written: its docstring, and its printed equations with units beside the numbers."""

import re

import pytest

from question_bank.equations import worked_out
from question_bank.formulas import all_formulas, formula
from question_bank.numbers import show
from question_bank.units import register
from tests.bank.formula_ranges import near

every_formula = pytest.mark.parametrize("name", all_formulas())


@every_formula
def test_the_docstring_says_what_it_takes_when_it_holds_and_what_it_leaves_out(name):
    doc = " ".join(formula(name).doc.split())
    for part in ("Takes ", "; gives ", "Holds ", "Leaves out ", "Source: "):
        assert part in doc, f"{name} does not say {part!r}"
    plain = doc.replace("capacities", "capacity")
    for each in {*formula(name).takes.values(), formula(name).gives}:
        assert re.search(rf"\b{each}", plain), f"{name} does not name {each}"
    assert not re.search(r"\bton\b(?!-mile)", doc), "st or t, never the bare word"


@every_formula
@pytest.mark.parametrize("system", ["us", "metric"])
def test_a_printed_equation_with_units_beside_its_numbers_gives_the_same(name, system):
    """As the working prints it: '5 in^2' must not lose its square because in² is a unit."""
    equation = formula(name).printed(system)
    texts, numbers = {}, {}
    for each, register_name in formula(name).takes.items():
        low, high = formula(name).holds_in_base(each)
        unit = register(register_name).unit(equation.units[each])
        text = show((low + 2 * high) / 3 / unit.factor, 6)
        texts[each], numbers[each] = f"{text} {unit.symbol}".strip(), float(text.replace(",", ""))
    assert worked_out(equation.filled(texts)) == near(equation.work_out(numbers))
