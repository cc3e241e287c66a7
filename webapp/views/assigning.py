"""Modules assigned to a crew, to one of its hands, or to its rig; and what is assigned now."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, timedelta

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from course import Module
from webapp import assigning
from webapp.allowed import coordinating, my_crew
from webapp.assigned import rotation_of
from webapp.assigning import PAPERS, Aim, Terms
from webapp.at_hand import bank, course, store, today
from webapp.records import assignments, crews, rotations
from webapp.records.assignments import Assignment
from webapp.records.crews import Crew, Membership
from webapp.records.rotations import Held
from webapp.study.rotation import last_day_of_hitch
from webapp.study.standing import due_day
from webapp.time_enough import Outlook, about_another_rig, outlook
from webapp.views.day_field import read_day, read_reason
from webapp.views.entry import NOT_TAKEN

views = Blueprint("assigning", __name__)

HITCHES = 8


@dataclass(frozen=True)
class Line:
    """One assignment in the list: its module, whom it is to, and the day it is due for this crew."""

    assignment: Assignment
    module: Module | None
    to: str
    due: date


@views.get("/crews/<crew_id>/assign")
def show(crew_id: str) -> str:
    """The form, and what is assigned now. `person` in the address chooses a hand, `paper` ticks its modules."""
    crew = my_crew(crew_id)
    person = request.args.get("person", "")
    start = {"to": f"person:{person}" if person else "crew", "must_pass": "yes"}
    paper = request.args.get("paper")
    ticked = assigning.modules_of_paper(paper) if paper in PAPERS else ()
    return _page(crew, start, ticked, {}, request.args.get("done"))


@views.post("/crews/<crew_id>/assign")
def assign(crew_id: str) -> Response | tuple[str, int]:
    """Assign the modules ticked; first, where time is short or the rig is of another type, ask with the numbers."""
    crew = my_crew(crew_id)
    problems: dict[str, str] = {}
    modules = _read_modules(problems)
    aim = _read_aim(crew, problems)
    terms = _read_terms(crew, problems)
    if problems:
        return _page(crew, request.form, request.form.getlist("module"), problems), NOT_TAKEN
    look = outlook(crew, aim, modules, terms)
    asked = _as_asked(modules, aim, terms)
    if "look" in request.form or (look.asks and request.form.get("sure") != asked):
        page = _page(crew, request.form, request.form.getlist("module"), {}, look=look, sure=asked)
        return page, 200 if "look" in request.form else NOT_TAKEN
    assigning.assign(crew, aim, modules, terms)
    return redirect(url_for(".show", crew_id=crew.id, done="assigned"), 303)


def _as_asked(modules: list[Module], aim: Aim, terms: Terms) -> str:
    """What a question was about, so that a yes to it is no yes to what was changed since."""
    return " ".join([*(each.id for each in modules), aim.to, aim.id, terms.due_by, terms.due_day.isoformat()])


@views.post("/crews/<crew_id>/assignments/<assignment_id>/end")
def end(crew_id: str, assignment_id: str) -> Response | tuple[str, int]:
    """End an assignment with a reason, or by `all` each that was made together with it."""
    crew = my_crew(crew_id)
    line = next((each for each in _lines(crew) if each.assignment.id == assignment_id), None) or abort(404)
    if line.assignment.rig and not _whole_rig(crew):
        abort(404)
    problems: dict[str, str] = {}
    why = read_reason("why", "Write why it ends, in a few words.", problems)
    if problems:
        field = f"why-all-{assignment_id}" if "all" in request.form else f"why-{assignment_id}"
        return _page(crew, {}, [], {field: problems["why"]}), NOT_TAKEN
    group = next(each for each in _groups(_lines(crew)) if line in each)
    assigning.end(crew, [each.assignment for each in (group if "all" in request.form else [line])], line.to, why)
    return redirect(url_for(".show", crew_id=crew.id, done="ended"), 303)


DONE = {"assigned": "It is assigned.", "ended": "It is no longer assigned."}


def _page(
    crew: Crew,
    typed: dict,
    ticked: Collection[str],
    problems: dict[str, str],
    done: str | None = None,
    look: Outlook | None = None,
    sure: str = "",
) -> str:
    return render_template(
        "crews/assign.html",
        crew=crew,
        members=crews.members(store(), [crew.id]),
        whole_rig=_whole_rig(crew),
        modules=_assignable(),
        hitches=_hitches(crew),
        groups=_groups(_lines(crew)),
        elsewhere={each.id for each in course().modules if about_another_rig(each, crew.rig.rig_type)},
        person=request.args.get("person", ""),
        look=look,
        sure=sure,
        typed=typed,
        ticked=ticked,
        problems=problems,
        done=DONE.get(done or ""),
        today=today(),
    )


def _assignable() -> list[Module]:
    """The modules that there is something of: a lesson or a question."""
    asked = {item.lesson.partition("/")[0] for item in bank().values()}
    return [each for each in course().modules if each.lessons or each.id in asked]


def _whole_rig(crew: Crew) -> bool:
    return crew.rig in assigning.rigs_wholly_mine(coordinating())


def _hitches(crew: Crew) -> list[date]:
    """The last days of the hitch that runs or comes next and of those after it."""
    rotation, found = rotation_of(crew), []
    day = today()
    for _ in range(HITCHES):
        found.append(last_day_of_hitch(rotation, day))
        day = found[-1] + timedelta(1)
    return found


def _lines(crew: Crew) -> list[Line]:
    """What is assigned to the crew, its hands and its rig, by the day it is due."""
    members = {each.person.id: each for each in crews.members(store(), [crew.id])}
    held = rotations.of_members(store(), list(members.values()))
    known = {each.id: each for each in course().modules}
    lines = [
        Line(each, known.get(each.module), _name(each, crew, members), _due(each, crew, held))
        for each in assignments.running(store(), members, [crew.id], [crew.rig.id])
    ]
    return sorted(lines, key=lambda line: (line.due, line.to, line.module.number if line.module else 0))


def _groups(lines: list[Line]) -> list[list[Line]]:
    """The lines, those together that were assigned in one go."""
    groups: dict[tuple, list[Line]] = {}
    for line in lines:
        each = line.assignment
        groups.setdefault((line.due, line.to, each.made_at, each.made_by, each.rig_type, each.must_pass), []).append(
            line
        )
    return list(groups.values())


def _due(assignment: Assignment, crew: Crew, held: dict[str, Held]) -> date:
    """By the crew's rotation; what is asked of one hand goes by the rotation of that hand."""
    rotation = held[assignment.person].rotation if assignment.person else rotation_of(crew)
    return due_day(assignment.due_by, assignment.due_day, rotation)


