"""The trade's units: registers, factors and how a quantity is shown in both systems.

A register is the set of units that one sort of quantity is written in. Two of them share their spellings: in `load`
(and `weight-per-length`) lb, kg, st and t mean that mass's weight at standard gravity, in `mass` they mean the mass.
Factors come from pint, once a process; nothing else here or elsewhere asks pint for a number, and no text that a
learner types ever reaches it.
"""

import functools
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from types import MappingProxyType

from question_bank.numbers import digits_in, show

TABLE = Path(__file__).with_name("units.toml")

Dimension = tuple[float, float, float]
"""Exponents of mass, length and time."""


class UnitError(ValueError):
    """No such unit, or not in that register. The message says which are there."""


@dataclass(frozen=True)
class Unit:
    """One unit of one register. `factor` takes a number of it to the register's base unit; `exact` is it unrounded."""

    symbol: str
    register: str
    factor: float
    exact: Fraction
    system: str | None
    pair: str | None
    also: tuple[str, ...]
    definition: str
    seldom: bool = False
    """Read when typed, and left out of the list beside a question."""

    @property
    def name(self) -> str:
        """How a formula in an item writes this unit: 'ft·lbf' is ft_lbf, 'm/s²' is m_per_s2."""
        plain = self.symbol.replace("²", "2").replace("³", "3").replace("⁴", "4").replace("/", "_per_")
        return plain.replace("·", "_").replace("-", "_").replace(" ", "_")

    def printed(self, base: float) -> str:
        """A value in base units in this one, to four figures: '24,000 ft/min'."""
        return f"{show(base / self.factor)} {self.symbol}".strip()


@dataclass(frozen=True)
class Register:
    """One sort of quantity: its units in the order they are offered, and its dimension."""

    name: str
    title: str
    dimension: Dimension
    units: Mapping[str, Unit]

    def offered(self, asked: str) -> list[str]:
        """The symbols of the list beside a question, the asked one first."""
        others = (each for each in self.units.values() if each.symbol and not each.seldom)
        return [asked, *(each.symbol for each in others if each.symbol != asked)]

    def unit(self, symbol: str) -> Unit:
        """The unit with that symbol. Raises UnitError."""
        try:
            return self.units[symbol]
        except KeyError:
            known = ", ".join(repr(each) for each in self.units)
            raise UnitError(f"{symbol!r} is not a unit of {self.title}. Units of it are {known}.") from None


def pint_registry():
    """Pint's own registry, in exact fractions: the only place that makes one. It costs a third of a second."""
    import pint

    return pint.UnitRegistry(non_int_type=Fraction)


@functools.cache
def registers() -> Mapping[str, Register]:
    """All registers by name, read from units.toml and given their factors by pint."""
    ureg = pint_registry()
    table = tomllib.loads(TABLE.read_text(encoding="utf-8"))
    return MappingProxyType({name: _register(ureg, name, row) for name, row in table.items()})


def _register(ureg, name: str, row: dict) -> Register:
    base = ureg.parse_units(row["base"])
    powers = base.dimensionality
    dimension = tuple(float(powers.get(each, 0)) for each in ("[mass]", "[length]", "[time]"))
    units = {}
    for each in row["units"]:
        factor = ureg.parse_expression(each["is"]).to(base).magnitude
        units[each["symbol"]] = Unit(
            each["symbol"], name, float(factor), Fraction(factor), each.get("system"), each.get("pair"),
            tuple(each["also"]), each["is"], each.get("seldom", False),
        )  # fmt: skip
    return Register(name, row["title"], dimension, MappingProxyType(units))


def register(name: str) -> Register:
    """The register of that name. Raises UnitError."""
    try:
        return registers()[name]
    except KeyError:
        known = ", ".join(registers())
        raise UnitError(f"{name!r} is not a register. Registers are {known}.") from None


def register_of(symbol: str) -> str:
    """The register that a bare symbol belongs to: the first in the table, so lb is a load and ft·lbf a torque."""
    for each in registers().values():
        if symbol in each.units:
            return each.name
    raise UnitError(f"{symbol!r} is not a unit that this course knows. The table of units is in units.toml.")


def unit(symbol: str, register_name: str | None = None) -> Unit:
    """The unit with that symbol, in the named register or in the first that has it. Raises UnitError."""
    return register(register_name or register_of(symbol)).unit(symbol)


@functools.cache
def unit_constants() -> Mapping[str, tuple[float, Dimension]]:
    """Name -> (factor, dimension) for formulas in items: `klbf`, `ft_lbf`; a second register's lb is `mass_lb`."""
    found: dict[str, tuple[float, Dimension]] = {}
    for each in registers().values():
        for one in each.units.values():
            if one.symbol and one.name.isidentifier():
                spelling = one.name if one.name not in found else f"{each.name.replace('-', '_')}_{one.name}"
                found[spelling] = (one.factor, each.dimension)
    return MappingProxyType(found)


def split_quantity(text: str) -> tuple[str, str]:
    """'17.5 ft·lbf' -> ('17.5', 'ft·lbf'). For our own files, where a number, one space and a symbol are written."""
    number, _, symbol = text.strip().partition(" ")
    return number, symbol.strip()


def both(
    text: str,
    system: str,
    companion: str | None = None,
    register_name: str | None = None,
    figures: int | None = None,
    to: str = "either",
) -> str:
    """A quantity in both systems, the hand's first: both('286 klbf', 'metric') -> '1,272 kN (286 klbf)'.

    The companion keeps one figure more than the number it stands beside, from two to four; or `figures`, where a hand
    may reckon with it. `to` rounds it as numbers.show does. Raises UnitError.
    """
    number, symbol = split_quantity(text)
    shown = unit(symbol, register_name)
    other_symbol = companion or shown.pair
    if other_symbol is None:
        return text
    other = register(shown.register).unit(other_symbol)
    value = float(number.replace(",", "").replace("−", "-")) * shown.factor / other.factor
    beside = f"{show(value, figures or min(4, max(2, digits_in(number) + 1)), to)} {other.symbol}"
    if shown.system in (system, None):
        return f"{text} ({beside})"
    return f"{beside} ({text})"
