"""The fields by which somebody new joins: at the front door, by a slip, or by the set-up address."""

from dataclasses import dataclass

from flask import redirect, request, url_for
from werkzeug.wrappers import Response

from webapp import access, passwords
from webapp.at_hand import now, store
from webapp.records import people
from webapp.records.people import Person
from webapp.views.settings import read_minutes, read_new_password, read_settings

LONGEST_NAME = 60

COMMA_LANGUAGES = """
    az be bg bs ca cs da de el es et fi fr gl hr hu hy id is it ka kk lt lv mk nb nl nn no pl pt ro ru sk sl sq sr sv tr
    uk uz vi
"""
"""Languages most of whose speakers write 12,5: only used to choose what is ticked first."""


@dataclass(frozen=True)
class Newcomer:
    """What somebody new has written, good enough to join with. Their secrets are hashed; `code` is shown once."""

    name: str
    password_hash: str
    code_hash: str
    code: str
    settings: dict[str, str | bool | int]

    def join(self) -> Person:
        """Add the person. Raises people.NameTaken."""
        return people.join(store(), self.name, self.password_hash, self.code_hash, **self.settings, now=now())


def read_newcomer(problems: dict[str, str], name: str | None = None) -> Newcomer | None:
    """What a form says of somebody new; what can't be taken is told in `problems`, by field, and gives None.

    `name` is of somebody who is here already and has no password yet.
    """
    name = read_name(problems) if name is None else name
    password = read_new_password("password", name, problems)
    settings = read_settings(problems) | {"minutes": read_minutes(problems)}
    if problems:
        return None
    code = passwords.new_recovery_code()
    return Newcomer(name, passwords.hash_password(password), passwords.hash_recovery_code(code), code, settings)


def read_name(problems: dict[str, str]) -> str:
    """The name as a form has it; why it can't be taken is told in `problems`."""
    name = " ".join(request.form.get("name", "").split())
    if not name:
        problems["name"] = "Write the name that your crew knows you by."
    elif not fit_name(name):
        problems["name"] = f"Write a name of at most {LONGEST_NAME} letters."
    return name


def fit_name(name: str) -> bool:
    """Whether a name is short enough and can be shown."""
    return len(name) <= LONGEST_NAME and name.isprintable()


def in_with_code(person: Person, code: str, after: str | None = None) -> Response:
    """Sign somebody new in; their recovery code waits on the next page, and `after` it the page to go on to."""
    access.sign_in(person, show_once=code)
    return redirect(url_for("account.recovery_code", next=after), 303)


def likely() -> dict[str, str]:
    """What is ticked first, by the languages of the browser."""
    language = (request.accept_languages.best or "en-US").lower()
    return {
        "system": "us" if language.endswith("-us") else "metric",
        "writes": "comma" if language.partition("-")[0] in COMMA_LANGUAGES.split() else "point",
        "minutes": "15",
    }
