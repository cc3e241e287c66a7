"""The forecast: what it counts on, and the minutes a day for a wanted mark."""

from dataclasses import replace
from datetime import timedelta
from itertools import pairwise

import pytest

from tests.webapp.study.situations import TODAY, told
from webapp.study.aim import Aim
from webapp.study.forecast import Situation, forecast, foretell, minutes_needed, never_asked, with_minutes
from webapp.study.looking_ahead import kept
from webapp.study.memory import Answer as Given
from webapp.study.memory import State, after
from webapp.study.readiness import exam_recalls, readiness
from webapp.study.rotation import Rotation, every_day
from webapp.study.worth import Offer, Section

FIRST = {"numeric": 0.4, "choice": 0.5}


def situation(items: int = 40, minutes: float = 10, exam: int | None = 30, **changes) -> Situation:
    """A hand who begins today with so many items in four modules, half numeric."""
    offers = [
        Offer(
            f"item-{number}",
            f"module-{4 * number // items}/1",
            Section(f"module-{4 * number // items}", ("numeric", "choice")[number % 2]),
            60.0,
        )
        for number in range(items)
    ]
    aim = Aim(every_day(minutes), exam and TODAY + timedelta(exam), first=FIRST)
    return replace(Situation(offers, {}, {each.lesson for each in offers}, aim, TODAY, TODAY), **changes)


def test_it_runs_from_today_to_the_eve_of_the_exam():
    days = forecast(situation(exam=12))
    assert [each.day for each in days] == [TODAY + timedelta(number) for number in range(12)]
    assert len(forecast(situation(exam=None))) == 30


def test_the_first_day_by_hand():
    """By hand: 1 minute × 0.85 is less than one item, which may run over. So one item is studied and 39 are not.

    It is numeric, right by 0.4 at first sight: log days to ninety are the mean of both, 0.4 and 0.6.
    """
    found = forecast(situation(minutes=1, exam=10))[0].mark.about
    right, wrong = (after(None, Given(outcome, "numeric"), TODAY).days_to_ninety for outcome in ("right", "wrong"))
    studied = told(kept(right**0.4 * wrong**0.6, 10))
    choice = forecast(situation(minutes=0, exam=10))[0].mark.about
    assert choice == pytest.approx(0.45)
    right, wrong = (after(None, Given(outcome, "choice"), TODAY).days_to_ninety for outcome in ("right", "wrong"))
    other = told(kept(right**0.5 * wrong**0.5, 10))
    assert found in (
        pytest.approx((20 * 0.5 + 19 * 0.4 + studied) / 40), pytest.approx((19 * 0.5 + 20 * 0.4 + other) / 40),
    )  # fmt: skip


def test_without_minutes_what_is_foretold_is_what_stands():
    known = {f"item-{number}": State(20.0, 5.0, TODAY - timedelta(5)) for number in range(10)}
    start = situation(minutes=0, memory=known)
    assert forecast(start)[-1].mark.about == pytest.approx(readiness(start.offers, known, start.aim, TODAY).mark.about)


def test_study_raises_the_mark_and_the_band_grows_with_the_days_ahead():
    days = forecast(situation())
    assert days[-1].mark.about > days[0].mark.about + 0.2
    widths = [each.mark.high - each.mark.low for each in days if each.mark.high < 1]
    assert all(one < other for one, other in pairwise(widths))


def test_who_began_long_ago_has_the_narrower_band():
    """With most of the time behind, less of it is still to come."""
    new, old = (forecast(situation(begun=TODAY - timedelta(days)))[-1].mark for days in (0, 90))
    assert new.about == old.about
    assert old.low > new.low


def test_a_record_worse_than_foretold_lowers_the_forecast():
    sound, poor = (forecast(situation(record=[(0.85, right)] * 60))[-1].mark.about for right in (True, False))
    assert poor < sound - 0.05


def test_days_off_without_minutes_bring_nothing():
    """On the rig from the 11th day only: until then the mark stands still."""
    aim = Aim(Rotation(14, 14, TODAY + timedelta(10), 15, 0), TODAY + timedelta(20), first=FIRST)
    marks = [each.mark.about for each in forecast(situation(aim=aim))]
    assert marks[0] == pytest.approx(marks[9])
    assert marks[10] > marks[9]


def test_the_minutes_needed_reach_the_target_and_half_a_minute_less_does_not():
    start, target = situation(), 0.8
    minutes = minutes_needed(start, target)

    def reached(each: float) -> float:
        aim = replace(start.aim, rotation=with_minutes(start.aim.rotation, each))
        return forecast(replace(start, aim=aim))[-1].mark.about

    assert 2 < minutes < 120
    assert reached(minutes) >= target > reached(minutes - 0.5)


def test_none_where_two_hours_are_not_enough_and_the_least_where_little_is():
    assert minutes_needed(situation(items=400, exam=2), 0.95) is None
    known = {f"item-{number}": State(500.0, 5.0, TODAY - timedelta(5)) for number in range(40)}
    assert minutes_needed(situation(memory=known), 0.8) == 2.0


def test_a_day_without_study_stays_one():
    rotation = Rotation(14, 14, TODAY, 12, 0, exceptions={TODAY: 0, TODAY + timedelta(1): 40})
    found = with_minutes(rotation, 30)
    assert (found.minutes_on, found.minutes_off) == (30, 0)
    assert found.exceptions == {TODAY: 0, TODAY + timedelta(1): 30}


def test_the_memory_that_was_given_is_left_as_it_was():
    known = {"item-0": State(2.0, 5.0, TODAY - timedelta(5))}
    start = situation(memory=known)
    before = exam_recalls(start.offers, known, start.aim, TODAY)
    forecast(start)
    assert known == {"item-0": State(2.0, 5.0, TODAY - timedelta(5))}
    assert exam_recalls(start.offers, known, start.aim, TODAY) == before


def test_what_is_never_asked_is_named():
    """With a minute on each of 5 days at most one item a day is asked; with time for all, none is left."""
    short = never_asked(situation(minutes=1, exam=5))
    assert len(short) >= 35
    assert set(short) < {f"item-{number}" for number in range(40)}
    assert never_asked(situation(minutes=30)) == []
    assert never_asked(situation(minutes=0)) == [f"item-{number}" for number in range(40)]
    unread = situation(minutes=30)
    first_three = {f"module-{number}/1" for number in range(3)}
    assert never_asked(replace(unread, lessons_read=first_three)) == [f"item-{number}" for number in range(30, 40)]


def test_what_is_foretold_comes_with_the_memory_that_it_rests_on():
    """The mark of the last day is that of its memory, taken a day later without study."""
    start = situation(exam=12)
    found = foretell(start)
    assert found.days == forecast(start)
    aim = replace(start.aim, exam=start.end)
    then = readiness(start.offers, found.memory, aim, found.days[-1].day).mark.about
    assert then == pytest.approx(found.days[-1].mark.about)
    assert set(never_asked(start)) == {each.item for each in start.offers} - set(found.memory)
    assert start.memory == {}
