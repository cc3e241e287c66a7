"""A kept rig sheet as its pages show it: its numbers by part, and which sums can't take them."""

from dataclasses import dataclass
from datetime import date
from itertools import groupby

from question_bank import Item
from question_bank.rig_sheet import SheetField, remarks, sheet_fields, shown_value
from webapp import at_hand
from webapp.my_rig_sheet import values_on
from webapp.records.rig_sheets import RigSheet

SYSTEMS = ("us", "metric")
IN_SYSTEM = {"us": "In US units", "metric": "In metric units"}


@dataclass(frozen=True)
class Line:
    """One number of a sheet, both systems, and why it is right where it is an unusual one.

    `read_on` is the day of a number of the day; `too_old`: questions have it no more.
    """

    label: str
    shown: str
    note: str | None
    read_on: date | None
    too_old: bool


@dataclass(frozen=True)
class Refused:
    """An item that keeps the course's numbers, and why."""

    item: Item
    why: str


@dataclass(frozen=True)
class ShownSheet:
    """A sheet's numbers by part, what two of them mean together, how many items take them, and which can't."""

    sheet: RigSheet
    parts: list[tuple[str, list[Line]]]
    remarks: list[str]
    taken: int
    refused: list[Refused]


def shown(sheet: RigSheet) -> ShownSheet:
    """The sheet for who is asking."""
    system, good = at_hand.system(), values_on(sheet, at_hand.today())
    fields = [each for each in sheet_fields().values() if each.name in sheet.values]
    parts = [
        (
            part,
            [_line(sheet, each, each.name not in good) for each in rows],
        )
        for part, rows in groupby(fields, key=lambda each: each.part)
    ]
    refused = [
        Refused(at_hand.bank()[name], _why(found))
        for name, found in sheet.draws.items()
        if name in at_hand.bank() and any(found[each] for each in SYSTEMS)
    ]
    return ShownSheet(sheet, parts, remarks(sheet.values, system), len(sheet.draws) - len(refused), refused)


def _line(sheet: RigSheet, field: SheetField, too_old: bool) -> Line:
    shown = shown_value(field.name, sheet.values[field.name], at_hand.system())
    read_on = sheet.read_on if field.of_the_day else None
    return Line(field.label, shown, sheet.notes.get(field.name), read_on, too_old)


def _why(found: dict[str, str | None]) -> str:
    """One sentence where both systems say the same, else each with its system."""
    if found["us"] == found["metric"]:
        return found["us"]
    return " ".join(f"{IN_SYSTEM[each]}: {found[each]}" for each in SYSTEMS if found[each])
