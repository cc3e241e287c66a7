"""Items in words: quantities in the notation, options that give nothing away, a reason for each wrong one."""

import tomllib
from pathlib import Path

import pytest

import question_bank
from question_bank.quantities_in_text import fill

ITEMS = Path(question_bank.__file__).parent / "items"
FILES = sorted(ITEMS.rglob("*.toml"))
IN_WORDS = [
    pytest.param(row, id=f"{path.parent.name}.{name}")
    for path in FILES
    for name, row in tomllib.loads(path.read_text(encoding="utf-8")).items()
    if row["kind"] != "numeric"
]
NOT_SHOWN = {
    "kind", "lesson", "caution", "source", "unit", "register", "asks", "name", "of", "mistake", "step", "formula",
    "gives", "plausible", "tolerance", "check", "quick", "givens", "systems",
}  # fmt: skip


def shown_texts(row) -> list[str]:
    """All texts of an item that a hand sees."""
    if isinstance(row, str):
        return [row]
    if isinstance(row, list):
        return [text for each in row for text in shown_texts(each)]
    if isinstance(row, dict):
        return [text for key, each in row.items() if key not in NOT_SHOWN for text in shown_texts(each)]
    return []


@pytest.mark.parametrize("row", IN_WORDS)
def test_its_quantities_are_in_the_notation(row, stray_quantities):
    assert [found for text in shown_texts(row) for found in stray_quantities(text)] == []


@pytest.mark.parametrize("row", IN_WORDS)
def test_it_has_a_source_and_a_caution(row):
    assert row["source"] and row["caution"]


@pytest.mark.parametrize("row", IN_WORDS)
@pytest.mark.parametrize("system", ["us", "metric"])
def test_options_are_about_as_long_as_one_another(row, system):
    lengths = [len(fill(each["text"], system)) for each in row.get("options", [])]
    if lengths:
        right = next(at for at, each in enumerate(row["options"]) if each.get("right"))
        assert max(lengths) <= 1.35 * min(lengths)
        others = lengths[:right] + lengths[right + 1 :]
        assert lengths[right] <= 1.15 * max(others), "the right option may not stand out by its length"


@pytest.mark.parametrize("row", IN_WORDS)
def test_each_wrong_option_tells_why_it_misleads(row):
    for each in row.get("options", []):
        assert each.get("right") or len(each["tell"].split()) >= 6
        assert not (each.get("right") and "tell" in each)


def test_the_must_pass_items_of_the_lessons_written_are_there():
    must = {case.values[0]["title"] for case in IN_WORDS if case.values[0].get("must_pass")}
    assert must >= {"A tool for work aloft", "A hand in a pinch point"}
    assert must >= {
        "Isolation in order",
        "Three people on one machine",
        "A spring brake and a block in the air",
    }
    assert must >= {"The string still moves", "Before weight comes on"}
