"""Minutes left against minutes there are, counted by hand for a hitch of 14 days on and 14 off from Monday 2 March."""

import itertools
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.study.pace import (
    Load,
    Minutes,
    added_up,
    days_for_an_exam,
    exam_day_fault,
    fits_by,
    hours,
    minutes_ahead,
    pace,
    say,
    short,
)
from webapp.study.rotation import Rotation

MARCH = Rotation(14, 14, date(2026, 3, 2), 15, 15, nights_from=8)
TODAY = date(2026, 3, 2)


@pytest.mark.parametrize(
    ("day", "on", "off"),
    [
        (date(2026, 3, 2), 15, 0),
        (date(2026, 3, 15), 14 * 15, 0),
        (date(2026, 3, 16), 14 * 15, 15),
        (date(2026, 3, 30), 15 * 15, 14 * 15),
    ],
)
def test_the_minutes_until_a_day_count_today_and_that_day(day, on, off):
    assert next(itertools.islice(minutes_ahead(MARCH, TODAY), (day - TODAY).days, None)) == Minutes(on, off)


@pytest.mark.parametrize(
    ("left", "verdict"), [(0, "enough"), (60, "enough"), (61, "tight"), (100, "tight"), (100.5, "not enough")]
)
def test_what_fits_only_with_days_off_is_tight(left, verdict):
    assert pace(left, Minutes(60, 40)).verdict == verdict


def test_in_a_cell_it_is_said_short():
    assert short(pace(601, Minutes(180, 45))) == "needs 10½ hours, has 3½ hours"
    assert short(pace(29.2, Minutes(10.9, 4))) == "needs 30 minutes, has 14 minutes"


@pytest.mark.parametrize(
    ("loads", "day"),
    [
        pytest.param([Load("a", 45, TODAY)], date(2026, 3, 4), id="three days of a quarter of an hour"),
        pytest.param([Load("a", 0, TODAY)], TODAY, id="nothing left"),
        pytest.param(
            [Load("a", 45, TODAY), Load("b", 30, date(2026, 3, 3))], date(2026, 3, 6), id="what is due before"
        ),
        pytest.param([Load("a", 45, TODAY), Load("b", 30, date(2026, 3, 5))], date(2026, 3, 4), id="with one after"),
        pytest.param([Load("a", 15 * 400, TODAY)], None, id="not within what is looked at"),
    ],
)
def test_the_day_by_which_it_fits_is_the_first_that_has_the_minutes(loads, day):
    """Counted by hand: 15 minutes a day from 2 March on."""
    ahead = itertools.islice(minutes_ahead(MARCH, TODAY), 365)
    assert fits_by(loads, {"a"}, ahead, TODAY) == day


def test_nothing_left_is_always_enough():
    assert pace(0, Minutes(0, 0)).verdict == "enough"


def test_each_verdict_is_said_in_words():
    assert (
        say(pace(50, Minutes(60, 40))) == "About 50 minutes of study are left, and the days on the rig give 60 minutes."
    )
    assert "fits only with days off (40 minutes)" in say(pace(70, Minutes(60, 40)))
    assert say(pace(400, Minutes(180, 45))) == (
        "About 7 hours of study are left, and there are only 3½ hours until then, days off counted in."
    )


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        (0, "0 minutes"),
        (1, "1 minute"),
        (119, "119 minutes"),
        (120, "2 hours"),
        (150, "2½ hours"),
        (1000, "16½ hours"),
        (119.9, "119 minutes"),
    ],
)
def test_minutes_are_said_as_people_say_them(minutes, words):
    assert hours(minutes) == words


def test_what_is_left_is_rounded_up_and_what_there_is_down():
    """So that a sentence never makes a plan look better than it is."""
    assert (hours(200), hours(200, up=True)) == ("3 hours", "3½ hours")
    assert (hours(40.5), hours(40.5, up=True)) == ("40 minutes", "41 minutes")


def test_what_is_due_no_later_is_added():
    first, second, third = Load("a", 60, TODAY), Load("b", 30, TODAY + timedelta(9)), Load("c", 5, TODAY)
    assert added_up([second, first, third]) == [(first, 65), (third, 65), (second, 95)]


@pytest.mark.parametrize(
    ("day", "fault"),
    [
        (date(2026, 3, 8), None),
        (date(2026, 3, 9), "nights"),
        (date(2026, 3, 15), "nights"),
        (date(2026, 3, 16), "off"),
        (date(2026, 3, 30), None),
    ],
)
def test_an_exam_on_nights_or_off_the_rig_is_told(day, fault):
    assert exam_day_fault(MARCH, day) == fault


def test_the_syllabus_own_case():
    """Crew A of the demo: days 56 to 69 on the rig, nights from its 8th day. Day 68 is on nights, day 62 is not."""
    rotation = Rotation(14, 14, TODAY, 15, 15, nights_from=8)
    day = [TODAY + timedelta(number) for number in range(120)]
    assert exam_day_fault(rotation, day[68]) == "nights"
    assert exam_day_fault(rotation, day[61]) is None
    assert days_for_an_exam(rotation, day[68], TODAY) == (day[62], day[84])


def test_no_day_before_today_is_offered():
    assert days_for_an_exam(MARCH, date(2026, 3, 12), date(2026, 3, 10)) == (None, date(2026, 3, 30))


def test_a_crew_that_works_no_days_on_days_has_no_such_day():
    nights_only = Rotation(14, 14, TODAY, 15, 15, nights_from=1)
    assert days_for_an_exam(nights_only, TODAY, TODAY) == (None, None)


amounts = st.floats(0, 5000)


@given(amounts, amounts, amounts, amounts)
def test_less_to_study_is_never_worse(left, less, on, off):
    order = ("enough", "tight", "not enough")
    less = min(left, less)
    there_is = Minutes(on, off)
    assert order.index(pace(less, there_is).verdict) <= order.index(pace(left, there_is).verdict)


@given(st.dates(date(2026, 1, 1), date(2027, 1, 1)), st.integers(0, 200))
def test_a_later_day_never_gives_fewer_minutes(today, days):
    here, later = itertools.islice(minutes_ahead(MARCH, today), days, days + 2)
    assert here.on <= later.on and here.off <= later.off
    assert later.on + later.off == pytest.approx(here.on + here.off + 15)
