"""The record to take along: one JSON file, and all answers as CSV."""

import json

from flask import Blueprint, Response

from webapp.at_hand import today
from webapp.my_file import my_answers, my_file

views = Blueprint("record_file", __name__)


@views.get("/record/file")
def record() -> Response:
    """Everything of who is asking, as one JSON file that explains itself."""
    text = json.dumps(my_file(), ensure_ascii=False, allow_nan=False, indent=1)
    return _to_keep(text, "application/json", "record", "json")


@views.get("/record/answers.csv")
def answers() -> Response:
    """All answers, for a spreadsheet. It begins with the mark by which spreadsheets know UTF-8."""
    return _to_keep("\N{ZERO WIDTH NO-BREAK SPACE}" + my_answers(), "text/csv", "answers", "csv")


def _to_keep(text: str, kind: str, name: str, ending: str) -> Response:
    """A file to be kept under a name with the day in it."""
    response = Response(text, content_type=f"{kind}; charset=utf-8")
    response.headers["Content-Disposition"] = f'attachment; filename="pin-and-box-{name}-{today()}.{ending}"'
    return response
