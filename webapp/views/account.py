"""Joining, signing in and out, and getting back in with a recovery code."""

import math

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import access, passwords
from webapp.access import open_to_all
from webapp.at_hand import me, now, store
from webapp.records import people
from webapp.records.people import NameTaken, Person
from webapp.views.entry import NOT_TAKEN
from webapp.views.settings import LONGEST_DAY, read_new_password, read_settings

views = Blueprint("account", __name__)

LONGEST_NAME = 60
TOO_MANY = 429

COMMA_LANGUAGES = """
    az be bg bs ca cs da de el es et fi fr gl hr hu hy id is it ka kk lt lv mk nb nl nn no pl pt ro ru sk sl sq sr sv tr
    uk uz vi
"""
"""Languages most of whose speakers write 12,5: only used to choose what is ticked first."""


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
    name = _read_name(problems)
    password = read_new_password("password", name, problems)
    settings = read_settings(problems)
    minutes = _read_minutes(problems)
    if not problems:
        code = passwords.new_recovery_code()
        try:
            person = people.join(
                store(), name, passwords.hash_password(password), passwords.hash_recovery_code(code),
                **settings, minutes=minutes, now=now(),
            )  # fmt: skip
        except NameTaken as taken:
            problems["name"] = str(taken)
        else:
            return _in_with_code(person, code)
    return _join_page(request.form, problems), NOT_TAKEN


@views.get("/recovery-code")
def recovery_code() -> str:
    """The recovery code, once. A second look finds nothing: only its hash is kept."""
    return render_template("account/recovery_code.html", recovery_code=access.take_show_once())


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
        return _sign_in_page(request.form, _waiting(wait)), TOO_MANY
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
        return _reset_page(request.form, {"name": _waiting(wait)}), TOO_MANY
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
    return _in_with_code(person, new_code)


def _read_name(problems: dict[str, str]) -> str:
    name = " ".join(request.form.get("name", "").split())
    if not name:
        problems["name"] = "Write the name that your crew knows you by."
    elif len(name) > LONGEST_NAME or not name.isprintable():
        problems["name"] = f"Write a name of at most {LONGEST_NAME} letters."
    return name


def _read_minutes(problems: dict[str, str]) -> int:
    """The minutes of a day as a form has them; a number that can't be taken is told in `problems`."""
    typed = request.form.get("minutes", "").strip()
    minutes = int(typed) if typed.isascii() and typed.isdecimal() and len(typed) <= 4 else 0
    if not 1 <= minutes <= LONGEST_DAY:
        problems["minutes"] = f"Write a whole number of minutes, from 1 to {LONGEST_DAY}."
    return minutes


def _in_with_code(person: Person, code: str) -> Response:
    access.sign_in(person, show_once=code)
    return redirect(url_for("account.recovery_code"), 303)


def _join_page(typed: dict, problems: dict[str, str]) -> str:
    language = (request.accept_languages.best or "en-US").lower()
    likely = {
        "system": "us" if language.endswith("-us") else "metric",
        "writes": "comma" if language.partition("-")[0] in COMMA_LANGUAGES.split() else "point",
        "minutes": "15",
    }
    return render_template("account/join.html", typed=likely | dict(typed), problems=problems)


def _sign_in_page(typed: dict, problem: str | None) -> str:
    return render_template("account/sign_in.html", typed=typed, problem=problem, after=_after())


def _reset_page(typed: dict, problems: dict[str, str]) -> str:
    return render_template("account/reset.html", typed=typed, problems=problems)


def _after() -> str:
    return access.next_page(request.values.get("next"))


def _address() -> str:
    return request.remote_addr or ""


def _waiting(seconds: int) -> str:
    minutes = math.ceil(seconds / 60)
    return f"Too many tries. Wait {minutes} {'minute' if minutes == 1 else 'minutes'}, then try again."
