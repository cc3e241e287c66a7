"""Plain counts, and the order in which a lesson's items are practised."""

from datetime import date, timedelta

from webapp.study.memory import State, back_on
from webapp.study.practice_order import practice_order
from webapp.study.so_far import SoFar, is_fading, so_far

TODAY = date(2026, 3, 2)
FRESH = State(days_to_ninety=5.0, toughness=5.0, last_day=TODAY)


def test_each_item_of_the_course_is_counted_once_and_no_other():
    known = {"a": FRESH, "b": State(2.0, 5.0, TODAY - timedelta(20)), "gone": State(1.0, 5.0, TODAY - timedelta(90))}
    last = {"a": "right", "b": "wrong", "c": "close", "gone": "right"}
    assert so_far(["a", "b", "c", "d"], last, known, TODAY) == SoFar(items=4, seen=3, right=1, fading=1)


def test_nothing_answered_is_nothing_counted():
    assert so_far(["a"], {}, {}, TODAY) == SoFar(items=1, seen=0, right=0, fading=0)


def test_an_item_fades_on_the_day_it_comes_back_and_not_before():
    back = back_on(FRESH)
    assert is_fading(FRESH, back) and not is_fading(FRESH, back - timedelta(1))


def test_never_answered_comes_first_then_longest_ago():
    kinds = dict.fromkeys("abcd", "choice")
    assert practice_order(kinds, {"a": "0193", "b": "0191", "d": "0192"}) == ["c", "b", "d", "a"]


def test_kinds_are_mixed_and_keep_their_own_order():
    kinds = {"p1": "part", "p2": "part", "p3": "part", "p4": "part", "n1": "numeric", "n2": "numeric", "o": "order"}
    order = practice_order(kinds, {})
    assert sorted(order) == sorted(kinds)
    assert order == ["p1", "n1", "p2", "o", "p3", "n2", "p4"]
    assert practice_order(kinds, {"p1": "0191"})[-1] == "p1"
