"""Looking ahead on plain floats: the library's own sums, and a limit that is one."""

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.webapp.study.test_memory import library_after
from webapp.study.looking_ahead import (
    again_at_most,
    first_if_right,
    first_if_wrong,
    if_right,
    if_wrong,
    kept,
    look_ahead,
    look_ahead_unseen,
    look_once,
)
from webapp.study.memory import Answer, State, after, recall
from webapp.study.merit import merit, merit_at_most
from webapp.study.worth import seconds_of

DAY = date(2026, 3, 2)

states = st.builds(
    State, days_to_ninety=st.floats(0.01, 5000), toughness=st.floats(1, 10),
    last_day=st.integers(1, 400).map(lambda days: DAY - timedelta(days)),
)  # fmt: skip


@given(states)
def test_looking_ahead_is_the_library_s_own_sum(state):
    """One answer on plain floats, right and wrong, against the library: the same to the last digits."""
    elapsed = (DAY - state.last_day).days
    chance = kept(state.days_to_ninety, elapsed)
    assert chance == recall(state, DAY)
    for sums, mark in ((if_right, 3), (if_wrong, 1)):
        expected = library_after(state, mark)
        ours = sums(state.days_to_ninety, state.toughness, chance)
        assert ours == pytest.approx((expected.days_to_ninety, expected.toughness), rel=1e-12)


@given(states, st.integers(1, 90))
def test_the_outlook_is_the_mean_over_right_and_wrong(state, days):
    """Each branch followed with whole answers and the library's own recall, and weighed by its chance."""
    far = DAY + timedelta(days)
    right, wrong = Answer("right", "numeric"), Answer("wrong", "numeric")
    now = recall(state, DAY)
    outlook = look_ahead(state.days_to_ninety, state.toughness, (DAY - state.last_day).days, days)
    one = two = again = 0.0
    for first, chance in ((right, now), (wrong, 1 - now)):
        today = after(state, first, DAY)
        one += chance * recall(today, far)
        then = recall(today, DAY + timedelta(1))
        again += chance * then
        for second, likely in ((right, then), (wrong, 1 - then)):
            two += chance * likely * recall(after(today, second, DAY + timedelta(1)), far)
    assert outlook == pytest.approx((now, recall(state, far), one, two, again), rel=1e-9)


@pytest.mark.parametrize("kind", ["numeric", "choice"])
def test_the_outlook_of_an_item_never_asked(kind):
    """The first answer moves the memory as a whole answer does."""
    far = DAY + timedelta(20)
    outlook = look_ahead_unseen(kind, 0.3, 20)
    right, wrong = (after(None, Answer(outcome, kind), DAY) for outcome in ("right", "wrong"))
    assert outlook.as_it_is == outlook.now == 0.3
    assert outlook.after_one == pytest.approx(0.3 * recall(right, far) + 0.7 * recall(wrong, far))
    assert (right.days_to_ninety, right.toughness) == first_if_right(kind)
    assert (wrong.days_to_ninety, wrong.toughness) == first_if_wrong()


anything = st.tuples(st.floats(0.001, 5000), st.floats(1, 10), st.integers(1, 400), st.integers(1, 120))


@settings(max_examples=1000)
@given(anything)
def test_one_answer_ahead_is_exact_and_two_are_a_limit(item):
    """The same sum for one answer, to the bit; and no second answer comes to more, but for a rounding."""
    days_to_ninety, toughness, elapsed, days = item
    outlook = look_ahead(days_to_ninety, toughness, elapsed, days)
    one, right, wrong = look_once(days_to_ninety, toughness, outlook.now, days)
    assert one == outlook.after_one
    assert right == if_right(days_to_ninety, toughness, outlook.now)[0]
    assert wrong == if_wrong(days_to_ninety, toughness, outlook.now)[0]
    after_right, after_wrong = (again_at_most(each, toughness, days - 1) for each in (right, wrong))
    two = outlook.now * after_right + (1 - outlook.now) * after_wrong
    assert after_right >= two - 1e-14 and two >= outlook.after_two - 1e-14


def test_the_limit_is_near_enough_to_be_of_use():
    """An item of middling strength asked after a gap, a month before the exam: a hundredth too much, no more."""
    outlook = look_ahead(5.0, 5.0, 20, 30)
    _, right, wrong = look_once(5.0, 5.0, outlook.now, 30)
    after_right, after_wrong = (again_at_most(each, 5.0, 29) for each in (right, wrong))
    limit = outlook.now * after_right + (1 - outlook.now) * after_wrong
    assert outlook.after_two < limit < 1.02 * outlook.after_two


@settings(max_examples=1000)
@given(anything, st.sampled_from([20.0, 60.0, 90.0]))
def test_without_doubt_it_is_the_merit_itself_and_with_doubt_no_less(item, seconds):
    days_to_ninety, toughness, elapsed, days = item
    outlook = look_ahead(days_to_ninety, toughness, elapsed, days)
    most, adds, doubt = merit_at_most(days_to_ninety, toughness, outlook.now, outlook.as_it_is, days, seconds)
    assert adds == outlook.after_one - outlook.as_it_is
    assert most >= merit(outlook, seconds) if doubt else most == merit(outlook, seconds)


def test_there_is_doubt_and_there_is_none():
    """On the eve of the exam a second answer comes too late to be the better; long before it, of the weakest it is."""
    eve, early = look_ahead(1.0, 5.0, 30, 1), look_ahead(0.01, 5.0, 30, 90)
    assert not merit_at_most(1.0, 5.0, eve.now, eve.as_it_is, 1, 60.0)[2]
    assert merit_at_most(0.01, 5.0, early.now, early.as_it_is, 90, 60.0)[2]
    assert merit(early, 60.0) > (early.after_one - early.as_it_is) / seconds_of(60.0, early.now)
