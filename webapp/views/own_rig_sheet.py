"""The numbers of the rig that a hand is on, as they read them off its plates: they count for that hand at once."""

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.at_hand import me, store
from webapp.my_rig_sheet import my_rig, my_sheet
from webapp.records import rig_sheets
from webapp.views.entry import NOT_TAKEN
from webapp.views.sheet_form import SheetForm, by_part, draws_of, keep_sent, opened_form, sent_form
from webapp.views.sheet_shown import shown

views = Blueprint("own_rig_sheet", __name__)


@views.get("/rig-sheet")
def show() -> str:
    """The sheet that counts for who is asking, and their own; `edit` opens the form."""
    if "edit" in request.args:
        return _form()
    counts, own = my_sheet(), _own()
    return render_template(
        "rig_sheet.html",
        rig=my_rig(),
        counts=counts and shown(counts),
        own=shown(own) if own and (counts is None or own.id != counts.id) else None,
        saved="saved" in request.args,
    )


@views.post("/rig-sheet")
def save() -> Response | tuple[str, int]:
    """Keep the form as the hand's next version; where something is amiss it comes back as it was typed."""
    form, rig = sent_form(), my_rig()
    if not form.is_sound:
        return _form(form), NOT_TAKEN
    keep_sent(form, draws_of(form), person=me().id, for_rig=rig and rig.id)
    return redirect(url_for(".show", saved="yes"), 303)


def _own() -> rig_sheets.RigSheet | None:
    rig = my_rig()
    return rig_sheets.newest_of_person(store(), me().id, rig and rig.id)


def _form(form: SheetForm | None = None) -> str:
    return render_template(
        "crews/rig_sheet_form.html",
        title="Your own rig sheet",
        place="Bench",
        crew=None,
        parts=by_part(form.rows if form else opened_form(_own() or my_sheet())),
        form=form,
        action=url_for(".save"),
        back=url_for(".show"),
    )
