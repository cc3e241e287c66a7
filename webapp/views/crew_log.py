"""The log: what coordinators and observers did, newest first; of one crew, or of all my crews, by day and by person."""

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any

from flask import Blueprint, abort, render_template, request

from webapp.allowed import coordinating, my_crew
from webapp.at_hand import store, zone
from webapp.people_file import day_in
from webapp.records import log, rights
from webapp.records.crews import Crew
from webapp.study.days import end_of

views = Blueprint("crew_log", __name__)

A_PAGE = 40


@views.get("/crews/<crew_id>/log")
def show(crew_id: str) -> str:
    """The log of one crew."""
    crew = my_crew(crew_id)
    return _page([crew], crew)


@views.get("/crews/log")
def of_all() -> str:
    """One log over all my crews, and over what their coordinators did in no crew: rigs that they made."""
    return _page(coordinating() or abort(404), None)


def _page(mine: Sequence[Crew], crew: Crew | None) -> str:
    """A page of the log; `before` in the address is the last line of the page before."""
    ids, alone = [each.id for each in mine], [] if crew else _coordinators(mine)
    day, wanted, before = (
        day_in(request.args.get("day", "")),
        request.args.get("person", ""),
        request.args.get("before"),
    )
    people = log.people_in(store(), ids, alone)
    person = wanted if wanted in dict(people) else None
    found = log.of_crews(store(), ids, A_PAGE + 1, before, alone=alone, person=person, between=_bounds(day))
    chosen: dict[str, Any] = {"day": day.isoformat() if day else None, "person": person}
    return render_template(
        "crews/log.html",
        crew=crew,
        names={each.id: each.full_name for each in mine},
        people=people,
        chosen={name: value for name, value in chosen.items() if value},
        found=found[:A_PAGE],
        older=found[A_PAGE - 1].id if len(found) > A_PAGE else None,
        first=before is None,
        zone=str(zone()),
    )


def _coordinators(mine: Sequence[Crew]) -> list[str]:
    """The ids of all who coordinate one of these crews now."""
    return sorted({right.person.id for crew in mine for right in rights.in_crew(store(), crew.id, "coordinator")
                   if right.ended_at is None})  # fmt: skip


def _bounds(day: date | None) -> tuple | None:
    """When that study day begins and ends: a line from 01:40 is of the day before, as everywhere here."""
    return (end_of(day - timedelta(1), zone()), end_of(day, zone())) if day else None
