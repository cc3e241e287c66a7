"""One person's page, for who coordinates their crew: how they stand, what they did, which mistakes come again."""

from flask import Blueprint, render_template, request

from webapp import hands_on
from webapp.allowed import coordinating, my_member
from webapp.at_hand import bank, course, store, today
from webapp.mistakes import come_again
from webapp.my_papers import papers_of
from webapp.my_readiness import readiness_for_coordinator
from webapp.records import attempts, extra_time, people, questions, rotations
from webapp.standings import rows_of
from webapp.study.pace import say
from webapp.study.rotation import on_nights, on_the_rig
from webapp.study.weeks import weeks
from webapp.views.excusing import exam_warning

views = Blueprint("member", __name__)

LATEST = 12
MISTAKES = 5
WEEKS = 12


@views.get("/people/<person_id>")
def show(person_id: str) -> str:
    """Head, modules with results, tasks, mistakes, time by week, latest answers."""
    member = my_member(person_id)
    since = member.sees_from
    row = rows_of([member])[0]
    rotation = rotations.of_members(store(), [member])[person_id].rotation
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
        weeks=weeks(attempts.by_day(store(), person_id, since), WEEKS),
        latest=attempts.of_person(store(), person_id, LATEST, since=since),
        bank=bank(),
        hands_on=hands_on.of_hand(person_id, member.crew.rig),
        decides=True,
        papers=papers_of(member),
        grant=extra_time.granted(store(), person_id, member.crew.id),
        modules={each.id: each for each in course().modules},
        may_move=len(coordinating()) > 1,
        done=f"The move is made: now in {member.crew.full_name}." if request.args.get("done") == "moved" else None,
    )


@views.get("/people/<person_id>/readiness")
def readiness(person_id: str) -> str:
    """The mark to expect of one hand. A page of its own, since it folds all their answers again."""
    member = my_member(person_id)
    return render_template("people/readiness.html", member=member, readiness=readiness_for_coordinator(member))
