"""A hand's own crew, in Settings: who sees what from when, sharing what came before, and leaving."""

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import crewing
from webapp.at_hand import me, store
from webapp.records import crews
from webapp.records.crews import Membership
from webapp.views.day_field import read_reason
from webapp.views.entry import NOT_TAKEN

views = Blueprint("my_crew", __name__)

DONE = {
    "joined": "You are in the crew.",
    "shared": "Your coordinators see all that you did here.",
    "left": "You have left the crew. What you did stays yours.",
}


@views.get("/settings/crew")
def show() -> str:
    """The crew, who coordinates it, and from when they see what the hand does."""
    membership = crews.membership_now(store(), me().id)
    return render_template(
        "crews/my_crew.html",
        membership=membership,
        coordinators=crewing.coordinators(membership.crew) if membership else [],
        before=[each for each in crews.memberships_of(store(), me().id) if each.left_at],
        done=DONE.get(request.args.get("done", "")),
    )


@views.post("/settings/crew/share")
def share() -> Response:
    """Let the crew's coordinators see what came before."""
    crewing.share_all(_mine())
    return redirect(url_for(".show", done="shared"), 303)


@views.get("/settings/crew/leave")
def leaving() -> str:
    """What ends and what is kept by leaving, and the field for the reason. Nothing is changed yet."""
    return _leave_page(_mine(), {})


@views.post("/settings/crew/leave")
def leave() -> Response | tuple[str, int]:
    """Leave the crew, with a reason that its coordinators read."""
    membership, problems = _mine(), {}
    why = read_reason("why", "Write why you leave. Your coordinators read it.", problems)
    if problems:
        return _leave_page(membership, problems), NOT_TAKEN
    crewing.leave(membership, why)
    return redirect(url_for(".show", done="left"), 303)


def _mine() -> Membership:
    return crews.membership_now(store(), me().id) or abort(404)


def _leave_page(membership: Membership, problems: dict[str, str]) -> str:
    return render_template("crews/leave_mine.html", membership=membership, typed=request.form, problems=problems)
