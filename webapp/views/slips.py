"""A coordinator's slips: which are open, new ones, ending one, and the sheet that is printed."""

from dataclasses import dataclass
from datetime import date, timedelta
from urllib.parse import urlsplit

import segno
from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import crewing
from webapp.allowed import my_crew
from webapp.at_hand import now, store, today, zone
from webapp.records import crews, people, slips
from webapp.records.crews import Crew
from webapp.records.people import Person
from webapp.records.slips import Slip
from webapp.study.days import end_of, study_day
from webapp.views.crew_forms import read_whole
from webapp.views.day_field import read_day
from webapp.views.entry import NOT_TAKEN

views = Blueprint("slips", __name__)

MOST_USES = 200
LASTS = timedelta(days=30)
LONGEST = timedelta(days=366)
MOST_PIECES = 60
"""A slip that many join by is printed once for each who may still join, but for no more than ten pages at a time."""
ONLY_HERE = ("127.0.0.1", "localhost", "::1")


@dataclass(frozen=True)
class Printed:
    """A slip as it is printed: its code, the address with it, and the square that a camera reads."""

    slip: Slip
    person: Person | None
    last_day: date
    code: str
    address: str
    square: str


@views.get("/crews/<crew_id>/slips")
def show(crew_id: str) -> str:
    """All slips of the crew, and who has not signed in yet."""
    return _page(my_crew(crew_id), {"most_uses": "12", "until": (today() + LASTS).isoformat()}, {})


@views.post("/crews/<crew_id>/slips")
def make(crew_id: str) -> Response | tuple[str, int]:
    """Make a slip by which hands join."""
    crew, problems = my_crew(crew_id), {}
    most_uses = read_whole("most_uses", 1, MOST_USES, problems)
    last_day = read_day("until", problems)
    if last_day and last_day - today() > LONGEST:
        problems["until"] = "A slip works for a year at most. Write an earlier day."
    if problems:
        return _page(crew, request.form, problems), NOT_TAKEN
    slip = crewing.make_slip(crew, most_uses, end_of(last_day, zone()), last_day)
    return redirect(url_for(".print_sheet", crew_id=crew_id, slip=slip.id), 303)


@views.post("/crews/<crew_id>/slips/end")
def end(crew_id: str) -> Response:
    """End a slip before its day."""
    crew = my_crew(crew_id)
    crewing.revoke(crew, _slip_of(crew, request.form.get("slip", "")))
    return redirect(url_for(".show", crew_id=crew_id, done="ended"), 303)


@views.post("/crews/<crew_id>/slips/again")
def again(crew_id: str) -> Response:
    """New slips for all who have not signed in yet; those they had end."""
    crew = my_crew(crew_id)
    last_day = today() + LASTS
    crewing.slips_anew(crew, _not_signed_in(crew), end_of(last_day, zone()))
    return redirect(url_for(".print_sheet", crew_id=crew_id), 303)


@views.get("/crews/<crew_id>/slips/print")
def print_sheet(crew_id: str) -> str:
    """Slips to be cut out: the one in the address, or all first sign-ins that are open."""
    crew = my_crew(crew_id)
    asked = request.args.get("slip")
    names = {each.person.id: each.person for each in crews.members(store(), [crew.id])}
    if asked:
        slip = _slip_of(crew, asked)
        still = slip.most_uses - slip.uses
        chosen, pieces = ([slip], min(still, MOST_PIECES)) if slip.state(now()) == "open" else ([], 0)
    else:
        still = pieces = 1
        chosen = [
            each for each in slips.of_crew(store(), crew.id) if each.person in names and each.state(now()) == "open"
        ]
        chosen.sort(key=lambda each: names[each.person].name)
    return render_template(
        "crews/slip_sheet.html",
        crew=crew,
        printed=[piece for each in chosen for piece in [_printed(each, names)] * pieces],
        left_out=still - pieces if chosen else 0,
        only_here=urlsplit(request.host_url).hostname in ONLY_HERE,
    )


def _printed(slip: Slip, names: dict[str, Person]) -> Printed:
    code = slips.code_of(store(), slip.id)
    address = url_for("slip.show", code=code, _external=True)
    # Level M: a quarter of the square may be greasy and it still reads.
    square = segno.make_qr(address, error="m").svg_inline(
        border=4, omitsize=True, dark="#000", light="#fff", svgclass="square", lineclass=None
    )
    return Printed(slip, names.get(slip.person), last_day(slip), code, address, square)


def last_day(slip: Slip) -> date:
    """The last day on which a slip works."""
    return study_day(slip.until - timedelta(microseconds=1), zone())


def _slip_of(crew: Crew, slip_id: str) -> Slip:
    return next((each for each in slips.of_crew(store(), crew.id) if each.id == slip_id), None) or abort(404)


def _not_signed_in(crew: Crew) -> list[Person]:
    members = [each.person for each in crews.members(store(), [crew.id])]
    without = people.without_password(store(), [each.id for each in members])
    return [each for each in members if each.id in without]


DONE = {"ended": "The slip is ended. Its code no longer works."}


def _page(crew: Crew, typed: dict[str, str], problems: dict[str, str]) -> str:
    waiting = _not_signed_in(crew)
    made = slips.of_crew(store(), crew.id)
    open_for = {each.person for each in made if each.state(now()) == "open"}
    return render_template(
        "crews/slips.html",
        crew=crew,
        typed=typed,
        problems=problems,
        slips=[(each, each.state(now()), last_day(each)) for each in made if each.person is None],
        waiting=[(each, each.id in open_for) for each in waiting],
        done=DONE.get(request.args.get("done", "")),
    )
