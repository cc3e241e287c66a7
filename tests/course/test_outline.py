"""Faults in the course's files are told with file and line."""

import pytest

from course import CourseError, load_course
from tests.course.conftest import MARKS

HEAD = """title = "A lesson"
number = "1.1"
minutes = 5
terms = ["short ton"]
cautions = []
figure = "x"
sources = ["s"]
"""
BODY = "\n## Part\n\nText.\n"
FILES = {
    "lesson": "modules/01-units/01-first.md",
    "module": "modules/01-units/module.toml",
    "order": "modules/study-order.toml",
    "glossary": "modules/01-units/words.toml",
}


def lesson(old: str = "", new: str = "", body: str = BODY) -> str:
    """A lesson's file with one thing in its front matter changed."""
    assert old in HEAD
    return f"+++\n{HEAD.replace(old, new, 1)}+++\n{body}"


def glossary(meaning: str, lesson: str = "units/first") -> str:
    return f'["short ton"]\nmeaning = "{meaning}"\nlesson = "{lesson}"\n'


FAULTS = {
    "no front matter": ("lesson", "# Title\n", 1, "a lesson starts with a line +++"),
    "front matter open": ("lesson", f"+++\n{HEAD}", 1, "the front matter is not closed"),
    "not TOML": ("lesson", lesson('"1.1"', "1.1.1"), 3, "this can't be read as TOML"),
    "field missing": ("lesson", lesson("minutes = 5\n"), 1, "the field 'minutes' is missing"),
    "field misspelt": ("lesson", lesson("terms", 'source = "x"\nterms'), 5, "'source' is not a field"),
    "text for a number": ("lesson", lesson("= 5", '= "5"'), 4, "'minutes' must be a whole number"),
    "true for a number": ("lesson", lesson("= 5", "= true"), 4, "'minutes' must be a whole number"),
    "empty title": ("lesson", lesson('"A lesson"', '""'), 2, "'title' must be a text"),
    "unknown term": ("lesson", lesson('"short ton"', '"tong"'), 5, "'tong' is not in the glossary"),
    "term twice": ("lesson", lesson('["short ton"]', '["a", "a"]'), 5, "'terms' names something twice"),
    "no sources": ("lesson", lesson('["s"]', "[]"), 8, "the sources are empty"),
    "wrong number": ("lesson", lesson('"1.1"', '"1.2"'), 3, "the number is '1.2', but by its place"),
    "text before the parts": ("lesson", lesson(body="\nHi.\n" + BODY), 11, "text stands before the first"),
    "no part": ("lesson", lesson(body="\n"), 10, "text stands before the first part"),
    "empty part": ("lesson", lesson(body="\n## A\n\n## B\n\nText.\n"), 11, "this part has no title or no text"),
    "part twice": ("lesson", lesson(body=BODY + BODY), 15, "two parts are called 'Part'"),
    "module without title": ("module", "needs = []\n", 1, "the field 'title' is missing"),
    "module needs itself": ("module", f'title = "U"\nneeds = ["units"]\n{MARKS}', 2, "'units' is not another module"),
    "module needs nothing known": ("module", f'title = "U"\nneeds = ["x"]\n{MARKS}', 2, "'x' is not another module"),
    "module not TOML": ("module", 'title = "U"\nneeds = [\n', 2, "this can't be read as TOML"),
    "pass mark missing": ("module", 'title = "U"\nneeds = []\nrefresh_months = 12\n', 1, "the field 'pass_mark' is"),
    "pass mark too low": (
        "module",
        f'title = "U"\nneeds = []\n{MARKS.replace("80", "49")}',
        3,
        "'pass_mark' must be a",
    ),
    "refresher of no lesson": (
        "module",
        f'title = "U"\nneeds = []\n{MARKS}refresh_sooner = {{ x = 6 }}\n',
        5,
        "'x' is not a lesson of this module",
    ),
    "refresher not sooner": (
        "module",
        f'title = "U"\nneeds = []\n{MARKS}refresh_sooner = {{ first = 12 }}\n',
        5,
        "'refresh_sooner' must be like { slips = 6 }, with less than 12",
    ),
    "unknown lesson in order": ("order", '# a\nlessons = ["units/x"]\n', 2, "'units/x' is not a lesson"),
    "lesson without a place": ("order", "lessons = []\n", 1, "the lesson 'units/first' has no place"),
    "term without lesson": ("glossary", '\n["short ton"]\nmeaning = "m"\n', 2, "'short ton' needs just these two"),
    "meaning with unknown unit": ("glossary", glossary("{{=2 pud}}"), 1, "the meaning of 'short ton' can't"),
    "meaning is empty": ("glossary", glossary(""), 1, "the meaning and the lesson of 'short ton'"),
    "term of another lesson": ("glossary", glossary("m", "units/x"), 1, "the lesson 'units/x' is not there"),
}


