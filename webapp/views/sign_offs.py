"""The observer's screens: who of my crews, which tasks, what to watch, the results; and what I have signed."""

from datetime import date, timedelta
from uuid import UUID

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import hands_on
from webapp.allowed import my_right_to_sign, not_for_myself, observing
from webapp.at_hand import course, me, now, store, today, zone
from webapp.records import crews, rights, sign_offs
from webapp.records.crews import Membership
from webapp.records.ids import new_id
from webapp.records.people import name_key
from webapp.records.sign_offs import RESULTS, SignOff, SignOffError
from webapp.study.days import study_day
from webapp.study.tasks import NOT_POSSIBLE
from webapp.views.entry import NOT_TAKEN

views = Blueprint("sign_offs", __name__)

BACK = 14
"""Days: what was seen longer ago is signed with a note that says why."""
LONGEST_NOTE = 300
MOST_SHOWN = 60
NOT_ASKED = ("not-asked", "excused", "replaced")
"""States of tasks that stand at the end of the list."""


@views.get("/sign-offs")
def show() -> str:
    """Who of my crews, by name or by what the name has in it."""
    if not observing():
        abort(404)
    wanted = request.args.get("q", "").strip()[:60]
    members = [each for each in _members() if name_key(wanted) in name_key(each.person.name)]
    rigs = sorted({each.rig for each in observing()}, key=lambda rig: rig.name)
    return render_template("signoffs/people.html", members=members, wanted=wanted, tasks=_my_tasks(), rigs=rigs)


@views.get("/sign-offs/<person>")
def of_hand(person: str) -> str:
    """The tasks of one hand that I may sign and the rig type has, each with how it stands; first what is asked for."""
    not_for_myself(person)
    member = next((each for each in _members() if each.person.id == person), None) or abort(404)
    mine = _my_tasks()[member.crew.id]
    tasks = [each for each in hands_on.of_hand(person, member.crew.rig) if each.task.id in mine]
    tasks = [each for each in tasks if each.task.fits(member.crew.rig.rig_type)]
    tasks.sort(key=lambda each: each.state in NOT_ASKED)
    return render_template("signoffs/tasks.html", member=member, tasks=tasks)


@views.get("/sign-offs/<person>/<task>")
def task(person: str, task: str) -> str:
    """What to watch, and the form."""
    return _form(_member_to_sign(person, task), task, new_id(), {"when": "today"}, {})


@views.post("/sign-offs/<person>/<task>")
def sign(person: str, task: str) -> Response | tuple[str, int]:
    """Sign. The id of the form is the signature's, so that a form sent twice signs once."""
    member = _member_to_sign(person, task)
    problems: dict[str, str] = {}
    day, note, result = _day(problems), request.form.get("note", "").strip(), request.form.get("result", "")
    id = _id_of_form()
    note = _reason_not_possible(note, problems) if result == NOT_POSSIBLE else note
    _check(member, day, note, result, problems)
    another = None if problems or request.form.get("once_more") else _signed_before(member, task, day, id)
    if not problems and not another:
        try:
            sign_offs.sign(
                store(), id, hand=member.person, task=task, title=course().tasks[task].title, crew=member.crew.id,
                rig=member.crew.rig.id, observer=me(), result=result, observed_on=day, note=note, now=now(),
            )  # fmt: skip
        except SignOffError as error:
            problems["result"] = str(error)
    if problems or another:
        return _form(member, task, id, request.form, problems, another, day), NOT_TAKEN
    return redirect(url_for(".one_of_mine", signed=id, done="signed"), 303)


@views.get("/sign-offs/mine")
def mine() -> str:
    """What I have signed, newest first."""
    return render_template("signoffs/mine.html", signed=sign_offs.by_observer(store(), me().id, MOST_SHOWN))


@views.get("/sign-offs/mine/<signed>")
def one_of_mine(signed: str) -> str:
    """One signature of mine, and the form to withdraw it."""
    return _one(_mine(signed), {})


@views.post("/sign-offs/mine/<signed>/withdraw")
def withdraw(signed: str) -> Response | tuple[str, int]:
    """Withdraw a signature of mine, with a reason."""
    found = _mine(signed)
    try:
        sign_offs.withdraw(store(), found, me(), request.form.get("why", "")[:LONGEST_NOTE], now())
    except SignOffError as error:
        return _one(found, {"why": str(error)}), NOT_TAKEN
    return redirect(url_for(".one_of_mine", signed=signed, done="withdrawn"), 303)


