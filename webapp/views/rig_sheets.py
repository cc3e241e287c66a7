"""A rig's own sheet: its coordinators fill it in, they or an observer hold it against the plates and say so."""

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import allowed
from webapp.at_hand import me, now, store
from webapp.records import log, rig_sheets
from webapp.records.crews import Crew
from webapp.views.entry import NOT_TAKEN
from webapp.views.sheet_form import SheetForm, beside, by_part, draws_of, keep_sent, opened_form, sent_form
from webapp.views.sheet_shown import shown

views = Blueprint("rig_sheets", __name__)

DONE = {
    "saved": "The sheet is saved. It counts once somebody has checked it against the plates.",
    "checked": "Marked as checked, with your name.",
    "newer": "A newer sheet is there. Read that one, and mark it.",
    "taken": "The sheet is now the rig’s.",
}


@views.get("/rigs/<rig>/sheet")
def show(rig: str) -> str:
    """The newest sheet, or the version in the address, with the versions before it; `edit` opens the form."""
    crew = allowed.crew_i_work_with_on(rig, _from())
    if "edit" in request.args:
        return _form(allowed.my_crew_on(rig, _from()))
    versions = rig_sheets.of_rig(store(), rig)
    wanted = request.args.get("version", "")
    sheet = next(
        (each for each in versions if str(each.version) == wanted), None if wanted else next(iter(versions), None)
    )
    if sheet is None and wanted:
        abort(404)
    return render_template(
        "crews/rig_sheet.html",
        crew=crew,
        versions=versions,
        shown=sheet and shown(sheet),
        counts=rig_sheets.checked_of_rig(store(), rig),
        of_hands=_of_hands(rig),
        may_edit=crew.id in {each.id for each in allowed.coordinating()},
        done=DONE.get(request.args.get("done", "")),
    )


@views.post("/rigs/<rig>/sheet")
def save(rig: str) -> Response | tuple[str, int]:
    """Keep the form as the rig's next version; where something is amiss it comes back as it was typed."""
    crew, form = allowed.my_crew_on(rig, _from()), sent_form()
    if not form.is_sound:
        return _form(crew, form), NOT_TAKEN
    draws = draws_of(form)
    with store().writing():
        sheet = keep_sent(form, draws, rig=rig)
        detail = f"{me().name} saved sheet {sheet.version} of {crew.rig.name}."
        log.note(store(), me().id, "rig sheet saved", detail, now(), crew.id)
    return redirect(url_for(".show", rig=rig, crew=crew.id, done="saved"), 303)


@views.post("/rigs/<rig>/sheet/checked")
def checked(rig: str) -> Response:
    """Write down who has checked the newest version. One that was overtaken meanwhile is not marked."""
    crew = allowed.crew_i_work_with_on(rig, _from())
    newest = next(iter(rig_sheets.of_rig(store(), rig)), None) or abort(404)
    if request.form.get("sheet") != newest.id:
        return redirect(url_for(".show", rig=rig, crew=crew.id, done="newer"), 303)
    with store().writing():
        if rig_sheets.mark_checked(store(), newest.id, me().id, now()):
            detail = f"{me().name} checked sheet {newest.version} of {crew.rig.name} against the plates."
            log.note(store(), me().id, "rig sheet checked", detail, now(), crew.id)
    return redirect(url_for(".show", rig=rig, crew=crew.id, done="checked"), 303)


def _from() -> str:
    """The id of the crew whose page led here, or nothing: two crews of one rig share its sheet."""
    return request.args.get("crew", "")


def _of_hands(rig: str) -> list[rig_sheets.RigSheet]:
    """The sheets of other hands in the crews on that rig that who is asking works with."""
    mine = [each.id for each in allowed.crews_i_work_with() if each.rig.id == rig]
    return [each for each in rig_sheets.of_hands(store(), mine, rig) if each.person != me().id]


def _form(crew: Crew, form: SheetForm | None = None) -> str:
    newest = next(iter(rig_sheets.of_rig(store(), crew.rig.id)), None)
    return render_template(
        "crews/rig_sheet_form.html",
        title=f"Rig sheet of {crew.rig.name}",
        place="Crews",
        parts=by_part(form.rows if form else opened_form(newest)),
        form=form,
        beside=beside(newest, "Last", only_of_the_day=True),
        goes_before=None,
        action=url_for(".save", rig=crew.rig.id, crew=crew.id),
        back=url_for(".show", rig=crew.rig.id, crew=crew.id),
    )
