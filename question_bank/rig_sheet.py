"""A rig sheet: the numbers of one rig, in the units of its plates. What is asked for, and how a filled one is read.

A field may be left empty. A number that can't be is a problem, and the sheet is not taken. One that is unlike any rig's
is a doubt: it is taken once somebody says that it is right, and why. A remark only tells what two numbers mean.
"""

import functools
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from question_bank.kinds.hold_range import Range
from question_bank.numbers import in_comma, show
from question_bank.reading import AnswerError, Quantity, other_way, read_quantity
from question_bank.rig_sheet_sense import Finding, across
from question_bank.units import Unit, register, split_quantity

TABLE = Path(__file__).with_name("rig_sheet.toml")
SYSTEMS = ("us", "metric")
FIGURES = 10
"""A number is kept with so many figures: more than any plate has, and 30′ 6″ comes back as it was meant."""

DAYS_GOOD = 14
"""A number of the day is asked with for so many days after it was read (common practice of the course, no source)."""

FIGURES_BESIDE = 4
"""In the other system's unit, a number has so many."""


@dataclass(frozen=True)
class SheetField:
    """One number that a sheet asks for. `usual` is what rigs have, in base units; a `limit` may not be exceeded.

    A number `of_the_day` is good for DAYS_GOOD after the day it was read on.
    """

    name: str
    part: str
    label: str
    note: str | None
    register: str
    units: Mapping[str, str]
    usual: Range
    limit: bool
    of_the_day: bool

    def unit(self, system: str) -> Unit:
        """The unit that is offered first."""
        return register(self.register).unit(self.units[system])

    @property
    def symbols(self) -> list[str]:
        """Every unit that a plate may have."""
        return list(register(self.register).units)


@dataclass(frozen=True)
class SheetReading:
    """A filled form as it was read: values as text with their unit, and by field what is told of them."""

    values: Mapping[str, str]
    problems: Mapping[str, str]
    doubts: Mapping[str, str]
    remarks: tuple[str, ...]


@functools.cache
def sheet_fields() -> Mapping[str, SheetField]:
    """The fields of a sheet by name, in the order of the form."""
    table = tomllib.loads(TABLE.read_text(encoding="utf-8"))
    return {name: _field(name, row) for name, row in table.items()}


def _field(name: str, row: Mapping) -> SheetField:
    low, high = (base_of(text, row["register"]) for text in row["range"])
    units = {system: register(row["register"]).unit(row["units"][system]).symbol for system in SYSTEMS}
    usual, limit = Range(low, high), row.get("limit", False)
    return SheetField(
        name, row["part"], row["label"], row.get("note"), row["register"], units, usual, limit,
        row.get("of_the_day", False),
    )  # fmt: skip


def still_good(values: Mapping[str, str], days_old: int) -> dict[str, str]:
    """The values of a sheet that was read so many days ago, without its numbers of the day once those are too old."""
    fields = sheet_fields()
    return {name: text for name, text in values.items() if days_old <= DAYS_GOOD or not fields[name].of_the_day}


def base_of(text: str, register_name: str) -> float:
    """A kept value, '350 st', in base units."""
    number, symbol = split_quantity(text)
    return float(number) * register(register_name).unit(symbol).factor


def shown_value(name: str, text: str, system: str) -> str:
    """A kept value for a hand of that system, theirs first: '350 st' -> '317.5 t (350 st)'. A limit is rounded down."""
    number, symbol = split_quantity(text)
    field, own = sheet_fields()[name], f"{show(float(number), FIGURES)} {symbol}".strip()
    unit = register(field.register).unit(symbol)
    if unit.pair is None:
        return own
    other = register(field.register).unit(unit.pair)
    value = float(number) * unit.factor / other.factor
    beside = f"{show(value, FIGURES_BESIDE, 'down' if field.limit else 'either')} {other.symbol}"
    return f"{own} ({beside})" if unit.system in (system, None) else f"{beside} ({own})"


def read_sheet(typed: Mapping[str, str], chosen: Mapping[str, str], system: str, comma: bool) -> SheetReading:
    """Read a filled form: a text by field, and the unit that a bare number takes. Nothing typed raises."""
    read: dict[str, Quantity] = {}
    problems: dict[str, str] = {}
    doubts: dict[str, str] = {}
    for name, field in sheet_fields().items():
        text, symbol = typed.get(name, "").strip(), chosen.get(name, field.units[system])
        if not text:
            continue
        try:
            read[name] = read_quantity(text, symbol if symbol in field.symbols else field.units[system], comma,
                                       field.register)  # fmt: skip
        except AnswerError as error:
            problems[name] = error.message
            continue
        if told := _can_not_be(name, read[name]):
            problems[name] = told
        elif told := _unlike_a_rig(field, read[name], text, symbol, comma):
            doubts[name] = told
    sound = {name: each for name, each in read.items() if name not in problems}
    found = across(
        {name: each.base for name, each in sound.items()}, {n: each.shown(comma) for n, each in sound.items()}
    )
    values = {name: f"{each.value:.{FIGURES}g} {each.unit}".strip() for name, each in sound.items()}
    return SheetReading(
        values,
        {**_told("problem", found), **problems},
        {**_told("doubt", found), **doubts},
        tuple(each.says for each in found if each.kind == "remark"),
    )


def remarks(values: Mapping[str, str], system: str) -> list[str]:
    """What only tells what two numbers of a kept sheet mean together."""
    fields = sheet_fields()
    bases = {name: base_of(text, fields[name].register) for name, text in values.items()}
    shown = {name: shown_value(name, text, system) for name, text in values.items()}
    return [each.says for each in across(bases, shown) if each.kind == "remark"]


def _told(kind: str, found: list[Finding]) -> dict[str, str]:
    return {each.field: each.says for each in found if each.kind == kind}


def _can_not_be(name: str, read: Quantity) -> str | None:
    """What no rig can have, whatever its size."""
    if read.value <= 0:
        return "This must be above 0. Leave the field empty if you do not know the number."
    if read.register == "count" and read.value != round(read.value):
        return "Write a whole number: this is counted."
    if name == "lines_strung" and read.value % 2:
        return "Write an even number: each sheave of the travelling block takes two lines."
    return None


def _unlike_a_rig(field: SheetField, read: Quantity, text: str, symbol: str, comma: bool) -> str | None:
    """A sentence for a number outside what rigs have, with the other reading of its mark where that fits."""
    if field.usual.has(read.base):
        return None
    unit = register(field.register).unit(read.unit)
    usual = field.usual.shown(unit)
    told = f"Read as {read.shown(comma)}. Most rigs have {in_comma(usual) if comma else usual}."
    other = other_way(text, symbol, comma, field.register)
    if other is not None and field.usual.has(other.base):
        return f"{told} If you mean {other.shown(comma)}, write it like that."
    return f"{told} Is it right? Read the plate and its unit again."
