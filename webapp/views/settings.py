"""Settings: how a hand reads and writes, the minutes of a day, the password and the recovery code."""

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import access, passwords
from webapp.at_hand import me, store
from webapp.records import people
from webapp.views.entry import NOT_TAKEN

views = Blueprint("settings", __name__)

LONGEST_DAY = 240
DONE = {
    "settings": "Your settings are saved.",
    "password": "Your new password is set. Other browsers are signed out.",
}


@views.get("/settings")
def show() -> str:
    """All settings. `done` in the address tells which of the forms was just taken."""
    return _page(_as_kept(), {}, DONE.get(request.args.get("done", "")))


@views.post("/settings")
def save() -> Response | tuple[str, int]:
    """Keep how the hand reads and writes, and the minutes of a day."""
    problems: dict[str, str] = {}
    settings = read_settings(problems)
    minutes = read_minutes(problems)
    if problems:
        return _page(request.form, problems), NOT_TAKEN
    free = request.form.get("entry") == "free"
    people.change_settings(store(), me().id, **settings, minutes=minutes, free_entry=free)
    return redirect(url_for(".show", done="settings"), 303)


@views.post("/settings/password")
def password() -> Response | tuple[str, int]:
    """Set a new password for who knows the present one."""
    problems: dict[str, str] = {}
    new = read_new_password("new_password", me().name, problems)
    _check_present("present", problems)
    if problems:
        return _page(_as_kept(), problems), NOT_TAKEN
    people.set_password(store(), me().id, passwords.hash_password(new))
    access.sign_in(me())
    return redirect(url_for(".show", done="password"), 303)


@views.post("/settings/recovery-code")
def recovery_code() -> Response | tuple[str, int]:
    """Make a new recovery code, shown once on the next page, for who knows the password."""
    problems: dict[str, str] = {}
    _check_present("code_password", problems)
    if problems:
        return _page(_as_kept(), problems), NOT_TAKEN
    code = passwords.new_recovery_code()
    people.set_recovery(store(), me().id, passwords.hash_recovery_code(code))
    access.sign_in(me(), show_once=code)
    return redirect(url_for("account.recovery_code"), 303)


def read_settings(problems: dict[str, str]) -> dict[str, str | bool]:
    """`system` and `comma` as a form has them; what is missing is told in `problems`, by field."""
    system, writes = request.form.get("system"), request.form.get("writes")
    if system not in ("us", "metric"):
        problems["system"] = "Choose the units that you read first."
    if writes not in ("point", "comma"):
        problems["writes"] = "Choose how you write twelve and a half."
    return {"system": system, "comma": writes == "comma"}


def read_minutes(problems: dict[str, str]) -> int:
    """The minutes of a day as a form has them; a number that can't be taken is told in `problems`."""
    typed = request.form.get("minutes", "").strip()
    minutes = int(typed) if typed.isascii() and typed.isdecimal() and len(typed) <= 4 else 0
    if not 1 <= minutes <= LONGEST_DAY:
        problems["minutes"] = f"Write a whole number of minutes, from 1 to {LONGEST_DAY}."
    return minutes


def read_new_password(field: str, name: str, problems: dict[str, str]) -> str:
    """A new password from that field; why it can't be taken is told in `problems`."""
    new = request.form.get(field, "")
    problem = passwords.problem_with(new, name)
    if problem:
        problems[field] = problem
    return new


def _check_present(field: str, problems: dict[str, str]) -> None:
    """Whoever sits at an open browser must still know the password; guesses are slowed as at the sign-in."""
    name, address = me().sign_in, request.remote_addr or ""
    if access.throttle(name, address):
        problems[field] = "Too many tries. Wait some minutes, then try again."
        return
    kept, _ = people.secrets_of(store(), me().id)
    if not passwords.matches(kept, request.form.get(field, "")):
        access.failed_try(name, address)
        problems[field] = "This is not your present password."


def _as_kept() -> dict[str, str]:
    person = me()
    return {
        "system": person.system,
        "writes": "comma" if person.comma else "point",
        "entry": "free" if person.free_entry else "fields",
        "minutes": str(person.minutes),
    }


def _page(typed: dict[str, str], problems: dict[str, str], done: str | None = None) -> str:
    return render_template("settings.html", typed=typed, problems=problems, done=done)
