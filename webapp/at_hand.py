"""What a view asks for in every other line: the records, the bank, the course, the time, and who is asking.

Each of these needs a request (or `with app.app_context()` for the first five).
"""

import functools
from datetime import date, datetime
from zoneinfo import ZoneInfo

from flask import current_app, g, request

from course import Blueprint, Course
from question_bank import Bank, Case
from webapp.records.connection import Store
from webapp.records.people import Person
from webapp.study.days import study_day

UNITS = "units"
"""Cookie of a visitor who reads metric units: its value is 'metric'."""
WRITES = "writes"
"""Cookie of a visitor who writes 12,5: its value is 'comma'."""
ENTRY = "entry"
"""Cookie of a visitor who types quantities freely: its value is 'free'."""
THEME = "theme"
"""Cookie of anybody who chose a light or a dark page: its value is 'day' or 'night'."""


def store() -> Store:
    """The records."""
    return current_app.extensions["pinandbox"]["store"]


def bank() -> Bank:
    """All items by id."""
    return current_app.extensions["pinandbox"]["bank"]


def cases() -> dict[str, Case]:
    """All cases by id."""
    return current_app.extensions["pinandbox"]["cases"]


def course() -> Course:
    """Modules, lessons and the glossary."""
    return current_app.extensions["pinandbox"]["course"]


def blueprints() -> dict[str, Blueprint]:
    """What each written paper asks, by its id in the course."""
    return current_app.extensions["pinandbox"]["blueprints"]


def now() -> datetime:
    """The moment, aware and in UTC, by the app's own clock."""
    return current_app.config["CLOCK"]()


def zone() -> ZoneInfo:
    """The time zone that this house lives by."""
    return _zone(current_app.config["ZONE"])


@functools.cache
def _zone(name: str) -> ZoneInfo:
    """Looked up once: a page of many people asks for it thousands of times."""
    return ZoneInfo(name)


def today() -> date:
    """The study day; it turns at 04:00 in the zone of the house."""
    return study_day(now(), zone())


def me() -> Person | None:
    """Who is asking; None for a visitor."""
    return g.get("person")


def system() -> str:
    """'us' or 'metric': a person's setting, or a visitor's cookie."""
    person = me()
    if person:
        return person.system
    return "metric" if request.cookies.get(UNITS) == "metric" else "us"


def comma() -> bool:
    """Whether numbers are written 12,5: an address of the bench may say so, else who is asking does."""
    if "comma" in g:
        return g.comma
    return own_comma()


def own_comma() -> bool:
    """Whether who is asking writes 12,5: a person's setting, or a visitor's cookie."""
    person = me()
    return person.comma if person else request.cookies.get(WRITES) == "comma"


def take_comma_from_address() -> None:
    """For pages whose address keeps typed numbers: `writes` there says how they are to be read, and all is shown so."""
    said = {"comma": True, "point": False}.get(request.args.get(WRITES, ""))
    if said is not None:
        g.comma = said


def free_entry() -> bool:
    """Whether who is asking types number and unit into one field: a person's setting, or a visitor's cookie."""
    person = me()
    return person.free_entry if person else request.cookies.get(ENTRY) == "free"


def theme() -> str:
    """'day', 'night' or 'device'."""
    chosen = request.cookies.get(THEME)
    return chosen if chosen in ("day", "night") else "device"
