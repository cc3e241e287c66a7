"""The page of one question: asked, answered, and shown again from its row for ever after."""

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from question_bank import Verdict
from webapp import asking
from webapp.at_hand import bank, course, me, now, store, today
from webapp.my_cases import MyCase, my_case
from webapp.planning import answered_today, my_plan
from webapp.records import attempts, hints, memory, questions
from webapp.records.questions import Kept
from webapp.shown import minutes
from webapp.study.memory import back_on
from webapp.views.entry import NOT_TAKEN, as_written, moved, typed_answer

views = Blueprint("questions", __name__)


@views.get("/questions/<question_id>")
def show(question_id: str) -> str | Response:
    """The open question, or the answered one with its working."""
    kept = _mine(question_id)
    attempt = attempts.get(store(), kept.id)
    if attempt:
        return _answered(kept, attempt)
    return _not_yet(kept) or _open(kept)


@views.post("/questions/<question_id>/answer")
def answer(question_id: str) -> Response | tuple[str, int]:
    """Grade and keep an answer. One that is not counted comes back with what was read, and what was typed stays."""
    kept = _mine(question_id)
    if too_early := _not_yet(kept):
        return too_early
    if attempts.get(store(), kept.id) is None:
        given = typed_answer(request.form, kept.question)
        verdict = asking.answer(kept, given, as_written(given))
        if not verdict.counted:
            return _open(kept, verdict), NOT_TAKEN
    return redirect(url_for(".show", question_id=kept.id), 303)


@views.get("/questions/<question_id>/answer")
def answer_address(question_id: str) -> Response:
    """A form that came back stands at its own address; loaded anew, that leads to the question."""
    return redirect(url_for(".show", question_id=_mine(question_id).id), 303)


@views.post("/questions/<question_id>/hint")
def hint(question_id: str) -> Response:
    """Show the hint, and write down that it was shown."""
    kept = _mine(question_id)
    hints.shown(store(), kept.id, now())
    return redirect(url_for(".show", question_id=kept.id, _anchor="hint"), 303)


@views.post("/questions/<question_id>/again")
def again(question_id: str) -> Response:
    """The same kind with other numbers, at once."""
    kept = _mine(question_id)
    if kept.item not in bank():
        abort(404, "This item is no longer in the course. Go on with the next question.")
    return redirect(url_for(".show", question_id=asking.ask(kept.item, "practice")), 303)


def _mine(question_id: str) -> Kept:
    """The question if it was drawn for who is asking and counts; another's does not exist for them.

    One of a sitting is answered there, and has no page of its own before it is graded: that would show its working.
    """
    kept = questions.get(store(), question_id)
    if kept is None or kept.person != me().id or kept.place not in ("today", "practice", "case", "sitting"):
        abort(404)
    if kept.place == "sitting" and attempts.get(store(), kept.id) is None:
        abort(404)
    return kept


def _not_yet(kept: Kept) -> Response | None:
    """The way to the part of a case that comes first: a later part tells what the ones before it find."""
    case = _case_of(kept)
    if case is None or case.open is None or case.place(kept) <= case.place(case.open):
        return None
    return redirect(url_for(".show", question_id=case.open.id), 303)


def _case_of(kept: Kept) -> MyCase | None:
    return my_case(kept.drill) if kept.place == "case" else None


def _open(kept: Kept, verdict: Verdict | None = None) -> str:
    question = kept.question
    order = [each.key for each in question.steps] if question.kind == "order" else []
    if sorted(request.values.getlist("step")) == sorted(order):
        order = moved(request.values.getlist("step"), request.args.get("up"), request.args.get("down"))
    return render_template(
        "questions/open.html",
        kept=kept,
        question=question,
        side=_side(kept),
        case=_case_of(kept),
        order=order,
        verdict=verdict,
        typed=request.form,
        hint_shown=hints.was_shown(store(), kept.id),
    )


def _answered(kept: Kept, attempt: attempts.Attempt) -> str:
    state = memory.of_person(store(), me().id).get(kept.item)
    item = bank().get(kept.item)
    return render_template(
        "questions/answered.html",
        kept=kept,
        question=kept.question,
        side=_side(kept),
        case=_case_of(kept),
        attempt=attempt,
        back_on=state and back_on(state),
        back_in=(back_on(state) - today()).days if state else 0,
        item=item,
        lesson=course().lesson(item.lesson) if item else None,
    )


def _side(kept: Kept) -> str:
    """What stands in the margin: how much of today is left, the part of a case, or the lesson that is practised."""
    if kept.place == "today":
        plan = my_plan()
        return f"{len(plan)} left, {minutes(sum(pick.seconds for pick in plan))}" if plan else "The last for today"
    case = _case_of(kept)
    if case:
        return f"Part {case.place(kept)} of {len(case.parts)}"
    item = bank().get(kept.item)
    if item is None:
        return ""
    of_lesson = {each.id for each in bank().of_lesson(item.lesson)}
    done = len(of_lesson & answered_today())
    return f"Lesson {course().lesson(item.lesson).number}, {done} of {len(of_lesson)} answered today"
