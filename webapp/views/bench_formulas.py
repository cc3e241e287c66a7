"""The formula sheet, on screen and on paper, in the hand's own system or in both."""

from flask import Blueprint, render_template, request

from question_bank.formula_sheet import sheet, used_formulas
from webapp import at_hand
from webapp.access import open_to_all

views = Blueprint("bench_formulas", __name__)

SYSTEMS = ("both", "us", "metric")


@views.get("/bench/formulas")
@open_to_all
def show() -> str:
    """The formulas that the course's sums call. `show` in the address is 'us', 'metric' or, as it begins, 'both'."""
    shown = request.args.get("show", "both")
    if shown not in SYSTEMS:
        shown = "both"
    return render_template("bench/formulas.html", sheet=sheet(used_formulas(at_hand.bank().values())), shown=shown)
