"""Practice: what is for today, or one lesson's items, one after the other."""

from collections import Counter

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from course import Lesson
from webapp import asking
from webapp.at_hand import bank, cases, course, me, store, today
from webapp.my_cases import my_case, open_cases
from webapp.my_sittings import held_back
from webapp.planning import last_outcomes, my_plan
from webapp.records import attempts, memory, questions
from webapp.study.practice_order import practice_order
from webapp.study.so_far import SoFar, so_far

views = Blueprint("practice", __name__)


@views.get("/practice")
def show() -> str:
    """What can be practised, and how much of it."""
    counts, going = _counts(), open_cases()
    return render_template(
        "practice/show.html",
        plan=my_plan(),
        rows=[(lesson, counts[lesson.id]) for lesson in course().lessons],
        done=_lesson(request.args.get("done")),
        held=_lesson(request.args.get("held")),
        cases=[(case, going.get(case.id)) for case in cases().values()],
    )


def _counts() -> dict[str, SoFar]:
    """How far the hand is in the items of each lesson."""
    known, last = memory.of_person(store(), me().id), last_outcomes()
    return {
        lesson.id: so_far([item.id for item in bank().of_lesson(lesson.id)], last, known, today())
        for lesson in course().lessons
    }


def _lesson(lesson_id: str | None) -> Lesson | None:
    return next((each for each in course().lessons if each.id == lesson_id), None)


@views.post("/practice/start")
def start() -> Response:
    """Go on with the waiting question of this place, or draw the next one. `lesson` in the form keeps to one lesson."""
    lesson = request.form.get("lesson")
    return _next_of_lesson(lesson) if lesson else _next_of_today()


@views.post("/practice/next")
def following() -> Response:
    """The question after an answered one, of the same place."""
    after = questions.get(store(), request.form.get("after", ""))
    if after is None or after.person != me().id:
        abort(404)
    if after.place == "case":
        return _next_of_case(after.drill)
    if after.place == "practice" and after.item in bank():
        return _next_of_lesson(bank()[after.item].lesson, after.item)
    return _next_of_today()


def _next_of_today() -> Response:
    waiting = questions.waiting(store(), me().id, "today")
    plan = my_plan()
    if waiting and waiting.item in {pick.item for pick in plan}:
        return _to(waiting.id)
    if not plan:
        return redirect(url_for("today.show"), 303)
    return _to(asking.ask(plan[0].item, "today"))


def _next_of_case(run_id: str) -> Response:
    """The first part that is not answered; after the last one the whole case."""
    part = my_case(run_id).open
    return _to(part.id) if part else redirect(url_for("cases.show", run=run_id), 303)


def _ends_round(item: str, items: list[str]) -> bool:
    """Whether each of the items was answered today as often as the one answered just now."""
    latest = attempts.of_person(store(), me().id, limit=500)
    times = Counter(each.item for each in latest if each.study_day == today())
    return all(times[each] >= times[item] for each in items)


def _next_of_lesson(lesson: str, answered: str | None = None) -> Response:
    """The waiting question of a lesson, or the next one; at the end of each round of it, to Practice."""
    kinds = {item.id: item.kind for item in bank().of_lesson(lesson)}
    if not kinds:
        abort(404)
    items = [each for each in kinds if each not in held_back()]
    if not items:
        return redirect(url_for(".show", held=lesson), 303)
    waiting = questions.waiting(store(), me().id, "practice")
    if waiting and waiting.item in items:
        return _to(waiting.id)
    if answered and _ends_round(answered, items):
        return redirect(url_for(".show", done=lesson), 303)
    last = {each.item: each.id for each in reversed(attempts.of_person(store(), me().id, limit=500))}
    return _to(asking.ask(practice_order({each: kinds[each] for each in items}, last)[0], "practice"))


def _to(question_id: str) -> Response:
    return redirect(url_for("questions.show", question_id=question_id), 303)