def _members() -> list[Membership]:
    """Everybody in the crews in which I may sign, but for me."""
    found = crews.members(store(), [each.id for each in observing()])
    return [each for each in found if each.person.id != me().id]


def _my_tasks() -> dict[str, set[str]]:
    """By crew: the tasks that I may sign there today. A task that the course no longer has is left out."""
    found: dict[str, set[str]] = {each.id: set() for each in observing()}
    for right in rights.of_person(store(), me().id, "observer"):
        if right.crew in found and right.holds_on(today()):
            found[right.crew] |= set(right.tasks) & set(course().tasks)
    return found


def _member_to_sign(person: str, task: str) -> Membership:
    """Whose task I may sign today. A right may name a task that the course no longer has."""
    if task not in course().tasks:
        abort(404)
    return my_right_to_sign(person, task)[0]


def _mine(signed: str) -> SignOff:
    found = sign_offs.get(store(), signed)
    return found if found and found.observer == me().id else abort(404)


def _one(found: SignOff, problems: dict[str, str]) -> str:
    member = crews.membership_now(store(), found.person)
    mine = _my_tasks().get(member.crew.id) if member else None
    return render_template(
        "signoffs/one_of_mine.html", each=found, problems=problems, may_go_on=bool(mine), done=request.args.get("done")
    )


def _form(
    member: Membership,
    task: str,
    id: str,
    typed: dict[str, str],
    problems: dict[str, str],
    another: SignOff | None = None,
    day: date | None = None,
) -> str:
    found = next(each for each in hands_on.of_hand(member.person.id, member.crew.rig) if each.task.id == task)
    return render_template(
        "signoffs/sign.html",
        member=member,
        found=found,
        id=id,
        typed=typed,
        problems=problems,
        another=another,
        day=day,
        days={"today": today(), "yesterday": today() - timedelta(1)},
        results=RESULTS,
        back=BACK,
        longest=LONGEST_NOTE,
    )


def _id_of_form() -> str:
    """The id that the form was given. One that is none of ours is sent by no page that we showed."""
    try:
        return str(UUID(request.form.get("id", "")))
    except ValueError:
        abort(400)


def _day(problems: dict[str, str]) -> date | None:
    """The day on which it was seen; what can't be taken is told in `problems`."""
    near = {"today": today(), "yesterday": today() - timedelta(1)}.get(request.form.get("when", ""))
    if near:
        return near
    try:
        day = date.fromisoformat(request.form.get("day", ""))
    except ValueError:
        problems["day"] = "Choose the day on which you saw it."
        return None
    if day > today():
        problems["day"] = "This day is still to come. Choose the day on which you saw it."
    return day


def _check(member: Membership, day: date | None, note: str, result: str, problems: dict[str, str]) -> None:
    joined = study_day(member.joined_at, zone())
    if day and not note and day < today() - timedelta(BACK):
        problems["note"] = f"This is more than {BACK} days ago. Write why it is signed only now."
    elif day and not note and day < joined:
        problems["note"] = f"{member.person.name} was not in this crew on that day. Write on which rig you saw it."
    if len(note) > LONGEST_NOTE:
        problems["note"] = f"Write at most {LONGEST_NOTE} letters."
    if result not in RESULTS:
        problems["result"] = "Touch one of the results."


def _reason_not_possible(note: str, problems: dict[str, str]) -> str:
    """Why the rig can't have the task done, or the note; a coordinator reads it, so that there must be one."""
    why = request.form.get("why_not", "").strip()
    if not why and not note:
        problems["why_not"] = "Write what this rig lacks for it. The coordinator reads it."
    elif len(why) > LONGEST_NOTE:
        problems["why_not"] = f"Write at most {LONGEST_NOTE} letters."
    return why[:LONGEST_NOTE] or note


def _signed_before(member: Membership, task: str, day: date, id: str) -> SignOff | None:
    """What this observer signed of that day. Two jobs may be meant, or the Back button was: the observer is asked."""
    if sign_offs.get(store(), id):
        return None  # this very form came before
    signed = sign_offs.of_people(store(), [member.person.id], task, day)
    return next((each for each in signed if each.observer == me().id and each.observed_on == day and each.counts), None)
