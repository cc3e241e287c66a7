"""The numbers of the rig that a hand is on, as they read them off its plates: they count for that hand at once."""

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.at_hand import me, now, store
from webapp.my_rig_sheet import my_rig, my_sheet
from webapp.records import rig_sheets
from webapp.views.entry import NOT_TAKEN
from webapp.views.sheet_form import SheetForm, beside, by_part, draws_of, keep_sent, opened_form, sent_form
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
        removed="removed" in request.args,
    )


@views.post("/rig-sheet")
def save() -> Response | tuple[str, int]:
    """Keep the form as the hand's next version; where something is amiss it comes back as it was typed."""
    form, rig = sent_form(), my_rig()
    if not form.is_sound:
        return _form(form), NOT_TAKEN
    keep_sent(form, draws_of(form), person=me().id, for_rig=rig and rig.id)
    return redirect(url_for(".show", saved="yes"), 303)


@views.post("/rig-sheet/remove")
def remove() -> Response:
    """Take the hand's own sheet back: the next version has no numbers. The old ones stay with what they were asked."""
    own, rig = _own(), my_rig()
    if own:
        rig_sheets.keep(
            store(), {}, {}, {}, system=me().system, by=me().id, now=now(), person=me().id, for_rig=rig and rig.id
        )
    return redirect(url_for(".show", removed="yes"), 303)


def _own() -> rig_sheets.RigSheet | None:
    rig = my_rig()
    return rig_sheets.newest_of_person(store(), me().id, rig and rig.id)


def _form(form: SheetForm | None = None) -> str:
    """It opens with the hand's own numbers, or empty: what stands on the rig's sheet is not what this hand has read."""
    own, counts = _own(), my_sheet()
    of_rig = counts if counts and counts.rig else None
    return render_template(
        "crews/rig_sheet_form.html",
        title="Your own rig sheet",
        place="Bench",
        parts=by_part(form.rows if form else opened_form(own)),
        form=form,
        beside=beside(own, "Last", only_of_the_day=True) | beside(of_rig, "The rig’s sheet"),
        goes_before=of_rig
        and f"The sheet of {of_rig.rig_name} is checked, so it goes before yours: yours does not count.",
        action=url_for(".save"),
        back=url_for(".show"),
    )
