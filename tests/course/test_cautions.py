"""Each caution stands where its hazard is taught and asked.

Which lessons a caution belongs to was planned before they were written, from what hurts people there; a lesson may show
more. Source: the course's own plan, common practice.
"""

import pytest

from course import load_course
from question_bank import load_bank
from question_bank.cautions import cautions

BELONGS = {
    "C-01": "1.2 1.3 5.2 6.2",
    "C-02": "2.3 2.4 3.2 4.1 4.2 4.3 6.1 6.4 7.1 9.1 9.2 10.1",
    "C-03": "4.1 4.2",
    "C-04": "2.4 4.1 4.3",
    "C-05": "2.2 3.3 4.1 4.3 4.4 9.2 9.3",
    "C-06": "2.1 3.1 3.2 4.3 5.1 5.3 6.3 6.4 7.4 9.1 10.1 10.4",
    "C-07": "4.3 5.2 5.3 10.4",
    "C-08": "2.1 2.3 3.1 3.2 6.1 6.2 7.4 10.2",
    "C-09": "3.4 4.3 5.3 6.2 6.3 7.4 8.4 10.3",
    "C-10": "1.1 1.2 1.3 3.1 5.2 6.3 6.4 7.2 8.1 8.2 8.3 8.4 9.1 10.4",
    "C-11": "6.1 7.1 7.2 7.3 7.4 8.2 10.4",
    "C-12": "2.1 2.2 3.2 3.3 4.1 10.2",
    "C-13": "5.1",
    "C-14": "3.4 4.3 8.1 8.2",
}
BY_NUMBER = {each.number: each for each in load_course().lessons}
PLACES = [
    pytest.param(id, number, id=f"{id} in {number}") for id, numbers in BELONGS.items() for number in numbers.split()
]


@pytest.fixture(scope="module")
def items():
    return list(load_bank().values())


def test_there_are_fourteen():
    assert list(cautions()) == [f"C-{at:02}" for at in range(1, 15)] == list(BELONGS)


def test_each_number_of_the_plan_is_a_lesson():
    assert {number for numbers in BELONGS.values() for number in numbers.split()} <= set(BY_NUMBER)


@pytest.mark.parametrize("id", BELONGS)
def test_it_stands_in_a_lesson_and_beside_a_question(items, id):
    assert any(f"!caution {id}" in part.markdown for each in BY_NUMBER.values() for part in each.parts)
    assert any(each.caution == id for each in items)


@pytest.mark.parametrize(("id", "number"), PLACES)
def test_it_stands_where_its_hazard_is_taught(id, number):
    assert id in BY_NUMBER[number].cautions


@pytest.mark.parametrize("number", BY_NUMBER)
def test_what_a_lesson_warns_of_is_asked_with_it(items, number):
    """At least one of a lesson's cautions stands beside one of its own questions too."""
    lesson = BY_NUMBER[number]
    assert set(lesson.cautions) & {each.caution for each in items if each.lesson == lesson.id}
