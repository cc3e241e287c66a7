"""Record: the answer at its head, and each part of it on a page of its own; all of it on one page to print."""

from typing import Any

from flask import Blueprint, abort, render_template, request

from webapp import hands_on, my_record, my_sittings
from webapp.at_hand import bank, me, store, today
from webapp.forecast_shown import pictured
from webapp.mistakes import come_again
from webapp.my_readiness import TOO_EARLY, my_readiness
from webapp.planning import last_outcomes
from webapp.reading import readings
from webapp.records import attempts, memory
from webapp.standings import my_row
from webapp.study.so_far import so_far

views = Blueprint("record", __name__)

LATEST, FEW_SAT, FEW_WEEKS, FEW_LESSONS, FEW_MISTAKES = 5, 3, 4, 4, 4
A_PAGE = 40
A_YEAR = 53


@views.get("/record")
def show() -> str:
    """How ready, what is assigned, what fades, mistakes, time, papers; each with the way to all of it."""
    return render_template("record/record.html", **_of_the_whole(my_record.lines()), latest=_latest())


@views.get("/record/items")
def items() -> str:
    """What is fading, lesson by lesson; then every item."""
    lines = my_record.lines()
    return render_template("record/items.html", lines=lines, fading=my_record.fading(lines))


@views.get("/record/sat")
def papers_and_tests() -> str:
    """Every paper and test that was handed in."""
    return render_template("record/sat.html", sat=_sat())


@views.get("/record/whole")
def whole() -> str:
    """All of it on one page, to be printed."""
    lines, ready = my_record.lines(), my_readiness()
    return render_template(
        "record/whole.html",
        **_of_the_whole(lines),
        lines=lines,
        readings=_readings(),
        picture=ready and pictured(ready),
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


def _of_the_whole(lines: list[my_record.LinesOfLesson]) -> dict[str, Any]:
    """What the short record and the whole one both show."""
    known, counted = memory.of_person(store(), me().id), attempts.studied(store(), me().id)
    return {
        "ready": my_readiness(),
        "too_early": TOO_EARLY,
        "answers": counted.answers,
        "so_far": so_far(bank(), last_outcomes(), known, today()),
        "fading": my_record.fading(lines),
        "again": come_again(attempts.mistakes_of(store(), me().id)),
        "weeks": my_record.my_weeks(A_YEAR),
        "few_weeks": FEW_WEEKS,
        "sat": _sat(),
        "few_sat": FEW_SAT,
        "few_lessons": FEW_LESSONS,
        "few_mistakes": FEW_MISTAKES,
        "bank": bank(),
        "mine": my_row(),
        "hands_on": hands_on.mine()[1],
    }


def _latest() -> list[attempts.Attempt]:
    return attempts.of_person(store(), me().id, LATEST)


def _sat() -> list[my_record.Sat]:
    """Papers and tests; one whose time is up is handed in first."""
    my_sittings.close_overdue([me().id])
    return my_record.sat()


def _readings() -> dict[str, Any]:
    return {each.lesson.id: each for each in readings()}
