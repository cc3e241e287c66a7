"""Cases: one story worked from its givens to its end. Its questions are answered on the pages of questions."""

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.at_hand import cases
from webapp.my_cases import MyCase, begin, my_case, open_cases

views = Blueprint("cases", __name__)


@views.post("/cases/<case>/start")
def start(case: str) -> Response:
    """Go on with the run that is open, or draw the case. `afresh` in the form draws it in any case."""
    if case not in cases():
        abort(404)
    mine = None if request.form.get("afresh") else open_cases().get(case)
    mine = mine or begin(cases()[case])
    return redirect(url_for("questions.show", question_id=mine.open.id), 303)


@views.get("/cases/<run>")
def show(run: str) -> str:
    """The whole of a run: how far it is, and when all is answered every part with its verdict and working."""
    mine = _mine(run)
    return render_template("cases/show.html", mine=mine, is_here=mine.run.name in cases())


@views.get("/cases/<run>/sheet")
def sheet(run: str) -> str:
    """The run on paper: givens and blanks, and the workings on a sheet of their own."""
    mine = _mine(run)
    cautions = dict.fromkeys(part.kept.question.caution for part in mine.parts if part.kept.question.caution)
    return render_template("cases/sheet.html", mine=mine, cautions=list(cautions))


def _mine(run: str) -> MyCase:
    return my_case(run) or abort(404)
