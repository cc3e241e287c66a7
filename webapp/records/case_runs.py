"""Runs of cases: a row each, made when the case is drawn, with all of it that is shown again besides its questions."""

import json
from dataclasses import dataclass
from datetime import datetime

from webapp.records.connection import Store
from webapp.records.moments import as_moment, as_text

COLUMNS = "id, person, name, started_at, body"


@dataclass(frozen=True, slots=True)
class CaseRun:
    """One drawing of a case for a person. `id` is the `drill` of its questions; `name` is the case's id.

    `givens` are pairs of label and text. For each question in order `results` has what its answer is called and the
    right one as later parts show it (None where it is no number), and `on_paper` its stem with blanks for earlier ones.
    """

    id: str
    person: str
    name: str
    started_at: datetime
    title: str
    story: str
    givens: list[list[str]]
    results: list[list[str] | None]
    on_paper: list[str]


def keep(store: Store, run: CaseRun) -> None:
    """Keep a new run. Call it in the transaction that keeps its questions."""
    body = {name: getattr(run, name) for name in ("title", "story", "givens", "results", "on_paper")}
    with store.writing() as db:
        db.execute(
            "insert into case_runs (id, person, name, started_at, body) values (?, ?, ?, ?, ?)",
            [run.id, run.person, run.name, as_text(run.started_at), json.dumps(body, ensure_ascii=False)],
        )


def get(store: Store, run_id: str) -> CaseRun | None:
    """The run with that id, or None."""
    row = store.db.execute(f"select {COLUMNS} from case_runs where id = ?", [run_id]).fetchone()
    return row and _run(row)


def newest(store: Store, person_id: str) -> dict[str, CaseRun]:
    """The run that each case was drawn for last for this person, by the case's id."""
    rows = store.db.execute(
        f"select {COLUMNS} from case_runs where id in (select max(id) from case_runs where person = ? group by name)",
        [person_id],
    )
    return {run.name: run for run in map(_run, rows)}


def _run(row: tuple) -> CaseRun:
    *facts, started_at, body = row
    return CaseRun(*facts, as_moment(started_at), **json.loads(body))
