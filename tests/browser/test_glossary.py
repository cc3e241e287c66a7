"""The glossary on paper: A4, 8 points, on as many sides as its words need; and the way there from a lesson."""

import re
from math import ceil, floor

import pytest

from course import load_course
from course.reading_room import Html, read_lesson
from tests.browser.hand import Hand
from tests.browser.test_bench import A4_POINTS, BOX, PAGE, PIXELS_A_POINT
from webapp.records.connection import Store

pytestmark = pytest.mark.browser

POINTS = 8
LINES_A_COLUMN = 278 / 25.4 * 72 / (POINTS * 1.2)
"""A4 less its margins is 278 mm high, and a line of 8-point type is 1.2 times as high as its type."""
COLUMNS = 3
LETTERS_A_LINE = (60 / 25.4 * 72) / (POINTS * 0.5)
"""A column is 60 mm wide. Letters of a plain sans are about half as wide as their type is high, over a long text."""
PARTS = """() => [...document.querySelectorAll('.glossary :is(h2, dt, dd)')].map(each => {
  const page = document.querySelector('.glossary').getBoundingClientRect()
  const boxes = [...each.getClientRects()]
  return {
    tag: each.tagName, text: each.innerText.trim(), size: parseFloat(getComputedStyle(each).fontSize),
    seen: each.checkVisibility({visibilityProperty: true, opacityProperty: true}) && boxes.length > 0,
    inside: boxes.every(box => box.left >= page.left - 1 && box.right <= page.right + 1 && box.height > 0),
    whole: each.tagName == 'H2' || getComputedStyle(each.parentElement).breakInside == 'avoid',
  }
})"""
CUTS = """() => [...document.querySelectorAll('.glossary, .glossary *')].filter(each => {
  const style = getComputedStyle(each)
  return style.overflow != 'visible' || style.maxHeight != 'none' || style.webkitLineClamp != 'none'
}).length"""


def sides_for(words) -> tuple[int, int]:
    """The fewest and the most sides that these words can take, reckoned from the letters in them.

    Each word begins a line, and its last line is half empty on average; breaks between words cost up to a seventh.
    """
    entries = [f"{each.term}: {each.meaning_in('us')}" for each in words]
    fewest = sum(len(each) for each in entries) / (LETTERS_A_LINE * 1.05)
    most = sum(ceil(len(each) / (LETTERS_A_LINE * 0.85)) + 0.3 for each in entries)
    most += 2 * len({each[0].upper() for each in entries})
    a_side = LINES_A_COLUMN * COLUMNS
    return max(1, floor(fewest / a_side)), ceil(most / a_side)


def test_it_prints_on_as_many_sides_of_a4_as_its_words_need(open_page):
    page = open_page(1280)
    page.goto("/glossary")
    printed = page.pdf(prefer_css_page_size=True)
    fewest, most = sides_for(load_course().glossary.values())
    assert fewest <= len(PAGE.findall(printed)) <= most
    assert most - fewest <= 3, "the two ends are too far apart to tell anything"
    assert {(round(float(wide)), round(float(high))) for wide, high in BOX.findall(printed)} == {A4_POINTS}


def test_each_word_is_printed_whole_in_type_of_eight_points(open_page):
    words = load_course().glossary
    page = open_page(718)  # 190 mm, what is printed on
    page.goto("/glossary")
    page.emulate_media(media="print")
    parts = page.evaluate(PARTS)
    assert [each["text"].rstrip(":") for each in parts if each["tag"] == "DT"] == list(words)
    meanings = [" ".join(each["text"].split()) for each in parts if each["tag"] == "DD"]
    assert meanings == [" ".join(each.meaning_in("us").split()) for each in words.values()]
    assert {round(each["size"] / PIXELS_A_POINT, 2) for each in parts} == {POINTS}
    for kind in ("seen", "inside", "whole"):
        assert [each["text"] for each in parts if not each[kind]] == [], kind
    assert page.evaluate(CUTS) == 0


def test_a_word_in_a_lesson_leads_to_its_place_and_back(open_page, served):
    """Without scripts: the note opens by the browser itself, and both ways are plain links."""
    course = load_course()
    lesson = course.lesson("loads/power")
    term = course.glossary["block speed"]
    html = "".join(block.html for part in read_lesson(lesson, "us") for block in part.blocks if isinstance(block, Html))
    note = re.search(rf'id="(term-{term.slug}-\d+)"', html)[1]
    page = open_page(390, scripts=False)
    Hand(page, Store(served.data)).join("Rurik Abara", "a long pass word 1")
    page.goto(f"/lessons/{lesson.id}")
    page.locator(f'button.term[popovertarget="{note}"]').click()
    way_on = page.locator(f"#{note} a")
    assert way_on.is_visible() and way_on.bounding_box()["height"] >= 24
    way_on.click()
    assert page.url.endswith(f"/glossary#{term.slug}")
    entry = page.locator(f"#{term.slug}")
    assert entry.locator("dd").inner_text().startswith(term.meaning_in("us")[:30])
    entry.get_by_role("link", name=f"Lesson {lesson.number}").click()
    assert page.url.endswith(f"/lessons/{lesson.id}")


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1280])
def test_each_letter_leads_to_its_block_and_is_large_enough_for_a_finger(open_page, width, theme):
    """Without scripts; on a phone the words fill some fifty screens."""
    page = open_page(width, scripts=False, theme=theme)
    page.goto("/glossary")
    row = page.get_by_role("navigation", name="Letters").get_by_role("link")
    firsts = sorted({word[0].upper() for word in load_course().glossary})
    assert row.all_inner_texts() == firsts
    boxes = [each.bounding_box() for each in row.all()]
    assert min(min(each["width"], each["height"]) for each in boxes) >= 44
    assert max(each["x"] + each["width"] for each in boxes) <= width
    row.get_by_text("S", exact=True).click()
    heading = page.get_by_role("heading", name="S", exact=True)
    assert 0 <= heading.bounding_box()["y"] < 120
    page.emulate_media(media="print")
    assert not row.first.is_visible()
