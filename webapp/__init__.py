"""Who learns, and when: the web application. `create_app` builds it and runs nothing."""

from datetime import UTC, datetime
from importlib import import_module
from typing import Any
from zoneinfo import ZoneInfo

from flask import Flask

from course import load_blueprints, load_course
from question_bank import load_bank, load_cases
from webapp import access, errors, passwords, shown
from webapp.records import memory
from webapp.records.connection import Store

VIEWS = (
    "welcome", "account", "settings", "study_plan", "today", "lessons", "practice", "questions", "cases", "ten",
    "bench", "bench_sums", "bench_formulas", "record", "record_file", "forecast", "glossary", "matrix", "assigning",
    "member", "excusing",
    "transfers", "set_up", "crews", "crew_people", "crew_file", "crew_log", "slips", "slip", "my_crew", "sign_offs",
    "observers", "crew_tasks", "my_tasks", "tests", "sittings",
    "rig_sheets", "own_rig_sheet", "hands_rig_sheet",
)  # fmt: skip
"""The files of webapp/views that hold a blueprint called `views`."""


def utc_now() -> datetime:
    """The moment by the computer's clock, in UTC."""
    return datetime.now(UTC)


DEFAULTS: dict[str, Any] = {
    # The records file. A relative name starts at the folder that the program is started in.
    "DATABASE": "pinandbox.sqlite",
    # The zone whose 04:00 begins a study day, by its name in the time zone database, such as "Europe/Oslo".
    "ZONE": "UTC",
    # True where the house is served over https only: cookies and headers then say so.
    "HTTPS": False,
    # The host names to answer to, or None for any.
    "TRUSTED_HOSTS": None,
    # What hashing a password costs; tests make it cheap.
    "ARGON2": passwords.COST,
    # A function that gives the moment, aware and in UTC; tests turn it.
    "CLOCK": utc_now,
}
TYPES = {
    "DATABASE": (str, "file name"),
    "HTTPS": (bool, "plain True or False"),
    "ARGON2": (dict, "dict like passwords.COST"),
}


class ConfigError(ValueError):
    """A setting that the house can't start with. The message names it and says what to write instead."""


def create_app(config: dict[str, Any] | None = None) -> Flask:
    """The application with these settings over DEFAULTS. Raises ConfigError, BankError, CourseError or RecordsError."""
    app = Flask(__name__)
    app.config.update(DEFAULTS | (config or {}))
    for step in (
        validate_config,
        _open_records,
        _load_course_and_bank,
        access.install,
        shown.install,
        errors.install,
        _add_views,
    ):
        step(app)
    return app


def validate_config(app: Flask) -> None:
    """Raises ConfigError for a setting that is unknown, of the wrong type or out of range."""
    for name in app.config.keys() - DEFAULTS.keys() - Flask.default_config.keys():
        raise ConfigError(f"{name} is not a setting. Settings are {', '.join(DEFAULTS)}. Mend its spelling.")
    for name, (kind, words) in TYPES.items():
        value = app.config[name]
        if not isinstance(value, kind) or value == "":
            raise ConfigError(f"{name} is {value!r}. It must be a {words}.")
    if not callable(app.config["CLOCK"]):
        raise ConfigError("CLOCK must be a function that gives the moment, aware and in UTC.")
    try:
        ZoneInfo(app.config["ZONE"])
    except (KeyError, ValueError, TypeError, OSError):
        wrong = app.config["ZONE"]
        raise ConfigError(f"ZONE is {wrong!r}, which is no time zone. Write one like 'Europe/Oslo' or 'UTC'.") from None


def _open_records(app: Flask) -> None:
    """The records file at this program's level, and what it remembers worked out by this program's rule."""
    store = Store(app.config["DATABASE"])
    store.migrate()
    if memory.is_stale(store):
        memory.rebuild(store)
    app.extensions["pinandbox"] = {"store": store}


def _load_course_and_bank(app: Flask) -> None:
    bank, course = load_bank(), load_course()
    app.extensions["pinandbox"] |= {
        "course": course,
        "bank": bank,
        "cases": load_cases(bank),
        "blueprints": load_blueprints(course),
    }


def _add_views(app: Flask) -> None:
    for name in VIEWS:
        app.register_blueprint(import_module(f"webapp.views.{name}").views)
