"""Tests of modules as a hand takes them: begun, passed or not, again on the next day, refreshed; what Today says."""

import re
from datetime import timedelta

import pytest

from course import load_course
from tests.webapp.crews import a_crew, a_hand, a_member, a_rig
from tests.webapp.page_browser import words_of
from tests.webapp.sittings import START, bank, right_fields, wrong_fields
from webapp.records import assignments, people, questions, sittings
from webapp.study.drawing_up import QUESTIONS

COURSE = load_course()


@pytest.fixture
def ines(hands):
    """A hand's browser."""
    return hands("Ines Okoro")


def person(house):
    return people.by_name(house, "Ines Okoro").id


def begin(hand, module, **fields):
    """Begin a module's test; its address."""
    return hand.send(f"/tests/{module}/start", **fields).location


@pytest.fixture
def later(hands, clock):
    """later(days=184) turns the clock on and signs her in again: a session does not last for months."""

    def turned(**by):
        clock.forward(**by)
        return hands("Ines Okoro")

    return turned


def newest(house):
    return sittings.of_person(house, person(house))[0]


def take(hand, house, module, wrong=(), **fields):
    """Take a module's test: all right but the items or lessons in `wrong`. The sitting as it is then."""
    at = begin(hand, module, **fields)
    for number, kept in enumerate(questions.of_drill(house, at.rpartition("/")[2]), start=1):
        amiss = {kept.item, bank()[kept.item].lesson} & set(wrong)
        answers = wrong_fields(kept.question) if amiss else right_fields(kept.question)
        assert hand.send(f"{at}/{number}/answer", **answers).status_code == 303
    hand.send(f"{at}/hand-in")
    return newest(house)


def test_the_list_has_each_module_and_says_what_a_test_asks(ines):
    words = words_of(ines.get("/tests").text)
    for module in COURSE.modules:
        assert f"{module.number} {module.title} not taken Take it" in words
    words = words_of(ines.get("/tests/kelly/start").text)
    assert "15 questions. You pass with 12 right." in words
    assert "must all be right" in words
    words = words_of(ines.get("/tests/units/start").text)
    assert "must all be right" not in words  # it has no such item
    assert "You pass with 14 right." in words_of(ines.get("/tests/safety/start").text)


def test_begun_twice_there_is_one(ines, house):
    first = begin(ines, "kelly")
    assert begin(ines, "kelly") == first
    assert len(sittings.of_person(house, person(house))) == 1
    assert "Go on" in words_of(ines.get("/tests/kelly/start").text)
    assert "Go on with the test of module 2" in words_of(ines.get("/today").text)


def test_fifteen_of_every_lesson_with_the_must_pass_item(ines, house):
    begin(ines, "kelly")
    body = newest(house).body
    assert len(body["items"]) == QUESTIONS
    assert body["lessons"] == sorted(lesson.id for lesson in COURSE.module("kelly").lessons)
    assert [each["item"] for each in body["items"] if each["must_pass"]] == ["kelly.string-still-moving"]


def test_passed_before_reading_the_lessons_count_as_passed_and_today_does_not_ask_for_them(ines, house):
    safety = words_of(ines.get("/today").text)
    assert "Read lesson 10.1." in safety
    found = take(ines, house, "safety")
    assert found.passed is True
    assert words_of(ines.get(f"/sittings/{found.id}").text).startswith("Passed")
    words = words_of(ines.get("/today").text)
    assert "Read lesson 10." not in words and "read on 10.1" not in words
    words = words_of(ines.get("/lessons").text)
    assert words.count("passed by test on 2 Mar") == 4
    assert ines.get("/lessons/safety/dropped-objects").status_code == 200


def test_not_passed_shows_only_the_lessons_that_were_missed(ines, house):
    found = take(ines, house, "kelly", wrong=["kelly/slips", "kelly/rotary-table"])
    assert found.passed is False
    study = words_of(ines.get(f"/sittings/{found.id}").text).partition("What to study")[2].partition("The next one")[0]
    assert study.split(" 2.")[1:] == ["3 Rotary table and bushings", "4 Slips "] or (
        "2.3" in study and "2.4" in study and "2.1" not in study and "2.2" not in study
    )
    assert "passed by test" not in words_of(ines.get("/lessons").text)


def test_the_must_pass_item_missed_alone_is_not_passed(ines, house):
    found = take(ines, house, "kelly", wrong=["kelly.string-still-moving"])
    assert (found.result["right"], found.passed) == (14, False)
    assert "not passed yet" in words_of(ines.get("/tests").text)


def test_the_next_one_opens_on_the_next_study_day_and_not_the_same_evening(ines, house, clock):
    take(ines, house, "units", wrong=["units/rating-plate"])
    clock.forward(hours=14)  # 23:00 of the same day
    words = words_of(ines.get("/tests/units/start").text)
    assert "The next one opens on 3 Mar." in words
    assert begin(ines, "units") == "/tests/units/start"
    clock.forward(hours=4, minutes=59)  # 03:59: the study day turns at 04:00
    assert begin(ines, "units") == "/tests/units/start"
    clock.forward(minutes=1)
    assert begin(ines, "units").startswith("/sittings/")
    assert begin(ines, "kelly").startswith("/sittings/")


