"""The hands-on tasks: as many as the training programme asks for, in plain words, and faults told with their line."""

import pytest

from course import CourseError, load_course
from tests.course.reading_grade import GRADE, grade

# By hand from the training programme that this course serves (its list of observed behaviours; common practice, no
# published source): task, observations for derrickhand, observations for assistant driller on top, and * for those
# that one fault ends.
ASKED = """
1.1 1 0, 1.2 1 0, 1.3 0 1
2.1 1 0, 2.2 1 0, 2.3 2 0 *, 2.4 1 0, 2.5 1 0
3.1 1 0, 3.2 1 0, 3.3 0 1, 3.4 0 2, 3.5 0 1 *
4.1 3 0, 4.2 2 0 *, 4.3 1 0, 4.4 1 0, 4.5 1 0 *, 4.6 0 1, 4.7 0 1
5.1 1 0 *, 5.2 1 0 *, 5.3 1 0, 5.4 1 0, 5.5 0 1
6.1 1 0, 6.2 0 1 *, 6.3 2 0 *, 6.4 0 1, 6.5 0 1
7.1 1 0, 7.2 0 1, 7.3 0 1, 7.4 1 1 *
8.1 0 1, 8.2 0 1, 8.3 0 1
9.1 1 0, 9.2 1 0, 9.3 1 0, 9.4 0 1
10.1 1 0, 10.2 1 0 *, 10.3 0 1 *, 10.4 1 0, 10.5 1 0, 10.6 1 0
"""
# Slips, tongs, readiness while tripping and collision protection are seen again after half a year, by the same source.
SIX_MONTHS = {"S-2.3", "S-2.4", "S-4.2", "S-4.4", "S-4.5", "S-4.6", "S-10.3"}

GOOD = """["S-1.1"]
module = "units"
title = "Read the dials"
points = ["Reads one.", "Reads two.", "Reads three."]
times = { a = 1 }
cautions = ["C-10"]
months = 12
"""


def test_the_tasks_are_those_that_are_asked_for(the_course):
    asked = [each.split() for each in ASKED.replace("\n", ",").split(",") if each.strip()]
    wanted = {f"S-{number}": (int(a), int(b), stop == ["*"]) for number, a, b, *stop in asked}
    assert len(wanted) == 47
    found = {id: (each.times_a, each.times_b, each.stop is not None) for id, each in the_course.tasks.items()}
    assert found == wanted
    assert list(found) == list(wanted)


def test_what_is_seen_again_after_half_a_year(the_course):
    assert {each.id for each in the_course.tasks.values() if each.months == 6} == SIX_MONTHS
    assert {each.months for each in the_course.tasks.values()} == {6, 12}


def test_the_kelly_and_the_top_drive_have_tasks_of_their_own(the_course):
    tasks = the_course.tasks.values()
    assert [each.id for each in tasks if not each.fits("top-drive")] == ["S-2.1"]
    assert {each.module for each in tasks if not each.fits("kelly")} == {"top-drive"}


def test_an_exam_asks_for_its_own_times_and_those_of_the_one_below(the_course):
    slip = the_course.tasks["S-7.4"]
    brake = the_course.tasks["S-6.2"]
    assert [slip.times(paper) for paper in ("a", "b", None)] == [1, 2, 1]
    assert [brake.times(paper) for paper in ("a", "b", None)] == [0, 1, 1]


def test_what_can_hurt_has_its_caution(the_course):
    """By hand: what the task deals with, and the caution that the course has for that."""
    wanted = {"S-2.3": "C-04", "S-4.2": "C-03", "S-5.1": "C-07", "S-6.2": "C-09", "S-7.4": "C-11", "S-10.2": "C-08"}
    wanted |= {"S-2.1": "C-12", "S-4.5": "C-05", "S-3.1": "C-06", "S-8.2": "C-14", "S-1.2": "C-10", "S-3.5": "C-08"}
    assert [id for id, caution in wanted.items() if caution not in the_course.tasks[id].cautions] == []


def test_its_words_are_plain(the_course, stray_quantities):
    for task in the_course.tasks.values():
        texts = [task.title, *task.points, task.stop or ""]
        assert [found for text in texts for found in stray_quantities(text)] == []
        assert grade(" ".join([*task.says("us"), task.stop or ""])) <= GRADE, task.id
        assert max(len(text.split()) for text in texts) <= 20, task.id


def test_its_quantities_are_shown_in_both_systems(the_course):
    assert [text for text in the_course.tasks["S-2.2"].says("metric") if "{{" in text] == []
    assert "within 20 s of" in the_course.tasks["S-2.2"].says("us")[0]


@pytest.mark.parametrize(
    ("old", "new", "problem"),
    [
        pytest.param('"S-1.1"', '"1.1"', "'1.1' is no task", id="name"),
        pytest.param("months = 12\n", "", "it needs cautions, module, months", id="field missing"),
        pytest.param("months", "month", "It has cautions, module, month, ", id="field misspelt"),
        pytest.param('"units"', '"pipe"', "the module 'pipe' is not there", id="unknown module"),
        pytest.param('"S-1.1"', '"S-2.1"', "the module 'units' is not there or is not number 2", id="other module"),
        pytest.param('"Reads three."', '"Reads two."', "3 to 6 points, none of them twice", id="point twice"),
        pytest.param('"Read the dials"', '" "', "must be texts in quotes", id="no title"),
        pytest.param('"Reads one."', '"Lifts {{3 pud}}."', "can't be shown", id="unknown unit"),
        pytest.param("{ a = 1 }", "{ c = 1 }", "times must be like", id="unknown exam"),
        pytest.param("{ a = 1 }", "{ a = 0 }", "times must be like", id="no times"),
        pytest.param("{ a = 1 }", "{ a = true }", "times must be like", id="true for a number"),
        pytest.param("months = 12", 'months = 12\nrig_type = "barge"', "rig_type must be one of", id="rig type"),
        pytest.param("months = 12", "months = 3", "months must be one of 6, 12", id="months"),
        pytest.param('["C-10"]', '["C-99"]', "cautions must be a list of", id="caution"),
        pytest.param('["C-10"]', "[]", "cautions must be a list of", id="no caution"),
    ],
)
def test_a_fault_names_its_file_and_line(small_course, old, new, problem):
    assert old in GOOD
    folder = small_course(**{"tasks.toml": "# The tasks.\n" + GOOD.replace(old, new, 1)})
    with pytest.raises(CourseError) as caught:
        load_course(folder)
    assert "/tasks.toml, line 2: " in str(caught.value)
    assert problem in str(caught.value)


def test_tasks_come_in_the_order_of_their_numbers(small_course):
    text = GOOD.replace("1.1", "1.10") + GOOD.replace("1.1", "1.2")
    assert list(load_course(small_course(**{"tasks.toml": text})).tasks) == ["S-1.2", "S-1.10"]


def test_a_course_without_its_tasks_is_refused(small_course):
    folder = small_course()
    (folder / "tasks.toml").unlink()
    with pytest.raises(CourseError, match="the hands-on tasks are missing"):
        load_course(folder)
