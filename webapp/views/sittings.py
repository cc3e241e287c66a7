"""A sitting: one question a page, answered as drafts; handed in; and what it came to. No verdict before that."""

import re

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.datastructures import MultiDict
from werkzeug.wrappers import Response

from question_bank import Verdict
from webapp import my_sittings
from webapp.at_hand import course, free_entry, now, store
from webapp.my_sittings import MySitting, Place
from webapp.my_tests import my_test
from webapp.records import come_back_to, drills, sittings
from webapp.views.entry import NOT_TAKEN, as_written, moved, typed_answer
from webapp.views.paper_result import paper_result

views = Blueprint("sittings", __name__)

FIELDS = re.compile(r"free|number|unit|inches|line|choice|part|step|pair-[a-h]")
KEPT, OVER = 204, 410
"""What a page is told that keeps an answer by itself: it is kept; the sitting is over."""
LONGEST = 128
"""Of what was sent only the fields of an answer are kept, and no more of each than a field on the page takes."""
NAMES = {
    "module": "Test of module",
    "refresher": "Refresher of module",
    "paper-a": "Practice paper A",
    "paper-b": "Practice paper B",
}
"""What each kind of sitting is called."""


@views.get("/sittings/<sitting>")
def show(sitting: str) -> str | Response:
    """What a sitting came to; while it is open, the first question that is not answered."""
    mine = _mine(sitting)
    if not mine.sitting.is_open:
        return _result(mine)
    waiting = next((each.number for each in mine.places if each.state != "answered"), None)
    return _to_place(mine, waiting or len(mine.places) + 1)


@views.get("/sittings/<sitting>/<int:place>")
def question(sitting: str, place: int) -> str | Response:
    """One question with its draft, and where all the others stand."""
    mine = _mine(sitting)
    at = _place(mine, place)
    if not mine.sitting.is_open:
        return redirect(url_for(".show", sitting=sitting), 303)
    drills.shown(store(), at.kept.id, now())
    return _page(mine, at)


@views.post("/sittings/<sitting>/<int:place>/answer")
def answer(sitting: str, place: int) -> Response | tuple[str, int]:
    """Keep an answer as a draft. What can't be counted as it stands is told at once; whether it is right is not."""
    mine = _mine(sitting)
    at = _place(mine, place)
    if not mine.sitting.is_open:
        return redirect(url_for(".show", sitting=sitting), 303)
    _mark(at)
    given = typed_answer(request.form, at.kept.question)
    if _is_nothing(given):
        sittings.drop_draft(store(), at.kept.id, now())
        return _to_place(mine, place + 1)
    written = as_written(given)
    verdict = my_sittings.keep(at, given, written, _fields())
    if verdict and request.form.get("asked-back") != written:
        again = _mine(sitting)
        return _page(again, _place(again, place), verdict, written), NOT_TAKEN
    return _to_place(mine, place + 1)


@views.post("/sittings/<sitting>/<int:place>/draft")
def draft(sitting: str, place: int) -> Response:
    """Keep what a page sends by itself while the hand is still at it: nothing is said of it."""
    mine = _mine(sitting)
    at = _place(mine, place)
    if not mine.sitting.is_open:
        return Response(status=OVER, mimetype="text/plain")
    _mark(at)
    if "mark-only" in request.form:
        return Response(status=KEPT, mimetype="text/plain")
    given = typed_answer(request.form, at.kept.question)
    if _is_nothing(given):
        sittings.drop_draft(store(), at.kept.id, now())
    else:
        my_sittings.keep(at, given, as_written(given), _fields(), by_itself=True)
    return Response(status=KEPT, mimetype="text/plain")


def _mark(at: Place) -> None:
    """Mark the question to come back to, or take the mark away."""
    if "come-back" in request.form:
        come_back_to.mark(store(), at.kept.id, now())
    else:
        come_back_to.unmark(store(), at.kept.id)


@views.get("/sittings/<sitting>/<int:place>/answer")
def answer_address(sitting: str, place: int) -> Response:
    """A form that came back stands at its own address; loaded anew, that leads to the question."""
    mine = _mine(sitting)
    return _to_place(mine, _place(mine, place).number)


@views.get("/sittings/<sitting>/hand-in")
def ready(sitting: str) -> str | Response:
    """Which questions are open or can't be read, before it is handed in."""
    mine = _mine(sitting)
    if not mine.sitting.is_open:
        return redirect(url_for(".show", sitting=sitting), 303)
    return render_template("sittings/hand_in.html", mine=mine, name=_name(mine))


