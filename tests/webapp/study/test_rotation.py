"""The rotation: days on and off counted on a calendar by hand."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.study.rotation import (
    Rotation,
    day_of_hitch,
    days_between,
    every_day,
    last_day_of_hitch,
    minutes_of,
    on_nights,
    on_the_rig,
)

# By hand: a hitch from Monday 2 to Sunday 15 March 2026, nights from its 8th day, Monday 9; off to Sunday 29 March.
MARCH = Rotation(14, 14, date(2026, 3, 2), 12, 30, nights_from=8, exceptions={date(2026, 3, 16): 0})

rotations = st.builds(
    lambda on, off, nights, first: Rotation(on, off, first, 10, 25, nights and min(nights, on)),
    st.integers(1, 30),
    st.integers(0, 30),
    st.none() | st.integers(1, 30),
    st.dates(date(2025, 1, 1), date(2027, 1, 1)),
)
days = st.dates(date(2025, 1, 1), date(2028, 1, 1))


@pytest.mark.parametrize(
    ("day", "place", "nights", "ends", "minutes"),
    [
        (date(2026, 3, 1), None, False, date(2026, 3, 15), 30),
        (date(2026, 3, 2), 1, False, date(2026, 3, 15), 12),
        (date(2026, 3, 8), 7, False, date(2026, 3, 15), 12),
        (date(2026, 3, 9), 8, True, date(2026, 3, 15), 12),
        (date(2026, 3, 15), 14, True, date(2026, 3, 15), 12),
        (date(2026, 3, 16), None, False, date(2026, 4, 12), 0),
        (date(2026, 3, 29), None, False, date(2026, 4, 12), 30),
        (date(2026, 3, 30), 1, False, date(2026, 4, 12), 12),
        (date(2026, 4, 6), 8, True, date(2026, 4, 12), 12),
    ],
)
def test_a_hitch_on_the_calendar(day, place, nights, ends, minutes):
    """Counted by hand on the calendar of March and April 2026."""
    assert day_of_hitch(MARCH, day) == place
    assert on_the_rig(MARCH, day) is (place is not None)
    assert on_nights(MARCH, day) is nights
    assert last_day_of_hitch(MARCH, day) == ends
    assert minutes_of(MARCH, day) == minutes


def test_the_days_between_two_days():
    assert list(days_between(date(2026, 2, 28), date(2026, 3, 2))) == [date(2026, 2, 28), date(2026, 3, 1)]
    assert list(days_between(date(2026, 3, 5), date(2026, 3, 2))) == []


def test_the_minutes_of_four_weeks():
    """By hand: 14 × 12 on, none on the day of travel, 13 × 30 off."""
    four_weeks = days_between(date(2026, 3, 2), date(2026, 3, 30))
    assert sum(minutes_of(MARCH, day) for day in four_weeks) == 14 * 12 + 13 * 30


def test_a_hand_without_a_rotation_has_the_same_minutes_every_day():
    assert {minutes_of(every_day(15), day) for day in days_between(date(2026, 3, 2), date(2026, 3, 12))} == {15}
    assert not on_nights(every_day(15), date(2026, 3, 2))


@pytest.mark.parametrize(
    "change",
    [
        {"days_on": 0}, {"days_on": 400}, {"days_off": -1}, {"nights_from": 0}, {"nights_from": 15},
        {"minutes_on": -1}, {"minutes_off": 1441}, {"minutes_on": float("nan")},
        {"exceptions": {date(2026, 3, 2): -5}},
    ],
)  # fmt: skip
def test_what_can_not_be_is_refused(change):
    fields = {"days_on": 14, "days_off": 14, "first_day": date(2026, 3, 2), "minutes_on": 12, "minutes_off": 30}
    with pytest.raises(ValueError, match="not"):
        Rotation(**(fields | change))


@given(rotations, days)
def test_the_last_day_of_a_hitch_is_on_and_the_next_is_not(rotation, day):
    """The hitch that runs on or begins next: its last day is on; no day between goes off and comes on again."""
    last = last_day_of_hitch(rotation, day)
    assert last >= day
    assert day_of_hitch(rotation, last) == rotation.days_on
    assert rotation.days_off == 0 or not on_the_rig(rotation, last + timedelta(1))
    turns = [on_the_rig(rotation, each) for each in days_between(day, last + timedelta(1))]
    assert turns == sorted(turns)
