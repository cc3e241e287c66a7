"""Extra time in practice papers, granted to one hand by the coordinator of their crew."""

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import assigning
from webapp.allowed import my_member
from webapp.at_hand import store
from webapp.records import extra_time
from webapp.records.crews import Membership
from webapp.views.day_field import read_reason
from webapp.views.entry import NOT_TAKEN

views = Blueprint("granting", __name__)

DONE = {"granted": "It is granted.", "ended": "It is taken back. A paper that is open keeps its time."}


@views.get("/people/<person_id>/extra-time")
def show(person_id: str) -> str:
    """Whether it is granted, by whom and why; the form to grant it or to take it back."""
    return _page(my_member(person_id), {}, DONE.get(request.args.get("done", "")))


@views.post("/people/<person_id>/extra-time")
def change(person_id: str) -> Response | tuple[str, int]:
    """Grant it, or take it back."""
    member = my_member(person_id)
    if "end" in request.form:
        assigning.end_extra_time(member)
        return redirect(url_for(".show", person_id=person_id, done="ended"), 303)
    problems: dict[str, str] = {}
    why = read_reason("why", "Write where it is agreed, such as the letter and its date.", problems)
    if problems:
        return _page(member, problems), NOT_TAKEN
    assigning.grant_extra_time(member, why)
    return redirect(url_for(".show", person_id=person_id, done="granted"), 303)


def _page(member: Membership, problems: dict[str, str], done: str | None = None) -> str:
    return render_template(
        "people/extra_time.html",
        member=member,
        grant=extra_time.granted(store(), member.person.id, member.crew.id),
        typed=request.form,
        problems=problems,
        done=done,
    )
