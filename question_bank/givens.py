"""The givens of a numeric item: grids and lists that a draw picks on, and what was drawn."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from question_bank.numbers import show
from question_bank.units import Unit, both, register, split_quantity

FIGURES_OF_FIXED = 10
"""A number decided elsewhere is shown with at most so many figures; its value stays exact."""
FIGURES_BESIDE = 4
"""A hand may work from the number in brackets too: 4 in is 101.6 mm there, and not 100 mm."""


@dataclass(frozen=True)
class Grid:
    """Values start, start + step, … in one unit, written as decimals so that none is ever 0.30000000000000004."""

    start: Decimal
    step: Decimal
    count: int
    unit: Unit

    def texts(self) -> list[str]:
        """Every value as text, lowest first: '286,000'."""
        found = (f"{self.start + at * self.step:,f}" for at in range(self.count))
        return [each.rstrip("0").rstrip(".") if "." in each else each for each in found]

    @property
    def ends(self) -> tuple[float, float]:
        """First and last value in base units."""
        last = self.start + (self.count - 1) * self.step
        return float(self.start) * self.unit.factor, float(last) * self.unit.factor


@dataclass(frozen=True)
class Listed:
    """Values that makers stamp, rising, as they are written: 350, 500, 650 st. Between them nothing is drawn."""

    values: tuple[str, ...]
    unit: Unit

    def texts(self) -> list[str]:
        """Every value as text, lowest first: '1,250'."""
        return [f"{Decimal(each):,f}" for each in self.values]

    @property
    def ends(self) -> tuple[float, float]:
        """First and last value in base units."""
        return float(self.values[0]) * self.unit.factor, float(self.values[-1]) * self.unit.factor


@dataclass(frozen=True)
class Drawn:
    """A drawn given: its text without and with the unit, and its value in base units. A `limit` is never overstated."""

    name: str
    number: str
    unit: Unit
    base: float
    limit: bool = False
    beside_it: str | None = None
    """What stands beside it where that is decided too: a case shows an earlier result as the verdict showed it."""

    @property
    def text(self) -> str:
        """'286 klbf', or '8' for a count."""
        return f"{self.number} {self.unit.symbol}".strip()

    def beside(self, system: str) -> str:
        """Both systems, the hand's first: '286 klbf (1,272 kN)'. A count stands alone.

        What may not be exceeded is rounded down on the other side: a rating of 500 st is 453.5 t there, not 453.6 t.
        """
        if self.beside_it is not None:
            return f"{self.text} ({self.beside_it})"
        if self.unit.pair is None:
            return self.text
        return both(
            self.text,
            system,
            register_name=self.unit.register,
            figures=FIGURES_BESIDE,
            to="down" if self.limit else "either",
        )


@dataclass(frozen=True)
class Given:
    """One given. It has grids by system, or plain numbers to pick among, or a table looked up by another given.

    `limit` says that it may not be exceeded: a rating, a strength, the clear height of a mast.
    """

    name: str
    labels: Mapping[str, str]
    register: str
    grids: Mapping[str, Grid | Listed]
    among: tuple[str, ...] = ()
    by: str | None = None
    table: Mapping[str, str] | None = None
    rig: str | None = None
    limit: bool = False

    def choices(self, system: str) -> tuple[Drawn, ...]:
        """Everything that this given can be drawn as. One that is looked up has a row for each choice of the other."""
        if self.by is not None:
            return tuple(self.fixed(each, system) for each in self.table.values())
        return tuple(self.fixed(each, system) for each in self.among or self.grids[system].texts())

    def fixed(self, value: str | int | float, system: str) -> Drawn:
        """This given with a value decided elsewhere: a number of its own unit, '300,000 lbf' or '902 kN (202.8 klbf)'.

        What stands in brackets is kept, to be shown again as it is. Raises UnitError.
        """
        text, _, beside_it = str(value).removesuffix(")").partition(" (")
        number, symbol = split_quantity(text)
        unit = register(self.register).unit(symbol) if symbol else self.own_unit(system)
        plain = float(number.replace(",", "").replace("−", "-"))
        return Drawn(self.name, show(plain, FIGURES_OF_FIXED), unit, plain * unit.factor, self.limit, beside_it or None)

    @property
    def ends(self) -> list[float]:
        """The values that bound it, in base units: the numbers it picks among, or the ends of its grids."""
        numbers = self.among or tuple((self.table or {}).values())
        return [float(each) for each in numbers] or [end for grid in self.grids.values() for end in grid.ends]

    def holds(self, base: float) -> bool:
        """Whether a value decided elsewhere is such as could be drawn: a count it picks among, else within its ends."""
        if self.register == "count":
            return any(math.isclose(base, each, rel_tol=1e-9) for each in self.ends)
        low, high = min(self.ends), max(self.ends)
        return low - abs(low) * 1e-9 <= base <= high + abs(high) * 1e-9

    def own_unit(self, system: str) -> Unit:
        """The unit that a draw of this system shows."""
        return self.grids[system].unit if self.grids else register(self.register).unit("")
