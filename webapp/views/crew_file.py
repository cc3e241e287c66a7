"""People by a file: sent or pasted, looked at line by line, and added all or none. The server keeps nothing between."""

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import newcomers, people_file
from webapp.access import takes_much
from webapp.allowed import my_crew
from webapp.at_hand import today, zone
from webapp.newcomers import Entry
from webapp.people_file import Fault
from webapp.records.crews import Crew
from webapp.records.people import NameTaken
from webapp.study.days import end_of
from webapp.views.entry import NOT_TAKEN
from webapp.views.slips import LASTS

views = Blueprint("crew_file", __name__)

MOST_BYTES = 512 * 1024
EXAMPLE = """name,sign in as,job,units,decimal mark,exam date,paper
Ines Okoro,,floorhand,us,point,,
João Vale,,derrickhand,metric,comma,,
"""


@views.get("/crews/<crew_id>/people/file")
def show(crew_id: str) -> str:
    """The form for a file, and what its lines hold."""
    return _page(my_crew(crew_id), "", None)


@views.get("/crews/<crew_id>/people/file/sample")
def sample(crew_id: str) -> Response:
    """A file to fill in. It begins with a byte order mark, by which spreadsheets read its letters right."""
    my_crew(crew_id)
    heads = {"Content-Disposition": 'attachment; filename="people.csv"'}
    return Response(("\ufeff" + EXAMPLE).encode(), content_type="text/csv; charset=utf-8", headers=heads)


@views.post("/crews/<crew_id>/people/file")
@takes_much(MOST_BYTES)
def look(crew_id: str) -> str | tuple[str, int]:
    """Show who would be added, or each fault with its line. Nothing is kept but what the page itself holds."""
    crew = my_crew(crew_id)
    try:
        text = _sent()
    except ValueError as why:
        return _page(crew, "", str(why)), NOT_TAKEN
    if not text.strip():
        return _page(crew, "", "Choose a file, or paste its lines."), NOT_TAKEN
    entries, faults = _read(text)
    return _looked_at(crew, text, entries, faults)


@views.post("/crews/<crew_id>/people/file/add")
@takes_much(MOST_BYTES)
def add(crew_id: str) -> Response | tuple[str, int]:
    """Add everybody in the text that the page held, or nobody: it is read once more, and may fail by now."""
    crew, text = my_crew(crew_id), request.form.get("text", "")
    entries, faults = _read(text)
    if not faults:
        try:
            newcomers.add(crew, entries, end_of(today() + LASTS, zone()), "file")
        except NameTaken as taken:
            faults = [Fault(1, f"{taken} Somebody took it just now.")]
        else:
            return redirect(url_for("slips.print_sheet", crew_id=crew.id, added=len(entries)), 303)
    return _looked_at(crew, text, entries, faults)


def _sent() -> str:
    """The file, or the pasted text where there is none. Raises ValueError for a file that is not UTF-8."""
    sent = request.files.get("file")
    data = sent.read() if sent else b""
    return people_file.decoded(data) if data else request.form.get("text", "")


def _read(text: str) -> tuple[list[Entry], list[Fault]]:
    lines, faults = people_file.read(text, today())
    entries, taken = newcomers.looked_at(lines)
    return entries, sorted([*faults, *taken], key=lambda fault: fault.line)


def _looked_at(crew: Crew, text: str, entries: list[Entry], faults: list[Fault]) -> tuple[str, int]:
    page = render_template("crews/file_looked_at.html", crew=crew, text=text, entries=entries, faults=faults)
    return page, NOT_TAKEN if faults else 200


def _page(crew: Crew, text: str, problem: str | None) -> str:
    return render_template("crews/file.html", crew=crew, text=text, problem=problem, example=EXAMPLE)
