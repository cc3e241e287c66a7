"""The people of a crew: who is in it and who has left, one more by a form, and leaving."""

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import crewing, newcomers
from webapp.allowed import my_crew
from webapp.at_hand import store, today, zone
from webapp.newcomers import Entry
from webapp.people_file import Line, day_in
from webapp.records import crews, people
from webapp.records.crews import Crew, Membership
from webapp.records.people import NameTaken
from webapp.study.days import end_of
from webapp.views.crew_forms import jobs_offered, read_job, read_name
from webapp.views.day_field import read_reason
from webapp.views.entry import NOT_TAKEN
from webapp.views.newcomer import LONGEST_NAME
from webapp.views.settings import read_settings
from webapp.views.slips import LASTS

views = Blueprint("crew_people", __name__)


@views.get("/crews/<crew_id>/people")
def show(crew_id: str) -> str:
    """Who is in the crew, and who has left it."""
    crew = my_crew(crew_id)
    members = crews.members(store(), [crew.id])
    return render_template(
        "crews/people.html",
        crew=crew,
        members=members,
        left=crews.left(store(), [crew.id]),
        not_signed_in=people.without_password(store(), [each.person.id for each in members]),
        done=DONE.get(request.args.get("done", "")),
    )


DONE = {"left": "They have left the crew. What they did stays in their own record."}


@views.get("/crews/<crew_id>/people/new")
def new(crew_id: str) -> str:
    """The form for one person."""
    return _new_page(my_crew(crew_id), {"system": "us", "writes": "point"}, {})


@views.post("/crews/<crew_id>/people/new")
def add(crew_id: str) -> Response | tuple[str, int]:
    """Add one person with a slip for their first sign-in. A second one of a name is offered another to sign in as."""
    crew, problems = my_crew(crew_id), {}
    line = _read_line(problems)
    typed = dict(request.form)
    if not problems:
        [entry], faults = newcomers.looked_at([line])
        if faults:
            problems["sign_in"] = faults[0].sentence
        elif entry.remark:
            problems["sign_in"], typed["sign_in"] = entry.remark, entry.line.sign_in
    if not problems and _added(crew, entry, problems):
        return redirect(url_for("slips.print_sheet", crew_id=crew.id), 303)
    return _new_page(crew, typed, problems), NOT_TAKEN


@views.get("/crews/<crew_id>/people/<person_id>/leave")
def leaving(crew_id: str, person_id: str) -> str:
    """What leaving means, and the field for the reason."""
    crew = my_crew(crew_id)
    return _leave_page(_member(crew, person_id), {})


@views.post("/crews/<crew_id>/people/<person_id>/leave")
def leave(crew_id: str, person_id: str) -> Response | tuple[str, int]:
    """End somebody's time in the crew, with the reason."""
    crew, problems = my_crew(crew_id), {}
    membership = _member(crew, person_id)
    why = read_reason("why", "Write why they leave, such as: contract ended.", problems)
    if problems:
        return _leave_page(membership, problems), NOT_TAKEN
    crewing.leave(membership, why)
    return redirect(url_for(".show", crew_id=crew.id, done="left"), 303)


def _member(crew: Crew, person_id: str) -> Membership:
    """The membership in this crew that somebody has now; 404 for anybody else."""
    membership = crews.membership_now(store(), person_id)
    return membership if membership and membership.crew.id == crew.id else abort(404)


def _read_line(problems: dict[str, str]) -> Line:
    name = read_name("name", "Write the name that the crew knows them by.", problems, LONGEST_NAME)
    sign_in = request.form.get("sign_in", "").strip() and read_name("sign_in", "", problems, LONGEST_NAME)
    job = read_job(problems)
    settings = read_settings(problems)
    paper, day = request.form.get("paper", ""), day_in(request.form.get("exam_day", ""))
    if request.form.get("exam_day", "").strip() and (day is None or day < today()):
        problems["exam_day"] = "Write a day that is not past, as year-month-day, such as 2026-05-14."
    elif bool(day) != (paper in ("a", "b")):
        problems["exam_day"] = "An exam has a day and a paper. Give both, or neither."
    return Line(1, name, sign_in, job, settings["system"] or "us", settings["comma"], day, paper or None)


def _added(crew: Crew, entry: Entry, problems: dict[str, str]) -> bool:
    try:
        newcomers.add(crew, [entry], end_of(today() + LASTS, zone()), "form")
    except NameTaken as taken:
        problems["sign_in"] = str(taken)
    return not problems


def _new_page(crew: Crew, typed: dict[str, str], problems: dict[str, str]) -> str:
    return render_template("crews/new_person.html", crew=crew, typed=typed, problems=problems, jobs=jobs_offered(crew))


def _leave_page(membership: Membership, problems: dict[str, str]) -> str:
    return render_template(
        "crews/leave.html", crew=membership.crew, membership=membership, typed=request.form, problems=problems
    )
