"""A hand whose second language is English has to be able to read it: school grade 8 at most, by Flesch and Kincaid."""

import re

import pytest

from course import load_course
from tests.course.reading_grade import GRADE, grade, grade_of_lesson, hardest, prose

LESSONS = load_course().lessons
PARTS = [pytest.param(part, id=f"{lesson.id} {part.slug}") for lesson in LESSONS for part in lesson.parts]


@pytest.mark.parametrize("lesson", LESSONS, ids=[each.id for each in LESSONS])
def test_a_lesson_reads_easily(lesson):
    assert grade_of_lesson(lesson) <= GRADE


@pytest.mark.parametrize("part", PARTS)
def test_each_part_of_it_reads_easily(part):
    assert grade(prose(part.markdown)) <= GRADE


@pytest.mark.parametrize("part", PARTS)
def test_no_sentence_is_long(part):
    sentences = re.split(r"(?<=[.:?!])\s+|\n\n", prose(part.markdown))
    assert [each for each in sentences if len(each.split()) > 26] == []


def test_the_measure_tells_hard_text_from_easy():
    hard = (
        "Notwithstanding contradictory documentation, the organisation's interpretation of acceleration predominates."
    )
    assert grade(hard) > GRADE


def test_the_hardest_come_first():
    grades = [found for found, _ in hardest(5)]
    assert len(grades) == 5 and grades == sorted(grades, reverse=True)
