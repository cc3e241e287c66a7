"""The scheduling library's own words stay inside webapp/study/memory.py.

Its marks, states and measures are not in columns, file names, JSON keys or labels, and the rarer of them nowhere in the
code of the web application.
"""

import ast
import re
from pathlib import Path

import pytest

from question_bank import load_bank
from webapp.records.connection import Store

ROOT = Path(__file__).parents[2]
WINGS = ("question_bank", "course", "webapp")
MEMORY = ROOT / "webapp" / "study" / "memory.py"

RARE = {"stability", "difficulty", "retrievability", "retention", "relearning", "fsrs"}
WORDS = RARE | {"again", "hard", "good", "easy", "learning", "review", "reviews"}
RARE_WORD = re.compile(rf"(?<![a-z])({'|'.join(sorted(RARE))})(?![a-z])", re.IGNORECASE)
LABEL = re.compile(r">\s*(again|hard|good|easy|review|learning)\s*[.:]?\s*<", re.IGNORECASE)


def words_in(name: str) -> set[str]:
    """The forbidden words that a name is made of: 'next_review' has one, 'hardness' none."""
    return set(re.split(r"[^a-z]+", re.sub(r"([a-z])([A-Z])", r"\1 \2", name).lower())) & WORDS


def keys_of(value) -> set[str]:
    """Every key in a JSON value, at any depth."""
    if isinstance(value, dict):
        return set(value) | {key for each in value.values() for key in keys_of(each)}
    if isinstance(value, list):
        return {key for each in value for key in keys_of(each)}
    return set()


def files(*endings: str) -> list[Path]:
    return sorted(
        path
        for wing in WINGS
        for path in (ROOT / wing).rglob("*")
        if path.suffix in endings and path != MEMORY and "__pycache__" not in path.parts
    )


def test_no_table_or_column_has_such_a_name(tmp_path):
    store = Store(tmp_path / "records.sqlite")
    store.migrate()
    names = [
        f"{table}.{column}"
        for (table,) in store.db.execute("select name from sqlite_master where type in ('table', 'view')").fetchall()
        for (column,) in store.db.execute("select name from pragma_table_info(?)", [table]).fetchall()
    ]
    store.close()
    assert len(names) > 60
    assert [name for name in names if words_in(name)] == []


def test_no_column_allows_such_a_value(tmp_path):
    """The words that CHECKs let in are ours."""
    store = Store(tmp_path / "records.sqlite")
    store.migrate()
    schema = " ".join(sql for (sql,) in store.db.execute("select sql from sqlite_master where sql is not null"))
    store.close()
    values = re.findall(r"'([a-z-]+)'", schema)
    assert {"right", "close", "wrong", "item-withdrawn", "today"} <= set(values)
    assert [value for value in values if words_in(value)] == []


def test_no_file_has_such_a_name():
    found = [path for wing in WINGS for path in (ROOT / wing).rglob("*") if words_in(path.stem)]
    assert found == []


def test_no_json_key_has_such_a_name():
    """The body of a question of every item in the bank, in both systems."""
    keys = {
        key
        for item in load_bank().values()
        for system in ("us", "metric")
        for key in keys_of(item.draw(1, system).body())
    }
    assert {"stem", "item_hash", "seed"} <= keys
    assert [key for key in keys if words_in(key)] == []


def test_the_rarer_words_are_nowhere_in_the_web_application():
    """In code, templates, scripts and style sheets, comments included."""
    found = [
        f"{path.relative_to(ROOT)}:{number} {line.strip()}"
        for path in files(".py", ".html", ".js", ".css", ".json", ".toml", ".txt")
        if path.is_relative_to(ROOT / "webapp")
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1)
        if RARE_WORD.search(line)
    ]
    assert found == []


def test_no_code_outside_names_or_compares_a_mark():
    """No name of a variable, field or argument, and no text on its own, is one of the library's marks or states."""
    marks = {"hard", "easy", "good", "relearning", "learning", "review"}
    found = []
    for path in files(".py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            named = [
                getattr(node, part)
                for part in ("id", "attr", "arg", "value")
                if isinstance(getattr(node, part, None), str)
            ]
            found += [f"{path.relative_to(ROOT)}:{node.lineno} {name}" for name in named if name.lower() in marks]
    assert found == []


def test_no_label_is_such_a_word():
    found = [
        f"{path.relative_to(ROOT)}: {label.group()}"
        for path in files(".html")
        for label in LABEL.finditer(path.read_text(encoding="utf-8"))
    ]
    assert found == []


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("next_review", {"review"}),
        ("days-to-retention", {"retention"}),
        ("lastReview", {"review"}),
        ("hardness", set()),
        ("days_to_ninety", set()),
        ("toughness", set()),
    ],
)
def test_the_reader_of_names_sees_what_it_should(name, words):
    assert words_in(name) == words
