"""Rotation and exam: when a hand is on the rig, what minutes a day has, and the day that it all has to stand."""

from datetime import date, timedelta

import pytest

from tests.webapp.page_browser import words_of
from webapp.records import crews, exams, people, rotations
from webapp.study.rotation import minutes_of, on_nights

HITCH = {"days_on": "14", "days_off": "14", "first_day": "2026-03-02", "nights_from": "8"}
OWN = {"rotation": "own", "minutes": "20", "minutes_off": "5", **HITCH}


@pytest.fixture
def hand(hands):
    return hands("Ines Okoro")


def rotation(house):
    return rotations.of_person(house, people.by_name(house, "Ines Okoro"))


def test_a_hand_who_tells_nothing_has_the_same_minutes_every_day(hand, house):
    assert {minutes_of(rotation(house), date(2026, 3, 1) + timedelta(day)) for day in range(60)} == {15}


def test_a_rotation_of_ones_own_decides_the_minutes_and_the_nights(hand, house):
    saved = hand.send("/settings/plan", **OWN)
    page = hand.follow(saved)
    assert "Your plan is saved." in words_of(page.text)
    assert all(f'value="{value}"' in page.text for value in HITCH.values())
    kept = rotation(house)
    assert [minutes_of(kept, date(2026, 3, day)) for day in (2, 15, 16, 29, 30)] == [20, 20, 5, 5, 20]
    assert [on_nights(kept, date(2026, 3, day)) for day in (8, 9, 15, 16)] == [False, True, True, False]


def test_no_rotation_again(hand, house):
    hand.send("/settings/plan", **OWN)
    hand.send("/settings/plan", rotation="none", minutes="30")
    assert minutes_of(rotation(house), date(2026, 3, 20)) == 30


@pytest.mark.parametrize(
    ("field", "typed"),
    [
        ("minutes", "0"), ("minutes", "soon"), ("minutes_off", "-1"), ("days_on", "0"), ("days_off", "400"),
        ("first_day", "tomorrow"), ("first_day", ""), ("nights_from", "15"), ("rotation", "weekly"),
    ],
)  # fmt: skip
def test_what_can_not_be_taken_is_told_and_kept_in_the_form(hand, house, field, typed):
    page = hand.send("/settings/plan", **OWN | {field: typed})
    assert page.status_code == 422
    assert "needs mending" in words_of(page.text)
    assert field == "rotation" or f'value="{typed}"' in page.text
    assert rotations.own(house, people.by_name(house, "Ines Okoro")) is None


def test_a_hand_of_a_crew_goes_by_its_rotation_and_may_tell_another(hand, house, clock):
    ines = people.by_name(house, "Ines Okoro")
    rig = crews.add_rig(house, "Quillwater 7", "kelly", ines.id, clock())
    crew = crews.add_crew(
        house, rig, "crew A", days_on=7, days_off=7, first_day=date(2026, 3, 2), nights_from=None,
        by=ines.id, now=clock(),
    )  # fmt: skip
    crews.join(house, ines, crew.id, "floorhand", clock())
    page = hand.get("/settings/plan")
    assert "Quillwater 7, crew A: 7 days on, 7 off" in words_of(page.text)
    hand.send("/settings/plan", rotation="crew", minutes="20", minutes_off="0")
    assert [minutes_of(rotation(house), date(2026, 3, day)) for day in (8, 9)] == [20, 0]
    hand.send("/settings/plan", rotation="none", minutes="20")
    assert [minutes_of(rotation(house), date(2026, 3, day)) for day in (8, 9)] == [20, 20]
    assert 'value="none" checked' in hand.get("/settings/plan").text


def test_a_single_day_is_otherwise_until_it_is_taken_away(hand, house, clock):
    day = clock().date() + timedelta(3)
    page = hand.follow(hand.send("/settings/plan/day", day=day.isoformat(), day_minutes="0"))
    assert "Take away" in words_of(page.text)
    assert minutes_of(rotation(house), day) == 0
    hand.send("/settings/plan/day", day=day.isoformat(), forget="yes")
    assert minutes_of(rotation(house), day) == 15


@pytest.mark.parametrize(
    ("day", "minutes"), [("2020-01-01", "10"), ("", "10"), ("2026-02-30", "10"), ("2030-01-01", "x")]
)
def test_a_single_day_that_can_not_be_taken(hand, house, day, minutes):
    assert hand.send("/settings/plan/day", day=day, day_minutes=minutes).status_code == 422
    assert rotations.single_days(house, people.by_name(house, "Ines Okoro").id) == {}


def test_the_day_of_the_exam_is_set_and_taken_back(hand, house, clock):
    ines = people.by_name(house, "Ines Okoro")
    day = clock().date() + timedelta(60)
    hand.send("/settings/plan/exam", exam_day=day.isoformat(), paper="b")
    kept = exams.of_people(house, [ines.id])[ines.id]
    assert (kept.day, kept.paper, kept.set_by) == (day, "b", ines.id)
    clock.forward(seconds=1)
    hand.send("/settings/plan/exam", exam_day="", paper="b")
    assert exams.of_people(house, [ines.id]) == {}


@pytest.mark.parametrize(("day", "paper"), [("2020-01-01", "a"), ("soon", "a"), ("2030-01-01", "c")])
def test_an_exam_day_that_can_not_be_taken(hand, house, day, paper):
    assert hand.send("/settings/plan/exam", exam_day=day, paper=paper).status_code == 422
    assert exams.of_people(house, [people.by_name(house, "Ines Okoro").id]) == {}
