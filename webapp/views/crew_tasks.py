"""Hands-on tasks of a crew, for its coordinator: who has been seen on what, who not, and what waits for a decision."""

from dataclasses import dataclass
from datetime import date

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from course import Task
from webapp import hands_on
from webapp.allowed import coordinating, my_crew, observing
from webapp.at_hand import course, me, now, store
from webapp.hands_on import HandsOn, Marks
from webapp.records import crews, sign_offs
from webapp.records.crews import Membership
from webapp.records.sign_offs import SignOff, SignOffError
from webapp.study.tasks import waiting
from webapp.views.entry import NOT_TAKEN

views = Blueprint("crew_tasks", __name__)

MONTHS = (6, 12, 24)
UNSEEN = ("6", "12")
NOT_ASKED = ("not-asked", "not-here", "excused", "replaced")
"""States in which nobody has to see the task."""
LONGEST_WHY = 300


@dataclass(frozen=True)
class Unseen:
    """A task, and the members whom nobody has watched at it in a time, each with how they stand."""

    task: Task
    people: list[tuple[Membership, HandsOn]]


@views.get("/crews/<crew>/tasks")
def show(crew: str) -> str:
    """People by tasks, or by task who was not seen in the last months; and above it what waits for a decision."""
    mine = my_crew(crew)
    members = crews.members(store(), [mine.id])
    marks = hands_on.of_members(members)
    wanted = request.args.get("module", "")
    tasks = [each for each in course().tasks.values() if each.fits(mine.rig.rig_type)]
    shown = [each for each in tasks if wanted in ("", each.module)]
    unseen = request.args.get("unseen", "")
    first = hands_on.first_day_of(int(unseen)) if unseen in UNSEEN else None
    return render_template(
        "signoffs/crew.html",
        crew=mine,
        members=members,
        marks=marks,
        modules=[module for module in course().modules if any(each.module == module.id for each in tasks)],
        shown=[(module, [each for each in shown if each.module == module.id]) for module in course().modules],
        wanted=wanted,
        unseen=unseen if first else "",
        lacking=_not_seen(members, marks, shown, first) if first else None,
        waiting=hands_on.waiting_groups(marks),
        not_possible=hands_on.not_possible(marks),
        may_sign=bool(observing()),
        all_counts=hands_on.counts(each for tasks_of in marks.values() for each in tasks_of.values()),
    )


@views.get("/crews/observed")
def observed() -> str:
    """Everybody of my crews who was observed on a task in the last months, and who was not."""
    if not coordinating():
        abort(404)
    rig, crew, months = request.args.get("rig", ""), request.args.get("crew", ""), _months()
    asked = course().tasks.get(request.args.get("task", ""))
    mine = [each for each in coordinating() if rig in ("", each.rig.id) and crew in ("", each.id)]
    if not mine and not (rig and crew):
        abort(404)  # a rig or crew that is not mine
    members = crews.members(store(), [each.id for each in mine])
    first = hands_on.first_day_of(months)
    seen, unseen = _observed(members, asked, first) if asked else ([], [])
    return render_template(
        "signoffs/observed.html",
        crews=coordinating(),
        rigs=sorted({each.rig for each in coordinating()}, key=lambda each: each.name),
        tasks=course().tasks.values(),
        asked=asked,
        rig=rig,
        crew=crew,
        months=months,
        choices=MONTHS,
        first=first,
        where=", ".join(each.full_name for each in mine) or "no crew",
        seen=seen,
        unseen=unseen,
    )


@views.get("/crews/signed/<signed>")
def one(signed: str) -> str:
    """One signature, those that differ from it, and the forms to decide."""
    return _one(_signed(signed), {})


@views.post("/crews/signed/<signed>/withdraw")
def withdraw(signed: str) -> Response | tuple[str, int]:
    """Withdraw a signature, with a reason."""
    found = _signed(signed)
    try:
        sign_offs.withdraw(store(), found, me(), request.form.get("why", "")[:LONGEST_WHY], now())
    except SignOffError as error:
        return _one(found, {"why": str(error)}), NOT_TAKEN
    return redirect(url_for(".one", signed=signed, done="withdrawn"), 303)


@views.post("/crews/signed/<signed>/stand")
def stand(signed: str) -> Response | tuple[str, int]:
    """Let the signatures that differ all count, with a reason."""
    found = _signed(signed)
    group = _group(found)
    if not group:
        return redirect(url_for(".one", signed=signed), 303)
    try:
        sign_offs.let_stand(store(), group, me(), request.form.get("stand_why", "")[:LONGEST_WHY], now())
    except SignOffError as error:
        return _one(found, {"stand_why": str(error)}), NOT_TAKEN
    return redirect(url_for(".one", signed=signed, done="stand"), 303)


def _not_seen(members: list[Membership], marks: Marks, tasks: list[Task], first: date) -> list[Unseen]:
    found = []
    for task in tasks:
        those = [(each, marks[each.person.id][task.id]) for each in members]
        lacking = [(each, one) for each, one in those if one.state not in NOT_ASKED and not one.watched_since(first)]
        if lacking:
            found.append(Unseen(task, lacking))
    return found


def _months() -> int:
    typed = request.args.get("months", "")
    return int(typed) if typed in map(str, MONTHS) else 12


def _observed(
    members: list[Membership], task: Task, first: date
) -> tuple[list[tuple[Membership, list[SignOff]]], list[Membership]]:
    """The members with what was seen of them from that day on, and the members of whom nothing was seen."""
    signed = sign_offs.of_people(store(), [each.person.id for each in members], task.id, first)
    seen, unseen = [], []
    for member in members:
        theirs = [each for each in signed if each.person == member.person.id and each.counts]
        watched = [each for each in theirs if each.result != "not-possible"]
        if watched:
            seen.append((member, watched))
        else:
            unseen.append(member)
    return seen, unseen


def _signed(signed: str) -> SignOff:
    """A signature of my crew, or of a hand who is in a crew of mine now."""
    found = sign_offs.get(store(), signed)
    if found and (found.crew in {each.id for each in coordinating()} or _is_mine_now(found.person)):
        return found
    abort(404)


def _is_mine_now(person: str) -> bool:
    """Whether a hand is in a crew of mine now."""
    membership = crews.membership_now(store(), person)
    return membership is not None and membership.crew.id in {each.id for each in coordinating()}


def _group(found: SignOff) -> list[SignOff]:
    """The signatures that wait for a decision together with this one, itself among them; none if it does not wait."""
    same = sign_offs.of_people(store(), [found.person], found.task)
    return next((group for group in waiting(same) if found.id in {each.id for each in group}), [])


def _one(found: SignOff, problems: dict[str, str]) -> str:
    return render_template(
        "signoffs/one.html",
        each=found,
        group=_group(found),
        problems=problems,
        done=request.args.get("done"),
        mine_then=found.crew in {each.id for each in coordinating()},
        mine_now=_is_mine_now(found.person),
    )
