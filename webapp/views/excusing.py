"""One module or task that is not asked of one hand, or in whose place something else stands; and the hand's exam."""

from datetime import date, timedelta

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import assigning
from webapp.allowed import my_member
from webapp.at_hand import course, store, today
from webapp.records import exams, excuses, rotations
from webapp.records.crews import Membership
from webapp.standings import Row, rows_of
from webapp.study.pace import days_for_an_exam, exam_day_fault, say
from webapp.study.standing import months_after
from webapp.views.day_field import LONGEST, read_day, read_reason
from webapp.views.entry import NOT_TAKEN

views = Blueprint("excusing", __name__)

DONE = {
    "excused": "It is written down.",
    "ended": "It is asked for again.",
    "exam": "The exam day is set.",
    "before": "The days are brought forward: all is to be done before the exam.",
}


@views.get("/people/<person_id>/excuse")
def show(person_id: str) -> str:
    """What is excused or replaced now, and the form."""
    return _page(my_member(person_id), {"what": request.args.get("what", "")}, {}, request.args.get("done"))


@views.post("/people/<person_id>/excuse")
def excuse(person_id: str) -> Response | tuple[str, int]:
    """Excuse from a module or task, or replace it by something else, with a reason."""
    member = my_member(person_id)
    problems: dict[str, str] = {}
    module, task = _read_what(problems)
    why = read_reason("why", "Write why it is not asked for, in a few words.", problems)
    instead = _read_instead(problems)
    if problems:
        return _page(member, request.form, problems), NOT_TAKEN
    assigning.excuse(member, module, task, why, instead)
    return redirect(url_for(".show", person_id=person_id, done="excused"), 303)


@views.post("/people/<person_id>/excuses/<excuse_id>/end")
def end(person_id: str, excuse_id: str) -> Response:
    """Ask for it again."""
    member = my_member(person_id)
    found = excuses.get(store(), excuse_id)
    if found is None or found.person != person_id:
        abort(404)
    assigning.end_excuse(member, found)
    return redirect(url_for(".show", person_id=person_id, done="ended"), 303)


@views.get("/people/<person_id>/exam")
def exam(person_id: str) -> str:
    """The exam day and paper of a hand, and what speaks against that day."""
    member = my_member(person_id)
    kept = exams.of_people(store(), [person_id]).get(person_id)
    start = {"paper": kept.paper, "day": kept.day.isoformat()} if kept else {}
    return _exam_page(member, start, {}, request.args.get("done"))


@views.post("/people/<person_id>/exam")
def set_exam(person_id: str) -> Response | tuple[str, int]:
    """Set the exam day and paper, or take the exam away."""
    member = my_member(person_id)
    problems: dict[str, str] = {}
    paper = request.form.get("paper", "")
    if paper not in exams.PAPERS:
        problems["paper"] = "Choose the paper."
    day = None if "none" in request.form else _read_exam_day(problems)
    if problems:
        return _exam_page(member, request.form, problems), NOT_TAKEN
    assigning.set_exam(member, paper, day)
    return redirect(url_for(".exam", person_id=person_id, done="exam"), 303)


@views.post("/people/<person_id>/exam/before")
def before_exam(person_id: str) -> Response:
    """Bring forward the days of modules that are later than the exam: to the day before it."""
    member = my_member(person_id)
    row = rows_of([member])[0]
    if row.after_exam:
        assigning.bring_forward(member, row.after_exam, _day_before(row))
    return redirect(url_for(".exam", person_id=person_id, done="before"), 303)


def _day_before(row: Row) -> date:
    return max(today(), row.exam.day - timedelta(1))


def _read_exam_day(problems: dict[str, str]) -> date | None:
    """The day of an exam; one more than a year ahead only with the tick that it is meant so."""
    day = read_day("day", problems)
    if day and day > months_after(today(), 12) and "far" not in request.form:
        problems["day"] = "That day is more than a year ahead. Look at its year. If it is right, tick the box below."
    return day


def _read_instead(problems: dict[str, str]) -> str:
    """What stands in its place; empty where it is just not asked for, whatever the field has."""
    kind = request.form.get("kind", "")
    if kind not in excuses.KINDS:
        problems["kind"] = "Choose what happens."
    if kind != "replaced":
        return ""
    instead = " ".join(request.form.get("instead", "").split())
    if not instead:
        problems["instead"] = "Write what stands in its place, such as the other rig, the yard or a drill."
    elif len(instead) > LONGEST:
        problems["instead"] = f"Write at most {LONGEST} characters."
    return instead


def _read_what(problems: dict[str, str]) -> tuple[str | None, str | None]:
    """(module, task), one of them None: the field says 'module:' or 'task:' and the id."""
    kind, _, id = request.form.get("what", "").partition(":")
    if kind == "module" and id in {each.id for each in course().modules}:
        return id, None
    if kind == "task" and id in course().tasks:
        return None, id
    problems["what"] = "Choose a module or a task."
    return None, None


def _page(member: Membership, typed: dict, problems: dict[str, str], done: str | None = None) -> str:
    running = excuses.running(store(), [member.person.id])
    return render_template(
        "people/excuse.html",
        member=member,
        running=[(each, assigning.name_of(each.module, each.task)) for each in running],
        modules=course().modules,
        tasks=course().tasks,
        typed=typed,
        problems=problems,
        done=DONE.get(done or ""),
    )


def _exam_page(member: Membership, typed: dict, problems: dict[str, str], done: str | None = None) -> str:
    row = rows_of([member])[0]
    return render_template(
        "people/exam.html",
        member=member,
        row=row,
        say=say,
        warnings=exam_warning(member, row.exam.day) if row.exam else None,
        day_before=_day_before(row) if row.after_exam else None,
        asks_far="more than a year" in problems.get("day", ""),
        typed=typed,
        problems=problems,
        done=DONE.get(done or ""),
        today=today(),
    )


def exam_warning(member: Membership, day: date) -> tuple[str | None, list[date]]:
    """('nights', 'off' or None; the nearest days on which the hand works days on the rig, where it is no such day)."""
    rotation = rotations.of_members(store(), [member])[member.person.id].rotation
    fault = exam_day_fault(rotation, day)
    return fault, [each for each in days_for_an_exam(rotation, day, today()) if each] if fault else []
