"""How somebody stands in a module. Days are counted by hand on a calendar of 2026."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.study.rotation import Rotation
from webapp.study.standing import Asked, Result, due_day, due_day_of_joiner, lesson_refresh_days, months_after, standing

DUE = date(2026, 3, 15)
BEFORE, AFTER = date(2026, 3, 14), date(2026, 3, 16)
ASKED = Asked("a", DUE, pass_mark=80, must_pass=True)
REFRESHERS = {"kelly/rotary-table": 12, "kelly/slips": 6}


def a_result(day=date(2026, 1, 10), mark=87, passed=True, must_passed=True, lessons=None):
    return Result(day, mark, passed, must_passed, lessons)


@pytest.mark.parametrize(
    ("asked", "excuse", "results", "begun", "today", "state"),
    [
        pytest.param(None, None, [], False, BEFORE, "not begun", id="nothing asked, nothing done"),
        pytest.param(None, None, [], True, BEFORE, "on the way", id="nothing asked, something read"),
        pytest.param(ASKED, None, [], False, BEFORE, "not begun", id="there is time"),
        pytest.param(ASKED, None, [], True, DUE, "on the way", id="the last day is still in time"),
        pytest.param(ASKED, None, [], True, AFTER, "late", id="the day is past"),
        pytest.param(ASKED, None, [a_result()], True, AFTER, "passed", id="passed in time"),
        pytest.param(ASKED, None, [a_result(AFTER)], True, AFTER, "passed", id="passed late is passed"),
        pytest.param(ASKED, None, [a_result(mark=79)], True, AFTER, "late", id="a mark under what is asked"),
        pytest.param(None, None, [a_result(mark=79)], True, AFTER, "passed", id="as it was marked on the day"),
        pytest.param(ASKED, None, [a_result(must_passed=False)], True, AFTER, "late", id="a must-pass item missed"),
        pytest.param(ASKED, None, [a_result(passed=False, mark=60)], True, BEFORE, "on the way", id="failed"),
        pytest.param(ASKED, "excused", [], True, AFTER, "excused", id="excused"),
        pytest.param(ASKED, "replaced", [], False, BEFORE, "replaced", id="replaced"),
        pytest.param(ASKED, "excused", [a_result()], True, AFTER, "passed", id="excused and passed all the same"),
        pytest.param(ASKED, None, [a_result()], True, date(2026, 7, 9), "passed", id="a day before six months"),
        pytest.param(ASKED, None, [a_result()], True, date(2026, 7, 10), "refresh", id="six months for the slips"),
        pytest.param(ASKED, "excused", [a_result()], True, date(2026, 7, 10), "excused", id="excused from refreshing"),
    ],
)
def test_the_state_is_the_first_that_holds(asked, excuse, results, begun, today, state):
    assert standing(asked, excuse, results, REFRESHERS, begun, today).state == state


def test_a_lower_mark_asked_counts_what_was_marked_as_failed():
    """A contractor may set its own mark: 75 passes where 70 is asked, though the test's own mark was 80."""
    asked = Asked("a", DUE, pass_mark=70, must_pass=False)
    failed = a_result(mark=75, passed=False, must_passed=False)
    assert standing(asked, None, [failed], REFRESHERS, True, BEFORE).state == "passed"


def test_a_refresher_renews_the_lessons_it_asked():
    """Slips again after six months; the table's year runs on from the module's own test."""
    july, january = date(2026, 7, 10), date(2027, 1, 10)
    results = [a_result(), a_result(july, lessons=("kelly/slips",))]
    assert standing(ASKED, None, results, REFRESHERS, True, july).state == "passed"
    assert dict(lesson_refresh_days(results, REFRESHERS)) == {"kelly/rotary-table": january, "kelly/slips": january}
    assert standing(ASKED, None, results, REFRESHERS, True, january) == (
        standing(ASKED, None, [*results, a_result(passed=False, mark=10)], REFRESHERS, True, january)
    )
    again = standing(ASKED, None, [*results, a_result(january, lessons=tuple(REFRESHERS))], REFRESHERS, True, january)
    assert (again.state, again.passed_on, again.refresh_on) == ("passed", date(2026, 1, 10), july.replace(year=2027))


