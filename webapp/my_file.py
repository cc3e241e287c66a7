"""The record of who is asking as a file to take along: everything of theirs, explained in the file itself.

It holds no hash of a password or a recovery code, no session, and nothing of anybody else but the names of who signed.
"""

import csv
import io
from collections.abc import Iterator
from datetime import date, datetime
from typing import Any

from webapp import planning
from webapp.at_hand import bank, course, me, now, store
from webapp.records import attempts, crews, lessons_read, rotations, sign_offs, sittings
from webapp.records.attempts import Attempt
from webapp.records.moments import as_text

VERSION = 1
"""Raise it when a field is taken away, renamed or comes to mean something else."""
ALL = -1
"""No limit."""
WHAT_IT_IS = {
    "file": "Your record of Pin & Box. Times are UTC. A study day turns at 04:00 in the time zone of your house.",
    "version": "The version of this layout. It goes up when a field is taken away or comes to mean something else.",
    "person": "Your name, what you sign in as, and when you joined. Passwords and recovery codes are not in this file.",
    "settings": "system: 'us' or 'metric' units. decimal_comma: you write 12,5. minutes: for study on a day on the rig"
    " or on every day. minutes_off: on a day off. free_entry: number and unit in one field.",
    "rotation": "Your own: days_on, days_off, first_day of a hitch, and nights_from, the day of the hitch that nights"
    " begin on. null where your crew's holds or you go by none.",
    "single_days": "Minutes of single days that go by no rotation.",
    "exam": "The day, and the paper: 'a' or 'b'. null where none is set.",
    "crews": "The crews you were in, from when until when; until is null for the one you are in.",
    "read": "When you read each part of each lesson.",
    "attempts": "Each answer that was counted when you gave it, oldest first; what you answer inside a lesson or in Ten"
    " conversions is not. item: the question's name in the course. kind: what kind of question it is."
    " typed: what you wrote. read_as: what was understood. outcome: right, close or wrong, as it was marked then."
    " counts_as: as it counts now, after corrections; null where the item was withdrawn. mistake: the known mistake it"
    " looks like, or null. hint: you had looked at the hint. seconds: null where nobody could measure.",
    "sat": "Tests and practice papers that were handed in. percent: right of all, rounded down. passed: by the rules of"
    " that day.",
    "sign_offs": "Hands-on tasks that somebody watched and signed. withdrawn: who took it back, when and why, or null.",
}
"""What each field of the file means; it stands in the file under 'what_it_is'."""
COLUMNS = (
    "answered_at", "study_day", "item", "title", "kind", "typed", "read_as", "outcome", "counts_as", "mistake", "hint",
    "seconds",
)  # fmt: skip
DANGEROUS = ("=", "+", "-", "@", "\t", "\r", "\n")
"""A spreadsheet takes a cell that begins so for a formula, and runs it."""


def my_file() -> dict[str, Any]:
    """The whole record, as plain values for JSON."""
    person, hitch = me(), rotations.own(store(), me())
    exam = planning.told_exam(person)
    names = "days_on", "days_off", "first_day", "nights_from"
    return {
        "what_it_is": WHAT_IT_IS,
        "version": VERSION,
        "made_at": as_text(now()),
        "person": {"name": person.name, "sign_in": person.sign_in, "joined": as_text(person.created_at)},
        "settings": {
            "system": person.system,
            "decimal_comma": person.comma,
            "minutes": person.minutes,
            "minutes_off": person.minutes_off,
            "free_entry": person.free_entry,
        },
        "rotation": hitch and dict(zip(names, map(_plain, hitch), strict=True)),
        "single_days": {day.isoformat(): minutes for day, minutes in rotations.single_days(store(), person.id).items()},
        "exam": exam and {"day": exam.day.isoformat(), "paper": exam.paper},
        "crews": _crews(),
        "read": _read(),
        "attempts": list(_attempts()),
        "sat": _sat(),
        "sign_offs": _sign_offs(),
    }


def my_answers() -> str:
    """All answers as CSV, oldest first, with a row of names at its head."""
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(COLUMNS)
    for each in _attempts():
        each["title"] = bank()[each["item"]].title if each["item"] in bank() else ""
        writer.writerow([_cell(each[name]) for name in COLUMNS])
    return text.getvalue()


def _cell(value: Any) -> Any:
    """A value that no spreadsheet takes for a formula: an apostrophe goes before a text that could be one."""
    if isinstance(value, str) and value.lstrip(" ").startswith(DANGEROUS):
        return "'" + value
    return value


def _attempts() -> Iterator[dict[str, Any]]:
    counts_as = {each.id: each.outcome for each in attempts.counted(store(), me().id)}
    for each in reversed(attempts.of_person(store(), me().id, ALL)):
        yield _attempt(each, counts_as.get(each.id))


def _attempt(each: Attempt, counts_as: str | None) -> dict[str, Any]:
    return {
        "id": each.id,
        "item": each.item,
        "kind": each.kind,
        "typed": each.typed,
        "read_as": each.read_as,
        "outcome": each.outcome,
        "counts_as": counts_as,
        "mistake": each.mistake,
        "hint": each.hint,
        "seconds": each.seconds,
        "answered_at": as_text(each.answered_at),
        "study_day": each.study_day.isoformat(),
    }


def _crews() -> list[dict[str, Any]]:
    return [
        {"crew": each.crew.full_name, "job": each.job, "from": as_text(each.joined_at), "until": _plain(each.left_at)}
        for each in crews.memberships_of(store(), me().id)
    ]


def _read() -> list[dict[str, str]]:
    return [
        {"lesson": lesson, "part": part, "at": as_text(at)}
        for lesson, parts in lessons_read.parts_read(store(), me().id).items()
        for part, at in parts.items()
    ]


def _sat() -> list[dict[str, Any]]:
    return [
        {
            "kind": each.kind,
            "module": each.module,
            "begun_at": as_text(each.started_at),
            "handed_in_at": as_text(each.handed_in_at),
            "pass_mark": each.pass_mark,
            "percent": each.result["percent"],
            "passed": each.passed,
        }
        for each in reversed(sittings.of_person(store(), me().id))
        if not each.is_open
    ]


def _sign_offs() -> list[dict[str, Any]]:
    return [
        {
            "task": each.task,
            "title": course().tasks[each.task].title if each.task in course().tasks else None,
            "result": each.result,
            "seen_on": each.observed_on.isoformat(),
            "rig": each.rig_name,
            "signed_by": each.observer_name,
            "note": each.note,
            "signed_at": as_text(each.signed_at),
            "withdrawn": each.withdrawn
            and {"by": each.withdrawn.who, "at": as_text(each.withdrawn.at), "why": each.withdrawn.why},
        }
        for each in sign_offs.of_people(store(), [me().id])
    ]


def _plain(value: Any) -> Any:
    if isinstance(value, datetime):
        return as_text(value)
    return value.isoformat() if isinstance(value, date) else value
