"""What every part of the check needs: a printed line worked out again, a quantity of our own files, a worked value."""

import re

from question_bank.equations import EquationError, worked_out
from question_bank.item import Item
from question_bank.item_fields import Fields
from question_bank.tolerance import Tolerance
from question_bank.units import Unit, UnitError, register, split_quantity
from question_bank.working import Line

WORKED_AGREES = 0.002
CARRIED_AGREES = 1e-5
"""A carried number and the factor it is turned with have six figures each; either may be half of its last one off."""
SMALLEST, LARGEST = 1e-3, 9_999_999.0
"""What a line of a working may come to; a bore in miles or a load in grams is a slip in a unit."""
NUMBER = re.compile(r"[−-]?\d[\d,]*(?:\.\d+)?")


def check_line(item: Item, line: Line, allowed: float, relative: bool, where: str) -> None:
    """The numbers put in must give the printed result, to within `allowed`: a share of it, or an amount.

    Raises BankError.
    """
    try:
        from_print, result = worked_out(line.put_in), worked_out(line.result)
    except EquationError as error:
        raise item.fault("steps", f"{where}: {error}") from None
    if result and not SMALLEST <= abs(result) <= LARGEST:
        raise item.fault("steps", f"{where}: nobody writes {line.result} for {line.find}. Give that step another unit.")
    amount = allowed * abs(result) if relative else max(allowed, abs(result) * CARRIED_AGREES)
    if abs(from_print - result) > amount:
        raise item.fault(
            "steps", f"{where}: “{line.put_in}” works out to {from_print:.6g}, but {line.result} is printed."
        )


def agrees(fields: Fields, field: str, text: str, register_name: str, value: float, tolerance: Tolerance) -> None:
    """A value in base units against the one worked by hand, as an item's file states it. Raises BankError."""
    wanted, unit = quantity(fields, field, text, register_name)
    allowed = WORKED_AGREES * abs(wanted)
    if tolerance.kind == "absolute":
        allowed = min(allowed, tolerance.half_width(0.0, unit, "us") * unit.factor)
    if tolerance.kind == "exact":
        allowed = 1e-9 * abs(wanted)
    if abs(value - wanted) > allowed:
        raise fields.fault(
            field, f"worked by hand it is {text}; the formula gives {value / unit.factor:.6g} {unit.symbol}."
        )


def quantity(fields: Fields, field: str, text: str, register_name: str) -> tuple[float, Unit]:
    """A quantity of our own files in base units, and its unit. Raises BankError."""
    number, symbol = split_quantity(text)
    try:
        unit = register(register_name).unit(symbol)
    except UnitError as error:
        raise fields.fault(field, str(error)) from None
    if not NUMBER.fullmatch(number):
        raise fields.fault(field, f"{text!r} does not begin with a number. Write it like '44,590 lbf'.")
    return float(number.replace(",", "").replace("−", "-")) * unit.factor, unit
