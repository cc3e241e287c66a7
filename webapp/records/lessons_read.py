"""How far a person has read, to the part of a lesson."""

from collections import defaultdict
from datetime import datetime

from webapp.records.connection import Store
from webapp.records.moments import as_moment, as_text


def mark_part(store: Store, person_id: str, lesson: str, part: str, now: datetime) -> None:
    """Write down that a part of a lesson was read; the first time stands."""
    with store.writing() as db:
        db.execute(
            "insert into parts_read (person, lesson, part, at) values (?, ?, ?, ?)"
            " on conflict (person, lesson, part) do nothing",
            [person_id, lesson, part, as_text(now)],
        )


def parts_read(store: Store, person_id: str) -> dict[str, dict[str, datetime]]:
    """When the person read which parts: {lesson: {part: moment}}, only lessons with a part read."""
    read: dict[str, dict[str, datetime]] = defaultdict(dict)
    rows = store.db.execute("select lesson, part, at from parts_read where person = ? order by at", [person_id])
    for lesson, part, at in rows:
        read[lesson][part] = as_moment(at)
    return dict(read)
