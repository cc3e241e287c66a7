"""Ten conversions: a drill for anybody, with no account. It is kept while it lasts and never counted."""

import secrets
from itertools import cycle, islice

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from question_bank import Item, Verdict
from question_bank.item_fields import SYSTEMS
from webapp import asking
from webapp.access import open_to_all
from webapp.at_hand import WRITES, bank, comma, me, now, store
from webapp.records import answers, questions
from webapp.records.ids import new_id
from webapp.records.questions import Kept
from webapp.views.entry import NOT_TAKEN, as_written, typed_answer

views = Blueprint("ten", __name__)

HOW_MANY = 10


@views.get("/ten")
@open_to_all
def show() -> str:
    """What the drill is, and one button that starts it."""
    return render_template("ten/show.html", how_many=HOW_MANY)


@views.post("/ten/start")
@open_to_all
def start() -> Response:
    """Draw ten conversions: every one there is, each way, in a drawn order; then again from the first."""
    drill = new_id(now())
    ways = [(item.id, system) for item in bank().values() if _is_conversion(item) for system in SYSTEMS]
    drawn = secrets.SystemRandom().sample(ways, len(ways))
    for item, system in islice(cycle(drawn), HOW_MANY):
        asking.ask(item, "ten", drill=drill, system=system)
    response = redirect(url_for(".question", drill=drill, place=1), 303)
    if me() is None:
        response.set_cookie(
            WRITES, request.form.get(WRITES, "point")[:5], max_age=31_536_000, httponly=True, samesite="Lax"
        )
    return response


@views.get("/ten/<drill>/<int:place>")
@open_to_all
def question(drill: str, place: int) -> str:
    """One of the ten: open, or answered with its working."""
    return _page(drill, place)


@views.post("/ten/<drill>/<int:place>/answer")
@open_to_all
def answer(drill: str, place: int) -> Response | tuple[str, int]:
    """Grade an answer; what is not counted comes back with what was read."""
    kept = _of_drill(drill, place)
    if answers.get(store(), kept.id) is None:
        given = typed_answer(request.form, kept.question)
        verdict = asking.answer_uncounted(kept, given, as_written(given), comma())
        if not verdict.counted:
            return _page(drill, place, verdict), NOT_TAKEN
    return redirect(url_for(".question", drill=drill, place=place), 303)


@views.get("/ten/<drill>/result")
@open_to_all
def result(drill: str) -> str:
    """All ten, the misses worked out."""
    _of_drill(drill, 1)
    rows = [(kept, answers.get(store(), kept.id)) for kept in questions.of_drill(store(), drill)]
    return render_template(
        "ten/result.html", rows=rows, right=sum(1 for _, given in rows if given and given.outcome == "right")
    )


def _is_conversion(item: Item) -> bool:
    return item.kind == "numeric" and item.is_conversion


def _page(drill: str, place: int, verdict: Verdict | None = None) -> str:
    kept = _of_drill(drill, place)
    return render_template(
        "ten/question.html",
        kept=kept,
        question=kept.question,
        drill=drill,
        place_in_drill=place,
        how_many=HOW_MANY,
        given=answers.get(store(), kept.id),
        verdict=verdict,
        typed=request.form,
    )


def _of_drill(drill: str, place: int) -> Kept:
    """The question at that place of a drill, counted from 1. A signed-in hand's drill is theirs alone."""
    drawn = questions.of_drill(store(), drill)
    person = me()
    if not 1 <= place <= len(drawn) or drawn[0].person not in (None, person and person.id):
        abort(404)
    return drawn[place - 1]
