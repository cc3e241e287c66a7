"""The log of a crew: what its coordinators and observers did, newest first."""

from flask import Blueprint, render_template, request

from webapp.allowed import my_crew
from webapp.at_hand import store
from webapp.records import log

views = Blueprint("crew_log", __name__)

A_PAGE = 40


@views.get("/crews/<crew_id>/log")
def show(crew_id: str) -> str:
    """A page of the log; `before` in the address is the last line of the page before."""
    crew = my_crew(crew_id)
    before = request.args.get("before")
    found = log.of_crews(store(), [crew.id], A_PAGE + 1, before)
    older = found[A_PAGE - 1].id if len(found) > A_PAGE else None
    return render_template("crews/log.html", crew=crew, found=found[:A_PAGE], older=older, first=before is None)
