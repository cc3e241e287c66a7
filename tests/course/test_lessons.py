"""Every lesson that ships, held to the rules of its trade: length, notation, questions, cautions, figures, sources."""

import re

import pytest

from course import load_course
from course.reading_room import CautionHere, FigureHere, Html, QuestionHere, read_lesson
from question_bank import load_bank
from question_bank.cautions import caution
from question_bank.figures import figure
from question_bank.quantities_in_text import MARK

LESSONS = [pytest.param(each, id=each.id) for each in load_course().lessons]
ALONE = re.compile(r"(\?\[|!\[|!caution|\|---)")
TERM = re.compile(r"\[\[(?:[^\]|]+\|)?([^\]|]+)\]\]")
every_lesson = pytest.mark.parametrize("lesson", LESSONS)


@pytest.fixture(scope="module")
def bank():
    return load_bank()


def paragraphs(lesson) -> list[str]:
    """Paragraphs as read: a quantity counts as one word, a list item or a table row as a paragraph of its own."""
    found = []
    for part in lesson.parts:
        lines = [line for line in part.markdown.split("\n") if not ALONE.match(line)]
        text = TERM.sub(r"\1", MARK.sub("quantity", "\n".join(lines)))
        found += [each for each in re.split(r"\n\s*\n|\n(?=\d+\. |- |\|)", text) if each.strip()]
    return found


def blocks(lesson, kind: type, system: str = "us") -> list:
    return [block for part in read_lesson(lesson, system) for block in part.blocks if isinstance(block, kind)]


def test_the_whole_course_is_there(the_course):
    """Ten modules, and 37 lessons with a figure of its own each."""
    assert [each.number for each in the_course.modules] == list(range(1, 11))
    assert len({each.id for each in the_course.lessons}) == len({each.figure for each in the_course.lessons}) == 37
    assert the_course.lesson("kelly/slips").number == "2.4"
    assert the_course.lessons[0].id == "safety/dropped-objects"
    assert [each.lesson for each in map(the_course.glossary.get, ["tonne", "tether"])] == [
        "units/force-mass-weight", "safety/dropped-objects"
    ]  # fmt: skip
    with pytest.raises(KeyError):
        the_course.lesson("units/no-such-lesson")


@every_lesson
@pytest.mark.parametrize("comma", [False, True])
@pytest.mark.parametrize("system", ["us", "metric"])
def test_it_can_be_read_in_both_systems(lesson, system, comma):
    page = read_lesson(lesson, system, comma)
    assert [each.slug for each in page] == [each.slug for each in lesson.parts]
    html = "".join(block.html for part in page for block in part.blocks if isinstance(block, Html))
    ids = re.findall(r' id="([^"]+)"', html)
    assert len(ids) == len(set(ids)), "an id stands twice on the page"
    assert sorted(ids) == sorted(re.findall(r'popovertarget="([^"]+)" popovertargetaction="hide"', html))
    assert sorted(ids) == sorted(re.findall(r'class="term" popovertarget="([^"]+)"', html))


@every_lesson
def test_its_length_and_its_parts(lesson):
    words = sum(len(each.split()) for each in paragraphs(lesson))
    assert 600 <= words <= 1000, f"{lesson.id} has {words} words"
    assert 4 <= len(lesson.parts) <= 6


@every_lesson
def test_no_paragraph_is_long(lesson):
    long = [each[:60] for each in paragraphs(lesson) if len(each.split()) > 90]
    assert not long


@every_lesson
def test_every_quantity_is_in_the_notation(lesson, stray_quantities):
    written = [lesson.title, *(each.title for each in lesson.parts), *(each.markdown for each in lesson.parts)]
    text = re.sub(r"^\d+\. |^\?\[.*\]$|^!caution .*$", "", "\n".join(written), flags=re.MULTILINE)
    assert stray_quantities(text) == []


def test_the_search_for_stray_quantities_finds_them(stray_quantities):
    for text in ("lift 250 klbf now", "a 4 lb hammer", "12 000 kg", "90-foot fall", "2.5 times", "5½ in pipe", "9 %"):
        assert stray_quantities(text), text
    for text in ("{{250 klbf}} and {{=4.448}}", "Step 4 has a trap", "10 lines", "C-10 is posted", "in 12 minutes"):
        assert not stray_quantities(text), text


@every_lesson
def test_each_system_has_its_own_number_first(lesson):
    def pairs(system):
        html = "".join(each.html for each in blocks(lesson, Html, system))
        spans = [re.fullmatch(r"(.+) \((.+)\)", each) for each in re.findall(r'class="quantity">([^<]+)<', html)]
        return [each.groups() for each in spans if each]

    us, metric = pairs("us"), pairs("metric")
    assert us and len(us) == len(metric)
    assert us == [(second, first) for first, second in metric]


@every_lesson
def test_its_questions_are_in_the_bank_and_belong_to_it(lesson, bank):
    asked = [each.item for each in blocks(lesson, QuestionHere)]
    assert len(asked) >= 3 and len(asked) == len(set(asked))
    assert [bank[each].lesson for each in asked] == [lesson.id] * len(asked)


@every_lesson
def test_the_bank_has_enough_items_for_it(lesson, bank):
    kinds = [bank[each].kind for each in bank if bank[each].lesson == lesson.id]
    assert len(kinds) >= 6 and len(set(kinds)) >= 3


@every_lesson
def test_its_cautions_stand_in_the_text(lesson):
    shown = [each.id for each in blocks(lesson, CautionHere)]
    # The same caution may stand beside two hazards of one lesson, as in 5.1: a floor that rises, and a mast.
    assert shown and set(shown) == set(lesson.cautions)
    assert all(caution(each).text for each in shown)


@every_lesson
def test_its_figure_stands_in_the_text(lesson):
    assert [each.id for each in blocks(lesson, FigureHere)] == [lesson.figure]
    assert figure(lesson.figure).svg


@every_lesson
def test_each_of_its_words_opens_in_the_text(lesson, the_course):
    html = "".join(each.html for each in blocks(lesson, Html))
    slugs = {word: the_course.glossary[word].slug for word in lesson.terms}
    closed = [word for word in lesson.terms if f'popovertarget="term-{slugs[word]}-' not in html]
    # An exclusion zone, say, may be taught in a list; but each word that a lesson teaches has to be opened there once.
    assert closed == []


@every_lesson
def test_its_sources_are_honest(lesson):
    """A fact without a source says so, and nothing is claimed to have been read that was not."""
    assert any("common practice, no source" in each for each in lesson.sources)
