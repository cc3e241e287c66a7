"""The dials of a gauge item: each against its reading worked by hand, and against the item's other dials."""

from decimal import Decimal

from question_bank.check_lines import quantity
from question_bank.item_fields import Fields
from question_bank.kinds.dial_fields import DialRow
from question_bank.kinds.gauge import GaugeItem

DIALS_AGREE = 0.08
"""How far the ends of an item's dials, and of what is read on them, may differ: as the grids of a numeric item."""
WAY_AGREES = Decimal("0.002")


def check_dials(item: GaugeItem) -> None:
    """Raises BankError."""
    rows = item.fields.tables("dials")
    for row, dial in zip(rows, item.dials, strict=True):
        _check_worked_reading(row, dial)
        for field, mine, first in zip(("from", "to", "reads", "reads"), _ends(dial), _ends(item.dials[0]), strict=True):
            if abs(mine - first) > DIALS_AGREE * max(abs(mine), abs(first)):
                raise row.fault(field, f"it differs from that of the first dial by more than {DIALS_AGREE:.0%}.")


def _check_worked_reading(row: Fields, dial: DialRow) -> None:
    """A reading worked by hand: between which numbers, how many spaces past the lower one, what part of the scale."""
    check = row.inner("check")
    check.only("reading", "after", "before", "marks", "way", "by")
    check.needed("by")
    text, scale = check.needed("reading"), dial.dial
    _, unit = quantity(check, "reading", text, dial.unit.register)
    if unit != dial.unit:
        raise check.fault("reading", f"it is in {unit.symbol}, the dial in {dial.unit.symbol}.")
    reading = Decimal(text.split(" ")[0].replace(",", ""))
    if reading not in dial.readings:
        raise check.fault("reading", f"{text} is not one of the readings that are drawn.")
    passed = scale.passed(reading)
    for name, value in (("after", passed), ("before", passed + scale.numbered), ("marks", scale.past(reading))):
        if check.decimal(name) != value:
            raise check.fault(name, f"by hand it is {check.decimal(name)}; on the dial it is {value}.")
    way = (reading - scale.start) / (scale.stop - scale.start)
    if abs(check.decimal("way") - way) > WAY_AGREES:
        raise check.fault("way", f"by hand it is {check.decimal('way')} of the scale; on the dial it is {way:.4f}.")


def _ends(dial: DialRow) -> tuple[float, ...]:
    """Both ends of the scale and of what is read on it, in base units."""
    ends = (dial.dial.start, dial.dial.stop, dial.lowest, dial.highest)
    return tuple(float(each) * dial.unit.factor for each in ends)
