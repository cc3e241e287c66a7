"""Where the lines of the forecast's plot lie. Each place is worked out by hand from the field's corners."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.study.forecast import Day
from webapp.study.forecast_plot import BOTTOM, LEFT, RIGHT, TOP, plot, told, x_of, y_of
from webapp.study.readiness import Mark
from webapp.study.rotation import Rotation, every_day, on_the_rig

FIRST = date(2026, 3, 2)
NOW = Mark(0.4, 0.3, 0.5)


def days(number: int, about: float = 0.6) -> list[Day]:
    """So many days with one and the same mark."""
    mark = Mark(about, about - 0.1, about + 0.1)
    return [Day(FIRST + timedelta(each), mark) for each in range(number)]


def test_the_corners_of_the_field():
    """By hand: the field is 250 wide and 154 high, from (34, 30) to (284, 184)."""
    assert (x_of(0, 10), x_of(5, 10), x_of(10, 10)) == (34, 159, 284)
    assert (y_of(0), y_of(0.5), y_of(1)) == (184, 107, 30)


def test_the_line_begins_now_and_ends_on_the_day_of_the_exam():
    found = plot(NOW, days(2), every_day(10), 0.75)
    assert found.line == "34.0,122.4 159.0,91.6 284.0,91.6"
    assert found.band == "159.0,76.2 284.0,76.2 284.0,107.0 159.0,107.0"
    assert (found.now, found.end, found.pass_mark) == (122.4, 91.6, 68.5)


def test_the_exam_tomorrow_has_a_line_too():
    found = plot(NOW, days(1), every_day(10), 0.75)
    assert found.line == "34.0,122.4 284.0,91.6"
    assert [tick.day for tick in found.ticks] == [FIRST, FIRST + timedelta(1)]


def test_the_dates_are_today_the_middle_and_the_exam():
    ticks = plot(NOW, days(20), every_day(10), 0.75).ticks
    assert [(tick.x, tick.day) for tick in ticks] == [
        (34, FIRST), (159, FIRST + timedelta(10)), (284, FIRST + timedelta(20)),
    ]  # fmt: skip


@pytest.mark.parametrize(("now", "over"), [(0.4, True), (0.75, False), (0.9, False)])
def test_the_words_of_the_pass_mark_stand_clear_of_the_line(now, over):
    found = plot(Mark(now, now, now), days(5), every_day(10), 0.75)
    assert (found.pass_words < found.pass_mark) is over


def test_the_hitches_by_hand():
    """2 on and 3 off from the second day of 10: days 1, 2, 6 and 7 of 0 to 9, each 25 wide."""
    rotation = Rotation(2, 3, FIRST + timedelta(1), 10, 10)
    assert plot(NOW, days(10), rotation, 0.75).hitches == ((59, 50), (184, 50))


def test_a_hitch_that_runs_on_ends_with_the_plot():
    assert plot(NOW, days(10), Rotation(14, 14, FIRST, 10, 10), 0.75).hitches == ((34, 250),)


def test_no_rotation_no_strip():
    assert plot(NOW, days(10), every_day(10), 0.75).hitches == ()


@given(st.integers(1, 120), st.integers(1, 30), st.integers(1, 30), st.integers(0, 60))
def test_the_strip_is_as_long_as_the_days_on_the_rig(number, on, off, before):
    rotation = Rotation(on, off, FIRST - timedelta(before), 10, 10)
    found = plot(NOW, days(number), rotation, 0.75)
    share = sum(on_the_rig(rotation, FIRST + timedelta(each)) for each in range(number)) / number
    assert sum(width for _, width in found.hitches) == pytest.approx(share * (RIGHT - LEFT), abs=0.2 * number)
    assert all(x >= LEFT and x + width <= RIGHT + 0.05 for x, width in found.hitches)


@given(st.lists(st.floats(0, 1), min_size=1, max_size=90), st.floats(0, 1), st.floats(0, 1))
def test_nothing_is_drawn_outside_the_field(marks, now, pass_mark):
    ahead = [Day(FIRST + timedelta(at), Mark(each, each, each)) for at, each in enumerate(marks)]
    found = plot(Mark(now, now, now), ahead, every_day(10), pass_mark)
    points = [tuple(map(float, each.split(","))) for each in f"{found.line} {found.band}".split()]
    assert all(LEFT <= x <= RIGHT and TOP <= y <= BOTTOM for x, y in points)
    assert len(found.line.split()) == len(marks) + 1


TOLD = [(1, [0]), (14, [*range(14)]), (15, [6, 13, 14]), (21, [6, 13, 20]), (30, [6, 13, 20, 27, 29])]


@pytest.mark.parametrize(("number", "places"), TOLD)
def test_the_table_tells_a_few_days_or_one_a_week_and_always_the_last(number, places):
    all_of_them = days(number)
    assert told(all_of_them) == [all_of_them[at] for at in places]
