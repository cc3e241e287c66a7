"""Moving a hand to another of my crews: first what it changes, then the move."""

from collections.abc import Collection
from dataclasses import dataclass, replace

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from course import Module, Task
from webapp import assigning
from webapp.allowed import coordinating, my_member
from webapp.at_hand import course, now, store
from webapp.records import excuses, people
from webapp.records.crews import Crew, Membership
from webapp.records.excuses import Excuse
from webapp.standings import Cell, rows_of
from webapp.study.standing import EXCUSED, NEED_STUDY, REPLACED
from webapp.views.day_field import read_reason
from webapp.views.entry import NOT_TAKEN

views = Blueprint("transfers", __name__)

KEEP, AGAIN = "keep", "again"


@dataclass(frozen=True)
class Change:
    """A module whose state, day or pass mark is another one in the new crew."""

    module: Module
    before: Cell
    after: Cell


@views.get("/people/<person_id>/transfer")
def show(person_id: str) -> str:
    """The crews to move to; with `crew` in the address, what the move to it changes."""
    member = my_member(person_id)
    to = _crew(member, request.args.get("crew")) if request.args.get("crew") else None
    return _page(member, to, {})


@views.post("/people/<person_id>/transfer")
def move(person_id: str) -> Response | tuple[str, int]:
    """Move, with a reason; each excuse is kept, or what it excused from is asked for again."""
    member = my_member(person_id)
    to = _crew(member, request.form.get("crew"))
    problems: dict[str, str] = {}
    why = read_reason("why", "Write why, in a few words.", problems)
    if problems:
        return _page(member, to, problems), NOT_TAKEN
    running = _excuses(member)
    chosen = _chosen(running, member, to)
    assigning.move(member, to, why, [each for each in running if chosen[each.id] == AGAIN])
    return redirect(url_for("member.show", person_id=person_id, done="moved"), 303)


def _crew(member: Membership, crew_id: str | None) -> Crew:
    """One of my other crews; the member's own is no place to move to."""
    return next((each for each in _others(member) if each.id == crew_id), None) or abort(404)


def _others(member: Membership) -> list[Crew]:
    return [each for each in coordinating() if each.id != member.crew.id]


def _excuses(member: Membership) -> list[Excuse]:
    return excuses.running(store(), [member.person.id])


def _chosen(running: Collection[Excuse], member: Membership, to: Crew) -> dict[str, str]:
    """For each excuse by its id: KEEP or AGAIN.

    Unless the form says it: a reason given for one type of rig is not taken for granted on the other.
    """
    usual = KEEP if to.rig.rig_type == member.crew.rig.rig_type else AGAIN
    said = {each.id: request.form.get(f"excuse-{each.id}", "") for each in running}
    return {id: choice if choice in (KEEP, AGAIN) else usual for id, choice in said.items()}


def _page(member: Membership, to: Crew | None, problems: dict[str, str]) -> str:
    running = _excuses(member)
    chosen = _chosen(running, member, to) if to else {}
    before = rows_of([member])[0]
    after = before
    if to:
        ended = [id for id, choice in chosen.items() if choice == AGAIN]
        after = rows_of([replace(member, crew=to, joined_at=now())], without=ended)[0]
    cells = [(before.cells[id], after.cells[id]) for id in before.cells]
    return render_template(
        "people/transfer.html",
        member=member,
        others=_others(member),
        to=to,
        excused=[(each, assigning.name_of(each.module, each.task)) for each in running],
        chosen=chosen,
        stays=[one for one, _ in cells if one.state not in (*NEED_STUDY, EXCUSED, REPLACED)],
        changes=[Change(one.module, one, other) for one, other in cells if _differ(one, other)],
        not_signed_in=bool(people.without_password(store(), [member.person.id])),
        exam=before.exam,
        exam_fault=after.exam_fault,
        own_rotation=after.own_rotation,
        new_tasks=_tasks(to, member.crew) if to else [],
        old_tasks=_tasks(member.crew, to) if to else [],
        problems=problems,
    )


def _differ(one: Cell, other: Cell) -> bool:
    """Whether the state is another, or something else is asked of who has still to study."""
    asked = [(each.asked.due, each.asked.pass_mark) if each.asked else None for each in (one, other)]
    return one.state != other.state or (other.state in NEED_STUDY and asked[0] != asked[1])


def _tasks(on: Crew, not_on: Crew) -> list[Task]:
    """The hands-on tasks that one crew's rig has and the other's has not."""
    return [
        each for each in course().tasks.values() if each.fits(on.rig.rig_type) and not each.fits(not_on.rig.rig_type)
    ]
