"""How things are shown on a page: the filters and the names that every template has."""

import functools
import hashlib
import math
import re
from datetime import date, datetime
from pathlib import Path
from urllib.parse import urlsplit

from flask import Flask, current_app, request, url_for
from jinja2 import StrictUndefined, pass_context

from question_bank.cautions import caution
from question_bank.figures import Figure, figure
from question_bank.numbers import in_comma
from webapp import at_hand, hands_on, waiting
from webapp.allowed import coordinating, way_to_crews
from webapp.crew_links import crew_links
from webapp.crewing import RIG_TYPES
from webapp.my_rig_sheet import my_sheet, numbers_from, sheet_in_words
from webapp.reading import Reading
from webapp.records import house
from webapp.standings import my_exam
from webapp.study.days import study_day
from webapp.study.pace import short

BEFORE_UNIT = re.compile(r"(?<=\d) (?=[^\W\d_]|[%°])")
NO_BREAK = "\N{NO-BREAK SPACE}"
"""A number is not parted from its unit at the end of a line."""


def install(app: Flask) -> None:
    """Give the templates their filters and names. A name that a template was not given is an error and not a gap."""
    app.jinja_env.undefined = StrictUndefined
    app.jinja_env.trim_blocks = app.jinja_env.lstrip_blocks = True
    app.add_template_filter(_marked_each_time, "marked")
    for name in (day, study_date, weekday, clock_time, stamp, after_midnight, minutes, several, time_left, percent):
        app.add_template_filter(name)
    for name in (
        at_hand.me,
        at_hand.system,
        at_hand.comma,
        at_hand.own_comma,
        at_hand.free_entry,
        at_hand.theme,
        at_hand.now,
    ):
        app.add_template_global(name)
    for name in (
        caution, coordinating, crew_links, figure_here, is_demo, lesson_address, my_exam, my_sheet, numbers_from,
        sheet_in_words, static, this_page, way_to_crews,
    ):  # fmt: skip
        app.add_template_global(name)
    app.jinja_env.globals["rig_types"] = RIG_TYPES
    app.jinja_env.globals["short_pace"] = short
    app.jinja_env.globals["waiting_in_my_crews"] = waiting.in_my_crews
    app.jinja_env.globals |= hands_on.IN_TEMPLATES


def marked(text: str) -> str:
    """Our own printed text, its numbers as the hand writes them. What was typed or read is shown as it is, never so."""
    text = BEFORE_UNIT.sub(NO_BREAK, text.replace(" °", "°"))
    return in_comma(text) if at_hand.comma() else text


@pass_context
def _marked_each_time(context: object, text: str) -> str:
    """`marked` as the filter of the templates: worked out for each page.

    Jinja works a filter of a literal text out once, when it reads the template, if the filter takes no context. All
    hands would then see it as the first one writes numbers.
    """
    return marked(text)


def day(when: date | datetime) -> str:
    """'25 Nov', with its year if that is not this one. A moment is shown as its study day, which turns at 04:00."""
    if isinstance(when, datetime):
        when = study_date(when)
    text = f"{when.day} {when:%b}" if when.year == at_hand.today().year else f"{when.day} {when:%b %Y}"
    return text.replace(" ", NO_BREAK)


def study_date(when: datetime) -> date:
    """The study day of a moment, which turns at 04:00."""
    return study_day(when, at_hand.zone())


def weekday(when: datetime) -> str:
    """'Wednesday 25 Nov': the study day of that moment, which turns at 04:00."""
    date = study_day(when, at_hand.zone())
    return f"{date:%A} {day(date)}"


def clock_time(when: datetime) -> str:
    """'25 Nov, 06:30' in the zone of the house. Beside a clock stands the date of that clock."""
    there = when.astimezone(at_hand.zone())
    return f"{day(there.date())}, {there:%H:%M}"


def stamp(when: datetime) -> str:
    """'25 Nov 2026, 06:30' in the zone of the house: what is read or printed years later has its year."""
    there = when.astimezone(at_hand.zone())
    return f"{hands_on.full_day(there.date())}, {there:%H:%M}"


def after_midnight(when: datetime) -> bool:
    """Whether a moment counts for the day before that of the clock."""
    return study_date(when) != when.astimezone(at_hand.zone()).date()


def minutes(seconds: float) -> str:
    """'about 6 minutes'; under half a minute it is 'under a minute'."""
    number = round(seconds / 60)
    return f"about {several(number, 'minute')}" if number else "under a minute"


def time_left(seconds: int) -> str:
    """'43 minutes left', rounded down; 'under a minute left'."""
    return f"{several(seconds // 60, 'minute')} left" if seconds >= 60 else "under a minute left"


def several(number: int, thing: str) -> str:
    """'1 item', '7 items'."""
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


def percent(share: float, up: bool = False) -> str:
    """'74 %' of a share of 1. What is foretold is rounded down, the upper end of a band `up`."""
    return f"{(math.ceil if up else math.floor)(round(share * 100, 6))}{NO_BREAK}%"


def figure_here(name: str) -> Figure:
    """The figure for who is asking, its svg ready to stand on the page. Raises FigureError."""
    return figure(name, at_hand.system(), at_hand.comma())


def lesson_address(reading: Reading) -> str:
    """The address of a lesson at the first part that is not read."""
    module, name = reading.lesson.id.split("/")
    anchor = reading.next_part if reading.parts_read else None
    return url_for("lessons.lesson", module=module, name=name, _anchor=anchor)


def is_demo() -> bool:
    """Whether the people and answers in the records are invented."""
    return house.is_demo(at_hand.store())


def this_page() -> str:
    """The address to come back to from a switch. What a form was sent to can't be opened: then it is where that was."""
    if request.method == "GET":
        return request.full_path.rstrip("?")
    return urlsplit(request.referrer or "/").path


def static(name: str) -> str:
    """The address of a file of ours. It changes with the file, so that browsers may keep the file for long."""
    return url_for("static", filename=name, v=_version(Path(current_app.static_folder) / name))


@functools.cache
def _version(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()[:8]
