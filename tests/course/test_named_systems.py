"""The systems of a rig that the course has to teach: each is explained, drawn, asked three ways, and has its caution.

The rows are in named_systems.toml, written by hand from the list that the course was asked for.
"""

import re
import tomllib
from pathlib import Path

import pytest

from course import load_course
from course.reading_room import CautionHere, read_lesson
from question_bank import load_bank

ROWS = tomllib.loads(Path(__file__).with_name("named_systems.toml").read_text(encoding="utf-8"))
FIELDS = {"lesson", "section", "word", "figure", "label", "part", "purpose", "number", "caution"}
IN_WORDS = {"choice", "order", "match"}
NOT_READ = {"item", "item_hash", "kind", "caution", "source", "system", "why", "tell", "hint"}
NUMBERS = {"numeric", "estimate", "gauge"}
every_system = pytest.mark.parametrize("row", [pytest.param(row, id=name) for name, row in ROWS.items()])


@pytest.fixture(scope="module")
def bank():
    return load_bank()


@pytest.fixture(scope="module")
def course():
    return load_course()


def says(text: str, word: str) -> bool:
    """Whether the text says the word, in any case, as a word of its own or with an ending."""
    return re.search(rf"\b{re.escape(word)}", text, re.IGNORECASE) is not None


def read_texts(body) -> list[str]:
    """All that a hand reads of a question before the answer is given; not its id, nor what is told afterwards."""
    if isinstance(body, str):
        return [body]
    if isinstance(body, list):
        return [text for each in body for text in read_texts(each)]
    if isinstance(body, dict):
        return [text for key, each in body.items() if key not in NOT_READ for text in read_texts(each)]
    return []


def test_no_system_of_the_list_is_left_out():
    """The owner's list, counted by hand: ten of the rotating and hoisting side, and what M4 and M5 were asked for."""
    assert set(ROWS) >= {
        "kelly", "swivel and rotary hose", "rotary table", "slips", "top drive", "drawworks", "crown block",
        "travelling block and hook", "links", "elevators", "drilling line", "connection with a kelly",
        "connection with a top drive", "stands, and connections saved", "mousehole", "rathole", "standard derrick",
        "cantilever mast", "folding mast", "telescoping mast", "crown", "water table", "racking board (monkey board)",
        "fingerboard", "stabbing board", "substructure", "catwalk", "ramp", "V-door", "ratings of masts",
    }  # fmt: skip


@every_system
def test_its_row_is_whole(row):
    assert set(row) == FIELDS


@every_system
def test_a_part_of_a_lesson_explains_it(row, course):
    section = next((each for each in course.lesson(row["lesson"]).parts if each.title == row["section"]), None)
    assert section, f"{row['lesson']} has no part {row['section']!r}"
    assert says(section.markdown, row["word"])


@every_system
def test_it_is_drawn_and_the_drawing_asks_for_it(row, course, bank):
    """The figure belongs to a lesson, and a question shows it and asks for that part of it."""
    assert row["figure"] in {each.figure for each in course.lessons}
    question = bank[row["part"]].draw(1)
    assert question.kind == "part" and question.figure == row["figure"]
    right = {question.place(key).part for key in question.right}
    assert row["label"] in right


@every_system
def test_its_purpose_is_asked_in_words(row, bank):
    item = bank[row["purpose"]]
    assert item.kind in IN_WORDS
    assert says(" ".join(read_texts(item.draw(1).body())), row["word"])


@every_system
def test_its_number_is_asked_in_both_systems(row, bank):
    item = bank[row["number"]]
    assert item.kind in NUMBERS
    assert item.draw(3, "us").stem != item.draw(3, "metric").stem


@every_system
def test_its_questions_belong_to_lessons_that_are_written(row, bank, course):
    written = {each.id for each in course.lessons}
    asked = [row["part"], row["purpose"], row["number"]]
    assert {bank[each].lesson for each in asked} <= written
    assert len(asked) == len(set(asked))


@every_system
def test_its_caution_stands_in_its_lesson(row, course):
    page = read_lesson(course.lesson(row["lesson"]), "us")
    assert row["caution"] in {block.id for part in page for block in part.blocks if isinstance(block, CautionHere)}
