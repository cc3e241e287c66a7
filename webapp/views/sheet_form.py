"""The form of a rig sheet: what was typed, what is told beside each field, and what is kept of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import groupby

from flask import request

from question_bank.rig_draws import check_draws
from question_bank.rig_sheet import (
    DAYS_GOOD,
    SheetField,
    SheetReading,
    read_sheet,
    sheet_fields,
    shown_value,
    still_good,
)
from question_bank.units import split_quantity
from webapp import at_hand
from webapp.records import rig_sheets
from webapp.records.rig_sheets import RigSheet

LONGEST_NOTE = 200


@dataclass(frozen=True)
class Row:
    """One field as it stands in the form. `doubt` is told until somebody says that the number is right, and why."""

    field: SheetField
    text: str
    unit: str
    problem: str | None = None
    doubt: str | None = None
    sure: bool = False
    note: str = ""

    @property
    def needs_mending(self) -> bool:
        """Whether the sheet can't be kept as long as this stands."""
        return bool(self.problem or (self.doubt and not (self.sure and self.note)))


@dataclass(frozen=True)
class SheetForm:
    """The whole form."""

    rows: list[Row]
    reading: SheetReading

    @property
    def amiss(self) -> list[Row]:
        """The fields that stand in the way."""
        return [row for row in self.rows if row.needs_mending]

    @property
    def is_empty(self) -> bool:
        """Whether nothing was filled in."""
        return not any(row.text for row in self.rows)

    @property
    def is_sound(self) -> bool:
        """Whether it can be kept."""
        return not self.amiss and not self.is_empty

    @property
    def notes(self) -> dict[str, str]:
        """Why an unusual number is right, by field."""
        return {row.field.name: row.note for row in self.rows if row.doubt}


def opened_form(sheet: RigSheet | None) -> list[Row]:
    """The form as it is opened: with the numbers of a kept sheet, or empty. What was doubted once stays answered.

    A number of the day is asked for anew on another day.
    """
    kept = still_good(sheet.values, 0 if sheet.read_on == at_hand.today() else DAYS_GOOD + 1) if sheet else {}
    typed = {name: _in_own_mark(text) for name, text in kept.items()}
    doubts = read_sheet(typed, {}, at_hand.system(), at_hand.comma()).doubts
    return [_as_kept(field, typed, doubts, sheet.notes if sheet else {}) for field in sheet_fields().values()]


def beside(sheet: RigSheet | None, whose: str, only_of_the_day: bool = False) -> dict[str, str]:
    """What stands in grey beside the fields: the numbers of a kept sheet, those of the day with their day."""
    fields = sheet_fields()
    return {
        name: f"{whose}: {shown_value(name, text, at_hand.system())}"
        + (f", read on {sheet.read_on.day} {sheet.read_on:%b}" if fields[name].of_the_day else "")
        for name, text in (sheet.values if sheet else {}).items()
        if fields[name].of_the_day or not only_of_the_day
    }


def by_part(rows: list[Row]) -> list[tuple[str, list[Row]]]:
    """The fields under the headings that they stand under."""
    return [(part, list(each)) for part, each in groupby(rows, key=lambda row: row.field.part)]


def sent_form() -> SheetForm:
    """The form as it was sent, read and told."""
    sent = {name: request.form.get(name, "").strip() for name in sheet_fields()}
    units = {name: request.form.get(f"{name}-unit", "") for name in sheet_fields()}
    reading = read_sheet(sent, units, at_hand.system(), at_hand.comma())
    return SheetForm([_as_sent(field, sent, units, reading) for field in sheet_fields().values()], reading)


def draws_of(form: SheetForm) -> dict[str, dict[str, str | None]]:
    """Fifty draws of each item that takes one of these numbers. No transaction waits for it: it takes seconds."""
    return check_draws(at_hand.bank().values(), form.reading.values)


def keep_sent(form: SheetForm, draws: Mapping[str, Mapping[str, str | None]], **of: str | None) -> RigSheet:
    """Keep the sheet with what `draws_of` found. `of` goes to rig_sheets.keep."""
    values, person = form.reading.values, at_hand.me()
    return rig_sheets.keep(
        at_hand.store(), values, form.notes, draws, system=person.system, by=person.id, now=at_hand.now(),
        read_on=at_hand.today(), **of,
    )  # fmt: skip


def _in_own_mark(text: str) -> str:
    return text.replace(".", ",") if at_hand.comma() else text


def _as_kept(field: SheetField, typed: Mapping[str, str], doubts: Mapping[str, str], notes: Mapping[str, str]) -> Row:
    if field.name not in typed:
        return Row(field, "", field.units[at_hand.system()])
    number, unit = split_quantity(typed[field.name])
    note = notes.get(field.name, "")
    return Row(field, number, unit, doubt=doubts.get(field.name), sure=bool(note), note=note)


def _as_sent(field: SheetField, sent: Mapping[str, str], units: Mapping[str, str], reading: SheetReading) -> Row:
    name, doubt = field.name, reading.doubts.get(field.name)
    unit = units[name] if units[name] in field.symbols else field.units[at_hand.system()]
    note = " ".join(request.form.get(f"why-{name}", "").split())[:LONGEST_NOTE]
    # What is ticked is the very sentence: a number that was changed since is asked about anew.
    sure = doubt is not None and request.form.get(f"sure-{name}") == doubt
    return Row(field, sent[name], unit, reading.problems.get(name), doubt, sure, note)
