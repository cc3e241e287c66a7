"""What a numeric item's file states, read and compiled: units, tolerance, givens, steps, mistakes."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise

from question_bank.formulas.formula import Formula
from question_bank.givens import Given, Grid, Listed
from question_bank.item_fields import SYSTEMS, Fields
from question_bank.kinds.expression_fields import compiled_from, one_call, read_expressions, same_dimension
from question_bank.rig_limits import rig_limits
from question_bank.steps import Expression
from question_bank.tolerance import SHARES, Tolerance
from question_bank.units import Unit, UnitError, register, register_of, split_quantity, unit
from question_bank.working import Step

AMOUNT = re.compile(r"(?=.*[1-9])\d+(?:\.\d+)?")
NAME = re.compile(r"[a-z][a-z0-9_]*")


@dataclass(frozen=True)
class Mistake:
    """A known wrong way: its expression by system, where it leads for the worked check, and what to tell."""

    name: str
    title: str
    formulas: Mapping[str, Expression]
    tell: Mapping[str, str]
    gives: Mapping[str, str]


def read_units(fields: Fields) -> dict[str, Unit]:
    """The asked unit by system, both of one register."""
    symbols = fields.by_system("unit") if fields.table.get("unit") != "" else dict.fromkeys(SYSTEMS, "")
    if set(symbols) != set(SYSTEMS):
        raise fields.fault("unit", "both systems need a unit.")
    try:
        name = fields.text("register") or register_of(symbols["us"])
        return {system: register(name).unit(symbol) for system, symbol in symbols.items()}
    except UnitError as error:
        raise fields.fault("unit", str(error)) from None


def read_tolerance(fields: Fields, units: Mapping[str, Unit]) -> Tolerance:
    """{ exact = true }, { absolute = "0.01 ft" }, { relative = 0.01 }, { down = 0.005 } or { up = 0.01 }.

    An absolute one may be given by system.
    """
    inner = fields.inner("tolerance")
    inner.only("exact", "absolute", *SHARES)
    if len(inner.table) != 1:
        raise fields.fault("tolerance", f"an item states one tolerance: exact, absolute or one of {', '.join(SHARES)}.")
    kind = next(iter(inner.table))
    if kind == "exact":
        if not inner.flag("exact"):
            raise inner.fault(kind, "write exact = true, or state another tolerance.")
        return Tolerance("exact", {})
    amounts = {s: str(inner.decimal(kind)) for s in SYSTEMS} if kind in SHARES else inner.by_system(kind)
    if kind in SHARES and not 0 < Decimal(amounts["us"]) <= Decimal("0.05"):
        raise inner.fault(kind, "this is a share of the value: it lies above 0 and is 0.05 at most.")
    if kind == "absolute":
        for system, each in units.items():
            _unit_of(inner, kind, amounts[system], each.register)
            if not AMOUNT.fullmatch(split_quantity(amounts[system])[0]):
                raise inner.fault(kind, f"{amounts[system]!r} does not begin with a number above 0, as '0.01 ft' does.")
    return Tolerance(kind, amounts)


def read_givens(fields: Fields) -> dict[str, Given]:
    """The givens in the file's order; a table looks up a given that stands before it."""
    inner = fields.inner("givens")
    found: dict[str, Given] = {}
    for name in inner.table:
        if not NAME.fullmatch(name):
            raise inner.fault(name, "a given's name is small letters, digits and _.")
        found[name] = _given(name, inner.inner(name), found)
    return found


def _given(name: str, row: Fields, before: Mapping[str, Given]) -> Given:
    row.only("label", "register", "us", "metric", "among", "by", "table", "rig", "limit")
    label = row.by_system("label") if "label" in row.table else dict.fromkeys(SYSTEMS, name.replace("_", " "))
    limit = row.flag("limit") or row.text("rig") in rig_limits()
    ways = [way for way in ("us", "among", "by") if way in row.table]
    if len(ways) != 1:
        raise row.fault("", "a given has grids (us and metric), or among, or by with a table: one of them.")
    if ways == ["us"]:
        grids = {system: _grid(row.inner(system), row.text("register")) for system in SYSTEMS}
        if grids["us"].unit.register != grids["metric"].unit.register:
            raise row.fault("metric unit", "both grids must be of one register.")
        return Given(name, label, grids["us"].unit.register, grids, rig=row.text("rig"), limit=limit)
    register_name = row.text("register") or "ratio"
    try:
        register(register_name).unit("")
    except UnitError as error:
        raise row.fault("register", str(error)) from None
    if ways == ["among"]:
        return Given(name, label, register_name, {}, among=row.numbers("among"), rig=row.text("rig"))
    by, rows = row.needed("by"), row.inner("table")
    table = {key: str(rows.decimal(key)) for key in rows.table}
    if by not in before or set(before[by].among) != set(table):
        raise row.fault("by", "the table must have one row for each value of a given that stands above it.")
    table = {key: table[key] for key in before[by].among}
    return Given(name, label, register_name, {}, by=by, table=table, rig=row.text("rig"))


