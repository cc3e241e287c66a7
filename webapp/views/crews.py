"""Crews and rigs: the list of my crews, a new rig, a new crew; and one crew with its rotation and its coordinators."""

from dataclasses import dataclass
from datetime import date

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import crewing, waiting
from webapp.allowed import coordinating, house_coordinator, my_crew
from webapp.assigned import rotation_of
from webapp.at_hand import me, now, store, today
from webapp.crewing import RIG_TYPES, NotPossible
from webapp.records import crews, people, rights, slips
from webapp.records.crews import Crew, NameInUse
from webapp.study.rotation import day_of_hitch, last_day_of_hitch, on_nights
from webapp.views.crew_forms import read_name, read_rotation
from webapp.views.entry import NOT_TAKEN

views = Blueprint("crews", __name__)


@dataclass(frozen=True)
class CrewNow:
    """A crew in the list: its people, where it is in its rotation today, and what waits."""

    crew: Crew
    people: int
    day_of_hitch: int | None
    on_nights: bool
    last_day: date
    not_signed_in: int
    open_slips: int


@views.get("/crews")
def show() -> str:
    """My crews: how many people, on the rig today or not, what waits."""
    makes_crews = rights.is_coordinator(store(), me().id)
    if not (makes_crews or coordinating()):
        abort(404)
    return render_template(
        "crews/crews.html",
        crews=[(_crew_now(each.crew), each) for each in waiting.in_my_crews()],
        makes_crews=makes_crews,
    )


@views.get("/rigs/new")
def new_rig() -> str:
    """The form for a rig."""
    house_coordinator()
    return _rig_page({}, {})


@views.post("/rigs/new")
def add_rig() -> Response | tuple[str, int]:
    """Add a rig; then a crew for it."""
    house_coordinator()
    problems: dict[str, str] = {}
    name = read_name("name", "Write the name that is on the rig.", problems)
    rig_type = request.form.get("rig_type", "")
    if rig_type not in RIG_TYPES:
        problems["rig_type"] = "Choose what turns the string on this rig."
    if not problems:
        try:
            return redirect(url_for(".new_crew", rig=crewing.add_rig(name, rig_type).id), 303)
        except NameInUse as in_use:
            problems["name"] = str(in_use)
    return _rig_page(request.form, problems), NOT_TAKEN


@views.get("/crews/new")
def new_crew() -> str:
    """The form for a crew."""
    house_coordinator()
    first = today().isoformat()
    return _crew_page({"days_on": "14", "days_off": "14", "first_day": first, "rig": request.args.get("rig", "")}, {})


@views.post("/crews/new")
def add_crew() -> Response | tuple[str, int]:
    """Add a crew; who makes it coordinates it."""
    house_coordinator()
    problems: dict[str, str] = {}
    rig = crews.rig(store(), request.form.get("rig", ""))
    if rig is None:
        problems["rig"] = "Choose the rig. If it is not here, make it first."
    name = read_name("name", "Write the name of the crew, such as Crew A.", problems)
    rotation = read_rotation(problems)
    if not problems:
        try:
            return redirect(url_for(".about", crew_id=crewing.add_crew(rig, name, rotation).id, done="made"), 303)
        except NameInUse as in_use:
            problems["name"] = str(in_use)
    return _crew_page(request.form, problems), NOT_TAKEN


@views.get("/crews/<crew_id>/about")
def about(crew_id: str) -> str:
    """One crew: rotation, coordinators, and closing it."""
    return _about_page(my_crew(crew_id), {}, {})


@views.post("/crews/<crew_id>/rotation")
def rotation(crew_id: str) -> Response | tuple[str, int]:
    """Set the rotation anew."""
    crew, problems = my_crew(crew_id), {}
    new = read_rotation(problems)
    if problems:
        return _about_page(crew, request.form, problems), NOT_TAKEN
    crewing.set_rotation(crew, new)
    return redirect(url_for(".about", crew_id=crew_id, done="rotation"), 303)


@views.post("/crews/<crew_id>/coordinators")
def name_coordinator(crew_id: str) -> Response | tuple[str, int]:
    """Name somebody else who coordinates this crew."""
    crew = my_crew(crew_id)
    person = people.by_name(store(), request.form.get("sign_in", ""))
    try:
        if person is None:
            raise NotPossible("Nobody here signs in with that name. Write it as they type it to sign in.")
        of_the_house = "of_the_house" in request.form
        if of_the_house:
            house_coordinator()
        crewing.name_coordinator(crew, person, of_the_house)
    except NotPossible as why:
        return _about_page(crew, request.form, {"sign_in": str(why)}), NOT_TAKEN
    return redirect(url_for(".about", crew_id=crew_id, done="named"), 303)


@views.post("/crews/<crew_id>/coordinators/end")
def end_coordinator(crew_id: str) -> Response | tuple[str, int]:
    """End somebody's right to coordinate this crew."""
    crew, right = my_crew(crew_id), request.form.get("right", "")
    try:
        crewing.end_coordinator(crew, right)
    except NotPossible as why:
        return _about_page(crew, {}, {"sign_in": str(why)}), NOT_TAKEN
    return redirect(url_for(".show"), 303)


@views.post("/crews/<crew_id>/close")
def close(crew_id: str) -> Response | tuple[str, int]:
    """Close the crew. Where people are in it, a tick says that they leave it."""
    crew = my_crew(crew_id)
    if crews.members(store(), [crew.id]) and "leave" not in request.form:
        problem = "There are people in this crew. Tick that they leave it, or transfer them first."
        return _about_page(crew, {}, {"leave": problem}), NOT_TAKEN
    crewing.close(crew)
    return redirect(url_for(".show"), 303)


def _crew_now(crew: Crew) -> CrewNow:
    members = [each.person.id for each in crews.members(store(), [crew.id])]
    rotation = rotation_of(crew)
    return CrewNow(
        crew,
        len(members),
        day_of_hitch(rotation, today()),
        on_nights(rotation, today()),
        last_day_of_hitch(rotation, today()),
        len(people.without_password(store(), members)),
        sum(each.state(now()) == "open" for each in slips.of_crew(store(), crew.id)),
    )


def _rig_page(typed: dict[str, str], problems: dict[str, str]) -> str:
    return render_template("crews/new_rig.html", typed=typed, problems=problems)


def _crew_page(typed: dict[str, str], problems: dict[str, str]) -> str:
    return render_template("crews/new_crew.html", typed=typed, problems=problems, rigs=crews.rigs(store()))


DONE = {
    "made": "The crew is made, and you coordinate it. Bring people in by slips, by a form or by a file.",
    "rotation": "The rotation is changed. Days by which something is due by hitch move with it.",
    "named": "They coordinate this crew from now on.",
}


def _about_page(crew: Crew, typed: dict[str, str], problems: dict[str, str]) -> str:
    kept = {
        "days_on": str(crew.days_on), "days_off": str(crew.days_off), "first_day": crew.first_day.isoformat(),
        "nights_from": str(crew.nights_from or ""),
    }  # fmt: skip
    return render_template(
        "crews/about.html",
        now_=_crew_now(crew),
        crew=crew,
        typed=kept | {"sign_in": ""} | dict(typed),
        problems=problems,
        coordinators=crewing.coordinators(crew),
        makes_crews=rights.is_coordinator(store(), me().id),
        done=DONE.get(request.args.get("done", "")),
    )