def test_no_item_of_the_last_test_comes_again_where_there_are_others(ines, house, clock):
    first = {each["item"] for each in take(ines, house, "kelly").body["items"]}
    clock.forward(days=1)
    second = {each["item"] for each in take(ines, house, "kelly").body["items"]}
    assert first & second == {"kelly.string-still-moving"}


def test_a_later_test_that_is_not_passed_undoes_nothing(ines, house, clock):
    take(ines, house, "units")
    clock.forward(days=1)
    take(ines, house, "units", wrong=["units/rating-plate", "units/force-mass-weight"])
    assert "passed on 2 Mar" in words_of(ines.get("/tests").text)


def test_slips_are_refreshed_after_six_months_and_the_rest_after_twelve(ines, house, later):
    take(ines, house, "kelly")
    ines = later(days=183)  # 1 September: the day before
    assert "refresher called for" not in words_of(ines.get("/tests").text)
    ines = later(days=1)
    assert "passed on 2 Mar, refresher called for" in words_of(ines.get("/tests").text)
    assert "Refresher of module 2" in words_of(ines.get("/today").text)
    assert "5 questions." in words_of(ines.get("/tests/kelly/start").text)
    found = take(ines, house, "kelly")
    assert (found.kind, found.body["lessons"], found.passed) == ("refresher", ["kelly/slips"], True)
    assert "refresher called for" not in words_of(ines.get("/tests").text)
    ines = later(days=180)  # 1 March: the day before the slips' next half year, and the others' year
    assert "refresher called for" not in words_of(ines.get("/tests").text)
    ines = later(days=1)
    words = words_of(ines.get("/tests/kelly/start").text)
    assert "15 questions." in words and all(number in words for number in ("2.1", "2.2", "2.3", "2.4"))


def test_a_refresher_that_is_not_passed_is_still_called_for_and_takes_no_pass_away(ines, house, later):
    take(ines, house, "kelly")
    ines = later(days=184)
    assert take(ines, house, "kelly", wrong=["kelly/slips"]).passed is False
    assert "passed on 2 Mar, refresher called for" in words_of(ines.get("/tests").text)


def test_the_whole_test_can_be_taken_where_a_refresher_is_called_for(ines, house, later):
    take(ines, house, "kelly")
    ines = later(days=184)
    assert "15 questions." in words_of(ines.get("/tests/kelly/start?kind=module").text)
    assert take(ines, house, "kelly", kind="module").kind == "module"


def test_what_is_assigned_sets_the_pass_mark(ines, house):
    crew = a_crew(house, a_rig(house))
    a_member(house, crew, "Ines Okoro")
    by = a_hand(house, "Rosalind Achterberg").id
    rest = {"due_by": "date", "due_day": START.date(), "must_pass": True, "made_by": by, "made_at": START}
    assignments.add(house, assignments.new("units", "crew", crew.id, rig_type=None, pass_mark=90, **rest))
    assignments.add(house, assignments.new("units", "rig", crew.rig.id, rig_type="top-drive", pass_mark=100, **rest))
    assert "You pass with 14 right." in words_of(ines.get("/tests/units/start").text)
    begin(ines, "units")
    assert newest(house).pass_mark == 90


@pytest.mark.parametrize("address", ["/tests/nothing/start", "/sittings/nothing", "/sittings/nothing/1"])
def test_what_is_not_there_is_not_found(ines, address):
    assert ines.get(address).status_code == 404


def test_a_place_that_is_not_there_is_not_found(ines):
    at = begin(ines, "units")
    assert ines.get(f"{at}/0").status_code == 404 and ines.get(f"{at}/16").status_code == 404


def test_a_test_begun_in_the_crew_is_told_with_its_day(ines, house, clock):
    """Handed in past midnight, it is of the study day that ran on."""
    at = begin(ines, "units")
    clock.forward(hours=17)
    ines.send(f"{at}/hand-in")
    assert newest(house).handed_in_at == START + timedelta(hours=17)
    assert "2 Mar" in words_of(ines.get(at).text)


def test_the_questions_of_a_result_are_folded_and_what_must_be_right_is_marked_in_its_place(ines, house):
    take(ines, house, "kelly", wrong=["kelly/slips"])
    page = ines.get(f"/sittings/{newest(house).id}").text
    folded = re.findall(r'<details id="question-\d+">\s*<summary>(.*?)</summary>', page, re.DOTALL)
    items = newest(house).body["items"]
    assert len(folded) == len(items) and "<details open" not in page
    assert ["must be right" in each for each in folded] == [each["must_pass"] for each in items]
    assert any(each["must_pass"] for each in items) and not all(each["must_pass"] for each in items)


def test_the_start_page_says_what_keeps_an_answer(ines):
    words = words_of(ines.get("/tests/kelly/start").text)
    assert "Press it before you leave a question." in words and "what you kept is there" in words
