"""Tests handed in, lessons read and items known: written straight into the records, at a moment of one's own."""

import json
from datetime import timedelta

from webapp.records import lessons_read
from webapp.records.ids import new_id
from webapp.records.moments import as_text


def a_test(house, person, module, at, percent=90, pass_mark=80, missed=(), kind="module", lessons=()):
    """A test of that module, begun and handed in at that moment."""
    id = new_id(at)
    result = json.dumps({"percent": percent, "missed": list(missed)})
    with house.writing() as db:
        db.execute(
            "insert into sittings (id, person, kind, module, pass_mark, body, started_at, handed_in_at, handed_in_by,"
            " passed, result) values (?, ?, ?, ?, ?, ?, ?, ?, 'hand', ?, ?)",
            [
                id, person.id, kind, module, pass_mark, json.dumps({"items": [], "lessons": list(lessons)}),
                as_text(at), as_text(at), int(percent >= pass_mark and not missed), result,
            ],
        )  # fmt: skip
    return id


def reads(app, house, person, module, at):
    """The first part of the first lesson of that module."""
    course = app.extensions["pinandbox"]["course"]
    lesson = course.module(module).lessons[0]
    lessons_read.mark_part(house, person.id, lesson.id, lesson.parts[0].slug, at)


def knows(app, house, person, module, at, items=1, days=90):
    """So many items of that module, answered on that day and back after so many."""
    bank = app.extensions["pinandbox"]["bank"]
    found = [id for id in bank if id.startswith(f"{module}.")][:items]
    day = at.date()
    with house.writing() as db:
        for item in found:
            db.execute(
                "insert or replace into memory (person, item, days_to_ninety, toughness, last_day, back_on)"
                " values (?, ?, ?, 5.0, ?, ?)",
                [person.id, item, float(days), day.isoformat(), (day + timedelta(days)).isoformat()],
            )
