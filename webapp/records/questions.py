"""Drawn questions: a row each, made when drawn. Old ones are shown from their row and never drawn again."""

import json
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from question_bank import question_from_body
from webapp.records.connection import Store
from webapp.records.errors import RecordsError
from webapp.records.ids import new_id
from webapp.records.moments import as_moment, as_text

COLUMNS = "id, person, item, place, drill, lesson, rig_sheet, drawn_at, body"

# One question waits at a time in each place. One that was left behind this many draws ago was left for good.
WAITING_AMONG = 20


@dataclass(frozen=True, slots=True)
class Kept:
    """A question that was drawn for somebody, or for a visitor (person None).

    `place` is today, practice, lesson, ten, case or sitting; `drill` names the run of questions it belongs to; `lesson`
    is set in a lesson only. `rig_sheet` is the sheet that it took numbers from.
    """

    id: str
    person: str | None
    item: str
    place: str
    drill: str | None
    lesson: str | None
    rig_sheet: str | None
    drawn_at: datetime
    question: Any


def keep_texts(store: Store, texts: Mapping[str, str]) -> None:
    """Keep item texts by their hash, each once. A question can only be kept when the text of its item is."""
    with store.writing() as db:
        for text_hash, toml in texts.items():
            db.execute(
                "insert into item_texts (hash, toml) values (?, ?) on conflict (hash) do nothing", [text_hash, toml]
            )


def text_of(store: Store, text_hash: str) -> str | None:
    """The item text with that hash, as it stood when a question was drawn from it, or None."""
    row = store.db.execute("select toml from item_texts where hash = ?", [text_hash]).fetchone()
    return row and row[0]


def keep(
    store: Store,
    question: Any,
    person_id: str | None,
    place: str,
    now: datetime,
    drill: str | None = None,
    lesson: str | None = None,
    text: str | None = None,
    rig_sheet: str | None = None,
) -> str:
    """Keep a drawn question; its new id. `text` is its item's TOML, needed where `keep_texts` was not called at start.

    Raises ValueError for a question in a lesson that doesn't say which, and RecordsError if the item's text is missing.
    """
    if (place == "lesson") != (lesson is not None):
        raise ValueError(f"A question in place {place!r} with lesson {lesson!r}: a lesson is named in a lesson only.")
    question_id = new_id(now)
    with store.writing() as db:
        if text is not None:
            keep_texts(store, {question.item_hash: text})
        elif text_of(store, question.item_hash) is None:
            raise RecordsError(f"The text of {question.item} is not in the records. Call keep_texts at the start.")
        db.execute(
            "insert into questions (id, person, item, item_hash, place, drill, lesson, body, rig_sheet, drawn_at)"
            " values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            [
                question_id, person_id, question.item, question.item_hash, place, drill, lesson,
                json.dumps(question.body(), ensure_ascii=False, allow_nan=False), rig_sheet, as_text(now),
            ],
        )  # fmt: skip
    return question_id


def versions_in_drills(store: Store, drills: Collection[str]) -> dict[str, list[tuple[str, str]]]:
    """{drill or sitting: (item, version) of its questions}: which wording of which item somebody was asked."""
    marks = ", ".join("?" for _ in drills)
    rows = store.db.execute(
        f"select drill, item, item_hash from questions where drill in ({marks}) order by drill, drawn_at, id", [*drills]
    )
    found: dict[str, list[tuple[str, str]]] = {each: [] for each in drills}
    for drill, item, version in rows:
        found[drill].append((item, version))
    return found


def get(store: Store, question_id: str) -> Kept | None:
    """The question with that id, or None."""
    row = store.db.execute(f"select {COLUMNS} from questions where id = ?", [question_id]).fetchone()
    return row and _kept(row)


def newest_of(store: Store, person_id: str, items: Collection[str], places: Collection[str]) -> Kept | None:
    """The newest question of any of these items that the person was drawn in these places, or None."""
    newest = [
        store.db.execute(
            f"select {COLUMNS} from questions where person = ? and place = ?"
            " and item in (select value from json_each(?)) order by drawn_at desc, id desc limit 1",
            [person_id, place, json.dumps([*items])],
        ).fetchone()
        for place in places
    ]
    kept = [_kept(row) for row in newest if row]
    return max(kept, key=lambda each: (each.drawn_at, each.id), default=None)


def newest_with_sheet(store: Store, person_id: str, item: str) -> Kept | None:
    """The newest question of that item that had a rig sheet's numbers, or None."""
    row = store.db.execute(
        f"select {COLUMNS} from questions where person = ? and item = ? and rig_sheet is not null"
        " order by drawn_at desc, id desc limit 1",
        [person_id, item],
    ).fetchone()
    return row and _kept(row)


def waiting(store: Store, person_id: str, place: str) -> Kept | None:
    """The newest question of that place that the person has not answered, or None."""
    row = store.db.execute(
        f"select {COLUMNS} from (select * from questions where person = ? and place = ?"
        " order by drawn_at desc, id desc limit ?) as latest"
        " where not exists (select 1 from attempts where attempts.id = latest.id)"
        " and not exists (select 1 from uncounted_answers where question = latest.id)"
        " order by drawn_at desc, id desc limit 1",
        [person_id, place, WAITING_AMONG],
    ).fetchone()
    return row and _kept(row)


def of_drill(store: Store, drill: str) -> list[Kept]:
    """All questions of that drill in the order they were drawn."""
    rows = store.db.execute(f"select {COLUMNS} from questions where drill = ? order by drawn_at, id", [drill])
    return [_kept(row) for row in rows]


def in_lesson(store: Store, person_id: str, lesson: str) -> dict[str, Kept]:
    """For each item asked in that lesson, the question that the person was drawn last."""
    rows = store.db.execute(
        f"select {COLUMNS} from questions where person = ? and place = 'lesson' and lesson = ? order by drawn_at, id",
        [person_id, lesson],
    )
    latest = {row[2]: row for row in rows}
    return {item: _kept(row) for item, row in latest.items()}


def _kept(row: tuple) -> Kept:
    *facts, drawn_at, body = row
    return Kept(*facts, as_moment(drawn_at), question_from_body(json.loads(body)))