def _name(assignment: Assignment, crew: Crew, members: dict[str, Membership]) -> str:
    if assignment.person:
        return members[assignment.person].person.name
    return crew.full_name if assignment.crew else f"all of {crew.rig.name}"


def _read_modules(problems: dict[str, str]) -> list[Module]:
    """Those that are ticked."""
    ticked = set(request.form.getlist("module"))
    found = [each for each in _assignable() if each.id in ticked]
    if not found:
        problems["module"] = "Tick at least one module."
    return found


def _read_aim(crew: Crew, problems: dict[str, str]) -> Aim | None:
    """`to` is 'crew', 'rig' or 'person:' and the id of one of its members."""
    kind, _, person_id = request.form.get("to", "").partition(":")
    if kind == "crew":
        return Aim("crew", crew.id, crew.full_name)
    if kind == "rig" and _whole_rig(crew):
        return Aim("rig", crew.rig.id, f"all of {crew.rig.name}")
    for each in crews.members(store(), [crew.id]):
        if kind == "person" and each.person.id == person_id:
            return Aim("person", person_id, each.person.name)
    problems["to"] = "Choose the crew, or one of its people."
    return None


def _read_terms(crew: Crew, problems: dict[str, str]) -> Terms:
    rig_type = request.form.get("rig_type", "")
    if rig_type not in ("", *crews.RIG_TYPES):
        problems["rig_type"] = "Choose the rigs it is for."
    due_by, due = _read_due(crew, problems)
    mark = request.form.get("pass_mark", "").strip()
    if mark and not (mark.isascii() and mark.isdecimal() and len(mark) <= 3 and 50 <= int(mark) <= 100):
        problems["pass_mark"] = "Write a whole number from 50 to 100, or leave it empty."
        mark = ""
    return Terms(rig_type or None, due_by, due, int(mark) if mark else None, "must_pass" in request.form)


def _read_due(crew: Crew, problems: dict[str, str]) -> tuple[str, date]:
    """By the end of a hitch of this crew, or by a date not past."""
    hitch = request.form.get("hitch", "")
    if hitch in {each.isoformat() for each in _hitches(crew)}:
        return "hitch", date.fromisoformat(hitch)
    day = read_day("due_day", problems)
    return "date", day or today()
