"""What the forms about crews say: names, whole numbers, days. What can't be taken is told in `problems`, by field."""

from datetime import date, timedelta

from flask import request

from webapp.at_hand import store, today
from webapp.people_file import JOBS, day_in, known_job
from webapp.records import crews
from webapp.records.crews import Crew

LONGEST_NAME = 40
MOST_DAYS = 120
FARTHEST = timedelta(days=5 * 366)


def read_name(field: str, without: str, problems: dict[str, str], longest: int = LONGEST_NAME) -> str:
    """A name or a few words; `without` says what to write where there is nothing."""
    name = " ".join(request.form.get(field, "").split())
    if not name:
        problems[field] = without
    elif len(name) > longest or not name.isprintable():
        problems[field] = f"Write at most {longest} letters."
    return name


def read_whole(field: str, least: int, most: int, problems: dict[str, str]) -> int:
    """A whole number from `least` to `most`."""
    typed = request.form.get(field, "").strip()
    number = int(typed) if typed.isascii() and typed.isdecimal() and len(typed) <= 4 else least - 1
    if not least <= number <= most:
        problems[field] = f"Write a whole number from {least} to {most}."
    return number


def read_first_day(field: str, problems: dict[str, str]) -> date:
    """The first day of a hitch, past or to come; not farther than five years from today."""
    day = day_in(request.form.get(field, ""))
    if day is None:
        problems[field] = "Write the day as year-month-day, such as 2026-03-14."
    elif abs(day - today()) > FARTHEST:
        problems[field] = "This day is more than five years away. Look at the year."
    return day or today()


def read_rotation(problems: dict[str, str]) -> dict[str, int | date | None]:
    """Days on, days off, first day on, and the day of the hitch from which they work nights, as crews.py takes them."""
    days_on = read_whole("days_on", 1, MOST_DAYS, problems)
    days_off = read_whole("days_off", 0, MOST_DAYS, problems)
    first_day = read_first_day("first_day", problems)
    nights_from = None
    if request.form.get("nights_from", "").strip():
        nights_from = read_whole("nights_from", 1, MOST_DAYS, problems)
        if "days_on" not in problems and "nights_from" not in problems and nights_from > days_on:
            problems["nights_from"] = f"A hitch has {days_on} days. Write a day of it, or leave this empty."
    return {"days_on": days_on, "days_off": days_off, "first_day": first_day, "nights_from": nights_from}


def read_job(problems: dict[str, str]) -> str:
    """The job of somebody in a crew."""
    return known_job(read_name("job", "Write the job, such as floorhand.", problems))


def jobs_offered(crew: Crew) -> list[str]:
    """What is offered where a job is asked for: first what the crew writes, so that one job keeps one spelling."""
    return list(dict.fromkeys((*crews.jobs_in(store(), crew.id), *JOBS)))
