"""Lessons: the list in study order, and the page of one, with its questions in the text."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from flask import Blueprint, abort, redirect, render_template, request, url_for
from markupsafe import Markup
from werkzeug.wrappers import Response

from course import Lesson
from course.reading_room import FigureHere, Html, Part, QuestionHere, read_lesson
from question_bank import Verdict
from question_bank.cautions import caution
from webapp import asking
from webapp.at_hand import bank, comma, course, me, now, store, system
from webapp.my_tests import my_tests
from webapp.reading import readings
from webapp.records import answers, lessons_read, questions
from webapp.records.answers import UncountedAnswer
from webapp.records.questions import Kept
from webapp.shown import figure_here
from webapp.views.entry import NOT_TAKEN, as_written, moved, typed_answer

views = Blueprint("lessons", __name__)


@dataclass(frozen=True)
class Asked:
    """A question in the text: its row, the answer kept for it, and what a form sent that could not be taken."""

    kept: Kept
    answer: UncountedAnswer | None
    verdict: Verdict | None
    typed: Any
    order: list[str]
    turned: bool


@views.get("/lessons")
def show() -> str:
    """All lessons in study order, how far each is read, and one button that reads on."""
    rows = readings()
    items = {row.lesson.id: bank().of_lesson(row.lesson.id) for row in rows}
    following = next((row for row in rows if not row.is_done), None)
    modules = {module.id: module for module in course().modules}
    return render_template(
        "lessons/list.html",
        rows=rows,
        items=items,
        following=following,
        modules=modules,
        tests={test.module.id for test in my_tests() if test.items},
    )


@views.get("/lessons/<module>/<name>")
def lesson(module: str, name: str) -> str:
    """One lesson for reading, from where it was left."""
    return _page(_found(module, name))


@views.post("/lessons/<module>/<name>/read")
def read(module: str, name: str) -> Response:
    """Mark this part and all before it as read, and go to the one after."""
    lesson = _found(module, name)
    slugs = [part.slug for part in lesson.parts]
    part = request.form.get("part")
    if part not in slugs:
        abort(400)
    at = slugs.index(part)
    with store().writing():
        for slug in slugs[: at + 1]:
            lessons_read.mark_part(store(), me().id, lesson.id, slug, now())
    return _to(lesson, "end" if at + 1 == len(slugs) else slugs[at + 1])


@views.post("/lessons/<module>/<name>/answer")
def answer(module: str, name: str) -> Response | tuple[str, int]:
    """Grade an answer to a question in the text. It is kept to be shown again, and never counted."""
    lesson = _found(module, name)
    kept = _asked_in(lesson, request.form.get("question", ""))
    if answers.get(store(), kept.id) is None:
        given = typed_answer(request.form, kept.question)
        verdict = asking.answer_uncounted(kept, given, as_written(given), comma())
        if not verdict.counted:
            return _page(lesson, kept, verdict), NOT_TAKEN
    return _to(lesson, f"q-{kept.item}")


@views.post("/lessons/<module>/<name>/again")
def again(module: str, name: str) -> Response:
    """Draw another question of the same kind in the place of an answered one."""
    lesson = _found(module, name)
    kept = _asked_in(lesson, request.form.get("question", ""))
    if answers.get(store(), kept.id) is not None and kept.item in bank():
        asking.ask(kept.item, "lesson", lesson=lesson.id)
    return _to(lesson, f"q-{kept.item}")


def _page(lesson: Lesson, sent: Kept | None = None, verdict: Verdict | None = None) -> str:
    """The lesson's page; `sent` is the question whose answer has just come and could not be taken."""
    parts = read_lesson(lesson, system(), comma())
    asked = {each.item: _asked(each, sent, verdict) for each in _drawn(lesson, parts).values()}
    reading = next(each for each in readings() if each.lesson.id == lesson.id)
    return render_template(
        "lessons/lesson.html",
        lesson=lesson,
        module=course().module(lesson.module),
        parts=[(part, list(_blocks(part, asked))) for part in parts],
        reading=reading,
        following=_after(lesson),
        items=bank().of_lesson(lesson.id),
    )


def _drawn(lesson: Lesson, parts: list[Part]) -> dict[str, Kept]:
    """A question for each place in the text: the one drawn before, or a new one, all of them in one commit."""
    wanted = [block.item for part in parts for block in part.blocks if isinstance(block, QuestionHere)]
    kept = questions.in_lesson(store(), me().id, lesson.id)
    missing = [item for item in wanted if item not in kept]
    if missing:
        with store().writing():
            for item in missing:
                asking.ask(item, "lesson", lesson=lesson.id)
        kept = questions.in_lesson(store(), me().id, lesson.id)
    return {item: kept[item] for item in wanted}


def _asked(kept: Kept, sent: Kept | None, verdict: Verdict | None) -> Asked:
    here = sent is not None and sent.id == kept.id
    return Asked(
        kept=kept,
        answer=answers.get(store(), kept.id),
        verdict=verdict if here else None,
        typed=request.form if here else {},
        order=_order(kept),
        turned=request.args.get("turned") == kept.id,
    )


def _order(kept: Kept) -> list[str]:
    """The keys of an order as the address has them after a press of a button, or as they were drawn."""
    if kept.question.kind != "order":
        return []
    drawn = [step.key for step in kept.question.steps]
    steps = request.values.getlist("step")
    if request.values.get("question") != kept.id or sorted(steps) != sorted(drawn):
        return drawn
    return moved(steps, request.args.get("up"), request.args.get("down"))


def _blocks(part: Part, asked: dict[str, Asked]) -> Iterator[tuple[str, Any]]:
    """The blocks of a part by kind, as the template shows them. The lesson's HTML is our own text, made by us."""
    for block in part.blocks:
        if isinstance(block, Html):
            yield "text", Markup(block.html)
        elif isinstance(block, QuestionHere):
            yield "question", asked[block.item]
        elif isinstance(block, FigureHere):
            yield "figure", figure_here(block.id)
        else:
            yield "caution", caution(block.id)


def _found(module: str, name: str) -> Lesson:
    try:
        return course().lesson(f"{module}/{name}")
    except KeyError:
        abort(404)


def _asked_in(lesson: Lesson, question_id: str) -> Kept:
    """The question with that id if it was drawn for who is asking, in this lesson."""
    kept = questions.get(store(), question_id)
    if kept is None or kept.person != me().id or kept.lesson != lesson.id:
        abort(404)
    return kept


def _after(lesson: Lesson) -> Lesson | None:
    """The lesson that follows in study order."""
    lessons = course().lessons
    at = lessons.index(lesson) + 1
    return lessons[at] if at < len(lessons) else None


def _to(lesson: Lesson, anchor: str) -> Response:
    module, name = lesson.id.split("/")
    return redirect(url_for(".lesson", module=module, name=name, _anchor=anchor), 303)
