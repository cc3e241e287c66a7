"""A kept rig sheet as its pages show it: its numbers by part, and which sums can't take them."""

from dataclasses import dataclass
from itertools import groupby

from question_bank import Item
from question_bank.rig_sheet import remarks, sheet_fields, shown_value
from webapp import at_hand
from webapp.records.rig_sheets import RigSheet

SYSTEMS = ("us", "metric")
IN_SYSTEM = {"us": "In US units", "metric": "In metric units"}


@dataclass(frozen=True)
class Line:
    """One number of a sheet, both systems, and why it is right where it is an unusual one."""

    label: str
    shown: str
    note: str | None


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
    system = at_hand.system()
    fields = [each for each in sheet_fields().values() if each.name in sheet.values]
    parts = [
        (
            part,
            [Line(f.label, shown_value(f.name, sheet.values[f.name], system), sheet.notes.get(f.name)) for f in rows],
        )
        for part, rows in groupby(fields, key=lambda each: each.part)
    ]
    refused = [
        Refused(at_hand.bank()[name], _why(found))
        for name, found in sheet.draws.items()
        if name in at_hand.bank() and any(found[each] for each in SYSTEMS)
    ]
    return ShownSheet(sheet, parts, remarks(sheet.values, system), len(sheet.draws) - len(refused), refused)


def _why(found: dict[str, str | None]) -> str:
    """One sentence where both systems say the same, else each with its system."""
    if found["us"] == found["metric"]:
        return found["us"]
    return " ".join(f"{IN_SYSTEM[each]}: {found[each]}" for each in SYSTEMS if found[each])
