"""One person's page, for who coordinates their crew: how they stand, what they did, which mistakes come again."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby

from flask import Blueprint, render_template, request

from webapp import hands_on
from webapp.allowed import coordinating, my_member
from webapp.assigned import rotation_of
from webapp.at_hand import bank, course, store, today
from webapp.mistakes import come_again
from webapp.records import attempts, people, questions
from webapp.records.attempts import Day
from webapp.standings import rows_of
from webapp.study.pace import say
from webapp.study.rotation import on_nights, on_the_rig
from webapp.views.excusing import exam_warning

views = Blueprint("member", __name__)

LATEST = 12
MISTAKES = 5
WEEKS = 12


@dataclass(frozen=True)
class Week:
    """A week from its Monday: how many answers, and the minutes they took."""

    monday: date
    answers: int
    minutes: float


@views.get("/people/<person_id>")
def show(person_id: str) -> str:
    """Head, modules with results, tasks, mistakes, time by week, latest answers."""
    member = my_member(person_id)
    since = member.sees_from
    row = rows_of([member])[0]
    rotation = rotation_of(member.crew, member.person.minutes)
    taken = [test.sitting for cell in row.cells.values() for test in cell.tests]
    return render_template(
        "people/member.html",
        member=member,
        person=member.person,
        row=row,
        say=say,
        on_rig=on_the_rig(rotation, today()),
        on_nights=on_nights(rotation, today()),
        warnings=exam_warning(member, row.exam.day) if row.exam else None,
        versions=questions.versions_in_drills(store(), taken),
        again=come_again(attempts.mistakes_of(store(), person_id, since), "Chose"),
        first_mistakes=MISTAKES,
        lessons={each.id: each for each in course().lessons},
        signed_in=not people.without_password(store(), [person_id]),
        weeks=_weeks(attempts.by_day(store(), person_id, since)),
        latest=attempts.of_person(store(), person_id, LATEST, since=since),
        bank=bank(),
        hands_on=hands_on.of_hand(person_id, member.crew.rig),
        decides=True,
        may_move=len(coordinating()) > 1,
        done=f"The move is made: now in {member.crew.full_name}." if request.args.get("done") == "moved" else None,
    )


def _weeks(days: Iterable[Day]) -> list[Week]:
    """Days, the latest first, put together by week; the last so many weeks with an answer in them."""
    found = []
    for monday, of_week in groupby(days, key=lambda each: each.day - timedelta(each.day.weekday())):
        of_week = list(of_week)
        seconds = sum(each.seconds for each in of_week)
        found.append(Week(monday, sum(each.answers for each in of_week), seconds / 60))
    return found[:WEEKS]
