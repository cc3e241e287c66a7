"""The sheet that a hand of the crew filled in: one who works with the crew checks it, a coordinator takes it over."""

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import allowed
from webapp.at_hand import me, now, store
from webapp.records import log, rig_sheets
from webapp.records.crews import Membership
from webapp.records.rig_sheets import RigSheet
from webapp.views.sheet_shown import shown

views = Blueprint("hands_rig_sheet", __name__)

DONE = {"checked": "Marked as checked, with your name.", "newer": "A newer sheet is there. Read that one, and mark it."}


@views.get("/people/<person>/rig-sheet")
def show(person: str) -> str:
    """The newest sheet that the hand filled in for the rig they are on now."""
    membership = allowed.hand_i_work_with(person)
    sheet = _sheet_of(membership)
    return render_template(
        "crews/hands_rig_sheet.html",
        membership=membership,
        shown=sheet and shown(sheet),
        may_take=membership.crew.id in {each.id for each in allowed.coordinating()},
        done=DONE.get(request.args.get("done", "")),
    )


@views.post("/people/<person>/rig-sheet/checked")
def checked(person: str) -> Response:
    """Write down who has checked the hand's sheet. Nobody checks their own."""
    membership = allowed.hand_i_work_with(person)
    sheet = _sheet_of(membership) or abort(404)
    if request.form.get("sheet") != sheet.id:
        return redirect(url_for(".show", person=person, done="newer"), 303)
    with store().writing():
        if rig_sheets.mark_checked(store(), sheet.id, me().id, now()):
            detail = f"{me().name} checked {membership.person.name}’s rig sheet {sheet.version} against the plates."
            log.note(store(), me().id, "rig sheet checked", detail, now(), membership.crew.id, person)
    return redirect(url_for(".show", person=person, done="checked"), 303)


@views.post("/people/<person>/rig-sheet/take")
def take(person: str) -> Response:
    """Make the hand's sheet the rig's next version. Who has checked it has checked these numbers."""
    crew = allowed.my_member(person).crew
    membership = allowed.hand_i_work_with(person)
    sheet = _sheet_of(membership) or abort(404)
    if request.form.get("sheet") != sheet.id:
        return redirect(url_for(".show", person=person, done="newer"), 303)
    with store().writing():
        taken = rig_sheets.take_over(store(), sheet, crew.rig.id, me().id, now())
        detail = f"{me().name} took over {membership.person.name}’s sheet as sheet {taken.version} of {crew.rig.name}."
        log.note(store(), me().id, "rig sheet taken over", detail, now(), crew.id, person)
    return redirect(url_for("rig_sheets.show", rig=crew.rig.id, crew=crew.id, done="taken"), 303)


def _sheet_of(membership: Membership) -> RigSheet | None:
    """None where it was filled in before the crew's people may see what the hand did."""
    sheet = rig_sheets.newest_of_person(store(), membership.person.id, membership.crew.rig.id)
    return sheet if sheet and sheet.made_at >= membership.sees_from else None
