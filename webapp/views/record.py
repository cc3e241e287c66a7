"""Record: what was answered, what comes back when, and the mistakes that come again."""

from dataclasses import dataclass
from datetime import date

from flask import Blueprint, abort, render_template, request

from question_bank import Item
from webapp import hands_on
from webapp.at_hand import bank, course, me, store, today
from webapp.mistakes import come_again
from webapp.my_papers import my_results
from webapp.planning import last_outcomes
from webapp.reading import readings
from webapp.records import attempts, memory
from webapp.records.attempts import Attempt
from webapp.standings import my_row
from webapp.study.memory import back_on
from webapp.study.so_far import is_fading, so_far

views = Blueprint("record", __name__)

LATEST = 8
A_PAGE = 40


@dataclass(frozen=True)
class Line:
    """One item in the record: how often it was answered, how last, and from when it fades."""

    item: Item
    times: int
    last: Attempt | None
    back_on: date | None
    fading: bool


@views.get("/record")
def show() -> str:
    """The counts, item by item, the mistakes that come again, and the latest answers."""
    counted = attempts.counted(store(), me().id)
    lines = _lines(counted)
    return render_template(
        "record/record.html",
        lessons=[(lesson, [lines[item.id] for item in bank().of_lesson(lesson.id)]) for lesson in course().lessons],
        readings=readings(),
        answers=len(counted),
        so_far=so_far(bank(), last_outcomes(), memory.of_person(store(), me().id), today()),
        again=come_again(attempts.mistakes_of(store(), me().id)),
        latest=attempts.of_person(store(), me().id, LATEST),
        bank=bank(),
        mine=my_row(),
        papers=my_results(),
        hands_on=hands_on.mine()[1],
    )


@views.get("/record/attempts")
def all_attempts() -> str:
    """All answers, newest first, a page at a time. `before` is the id of the last one on the page before."""
    before = request.args.get("before")
    if before is not None:
        last = attempts.get(store(), before)
        if last is None or last.person != me().id:
            abort(404)
    found = attempts.of_person(store(), me().id, A_PAGE + 1, before)
    older = found[A_PAGE - 1].id if len(found) > A_PAGE else None
    return render_template("record/attempts.html", found=found[:A_PAGE], older=older, first=before is None, bank=bank())


def _lines(counted: list[Attempt]) -> dict[str, Line]:
    """A line for each item of the bank, by its id. `counted` comes oldest first."""
    states = memory.of_person(store(), me().id)
    last = {each.item: each for each in counted}
    times = {item: 0 for item in bank()}
    for each in counted:
        times[each.item] = times.get(each.item, 0) + 1
    found = {}
    for name, item in bank().items():
        state = states.get(name)
        fading = state is not None and is_fading(state, today())
        found[name] = Line(item, times[name], last.get(name), state and back_on(state), fading)
    return found
