"""A slip in a hand's own hands: joining a crew by it, or signing in for the first time."""

from collections.abc import Callable

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import access, codes, crewing
from webapp.access import open_to_all
from webapp.at_hand import me, now, store
from webapp.crewing import NotPossible
from webapp.records import crews, people, slips
from webapp.records.people import NameTaken, Person
from webapp.records.slips import Slip
from webapp.views.crew_forms import jobs_offered, read_job
from webapp.views.entry import NOT_TAKEN
from webapp.views.newcomer import in_with_code, likely, read_newcomer

views = Blueprint("slip", __name__)

GONE, UNKNOWN, TOO_MANY = 410, 404, 429
WHY_NOT = {
    "revoked": "Your coordinator has ended this slip. Ask for another.",
    "used": "This slip is used up. If you have joined by it, sign in with your name and your password.",
    "ended": "The last day of this slip is past. Ask your coordinator for another.",
    None: "No slip has this code. Compare it with the paper, letter by letter. It has neither a zero nor a figure 1.",
}


@views.get("/slip")
@open_to_all
def typed() -> Response | str:
    """The field for a code; with a code in the address, on to its page."""
    code = codes.in_groups(codes.bare(request.args.get("code", "")))
    return redirect(url_for(".show", code=code), 303) if code else _no_slip("", None)


@views.get("/slip/<code>")
@open_to_all
def show(code: str) -> str | tuple[str, int]:
    """What the slip is for, and the form to use it."""
    slip, closed = _find(code)
    return closed or _page(code, slip, {}, {})


@views.post("/slip/<code>")
@open_to_all
def use(code: str) -> Response | tuple[str, int]:
    """Join by the slip: somebody new, who is signed in, or for the first time who was put in the crew."""
    slip, closed = _find(code)
    if closed:
        return closed
    problems: dict[str, str] = {}
    way: Callable = _first_sign_in if slip.person else _join_as_i_am if me() else _join_as_new
    try:
        done = way(slip, problems)
    except (NotPossible, NameTaken) as why:
        done = None
        problems["name" if isinstance(why, NameTaken) else "slip"] = str(why)
    return done or (_page(code, slip, request.form, problems), NOT_TAKEN)


def _join_as_i_am(slip: Slip, problems: dict[str, str]) -> Response | None:
    job = read_job(problems)
    if problems:
        return None
    crewing.take_in(crews.crew(store(), slip.crew), me(), slip, job, share="share" in request.form)
    return redirect(url_for("my_crew.show", done="joined"), 303)


def _join_as_new(slip: Slip, problems: dict[str, str]) -> Response | None:
    job = read_job(problems)
    newcomer = read_newcomer(problems)
    if newcomer is None:
        return None
    with store().writing():
        person = newcomer.join()
        crewing.take_in(crews.crew(store(), slip.crew), person, slip, job, share=False)
    return in_with_code(person, newcomer.code)


def _first_sign_in(slip: Slip, problems: dict[str, str]) -> Response | None:
    if me():
        raise NotPossible("You are signed in. Sign out first, so that this slip's own hand signs in.")
    person = people.by_id(store(), slip.person)
    newcomer = read_newcomer(problems, person.name)
    if newcomer is None:
        return None
    crewing.first_sign_in(slip, person, newcomer.password_hash, newcomer.code_hash, newcomer.settings)
    return in_with_code(person, newcomer.code)


def _find(code: str) -> tuple[Slip | None, tuple[str, int] | None]:
    """The slip of a code that works, or the page that says why it doesn't. Guesses are slowed."""
    address = request.remote_addr or ""
    wait = access.throttle_codes(address)
    if wait:
        return None, (_no_slip(code, access.waiting(wait)), TOO_MANY)
    slip = slips.by_code(store(), code)
    if slip is None:
        access.failed_code(address)
        return None, (_no_slip(code, WHY_NOT[None]), UNKNOWN)
    state = slip.state(now())
    if state == "open" and slip.person and not people.without_password(store(), [slip.person]):
        state = "used"
    return (slip, None) if state == "open" else (None, (_no_slip(code, WHY_NOT[state]), GONE))


def _no_slip(code: str, why: str | None) -> str:
    return render_template("crews/slip_code.html", code=code, why=why)


def _page(code: str, slip: Slip, typed: dict[str, str], problems: dict[str, str]) -> str:
    person = people.by_id(store(), slip.person) if slip.person else None
    crew = crews.crew(store(), slip.crew)
    return render_template(
        "crews/slip.html",
        code=code,
        crew=crew,
        person=person,
        there=crews.membership_now(store(), me().id) if me() else None,
        coordinators=crewing.coordinators(crew),
        typed=likely() | (_as_kept(person) if person else {}) | dict(typed),
        problems=problems,
        jobs=jobs_offered(crew),
    )


def _as_kept(person: Person) -> dict[str, str]:
    return {"system": person.system, "writes": "comma" if person.comma else "point", "minutes": str(person.minutes)}