@pytest.mark.parametrize(("where", "content", "line", "problem"), FAULTS.values(), ids=FAULTS)
def test_a_fault_names_its_file_and_line(small_course, where, content, line, problem):
    folder = small_course(**{FILES[where]: content})
    with pytest.raises(CourseError) as caught:
        load_course(folder)
    file = FILES[where].rsplit("/", 1)[-1]
    assert f"/{file}, line {line}: {problem}" in str(caught.value)
    assert str(caught.value).endswith(".")


def test_what_is_needed_first_is_studied_first(small_course):
    """A module that needs a lesson which the study order puts later is refused, at its needs."""
    second = lesson('"1.1"', '"2.1"').replace('["short ton"]', "[]")
    files = {
        "modules/02-pipe/module.toml": f'title = "Pipe"\nneeds = ["units/first"]\n{MARKS}',
        "modules/02-pipe/01-second.md": second,
        "modules/study-order.toml": 'lessons = ["units/first", "pipe/second"]\n',
    }
    course = load_course(small_course(**files))
    assert [each.id for each in course.lessons] == ["units/first", "pipe/second"]
    assert course.module("pipe").needs == ("units/first",)
    assert course.module("units").minutes == 5
    files["modules/study-order.toml"] = 'lessons = ["pipe/second", "units/first"]\n'
    with pytest.raises(CourseError, match=r"02-pipe/module\.toml, line 2: 'units/first' is needed first"):
        load_course(small_course(**files))


@pytest.mark.parametrize(
    "name", ["modules/01-units/module.toml", "modules/study-order.toml", "modules/01-units/words.toml"]
)
def test_a_missing_file_is_named(small_course, name):
    folder = small_course()
    (folder / name).unlink()
    with pytest.raises(CourseError) as caught:
        load_course(folder)
    assert name.rsplit("/", 1)[-1] in str(caught.value)


def test_a_word_of_two_modules_is_refused(small_course):
    files = {
        "modules/02-pipe/module.toml": f'title = "Pipe"\nneeds = []\n{MARKS}',
        "modules/02-pipe/words.toml": glossary("Two."),
    }
    with pytest.raises(CourseError, match=r"02-pipe/words\.toml, line 1: 'short ton' stands in 01-units too"):
        load_course(small_course(**files))


def test_a_lesson_file_with_another_name_is_refused(small_course):
    folder = small_course(**{"modules/01-units/Second.md": lesson()})
    with pytest.raises(CourseError, match=r"01-units/Second\.md, line 1: a lesson's file is named like"):
        load_course(folder)


def test_the_courses_own_marks_and_refreshers(the_course):
    """As the syllabus has them: 80 in a hundred, 90 where a fault hurts; six months for four lessons, else twelve.

    Common practice, no source; a contractor sets both.
    """
    assert {each.id for each in the_course.modules if each.pass_mark == 90} == {"tripping", "safety"}
    assert {each.pass_mark for each in the_course.modules} == {80, 90}
    months = {lesson: number for module in the_course.modules for lesson, number in module.refreshers.items()}
    assert {lesson for lesson, number in months.items() if number == 6} == {
        "kelly/slips",
        "tripping/make-up-torque",
        "tripping/well-control-readiness",
        "safety/collision-protection",
    }
    assert len(months) == 37 and set(months.values()) == {6, 12}
