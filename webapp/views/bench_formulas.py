"""The formula sheet."""

from flask import Blueprint

from webapp.access import open_to_all

views = Blueprint("bench_formulas", __name__)


@views.get("/bench/formulas")
@open_to_all
def show() -> str:
    return ""