def test_a_refresher_alone_is_no_pass():
    refresher = a_result(lessons=("kelly/slips",))
    assert standing(ASKED, None, [refresher], REFRESHERS, True, BEFORE).state == "on the way"


@pytest.mark.parametrize(
    ("day", "months", "expected"),
    [
        (date(2026, 1, 10), 6, date(2026, 7, 10)),
        (date(2025, 8, 31), 6, date(2026, 2, 28)),
        (date(2023, 8, 30), 6, date(2024, 2, 29)),
        (date(2026, 12, 31), 12, date(2027, 12, 31)),
        (date(2026, 7, 1), 6, date(2027, 1, 1)),
    ],
)
def test_months_after_by_the_calendar(day, months, expected):
    assert months_after(day, months) == expected


def test_due_by_the_end_of_the_hitch():
    """14 on and 14 off from Monday 2 March: the hitch ends on Sunday 15 March, the next on Sunday 12 April."""
    rotation = Rotation(14, 14, date(2026, 3, 2), 15, 15)
    assert due_day("hitch", date(2026, 3, 2), rotation) == date(2026, 3, 15)
    assert due_day("hitch", date(2026, 3, 15), rotation) == date(2026, 3, 15)
    assert due_day("hitch", date(2026, 3, 16), rotation) == date(2026, 4, 12)
    assert due_day("date", date(2026, 3, 20), rotation) == date(2026, 3, 20)


results_had = st.builds(
    Result,
    st.dates(date(2025, 1, 1), date(2026, 12, 31)),
    st.integers(0, 100),
    st.booleans(),
    st.booleans(),
    st.none() | st.sets(st.sampled_from(sorted(REFRESHERS))),
)


@given(st.lists(results_had), st.booleans(), st.dates(date(2026, 1, 1), date(2027, 12, 31)))
def test_a_pass_today_never_leaves_somebody_late_or_to_be_refreshed(results, begun, today):
    """Whatever came before: who passes the whole test today has passed."""
    results = [each for each in results if each.day <= today]
    found = standing(ASKED, None, [*results, a_result(today, mark=100)], REFRESHERS, begun, today)
    assert found.state == "passed" and found.refresh_on > today


@given(st.lists(results_had), st.booleans(), st.dates(date(2026, 1, 1), date(2027, 12, 31)))
def test_waiting_a_day_never_makes_anybody_pass(results, begun, today):
    now = standing(ASKED, None, results, REFRESHERS, begun, today)
    tomorrow = standing(ASKED, None, results, REFRESHERS, begun, today + timedelta(1))
    assert not (tomorrow.state == "passed" and now.state != "passed")


@pytest.mark.parametrize(
    ("due", "joined", "day"),
    [
        pytest.param(DUE, date(2026, 3, 10), DUE, id="there before it"),
        pytest.param(DUE, DUE, DUE, id="comes on the very day"),
        pytest.param(DUE, date(2026, 3, 16), date(2026, 4, 12), id="comes in the days off: the end of the next hitch"),
        pytest.param(DUE, date(2026, 4, 5), date(2026, 4, 12), id="comes in the middle of a hitch"),
        pytest.param(date(2026, 4, 20), date(2026, 4, 5), date(2026, 4, 20), id="a day to come stays"),
    ],
)
def test_who_joins_after_the_day_has_to_the_end_of_their_first_hitch(due, joined, day):
    """14 days on and 14 off from 2 March 2026: hitches to 15 March and 12 April."""
    assert due_day_of_joiner(due, joined, Rotation(14, 14, date(2026, 3, 2), 0, 0)) == day
