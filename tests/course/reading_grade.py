"""How hard a lesson reads, as a school grade by Flesch and Kincaid."""

import re

from textstat import textstat

from course import Lesson, load_course
from question_bank.quantities_in_text import MARK

GRADE = 8
ALONE = re.compile(r"^(\?\[|!\[|!caution|\|).*$", re.MULTILINE)


def prose(markdown: str) -> str:
    """The text alone; a word that the glossary explains, or a quantity, counts as one short word."""
    text = ALONE.sub("", markdown)
    return re.sub(r"^\d+\. ", "", re.sub(r"\[\[[^\]]+\]\]", "word", MARK.sub("ten", text)), flags=re.MULTILINE)


def grade(text: str) -> float:
    """The school grade that a text is for."""
    return textstat.flesch_kincaid_grade(text)


def grade_of_lesson(lesson: Lesson) -> float:
    """The grade of a whole lesson."""
    return grade("\n\n".join(prose(part.markdown) for part in lesson.parts))


def hardest(count: int) -> list[tuple[float, str]]:
    """The hardest lessons, hardest first: grade and title."""
    graded = [(grade_of_lesson(each), f"{each.number} {each.title}") for each in load_course().lessons]
    return sorted(graded, reverse=True)[:count]
