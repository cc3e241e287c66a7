"""What the tests of the course share: the course itself, a small course on disk, and a search for stray quantities."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from course import Course, load_course
from question_bank.quantities_in_text import MARK
from question_bank.units import registers
from tests.course.reading_grade import GRADE, hardest

HARDEST = 5
MARKS = "pass_mark = 80\nrefresh_months = 12\n"
"""What every module.toml says of its test and its refreshers."""
LESSON = """+++
title = "A lesson"
number = "1.1"
minutes = 5
terms = ["short ton"]
cautions = []
figure = "three-weights"
sources = ["common practice, no source"]
+++

## First part

{text}
"""
GLOSSARY = """["short ton"]
meaning = "A mass of {{=2,000 lb}}."
lesson = "units/first"
"""


def pytest_terminal_summary(terminalreporter):
    """The lessons that read hardest, where reading was tested."""
    if any("test_reading_grade.py" in each.nodeid for each in terminalreporter.stats.get("passed", [])):
        found = "; ".join(f"{grade:.1f} {title}" for grade, title in hardest(HARDEST))
        terminalreporter.write_line(f"Hardest to read, by school grade (at most {GRADE}): {found}.")


@pytest.fixture(scope="session")
def the_course() -> Course:
    return load_course()


@pytest.fixture
def small_course(tmp_path: Path) -> Callable[..., Path]:
    """small_course(text) writes a course of one lesson and returns its folder; `files` replaces files by path."""

    def write(text: str = "A text.", **files: str) -> Path:
        written = {
            "tasks.toml": "",
            "modules/01-units/words.toml": GLOSSARY,
            "modules/study-order.toml": 'lessons = ["units/first"]\n',
            "modules/01-units/module.toml": f'title = "Units"\nneeds = []\n{MARKS}',
            "modules/01-units/01-first.md": LESSON.replace("{text}", text),
        } | {name.replace("__", "/"): content for name, content in files.items()}
        for name, content in written.items():
            path = tmp_path / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(content, encoding="utf-8")
        return tmp_path

    return write


@pytest.fixture(scope="session")
def stray_quantities() -> Callable[[str], list[str]]:
    """Finds numbers with a unit outside {{ }}, and decimals and thousands, whose marks would not follow the hand."""
    all_units = [each for register in registers().values() for each in register.units.values()]
    units = [each for each in all_units if each.pair or each.symbol == "%"]
    symbols = "|".join(sorted((re.escape(each.symbol) for each in units), key=len, reverse=True))
    words = "|".join(sorted((re.escape(word) for each in units for word in each.also), key=len, reverse=True))
    number = r"(?<![\w.,])\d[\d.,]*(?:\s?\d/\d|\s?[½¼¾])?[\s-]?"
    with_unit = re.compile(rf"{number}(?:(?:{symbols})|(?i:{words}))(?![\w/·])")
    marked = re.compile(r"\d[.,]\d+")

    def find(text: str) -> list[str]:
        bare = MARK.sub(" ", text)
        return [found[0] for pattern in (with_unit, marked) for found in pattern.finditer(bare)]

    return find
