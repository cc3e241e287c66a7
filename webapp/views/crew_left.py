"""Somebody who has left a crew, for its coordinators: what was assigned, passed and signed in their time there."""

from collections.abc import Sequence
from dataclasses import dataclass

from flask import Blueprint, abort, render_template

from course import Module
from webapp.allowed import my_crew
from webapp.at_hand import course, store
from webapp.records import assignments, crews, sign_offs
from webapp.records.assignments import Assignment
from webapp.records.crews import Membership
from webapp.records.module_results import Handed, results_of
from webapp.records.sign_offs import SignOff

views = Blueprint("crew_left", __name__)


@dataclass(frozen=True)
class InTheirTime:
    """One module: what was assigned of it, and the tests that were handed in, both oldest first."""

    module: Module
    assigned: Sequence[Assignment]
    tests: Sequence[Handed]


@views.get("/crews/<crew_id>/people/left/<membership_id>")
def show(crew_id: str, membership_id: str) -> str:
    """Their time in the crew, to be read and printed: nothing from before it, nothing from after it."""
    crew = my_crew(crew_id)
    member = next((each for each in crews.left(store(), [crew.id]) if each.id == membership_id), None) or abort(404)
    return render_template(
        "crews/left.html", crew=crew, member=member, modules=_modules(member), signed=_signed(member)
    )


def _modules(member: Membership) -> list[InTheirTime]:
    assigned, tests = _assigned(member), _tests(member)
    found = [
        InTheirTime(module, [each for each in assigned if each.module == module.id], tests.get(module.id, ()))
        for module in course().modules
    ]
    return [each for each in found if each.assigned or each.tests]


def _assigned(member: Membership) -> list[Assignment]:
    """What was assigned to the hand, the crew or the rig at some time while they were in the crew."""
    aims = [member.person.id], [member.crew.id], [member.crew.rig.id]
    found = [*assignments.running(store(), *aims), *assignments.ended(store(), *aims)]
    there = [
        each
        for each in found
        if each.made_at < member.left_at
        and (each.ended_at is None or each.ended_at > member.joined_at)
        and each.rig_type in (None, member.crew.rig.rig_type)
    ]
    return sorted(there, key=lambda each: each.id)


def _tests(member: Membership) -> dict[str, list[Handed]]:
    """By module, the tests that were begun and handed in while they were in the crew."""
    results = results_of(store(), [member.person.id], {member.person.id: member.joined_at})
    in_time = {module: [each for each in of.tests if each.at <= member.left_at] for (_, module), of in results.items()}
    return {module: tests for module, tests in in_time.items() if tests}


def _signed(member: Membership) -> list[SignOff]:
    """What was signed for them in this crew until they left it, the latest day first."""
    found = sign_offs.of_people(store(), [member.person.id])
    return [
        each for each in found if each.crew == member.crew.id and member.joined_at <= each.signed_at <= member.left_at
    ]