def _grid(row: Fields, register_name: str | None) -> Grid | Listed:
    """from, to and step; or values, where only some values are real."""
    listed = "values" in row.table
    row.only(*(("values",) if listed else ("from", "to", "step")), "unit")
    try:
        found = unit(row.needed("unit"), register_name)
    except UnitError as error:
        raise row.fault("unit", str(error)) from None
    return _listed(row, found) if listed else _stepped(row, found)


def _listed(row: Fields, found: Unit) -> Listed:
    values = row.numbers("values")
    plain = [Decimal(each) for each in values]
    if len(values) < 2 or any(each >= after for each, after in pairwise(plain)):
        raise row.fault("values", "write two values or more, each larger than the one before.")
    return Listed(values, found)


def _stepped(row: Fields, found: Unit) -> Grid:
    start, stop, step = (row.decimal(each) for each in ("from", "to", "step"))
    if step <= 0 or stop < start or (stop - start) % step:
        raise row.fault("step", f"from {start} to {stop} is not a whole number of steps of {step}.")
    return Grid(start, step, int((stop - start) / step) + 1, found)


def read_steps(
    fields: Fields, givens: Mapping[str, Given], units: Mapping[str, Unit], formulas: Mapping[str, Formula]
) -> tuple[Step, ...]:
    """The steps in order: each a formula's call, plain arithmetic, or one name said in another unit."""
    rows = fields.tables("steps")
    if not rows:
        raise fields.fault("steps", "an item needs at least one step.")
    for name in givens.keys() & formulas.keys():
        raise fields.fault(f"givens {name}", "a formula has this name. Give the given another.")
    known = {name: register(given.register).dimension for name, given in givens.items()}
    found: list[Step] = []
    for row in rows:
        row.only("name", "find", "formula", "unit", "register")
        name = row.needed("name")
        if not NAME.fullmatch(name) or name in known or name in formulas:
            raise row.fault("name", f"{name!r} is taken, a formula's name, or not small letters, digits and _.")
        expression = compiled_from(row, row.needed("formula"), known, formulas, literals=False)
        called, terms = one_call(row, expression, formulas)
        asked = units if row is rows[-1] else _step_units(row, called)
        step = Step(
            name,
            row.needed("find"),
            expression,
            called,
            terms,
            {s: each.symbol for s, each in asked.items()},
            asked["us"].register,
        )
        same_dimension(row, expression, step.register)
        known[name] = expression.dimension
        found.append(step)
    return tuple(found)


def _step_units(row: Fields, called: Formula | None) -> dict[str, Unit]:
    if "unit" not in row.table and called is not None:
        return {s: register(called.gives).unit(called.printed(s).gives) for s in SYSTEMS}
    symbols = row.by_system("unit")
    try:
        name = row.text("register") or (called.gives if called else register_of(symbols["us"]))
        return {system: register(name).unit(symbol) for system, symbol in symbols.items()}
    except UnitError as error:
        raise row.fault("unit", str(error)) from None


def read_mistakes(
    fields: Fields, givens: Mapping[str, Given], steps: tuple[Step, ...], asked: str, formulas: Mapping[str, Formula]
) -> tuple[Mistake, ...]:
    """The known wrong ways. Plain numbers are allowed in them: a wrong constant is what many of them are."""
    found: list[Mistake] = []
    for row in fields.tables("mistakes"):
        row.only("name", "formula", "tell", "gives")
        compiled = read_expressions(row, givens, steps, asked, formulas)
        tell = row.by_system("tell")
        if set(compiled) - set(tell):
            raise row.fault("tell", "each system that has a formula needs its tell.")
        gives = row.by_system("gives")
        if set(compiled) - set(gives):
            raise row.fault("gives", "each system that has a formula needs the value that it gives for the check.")
        name = row.needed("name")
        found.append(Mistake(name, name.replace("-", " ").capitalize(), compiled, tell, gives))
    if len({each.name for each in found}) < len(found):
        raise fields.fault("mistakes", "two mistakes have one name.")
    return tuple(found)


def _unit_of(row: Fields, field: str, text: str, register_name: str) -> Unit:
    try:
        return register(register_name).unit(split_quantity(text)[1])
    except UnitError as error:
        raise row.fault(field, str(error)) from None