@views.post("/sittings/<sitting>/hand-in")
def hand_in(sitting: str) -> Response:
    """Hand it in, once, and lead to what it came to."""
    my_sittings.hand_in(_mine(sitting).sitting, now())
    return redirect(url_for(".show", sitting=sitting), 303)


def _page(mine: MySitting, at: Place, verdict: Verdict | None = None, asked_back: str = "") -> str:
    return render_template(
        "sittings/question.html",
        mine=mine,
        at=at,
        name=_name(mine),
        question=at.kept.question,
        order=_order(at),
        typed=_typed(at),
        verdict=verdict,
        asked_back=asked_back,
    )


def _order(at: Place) -> list[str]:
    """The keys of an order: as the address has them after a press of a button, as kept, or as drawn."""
    if at.kept.question.kind != "order":
        return []
    drawn = [each.key for each in at.kept.question.steps]
    sent = request.values.getlist("step")
    if sorted(sent) == sorted(drawn):
        return moved(sent, request.args.get("up"), request.args.get("down"))
    kept = at.draft.given["given"] if at.draft else []
    return kept if sorted(kept) == sorted(drawn) else drawn


def _fields() -> dict[str, list[str]]:
    """The fields of the answer as they were sent."""
    sent = {name: request.form.getlist(name)[:10] for name in request.form if FIELDS.fullmatch(name)}
    return {name: [value[:LONGEST] for value in values] for name, values in sent.items()}


def _typed(at: Place) -> MultiDict:
    """The fields of the draft, to be shown again; what was typed in one field or in two, in those that stand there."""
    if at.draft is None:
        return MultiDict()
    fields = at.draft.given["fields"]
    if at.kept.question.is_typed and free_entry() != ("free" in fields):
        return MultiDict({"free" if free_entry() else "number": at.draft.given["written"]})
    return MultiDict(fields)


def _result(mine: MySitting) -> str:
    if mine.sitting.module is None:
        return paper_result(mine, _name(mine), unread(mine))
    mark = mine.mark
    counts = {lesson: (right, asked) for lesson, right, asked in mark.lessons}
    lessons = [each for module in course().modules for each in module.lessons]
    module = mine.sitting.module
    return render_template(
        "sittings/result.html",
        mine=mine,
        name=_name(mine),
        mark=mark,
        rows=[(lesson, *counts[lesson.id]) for lesson in lessons if lesson.id in counts],
        missed=[each.kept.question.title for each in mine.places if each.kept.item in mark.missed],
        unread=unread(mine),
        slips=(),
        test=module and my_test(module),
    )


def unread(mine: MySitting) -> dict[str, str]:
    """For each question whose draft could not be counted, why."""
    return {each.kept.id: _unread(each) for each in mine.places if each.outcome == "unread"}


def _unread(at: Place) -> str:
    """Why a draft could not be counted. One that was read, but asked back, is no longer to be sent again."""
    verdict = at.kept.question.grade(at.draft.given["given"], comma=at.draft.given["comma"])
    return f"It was read as {verdict.read_as}." if verdict.read_as else verdict.message


def _name(mine: MySitting) -> str:
    """What this sitting is called, such as 'Test of module 10, Safety and inspection'."""
    module = next((each for each in course().modules if each.id == mine.sitting.module), None)
    words = NAMES[mine.sitting.kind]
    return f"{words} {module.number}, {module.title}" if module else words


def _is_nothing(given: object) -> bool:
    """Whether a form was sent with nothing in it: that leaves the question open."""
    if isinstance(given, dict):
        return not any(given.values())
    return not given or (isinstance(given, str) and not given.strip())


def _to_place(mine: MySitting, number: int) -> Response:
    """To that question; after the last one, to handing in."""
    if number > len(mine.places):
        return redirect(url_for(".ready", sitting=mine.sitting.id), 303)
    return redirect(url_for(".question", sitting=mine.sitting.id, place=number), 303)


def _mine(sitting: str) -> MySitting:
    """The sitting if it is of who is asking; another's does not exist for them."""
    return my_sittings.my_sitting(sitting) or abort(404)


def _place(mine: MySitting, number: int) -> Place:
    return mine.places[number - 1] if 1 <= number <= len(mine.places) else abort(404)
