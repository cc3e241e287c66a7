"""What a person's practice papers came to: read from the sittings' own rows, no question or attempt is looked at."""

import json
from dataclasses import dataclass
from datetime import datetime

from webapp.records.connection import Store
from webapp.records.moments import as_moment, as_text

KINDS = {"a": "paper-a", "b": "paper-b"}
"""The kind of sitting that each paper is."""


@dataclass(frozen=True, slots=True)
class PaperResult:
    """One paper that was handed in. `paper` is 'a' or 'b'; `mark` the percent that were right, rounded down.

    `low` are the modules under their least mark, `missed` the must-pass items that were not right; `asked` and `full`
    are how many questions it had, and how many the blueprint wants.
    """

    sitting: str
    paper: str
    at: datetime
    timed: bool
    by: str
    mark: int
    passed: bool
    right: int
    asked: int
    full: int
    low: tuple[str, ...]
    missed: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OnePaper:
    """All results of one paper, oldest first; at least one."""

    results: tuple[PaperResult, ...]

    @property
    def paper(self) -> str:
        """'a' or 'b'."""
        return self.results[0].paper

    @property
    def latest(self) -> PaperResult:
        """The one that was handed in last."""
        return self.results[-1]

    @property
    def best(self) -> PaperResult:
        """A pass goes before a higher mark that is none; of equals the newest."""
        return max(self.results, key=lambda each: (each.passed, each.mark, each.at))


def of_person(store: Store, person_id: str, since: datetime | None = None) -> dict[str, OnePaper]:
    """The papers that a person has handed in, by 'a' and 'b'; of those begun at or after `since`."""
    rows = store.db.execute(
        "select id, kind, handed_in_at, deadline is not null, handed_in_by, passed, result, body from sittings"
        " where person = ? and kind in ('paper-a', 'paper-b') and handed_in_at is not null and started_at >= ?"
        " order by handed_in_at, id",
        [person_id, as_text(since) if since else ""],
    )
    found: dict[str, list[PaperResult]] = {}
    for row in rows:
        result = _result(row)
        found.setdefault(result.paper, []).append(result)
    return {paper: OnePaper(tuple(found[paper])) for paper in sorted(found)}


def items_asked_last(store: Store, person_id: str) -> set[str]:
    """The items of the practice paper that a person began last, whichever it was and whether it is handed in or not."""
    row = store.db.execute(
        "select body from sittings where person = ? and kind in ('paper-a', 'paper-b')"
        " order by started_at desc, id desc limit 1",
        [person_id],
    ).fetchone()
    return {each["item"] for each in json.loads(row[0])["items"]} if row else set()


def _result(row: tuple) -> PaperResult:
    id, kind, at, timed, by, passed, result, body = row
    result, body = json.loads(result), json.loads(body)
    return PaperResult(
        id, kind.removeprefix("paper-"), as_moment(at), bool(timed), by, result["percent"], bool(passed),
        result["right"], result["asked"], body.get("paper", {}).get("questions", result["asked"]),
        tuple(result.get("low", ())), tuple(result["missed"]),
    )  # fmt: skip
