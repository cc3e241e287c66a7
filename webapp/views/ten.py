"""Ten conversions: a drill for anybody, with no account. It is kept while it lasts and never counted.

Each conversion is asked twice: first about how big the answer is, then the answer. Whether the power of ten was right
is told only after the exact answer. The estimate is the hand's own check on the sum: told before, it would be ours, and
a hand would not learn to notice that the two do not agree.
"""

import secrets

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from question_bank import Verdict
from question_bank.conversions import ten
from question_bank.kinds.numeric import NumericQuestion
from question_bank.powers_of_ten import HOW_MANY as SIZES
from question_bank.powers_of_ten import is_clear, lowest_offered, offered
from question_bank.reading import has_no_unit
from webapp import asking
from webapp.access import open_to_all
from webapp.at_hand import WRITES, bank, comma, me, now, store
from webapp.records import answers, drills, questions
from webapp.records.drills import Drill, SizeChosen
from webapp.records.ids import new_id
from webapp.records.questions import Kept
from webapp.study import drill as study
from webapp.study.drill import Asked
from webapp.views.entry import NOT_TAKEN, as_written, typed_answer

views = Blueprint("ten", __name__)


@views.get("/ten")
@open_to_all
def show() -> str:
    """What the drill is, and one button that starts it."""
    return render_template("ten/show.html")


@views.post("/ten/start")
@open_to_all
def start() -> Response:
    """Draw ten conversions and lead to the first."""
    person = me()
    drill = Drill(new_id(now()), person and person.id, request.form.get("clock") == "with", now())
    drills.start(store(), drill)
    for item, system in ten(bank(), secrets.randbelow(2**31)):
        asking.ask(item, "ten", drill=drill.id, system=system, suits=lambda question: is_clear(question.value))
    response = redirect(url_for(".question", drill=drill.id, place=1), 303)
    if person is None:
        response.set_cookie(
            WRITES, request.form.get(WRITES, "point")[:5], max_age=31_536_000, httponly=True, samesite="Lax"
        )
    return response


@views.get("/ten/<drill>/<int:place>")
@open_to_all
def question(drill: str, place: int) -> str:
    """One of the ten: about how big, then exact, then answered with its working."""
    return _page(drill, place)


@views.post("/ten/<drill>/<int:place>/size")
@open_to_all
def choose_size(drill: str, place: int) -> Response | tuple[str, int]:
    """Keep the power of ten that was chosen; the first choice stands."""
    kept = _of_drill(drill, place)
    lowest = lowest_offered(kept.question.value, kept.question.seed)
    chosen = request.form.get("power", "")
    if drills.size_chosen(store(), kept.id) is None and answers.get(store(), kept.id) is None:
        if chosen not in map(str, range(lowest, lowest + SIZES)):
            return _page(drill, place, size_missing=True), NOT_TAKEN
        drills.keep_first_size(store(), SizeChosen(kept.id, lowest, int(chosen), now()))
    return _to(drill, place)


@views.post("/ten/<drill>/<int:place>/answer")
@open_to_all
def answer(drill: str, place: int) -> Response | tuple[str, int]:
    """Grade an exact answer; what is not counted comes back with what was read. The power of ten comes first."""
    kept = _of_drill(drill, place)
    if answers.get(store(), kept.id) is None and drills.size_chosen(store(), kept.id) is not None:
        given = typed_answer(request.form, kept.question)
        verdict = _asked_back(kept.question, given)
        if verdict is None:
            verdict = asking.answer_uncounted(kept, given, as_written(given), comma())
        if not verdict.counted:
            return _page(drill, place, verdict, asked_back=given), NOT_TAKEN
    return _to(drill, place)


@views.get("/ten/<drill>/<int:place>/size", endpoint="size_address")
@views.get("/ten/<drill>/<int:place>/answer", endpoint="answer_address")
@open_to_all
def form_address(drill: str, place: int) -> Response:
    """A form that came back stands at its own address; loaded anew, that leads to the question."""
    _of_drill(drill, place)
    return _to(drill, place)


@views.get("/ten/<drill>/result")
@open_to_all
def result(drill: str) -> str:
    """All ten with both answers, the misses worked out."""
    _of_drill(drill, 1)
    drawn = questions.of_drill(store(), drill)
    rows = [_asked(place, kept) for place, kept in enumerate(drawn, start=1)]
    return render_template(
        "ten/result.html", rows=rows, study=study, drill=drill, clock=drills.has_clock(store(), drill)
    )


def _asked_back(question: NumericQuestion, given: str) -> Verdict | None:
    """What is asked before an answer is graded: which reading was meant, and its unit where it was typed freely.

    Both are asked of right and wrong answers alike. Which reading was meant is asked once: sent again, it stands.
    """
    if request.form.get("asked-back") != given and (doubt := question.doubt(given, comma())):
        return doubt
    if "free" in request.form and has_no_unit(given, comma()):
        return Verdict(
            "ask-back", f"You wrote {given.strip()} and no unit. Write the unit beside it, and send it again."
        )
    return None


def _page(
    drill: str, place: int, verdict: Verdict | None = None, size_missing: bool = False, asked_back: str = ""
) -> str:
    kept = _of_drill(drill, place)
    shown_at = drills.shown(store(), kept.id, now())
    lowest = lowest_offered(kept.question.value, kept.question.seed)
    return render_template(
        "ten/question.html",
        kept=kept,
        question=kept.question,
        drill=drill,
        place_in_drill=place,
        how_many=len(questions.of_drill(store(), drill)),
        asked=_asked(place, kept),
        given=answers.get(store(), kept.id),
        sizes=offered(lowest, kept.question.unit),
        size_missing=size_missing,
        clock=drills.has_clock(store(), drill),
        seconds_gone=int((now() - shown_at).total_seconds()),
        verdict=verdict,
        asked_back=asked_back,
        typed=request.form,
    )


def _asked(place: int, kept: Kept) -> Asked:
    given, size = answers.get(store(), kept.id), drills.size_chosen(store(), kept.id)
    return Asked(
        place,
        kept.question,
        chosen=size and size.chosen,
        outcome=given and given.outcome,
        mistake=given and given.mistake,
        read_as=given.read_as if given else "",
        shown_at=drills.first_shown(store(), kept.id),
        chosen_at=size and size.at,
        answered_at=given and given.at,
    )


def _to(drill: str, place: int) -> Response:
    return redirect(url_for(".question", drill=drill, place=place), 303)


def _of_drill(drill: str, place: int) -> Kept:
    """The question at that place of a drill, counted from 1. A signed-in hand's drill is theirs alone."""
    drawn = [kept for kept in questions.of_drill(store(), drill) if kept.place == "ten"]
    person = me()
    if not 1 <= place <= len(drawn) or drawn[0].person not in (None, person and person.id):
        abort(404)
    return drawn[place - 1]
