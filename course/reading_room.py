"""A lesson as a page: its Markdown made into HTML for one system of units, cut where a question or a figure stands.

Besides the notation inside lines (notation.py), three things stand on a line alone:

    ?[units.rating-in-tonnes]     a question in the text
    ![fig three-weights]          a figure
    !caution C-10                 a caution panel
"""

import functools
import itertools
import re
from collections.abc import Iterator
from dataclasses import dataclass

from markdown import Markdown

from course.errors import CourseError
from course.lesson_files import PartText
from course.notation import LinkRefused, Notation, Reader, fault_in
from course.outline import Lesson

QUESTION = re.compile(r"\?\[([a-z0-9.-]+)\]")
FIGURE = re.compile(r"!\[fig ([a-z0-9-]+)\]")
CAUTION = re.compile(r"!caution (C-\d\d)")
ALONE = ("?[", "![", "!caution")
PAGES_KEPT = 256


@dataclass(frozen=True)
class Html:
    """Finished HTML of our own text; safe to put on the page as it is."""

    html: str


@dataclass(frozen=True)
class QuestionHere:
    """Here stands a question drawn from the item with this id."""

    item: str


@dataclass(frozen=True)
class FigureHere:
    """Here stands the figure with this id."""

    id: str


@dataclass(frozen=True)
class CautionHere:
    """Here stands the caution with this id, such as C-06."""

    id: str


Block = Html | QuestionHere | FigureHere | CautionHere


@dataclass(frozen=True)
class Part:
    """One part of a lesson's page; `slug` is the name under which its reading is recorded."""

    slug: str
    title: str
    blocks: tuple[Block, ...]


def read_lesson(lesson: Lesson, system: str, comma: bool = False) -> list[Part]:
    """The lesson's parts for a hand who reads 'us' or 'metric' and, with comma=True, writes 12,5.

    Raises CourseError at the line of a mark that can't be shown, ValueError for an unknown system.
    """
    return list(_page(lesson, system, comma))


@functools.lru_cache(maxsize=PAGES_KEPT)
def _page(lesson: Lesson, system: str, comma: bool) -> tuple[Part, ...]:
    reader = Reader(system, comma, itertools.count(1))
    return tuple(Part(each.slug, each.title, tuple(_blocks(lesson, each, reader))) for each in lesson.parts)


def _blocks(lesson: Lesson, part: PartText, reader: Reader) -> Iterator[Block]:
    """Text between two lines that stand alone becomes one piece of HTML."""
    text: list[str] = []
    for at, line in enumerate(part.markdown.split("\n"), start=part.line):
        alone = _alone(lesson, at, line)
        if alone is None:
            text.append(line)
            continue
        yield from _html(lesson, text, at, reader)
        text = []
        yield alone
    yield from _html(lesson, text, at + 1, reader)


def _alone(lesson: Lesson, at: int, line: str) -> Block | None:
    """The block that this line stands for; None for a line of text. Raises CourseError for a faulty line."""
    stripped = line.strip()
    for pattern, block in ((QUESTION, QuestionHere), (FIGURE, FigureHere), (CAUTION, CautionHere)):
        if found := pattern.fullmatch(stripped):
            return block(found[1])
    if any(mark in line for mark in ALONE):
        known = "?[units.rating-in-tonnes], ![fig three-weights] or !caution C-10"
        raise CourseError(lesson.path, at, f"a line that stands alone is written {known}, with nothing beside it.")
    if line.startswith("# "):
        raise CourseError(lesson.path, at, "a lesson has its title in the front matter. Use '## ' for a part.")
    if fault := fault_in(line, lesson.glossary):
        raise CourseError(lesson.path, at, fault)
    return None


def _html(lesson: Lesson, lines: list[str], end: int, reader: Reader) -> Iterator[Html]:
    """The lines as HTML; `end` is the line of the file after them. Nothing for blank lines."""
    if not any(line.strip() for line in lines):
        return
    # A Markdown object keeps link definitions and more from one text to the next: a new one for each text.
    markdown = Markdown(extensions=["tables", "sane_lists", Notation(reader, lesson.glossary)], output_format="html")
    start = end - len(lines)
    try:
        html = markdown.convert("\n".join(lines))
    except LinkRefused as error:
        raise CourseError(lesson.path, start + _place_of(error.address, lines), str(error)) from None
    if "[[" in html or "{{" in html:
        raise CourseError(lesson.path, start, "from here on a quantity or glossary word is left as it was typed.")
    yield Html(html)


def _place_of(address: str, lines: list[str]) -> int:
    """Which of the lines holds that address; if it was written in another way, the first line with a link."""
    marks = [address[:10]] if address else []
    for mark in [*marks, "](", "]:", "][", "<"]:
        for at, line in enumerate(lines):
            if mark in line:
                return at
    return 0
