"""Practice papers: what A and B ask, how the last ones went, and the beginning of one."""

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import my_papers
from webapp.at_hand import course
from webapp.my_papers import Paper
from webapp.study.marking import needed

views = Blueprint("papers", __name__)


@views.get("/papers")
def show() -> str:
    """Both papers with their results, the one of the hand's exam first; and the one that is open."""
    exam = my_papers.my_exam_paper()
    letters = sorted(my_papers.PAPERS, key=lambda letter: (letter != exam, letter))
    return render_template(
        "papers/list.html",
        papers=[my_papers.paper(letter) for letter in letters],
        results=my_papers.my_results(),
        open=my_papers.open_paper(),
        exam=exam,
    )


@views.get("/papers/<letter>")
def ready(letter: str) -> str:
    """What a paper asks and what passes it, and the form that begins it."""
    paper = _found(letter)
    return render_template(
        "papers/start.html",
        paper=paper,
        needed=needed(paper.pass_mark, paper.blueprint.questions),
        modules=[(each, paper.demand.modules[each.id].questions) for each in course().modules],
        open=my_papers.open_paper(),
        grant=my_papers.my_grant(),
        may_take_extra=my_papers.may_take_extra(),
        on_rig=my_papers.on_my_rig(),
    )


@views.post("/papers/<letter>/begin")
def begin(letter: str) -> Response:
    """Draw the paper and lead to its first question; or to the one that is open."""
    _found(letter)
    timed, extra = request.form.get("clock") != "none", "extra" in request.form
    return redirect(url_for("sittings.show", sitting=my_papers.begin(letter, timed, extra)), 303)


def _found(letter: str) -> Paper:
    return my_papers.paper(letter) or abort(404)
