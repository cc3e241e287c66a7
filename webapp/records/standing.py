"""What the records say of many people and all modules at once: memory and reading. Aggregated in SQL.

Of each person only what came at or after a moment is looked at, since a coordinator sees nothing from before. A row of
memory has a day only: on the very day of that moment it counts if an attempt of its pair was answered at or after the
moment. That is one search by index for each such row, and only for them.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from webapp.records.connection import Store
from webapp.records.moments import as_text


@dataclass(frozen=True, slots=True)
class Since:
    """The moment from which somebody is seen, and its study day."""

    moment: datetime
    day: date


@dataclass(frozen=True, slots=True)
class Remembered:
    """Of one person's items in one module: how many were answered, how many stand, and the usual seconds of those."""

    seen: int
    known: int
    known_seconds: float


People = Mapping[str, Since]
"""Who is looked at, by their id."""


def _table(name: str, key: str, first: str, second: str) -> str:
    """A JSON object of pairs, given as the parameter of that name, as a table of three columns for a `with`."""
    pair = f"json_extract(value, '$[0]') as {first}, json_extract(value, '$[1]') as {second}"
    return f"{name} as materialized (select key as {key}, {pair} from json_each(:{name}))"


MEMBERS = _table("members", "person", "moment", "day")
ITEMS = _table("items", "item", "module", "seconds")
SEEN = (
    "(last_day > members.day or (last_day = members.day and exists (select 1 from attempts"
    " where attempts.person = memory.person and attempts.item = memory.item and answered_at >= members.moment)))"
)
"""A row of memory that somebody who sees from `members.moment` on may know of."""
PARTS = _table("parts", "part", "module", "minutes")


def remembered(
    store: Store, people: People, items: Mapping[str, tuple[str, float]], known_after: date
) -> dict[tuple[str, str], Remembered]:
    """By (person, module). `items` has each item's module and usual seconds; it is known if it fades after that day."""
    rows = store.db.execute(
        f"with {MEMBERS}, {ITEMS} select members.person, module,"
        " count(*), sum(back_on > :day), sum(iif(back_on > :day, seconds, 0.0))"
        f" from members cross join memory on memory.person = members.person and {SEEN}"
        " cross join items on items.item = memory.item group by members.person, module",
        {"members": _people(people), "items": json.dumps(items), "day": known_after.isoformat()},
    )
    return {(person, module): Remembered(*rest) for person, module, *rest in rows}


def minutes_read(
    store: Store, people: People, parts: Mapping[tuple[str, str], tuple[str, float]]
) -> dict[tuple[str, str], float]:
    """By (person, module): minutes of the parts that were read. `parts` has module and minutes by (lesson, part)."""
    # One key for lesson and part: SQLite makes an index for the search by one column, and none for that by two.
    keyed = {f"{lesson}#{part}": of for (lesson, part), of in parts.items()}
    rows = store.db.execute(
        f"with {MEMBERS}, {PARTS} select members.person, module, sum(minutes)"
        " from members cross join parts_read on parts_read.person = members.person and at >= members.moment"
        " cross join parts on parts.part = parts_read.lesson || '#' || parts_read.part"
        " group by members.person, module",
        {"members": _people(people), "parts": json.dumps(keyed)},
    )
    return {(person, module): minutes for person, module, minutes in rows}


def _people(people: People) -> str:
    return json.dumps({id: (as_text(since.moment), since.day.isoformat()) for id, since in people.items()})
