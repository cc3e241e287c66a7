"""The set-up address: who opens it becomes a coordinator. It works once, and for two days."""

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import access, codes
from webapp.access import open_to_all
from webapp.at_hand import me, now, store
from webapp.records import log, rights, setup_addresses
from webapp.records.people import NameTaken, Person
from webapp.views.entry import NOT_TAKEN
from webapp.views.newcomer import in_with_code, likely, read_newcomer

views = Blueprint("set_up", __name__)

GONE, UNKNOWN, TOO_MANY = 410, 404, 429
WHY_NOT = {
    "used": "This set-up address has been used already. It works once.",
    "ended": "This set-up address has ended. It works for 48 hours, and until a newer one is made.",
    None: "There is no such set-up address. Look at it letter by letter: it is printed where the server was started.",
}


class NoLongerOpen(Exception):
    """Somebody else was quicker."""


@views.get("/set-up/<code>")
@open_to_all
def show(code: str) -> str | tuple[str, int]:
    """The form for a coordinator's name and password; who is signed in only says yes."""
    return _closed(code) or _page(code, {}, {})


@views.post("/set-up/<code>")
@open_to_all
def become(code: str) -> Response | tuple[str, int]:
    """Make the person who is signed in, or somebody new, a coordinator."""
    closed = _closed(code)
    if closed:
        return closed
    problems: dict[str, str] = {}
    try:
        if me():
            with store().writing():
                _make_coordinator(me(), code)
            return redirect(url_for("crews.show"), 303)
        newcomer = read_newcomer(problems)
        if newcomer:
            with store().writing():
                person = newcomer.join()
                _make_coordinator(person, code)
            return in_with_code(person, newcomer.code, after=url_for("crews.show"))
    except NameTaken as taken:
        problems["name"] = str(taken)
    except NoLongerOpen:
        return _closed(code)
    return _page(code, request.form, problems), NOT_TAKEN


def _make_coordinator(person: Person, code: str) -> None:
    if not setup_addresses.use(store(), codes.hashed(code), person.id, now()):
        raise NoLongerOpen
    rights.make_coordinator(store(), person.id, None, now())
    log.note(store(), person.id, "coordinator named", f"{person.known_as} opens the set-up address.", now())


def _closed(code: str) -> tuple[str, int] | None:
    """The page that says why the address does not work; None if it does. Guesses are slowed."""
    address = request.remote_addr or ""
    wait = access.throttle_codes(address)
    if wait:
        return render_template("crews/set_up_closed.html", why=access.waiting(wait)), TOO_MANY
    state = setup_addresses.state(store(), codes.hashed(code), now())
    if state == "open":
        return None
    if state is None:
        access.failed_code(address)
    return render_template("crews/set_up_closed.html", why=WHY_NOT[state]), UNKNOWN if state is None else GONE


def _page(code: str, typed: dict[str, str], problems: dict[str, str]) -> str:
    return render_template("crews/set_up.html", code=code, typed=likely() | dict(typed), problems=problems)
