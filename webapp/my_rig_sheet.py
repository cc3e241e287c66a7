"""The rig sheet of who is asking: which one counts, and an item drawn with its numbers."""

import secrets
from collections.abc import Mapping
from datetime import date

from flask import g

from question_bank import Item, Question
from question_bank.rig_draws import SheetDoesNotFit, draw_with_sheet, fixes_all, is_fit, labels_taken, taken
from question_bank.rig_sheet import still_good
from webapp.at_hand import bank, me, store, today, zone
from webapp.records import crews, questions, rig_sheets
from webapp.records.crews import Rig
from webapp.records.questions import Kept
from webapp.records.rig_sheets import RigSheet
from webapp.study.days import study_day

PLACES = ("today", "practice", "lesson")
"""Where a question may have the rig's numbers. Ten conversions, cases and tests draw for themselves."""


def my_rig() -> Rig | None:
    """The rig that who is asking is on with a crew, or None."""
    if "my_rig" not in g:
        membership = crews.membership_now(store(), me().id) if me() else None
        g.my_rig = membership and membership.crew.rig
    return g.my_rig


def my_sheet() -> RigSheet | None:
    """The sheet that counts for who is asking, looked up once a request; None for a visitor, or where there is none."""
    if "my_sheet" not in g:
        rig = my_rig()
        g.my_sheet = rig_sheets.that_counts(store(), me().id, rig.id if rig else None) if me() else None
    return g.my_sheet


def values_on(sheet: RigSheet, day: date) -> dict[str, str]:
    """The numbers of a sheet that questions may have on that study day: those of the day do not last."""
    return still_good(sheet.values, (day - sheet.read_on).days)


def drawn_with_my_sheet(item: Item, place: str, system: str) -> tuple[Question, str] | None:
    """An item drawn with the rig's numbers, and the sheet's id; None where this draw has numbers of the course.

    Of all the hand's draws that could have them, every second one has them. Where they leave nothing else to draw, the
    same question does not come twice running, nor twice on one study day.
    """
    sheet = my_sheet() if place in PLACES else None
    values = values_on(sheet, today()) if sheet else {}
    if not taken(item, values) or not is_fit(item, system, values, sheet.draws):
        return None
    last = questions.newest_of(store(), me().id, _that_could(sheet, values, system), PLACES)
    if last is None or last.rig_sheet or (fixes_all(item, values) and _came_lately(item)):
        return None
    try:
        return draw_with_sheet(item, secrets.randbelow(2**31), system, values), sheet.id
    except SheetDoesNotFit:
        return None  # Fifty draws were well and this one is not: then it has numbers of the course.


def _that_could(sheet: RigSheet, values: Mapping[str, str], system: str) -> list[str]:
    """The items that take one of these values, but for those that were found not to be fit."""
    unfit = {id for id, found in sheet.draws.items() if found[system]}
    return [item.id for item in bank().values() if item.id not in unfit and taken(item, values)]


def _came_lately(item: Item) -> bool:
    """Whether the item's newest question, or one of today, had a rig's numbers."""
    newest = questions.newest_of(store(), me().id, [item.id], PLACES)
    of_rig = questions.newest_with_sheet(store(), me().id, item.id)
    return of_rig is not None and (of_rig.id == newest.id or study_day(of_rig.drawn_at, zone()) == today())


def sheet_in_words(sheet: RigSheet) -> str:
    """'Quillwater 12, sheet 3', or 'your own rig sheet 2, not checked yet'."""
    if sheet.rig:
        return f"{sheet.rig_name}, sheet {sheet.version}"
    whose = "your own" if me() and sheet.person == me().id else f"{sheet.person_name}’s"
    told = f"checked by {sheet.checked_by}" if sheet.checked_by else "not checked yet"
    return f"{whose} rig sheet {sheet.version}, {told}"


def numbers_from(kept: Kept) -> str | None:
    """The sentence on whose numbers stand in a question; None where the course made up all of them."""
    sheet = rig_sheets.get(store(), kept.rig_sheet) if kept.rig_sheet else None
    if sheet is None:
        return None
    item = bank().get(kept.item)
    values = values_on(sheet, study_day(kept.drawn_at, zone()))
    labels = labels_taken(item, kept.question.system, values) if item else []
    which = f": {', '.join(labels)}. The rest is made up." if labels else "."
    return f"With the numbers of {sheet_in_words(sheet)}{which}"
