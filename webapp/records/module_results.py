"""What people's tests of modules came to: read for many people at once, for the matrix and a person's page."""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime

from webapp.records.connection import Store
from webapp.records.moments import as_moment, as_text


@dataclass(frozen=True, slots=True)
class ModuleResult:
    """What a person's handed-in tests of one module come to.

    `passed_at` is when the whole module's test was passed last, None where never; marks are in percent, rounded down,
    of tests of the whole module, None where only a refresher was taken. `last_at` is of a test or a refresher.
    `lessons` has for each lesson when it was last in a passed test or refresher, and only lessons of a module passed.
    """

    passed_at: datetime | None
    best: int | None
    last: int | None
    last_at: datetime
    times: int
    lessons: Mapping[str, datetime]


def results_of(
    store: Store, person_ids: Iterable[str], since: Mapping[str, datetime | None] | None = None
) -> dict[tuple[str, str], ModuleResult]:
    """By (person, module): what the handed-in tests came to; a pair without one is left out.

    `since` has for a person the moment before which nothing is seen of them: a sitting begun before it does not exist.
    """
    since = since or {}
    found: dict[tuple[str, str], list[tuple]] = {}
    for person, module, started_at, *row in _rows(store, list(person_ids)):
        first = since.get(person)
        if first is None or started_at >= as_text(first):
            found.setdefault((person, module), []).append(tuple(row))
    return {pair: _result(rows) for pair, rows in found.items()}


def _rows(store: Store, person_ids: list[str]) -> Iterable[tuple]:
    """Person, module, when begun, kind and what it came to: each person's handed-in tests, oldest first.

    The mark and the lessons are in the sitting's own row, so no question, draft or attempt is read.
    """
    marks = ", ".join("?" for _ in person_ids)
    return store.db.execute(
        "select person, module, started_at, kind, handed_in_at, passed,"
        " json_extract(result, '$.percent'), json_extract(body, '$.lessons')"
        f" from sittings where person in ({marks}) and kind in ('module', 'refresher') and handed_in_at is not null"
        " order by person, handed_in_at, id",
        person_ids,
    )


def _result(rows: list[tuple]) -> ModuleResult:
    """One pair's rows, oldest first."""
    whole = [(at, passed, percent) for kind, at, passed, percent, _ in rows if kind == "module"]
    passes = [at for at, passed, _ in whole if passed]
    lessons: dict[str, datetime] = {}
    for _, at, passed, _, names in rows:
        if passed and passes and at >= passes[0]:
            lessons |= dict.fromkeys(json.loads(names), as_moment(at))
    return ModuleResult(
        passed_at=as_moment(passes[-1]) if passes else None,
        best=max((percent for *_, percent in whole), default=None),
        last=whole[-1][2] if whole else None,
        last_at=as_moment(rows[-1][1]),
        times=len(whole),
        lessons=lessons,
    )
