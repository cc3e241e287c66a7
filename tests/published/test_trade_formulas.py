"""The bank's formulas against figures that others have printed, row by row of trade_table.toml.

Figures that were seen (V) count as verified. Those from memory, or worked out by hand and not published, run too and do
not count.
"""

import tomllib
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

import pytest

from question_bank.formulas import all_formulas, formula
from question_bank.units import register, split_quantity

TABLE = tomllib.loads(Path(__file__).with_name("trade_table.toml").read_text(encoding="utf-8"))
VERIFIED, APART = ("V",), ("V2", "M", "D")
LEAST_VERIFIED = {"R": 5, "H": 5, "L": 5, "S": 5}
FIELDS = {"what", "ours", "printed", "allow", "mark", "source"}


@dataclass(frozen=True)
class Row:
    """One printed figure. `ours` is a formula's name and its givens; `allow` is in per cent."""

    id: str
    what: str
    ours: dict
    printed: str
    allow: float
    mark: str
    source: str

    @property
    def figure(self) -> float:
        """The printed figure, in the unit that it is printed in."""
        return float(split_quantity(self.printed)[0].replace(",", ""))

    @property
    def found(self) -> float:
        """What the bank's formula comes to, in the same unit."""
        gives = formula(self.ours["formula"]).gives
        return in_base_units(self.ours) / register(gives).unit(split_quantity(self.printed)[1]).factor

    def is_met_by(self, figure: float) -> bool:
        """Whether a figure agrees with the formula within the gap."""
        return abs(figure - self.found) <= self.allow / 100 * abs(self.found)


def in_base_units(call: dict) -> float:
    """The value of a call of a formula, in base units."""
    called = formula(call["formula"])
    assert set(call) - {"formula"} == set(called.takes), f"{called.name} takes {', '.join(called.takes)}"
    return called(**{name: given(call[name], register_name) for name, register_name in called.takes.items()})


def given(value: dict | str | float, register_name: str) -> float:
    """A given in base units: a quantity as text, a plain number, or a call of its own."""
    if isinstance(value, dict):
        assert formula(value["formula"]).gives == register_name
        return in_base_units(value)
    number, symbol = split_quantity(str(value))
    return float(number.replace(",", "")) * register(register_name).unit(symbol).factor


ROWS = [Row(name, **row) for name, row in TABLE["rows"].items() if set(row) == FIELDS]


def marked(*marks):
    return [pytest.param(row, id=row.id) for row in ROWS if row.mark in marks]


def fault(row):
    return f"{row.what}: {row.found:.8g}, printed {row.printed} ({row.source})"


@pytest.mark.parametrize("row", marked(*VERIFIED))
def test_a_figure_seen_on_a_page_is_met(row):
    assert row.is_met_by(row.figure), fault(row)


@pytest.mark.parametrize("row", marked(*APART))
def test_a_figure_that_does_not_count_is_met(row):
    """From memory, or worked out by hand: run like the others, and not counted as verified."""
    assert row.is_met_by(row.figure), fault(row)


@pytest.mark.parametrize("row", marked(*VERIFIED, *APART))
def test_a_row_can_fail(row):
    """A figure that is off by a little more than the gap is not met."""
    assert not row.is_met_by(row.figure * (1 + 2.5 * row.allow / 100))
    assert not row.is_met_by(row.figure * (1 - 2.5 * row.allow / 100))


def test_each_row_is_whole_and_belongs_to_a_group():
    assert [name for name, row in TABLE["rows"].items() if set(row) != FIELDS] == []
    for row in ROWS:
        assert row.mark in (*VERIFIED, *APART) and row.source and row.what and row.allow > 0, row.id
        assert row.id[0] in TABLE["groups"], row.id


def test_no_row_is_in_the_table_of_units_too():
    from tests.published import trade_table

    assert {row.id for row in ROWS} & {row.id for row in trade_table.ROWS} == set()


@pytest.mark.parametrize("group", LEAST_VERIFIED)
def test_enough_figures_of_a_group_are_verified(group):
    """Rotating, hoisting, drilling line and strings: at least five figures each that were seen on a page."""
    assert sum(row.id[0] == group and row.mark in VERIFIED for row in ROWS) >= LEAST_VERIFIED[group]


def test_the_count_by_group(capsys):
    """Printed at each run, so that nobody has to believe a number in a document."""
    met = Counter((row.id[0], row.mark) for row in ROWS if row.is_met_by(row.figure))
    used = {name for row in ROWS for name in formulas_in(row.ours)}
    with capsys.disabled():
        print("\nFormulas against printed figures, met by group:")
        for group, title in TABLE["groups"].items():
            memory = met[group, "M"] + met[group, "V2"]
            print(
                f"  {title}: {met[group, 'V']} verified; not counted: {memory} from memory, {met[group, 'D']} by hand"
            )
        print(f"  From memory: {', '.join(row.id for row in ROWS if row.mark in ('M', 'V2'))}")
        print(f"  {len(used)} of {len(all_formulas())} formulas are held to a figure here.")
    assert met.total() == len(ROWS)


def formulas_in(call: dict) -> set[str]:
    """The formulas that a row calls."""
    inner = (formulas_in(value) for value in call.values() if isinstance(value, dict))
    return {call["formula"]}.union(*inner)
