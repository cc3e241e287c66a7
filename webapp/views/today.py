"""Today: what do I do now, how long will it take, will I be ready."""

from datetime import date

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import planning
from webapp.at_hand import bank, course, me, store, today
from webapp.forecast_shown import pictured
from webapp.my_papers import open_paper
from webapp.my_readiness import TOO_EARLY, my_readiness
from webapp.my_tests import my_tests
from webapp.reading import read_on
from webapp.records import attempts, crews, memory, questions, rotations
from webapp.standings import my_row
from webapp.study.memory import State, back_on

views = Blueprint("today", __name__)

AWAY = 7
"""From so many days without an answer on, the page says what became of what was waiting."""
MORE = ("10", "20")
"""The minutes that may be added to a day, a tap each."""


@views.get("/today")
def show() -> str:
    """What is for today, with one button that starts it."""
    known = memory.of_person(store(), me().id)
    plan = planning.todays_plan()
    waiting = questions.waiting(store(), me().id, "today")
    ready, done = my_readiness(), attempts.studied(store(), me().id)
    return render_template(
        "today/today.html",
        plan=plan.picks,
        left_out=planning.left_out(plan),
        items=bank(),
        lesson_of={pick.item: course().lesson(bank()[pick.item].lesson) for pick in plan.picks},
        known=known,
        minutes_today=planning.minutes_today(),
        spent=planning.seconds_spent(),
        more_waits=not plan.picks and planning.more_waits(),
        more=MORE,
        goes_on=waiting is not None and waiting.item in {pick.item for pick in plan.picks},
        open_paper=open_paper(),
        reading=read_on(),
        away=_days_away(done.last),
        answers=done.answers,
        today=today(),
        too_early=TOO_EARLY,
        aims=planning.aims_of(me()),
        ready=ready,
        picture=ready and pictured(ready),
        untold=_tells_nothing(),
        next_day=_next_day(known),
        mine=my_row(),
        tests=[each for each in my_tests() if each.open or each.called_for],
    )


@views.post("/today/more")
def more() -> Response:
    """Give today some more minutes: on a day that has none, or once they are used up."""
    minutes = request.form.get("minutes", "")
    if minutes not in MORE:
        abort(400)
    planning.add_minutes(int(minutes))
    return redirect(url_for(".show"), 303)


def _days_away(last: date | None) -> int:
    """For how many days nothing was answered; 0 where that is no gap."""
    days = (today() - last).days if last else 0
    return days if days >= AWAY else 0


def _tells_nothing() -> bool:
    """Whether the hand has told neither rotation nor exam, and no crew tells one."""
    told = rotations.own(store(), me()) or crews.membership_now(store(), me().id)
    return not told and planning.aims_of(me()).exam is None


def _next_day(known: dict[str, State]) -> date | None:
    """The first day on which an item of the course comes back, or None."""
    return min((back_on(state) for item, state in known.items() if item in bank()), default=None)
