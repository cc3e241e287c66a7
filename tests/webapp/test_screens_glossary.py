"""The glossary and the lessons: from each word to its lesson, and from the lesson to the word, both ways."""

import re
from html import unescape

import pytest

from course import load_course

COURSE = load_course()
ENTRY = re.compile(r'<div id="([^"]+)"><dt>(.*?)</dt><dd>(.*?)</dd></div>', re.DOTALL)
LINK = re.compile(r'<a href="(/lessons/[^"#]+)">Lesson ([\d.]+)</a>')


def entries(html: str) -> dict[str, tuple[str, str]]:
    """Each word on the page, with its id there and what stands beside it."""
    return {unescape(word): (id, beside) for id, word, beside in ENTRY.findall(html)}


def test_each_word_leads_to_the_lesson_that_lists_it(hands):
    found = entries(hands().get("/glossary").text)
    assert list(found) == list(COURSE.glossary)
    listed = {word: lesson for lesson in COURSE.lessons for word in lesson.terms}
    assert set(listed) == set(found), "each word is listed by one lesson, and each listed word is here"
    for word, (id, beside) in found.items():
        lesson = listed[word]
        assert id == COURSE.glossary[word].slug
        assert LINK.findall(beside) == [(f"/lessons/{lesson.id}", lesson.number)], word


def test_whoever_is_not_signed_in_reads_which_lesson_it_is(client):
    found = entries(client.get("/glossary").text)
    for word, (_, beside) in found.items():
        assert f"Lesson {COURSE.lesson(COURSE.glossary[word].lesson).number}" in beside
        assert "<a " not in beside, "lessons are for those who have joined"


@pytest.mark.parametrize("module", [each.id for each in COURSE.modules])
def test_each_lesson_leads_to_the_places_of_its_words(hands, module):
    hand = hands()
    for lesson in next(each for each in COURSE.modules if each.id == module).lessons:
        html = hand.get(f"/lessons/{lesson.id}").text
        ways = set(re.findall(r'class="term-more" href="/glossary#([^"]+)"', html))
        missing = [word for word in lesson.terms if COURSE.glossary[word].slug not in ways]
        assert missing == [], lesson.id
        assert ways <= {each.slug for each in COURSE.glossary.values()}
