"""The rig sheet of who is asking: which one counts, and an item drawn with its numbers."""

import secrets

from flask import g

from question_bank import Item, Question
from question_bank.rig_draws import SheetDoesNotFit, draw_with_sheet, is_fit, labels_taken
from webapp.at_hand import bank, me, store
from webapp.records import crews, questions, rig_sheets
from webapp.records.crews import Rig
from webapp.records.questions import Kept
from webapp.records.rig_sheets import RigSheet

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


def drawn_with_my_sheet(item: Item, place: str, system: str) -> tuple[Question, str] | None:
    """Every second question of an item has the rig's numbers: it and the sheet's id, or None for this draw."""
    sheet = my_sheet() if place in PLACES else None
    if sheet is None or questions.drawn_before(store(), me().id, item.id) % 2 == 0:
        return None
    if not is_fit(item, system, sheet.values, sheet.draws):
        return None
    try:
        return draw_with_sheet(item, secrets.randbelow(2**31), system, sheet.values), sheet.id
    except SheetDoesNotFit:
        return None  # Fifty draws were well and this one is not: then it has numbers of the course.


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
    labels = labels_taken(item, kept.question.system, sheet.values) if item else []
    which = f": {', '.join(labels)}. The rest is made up." if labels else "."
    return f"With the numbers of {sheet_in_words(sheet)}{which}"
