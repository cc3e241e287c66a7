"""Today: what do I do now, how long will it take, how far am I."""

from datetime import date

from flask import Blueprint, render_template

from webapp.at_hand import bank, course, me, store, today
from webapp.my_papers import open_paper
from webapp.my_tests import my_tests
from webapp.planning import last_outcomes, more_waits, my_plan, seconds_spent
from webapp.reading import read_on
from webapp.records import memory, questions
from webapp.standings import my_row
from webapp.study.memory import State, back_on
from webapp.study.so_far import so_far

views = Blueprint("today", __name__)


@views.get("/today")
def show() -> str:
    """What is for today, with one button that starts it."""
    known = memory.of_person(store(), me().id)
    plan = my_plan()
    waiting = questions.waiting(store(), me().id, "today")
    return render_template(
        "today.html",
        plan=plan,
        items=bank(),
        lesson_of={pick.item: course().lesson_or_planned(bank()[pick.item].lesson) for pick in plan},
        known=known,
        fading=sum(pick.recall is not None for pick in plan),
        seconds=sum(pick.seconds for pick in plan),
        spent=seconds_spent(),
        used_up=not plan and more_waits(),
        goes_on=waiting is not None and waiting.item in {pick.item for pick in plan},
        reading=read_on(),
        so_far=so_far(bank(), last_outcomes(), known, today()),
        next_day=_next_day(known),
        mine=my_row(),
        open_paper=open_paper(),
        tests=[each for each in my_tests() if each.open or each.called_for],
    )


def _next_day(known: dict[str, State]) -> date | None:
    """The first day on which an item of the course comes back, or None."""
    return min((back_on(state) for item, state in known.items() if item in bank()), default=None)
