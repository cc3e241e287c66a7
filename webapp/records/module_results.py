"""What people's tests of modules came to: read for many people at once, for the matrix and a person's page."""

import functools
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime

from webapp.records.connection import Store
from webapp.records.moments import as_moment, as_text

MODULE, REFRESHER = "module", "refresher"


@dataclass(frozen=True, slots=True)
class Handed:
    """One handed-in test: of the whole module, or a refresher of some of its lessons.

    `mark` is the percent that were right, rounded down; `passed` as it was marked on the day; `missed` are the
    must-pass items that were not right; `lessons` those that it asked of.
    """

    sitting: str
    kind: str
    at: datetime
    mark: int
    passed: bool
    missed: tuple[str, ...]
    lessons: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ModuleResults:
    """All handed-in tests of one module by one person, oldest first; at least one."""

    tests: tuple[Handed, ...]

    @property
    def passed(self) -> Handed | None:
        """The newest pass of the whole module."""
        return next((each for each in reversed(self.of_all) if each.passed), None)

    @property
    def of_all(self) -> list[Handed]:
        """The tests of the whole module; refreshers are not among them."""
        return [each for each in self.tests if each.kind == MODULE]

    @property
    def best(self) -> int | None:
        """The best mark of a test of the whole module."""
        return max((each.mark for each in self.of_all), default=None)

    @property
    def last(self) -> Handed:
        """The newest test, be it a refresher."""
        return self.tests[-1]

    @property
    def lessons_passed(self) -> dict[str, datetime]:
        """When each lesson was last in a test that was passed. A refresher renews; it passes nothing by itself."""
        first = next((at for at, each in enumerate(self.tests) if each.kind == MODULE and each.passed), len(self.tests))
        return {lesson: each.at for each in self.tests[first:] if each.passed for lesson in each.lessons}


def results_of(
    store: Store, person_ids: Iterable[str], since: Mapping[str, datetime | None] | None = None
) -> dict[tuple[str, str], ModuleResults]:
    """By (person, module): what was handed in; a pair without a test is left out.

    `since` has for a person the moment before which nothing is seen of them: a test begun before it does not exist.
    """
    seen_from = {person: as_text(first) for person, first in (since or {}).items() if first is not None}
    found: dict[tuple[str, str], list[Handed]] = {}
    for person, module, started_at, *row in _rows(store, list(person_ids)):
        if started_at >= seen_from.get(person, ""):
            found.setdefault((person, module), []).append(_handed(*row))
    return {pair: ModuleResults(tuple(tests)) for pair, tests in found.items()}


def _rows(store: Store, person_ids: list[str]) -> Iterable[tuple]:
    """Person, module, when begun and what it came to: each person's handed-in tests, oldest first.

    The mark and the lessons are in the sitting's own row, so no question, draft or attempt is read.
    """
    marks = ", ".join("?" for _ in person_ids)
    return store.db.execute(
        "select person, module, started_at, id, kind, handed_in_at, json_extract(result, '$.percent'), passed,"
        " json_extract(result, '$.missed'), json_extract(body, '$.lessons')"
        f" from sittings where person in ({marks}) and kind in ('module', 'refresher') and handed_in_at is not null"
        " order by handed_in_at, id",
        person_ids,
    )


def _handed(id: str, kind: str, at: str, percent: int, passed: int, missed: str, lessons: str) -> Handed:
    return Handed(id, kind, as_moment(at), percent, bool(passed), _listed(missed), _listed(lessons))


@functools.lru_cache(maxsize=1024)
def _listed(text: str) -> tuple[str, ...]:
    """A JSON list. Thousands of tests of one module have the same lessons."""
    return tuple(json.loads(text))
