"""A day and a reason as a form has them; what is amiss is told by field."""

from datetime import date

from flask import request

from webapp.at_hand import today

LONGEST = 300
"""Characters of a reason."""


def read_day(name: str, problems: dict[str, str]) -> date | None:
    """A day as the browser's date field sends it, 2026-03-15, not past; what is amiss is told in `problems`."""
    try:
        day = date.fromisoformat(request.form.get(name, "").strip())
    except ValueError:
        problems[name] = "Write a day as year-month-day, like 2026-03-15."
        return None
    if day < today():
        problems[name] = "That day is past. Write one that is still to come."
        return None
    return day


def read_reason(name: str, sentence: str, problems: dict[str, str]) -> str:
    """A reason in a few words; `sentence` says what to write where there is none."""
    text = " ".join(request.form.get(name, "").split())
    if not text:
        problems[name] = sentence
    elif len(text) > LONGEST:
        problems[name] = f"Write at most {LONGEST} characters."
    return text
