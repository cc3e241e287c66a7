"""Joining, signing in and out, and getting back in with a recovery code."""

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import access, passwords
from webapp.access import open_to_all, waiting
from webapp.at_hand import me, store
from webapp.records import people
from webapp.records.people import NameTaken
from webapp.views.entry import NOT_TAKEN
from webapp.views.newcomer import in_with_code, likely, read_newcomer
from webapp.views.settings import read_new_password

views = Blueprint("account", __name__)

TOO_MANY = 429


@views.get("/join")
@open_to_all
def join() -> Response | str:
    """The form for a name, a password and how the hand reads and writes."""
    return redirect(url_for("today.show"), 303) if me() else _join_page({}, {})


@views.post("/join")
@open_to_all
def join_now() -> Response | tuple[str, int]:
    """Add a person and sign them in; the recovery code waits on the next page."""
    problems: dict[str, str] = {}
    newcomer = read_newcomer(problems)
    if newcomer:
        try:
            return in_with_code(newcomer.join(), newcomer.code)
        except NameTaken as taken:
            problems["name"] = str(taken)
    return _join_page(request.form, problems), NOT_TAKEN


@views.get("/recovery-code")
def recovery_code() -> str:
    """The recovery code, once. A second look finds nothing: only its hash is kept."""
    return render_template("account/recovery_code.html", recovery_code=access.take_show_once(), after=_after())


@views.get("/sign-in")
@open_to_all
def sign_in() -> Response | str:
    """The form for a name and a password."""
    return redirect(_after(), 303) if me() else _sign_in_page({}, None)


@views.post("/sign-in")
@open_to_all
def sign_in_now() -> Response | tuple[str, int]:
    """Sign in; a wrong name and a wrong password look the same and take the same time."""
    name, password = request.form.get("name", ""), request.form.get("password", "")
    wait = access.throttle(name, _address())
    if wait:
        return _sign_in_page(request.form, waiting(wait)), TOO_MANY
    person = people.by_name(store(), name)
    kept = people.secrets_of(store(), person.id)[0] if person else None
    if not passwords.matches(kept, password):
        access.failed_try(name, _address())
        return _sign_in_page(request.form, "That name and that password do not belong together."), NOT_TAKEN
    access.good_try(name, _address())
    access.sign_in(person)
    return redirect(_after(), 303)


@views.post("/sign-out")
def sign_out() -> Response:
    """End this browser's session."""
    access.sign_out()
    return redirect(url_for("welcome.show"), 303)


@views.get("/reset")
@open_to_all
def reset() -> str:
    """The form for a name, the recovery code and a new password."""
    return _reset_page({}, {})


@views.post("/reset")
@open_to_all
def reset_now() -> Response | tuple[str, int]:
    """Set a new password for who holds the recovery code. The code is used up: a new one waits on the next page."""
    name, code = request.form.get("name", ""), request.form.get("code", "")
    wait = access.throttle(name, _address())
    if wait:
        return _reset_page(request.form, {"name": waiting(wait)}), TOO_MANY
    problems: dict[str, str] = {}
    password = read_new_password("password", name, problems)
    if problems:
        return _reset_page(request.form, problems), NOT_TAKEN
    person = people.by_name(store(), name)
    kept = people.secrets_of(store(), person.id)[1] if person else None
    if not passwords.matches_recovery_code(kept, code):
        access.failed_try(name, _address())
        return _reset_page(request.form, {"code": "That name and that code do not belong together."}), NOT_TAKEN
    access.good_try(name, _address())
    people.set_password(store(), person.id, passwords.hash_password(password))
    new_code = passwords.new_recovery_code()
    people.set_recovery(store(), person.id, passwords.hash_recovery_code(new_code))
    return in_with_code(person, new_code)


def _join_page(typed: dict, problems: dict[str, str]) -> str:
    return render_template("account/join.html", typed=likely() | dict(typed), problems=problems)


def _sign_in_page(typed: dict, problem: str | None) -> str:
    return render_template("account/sign_in.html", typed=typed, problem=problem, after=_after())


def _reset_page(typed: dict, problems: dict[str, str]) -> str:
    return render_template("account/reset.html", typed=typed, problems=problems)


def _after() -> str:
    return access.next_page(request.values.get("next"))


def _address() -> str:
    return request.remote_addr or ""
