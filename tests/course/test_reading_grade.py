"""A hand whose second language is English has to be able to read it: school grade 8 at most, by Flesch and Kincaid."""

import re

import pytest
from textstat import textstat

from course import load_course
from question_bank.quantities_in_text import MARK

PARTS = [pytest.param(part, id=f"{lesson.id} {part.slug}") for lesson in load_course().lessons for part in lesson.parts]
GRADE = 8
ALONE = re.compile(r"^(\?\[|!\[|!caution|\|).*$", re.MULTILINE)


def prose(markdown: str) -> str:
    """The text alone; a word that the glossary explains, or a quantity, counts as one short word."""
    text = ALONE.sub("", markdown)
    return re.sub(r"^\d+\. ", "", re.sub(r"\[\[[^\]]+\]\]", "word", MARK.sub("ten", text)), flags=re.MULTILINE)


@pytest.mark.parametrize("part", PARTS)
def test_it_reads_easily(part):
    assert textstat.flesch_kincaid_grade(prose(part.markdown)) <= GRADE


@pytest.mark.parametrize("part", PARTS)
def test_no_sentence_is_long(part):
    sentences = re.split(r"(?<=[.:?!])\s+|\n\n", prose(part.markdown))
    assert [each for each in sentences if len(each.split()) > 26] == []


def test_the_measure_tells_hard_text_from_easy():
    hard = (
        "Notwithstanding contradictory documentation, the organisation's interpretation of acceleration predominates."
    )
    assert textstat.flesch_kincaid_grade(hard) > GRADE
