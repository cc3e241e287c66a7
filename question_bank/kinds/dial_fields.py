"""What a gauge item's file states: its dials, each with the readings that may be drawn on it."""

from dataclasses import dataclass
from decimal import Decimal

from question_bank.gauge import Dial
from question_bank.item_fields import SYSTEMS, Fields
from question_bank.units import Unit, UnitError, register, register_of

MOST_MARKS = 50
"""Small spaces round a dial: with more, half a space can't be seen on a phone."""
SPACES = (2, 10)
NUMBERS = (4, 13)
LONGEST = 4
"""Digits of a number on a dial."""


@dataclass(frozen=True)
class DialRow:
    """One dial, who reads it, the ends of what may be drawn on it, and for what a small space is wrongly taken."""

    dial: Dial
    unit: Unit
    systems: tuple[str, ...]
    lowest: Decimal
    highest: Decimal
    taken_for: tuple[str, ...]

    @property
    def readings(self) -> tuple[Decimal, ...]:
        """Each half of a small space in the range, but none on a number: such a one needs no counting."""
        step = self.dial.mark / 2
        values = (self.lowest + at * step for at in range(int((self.highest - self.lowest) / step) + 1))
        return tuple(each for each in values if (each - self.dial.start) % self.dial.numbered)


def read_dials(fields: Fields) -> list[DialRow]:
    """All dials of an item: of one register, and at least one for each system. Raises BankError."""
    rows = [_dial(fields, row) for row in fields.tables("dials")]
    if missing := set(SYSTEMS) - {system for row in rows for system in row.systems}:
        raise fields.fault("dials", f"there is no dial for {', '.join(sorted(missing))}.")
    if len({row.unit.register for row in rows}) > 1:
        raise fields.fault("dials", "all dials of an item must be of one register.")
    return rows


def _dial(fields: Fields, row: Fields) -> DialRow:
    row.only("systems", "unit", "from", "to", "mark", "numbered", "reads", "taken_for", "check")
    systems = tuple(row.texts("systems"))
    if set(systems) - set(SYSTEMS) or len(set(systems)) < len(systems):
        raise row.fault("systems", f"{list(systems)} are not systems. Systems are {', '.join(SYSTEMS)}.")
    try:
        symbol = row.needed("unit")
        unit = register(fields.text("register") or register_of(symbol)).unit(symbol)
    except UnitError as error:
        raise row.fault("unit", str(error)) from None
    start, stop, mark, numbered = (row.decimal(each) for each in ("from", "to", "mark", "numbered"))
    dial = Dial(unit.symbol, fields.needed("word"), start, stop, mark, numbered)
    _check_scale(row, dial)
    return DialRow(dial, unit, systems, *_reads(row, dial), _taken_for(row, dial))


def _check_scale(row: Fields, dial: Dial) -> None:
    if dial.mark <= 0 or dial.stop <= dial.start or dial.start < 0:
        raise row.fault("", "a dial runs from 0 or more to a larger number, in marks above 0.")
    if dial.numbered % dial.mark or not SPACES[0] <= dial.spaces <= SPACES[1]:
        raise row.fault("numbered", f"from number to number there must be {SPACES[0]} to {SPACES[1]} whole spaces.")
    if (dial.stop - dial.start) % dial.numbered or not NUMBERS[0] <= len(dial.numbers) <= NUMBERS[1]:
        raise row.fault("to", f"the dial must end on a number and have {NUMBERS[0]} to {NUMBERS[1]} of them.")
    if dial.start % dial.numbered:
        raise row.fault("from", "the dial must begin on a multiple of its numbers' spacing.")
    if (dial.stop - dial.start) / dial.mark > MOST_MARKS:
        raise row.fault("mark", f"more than {MOST_MARKS} small spaces can't be read on a phone.")
    if any(each % 1 or len(f"{each:f}") > LONGEST for each in dial.numbers):
        raise row.fault("numbered", f"numbers on a dial are whole and have at most {LONGEST} digits.")


def _reads(row: Fields, dial: Dial) -> tuple[Decimal, Decimal]:
    reads = row.inner("reads")
    reads.only("from", "to")
    low, high, step = reads.decimal("from"), reads.decimal("to"), dial.mark / 2
    if not dial.start <= low < high <= dial.stop or (low - dial.start) % step or (high - dial.start) % step:
        raise reads.fault("", "readings run from a half or whole mark to a higher one, both on the dial.")
    return low, high


def _taken_for(row: Fields, dial: Dial) -> tuple[str, ...]:
    worths = row.numbers("taken_for")
    if any(Decimal(each) <= 0 or Decimal(each) == dial.mark for each in worths) or len(set(worths)) < len(worths):
        raise row.fault("taken_for", "wrong worths of a small space are above 0 and different, and none is right.")
    return worths
