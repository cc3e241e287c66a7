"""Today's plan."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.study.memory import State, recall
from webapp.study.planner import Offer, plan_today

TODAY = date(2026, 3, 2)
LESSONS = ["safety/drops", "units/force"]

states = st.builds(
    State,
    days_to_ninety=st.floats(0.1, 400),
    toughness=st.floats(1, 10),
    last_day=st.integers(0, 90).map(lambda days: TODAY - timedelta(days)),
)


@st.composite
def situations(draw):
    """Offers in course order, some of them known, some lessons read, and minutes."""
    lessons = draw(st.lists(st.sampled_from(LESSONS), max_size=12).map(sorted))
    offers = [
        Offer(f"item-{number}", lesson, draw(st.sampled_from([20, 45, 90]))) for number, lesson in enumerate(lessons)
    ]
    known = draw(st.sets(st.sampled_from([each.item for each in offers]))) if offers else set()
    memory = {item: draw(states) for item in sorted(known)}
    return offers, memory, draw(st.sets(st.sampled_from(LESSONS))), draw(st.integers(0, 12))


def fade(days_to_ninety: float, ago: int) -> State:
    return State(days_to_ninety, 5.0, TODAY - timedelta(ago))


def offers_of(*items: str, lesson: str = "units/force") -> list[Offer]:
    return [Offer(item, lesson, 60) for item in items]


def test_fading_items_come_first_the_most_faded_at_the_head():
    memory = {"a": fade(10, 11), "b": fade(2, 30), "c": fade(5, 30), "kept": fade(100, 2)}
    plan = plan_today(offers_of("new", "a", "kept", "b", "c"), memory, LESSONS, 60, TODAY)
    assert [(pick.item, pick.reason) for pick in plan] == [
        ("b", "fading"), ("c", "fading"), ("a", "fading"), ("new", "new"),
    ]  # fmt: skip
    assert [pick.recall for pick in plan] == [recall(memory[item], TODAY) for item in "bca"] + [None]


def test_new_items_come_in_course_order_from_lessons_read_only():
    offers = [*offers_of("x", "y", lesson="safety/drops"), *offers_of("a", "b")]
    assert [pick.item for pick in plan_today(offers, {}, {"units/force"}, 60, TODAY)] == ["a", "b"]
    assert [pick.item for pick in plan_today(offers, {}, LESSONS, 60, TODAY)] == ["x", "y", "a", "b"]
    assert plan_today(offers, {}, set(), 60, TODAY) == []


def test_an_item_fades_whether_or_not_its_lesson_was_read():
    assert [pick.item for pick in plan_today(offers_of("a"), {"a": fade(1, 30)}, set(), 60, TODAY)] == ["a"]


def test_memory_of_an_item_that_is_no_longer_offered_is_left_alone():
    assert plan_today(offers_of("a"), {"gone": fade(1, 30)}, set(), 60, TODAY) == []


@pytest.mark.parametrize(
    ("minutes", "spent", "picks"), [(3, 0, 3), (2.5, 0, 3), (3, 60, 2), (3, 179, 1), (3, 180, 0), (3, 900, 0)]
)
def test_the_plan_stops_when_the_minutes_are_used(minutes, spent, picks):
    plan = plan_today(offers_of(*"abcdef"), {}, LESSONS, minutes, TODAY, seconds_spent=spent)
    assert len(plan) == picks


@given(situations())
def test_no_minutes_no_plan(situation):
    offers, memory, read, _ = situation
    assert plan_today(offers, memory, read, 0, TODAY) == []


@given(situations())
def test_the_plan_keeps_its_promises(situation):
    """No item twice, over the minutes by one item at most, fading before new, nothing that is known well."""
    offers, memory, read, minutes = situation
    plan = plan_today(offers, memory, read, minutes, TODAY)
    items = [pick.item for pick in plan]
    assert len(items) == len(set(items))
    assert sum(pick.seconds for pick in plan[:-1]) < minutes * 60 or not plan
    reasons = [pick.reason for pick in plan]
    assert reasons == sorted(reasons)
    chances = [pick.recall for pick in plan if pick.reason == "fading"]
    assert chances == sorted(chances)
    assert all(chance < 0.9 for chance in chances)
    lesson_of = {each.item: each.lesson for each in offers}
    assert all(pick.item not in memory and lesson_of[pick.item] in read for pick in plan if pick.reason == "new")


@given(situations())
def test_minutes_that_are_enough_leave_nothing_out(situation):
    """With all day, every faded item and every new item of a lesson read is in the plan."""
    offers, memory, read, _ = situation
    wanted = {
        each.item
        for each in offers
        if (recall(memory[each.item], TODAY) < 0.9 if each.item in memory else each.lesson in read)
    }
    assert {pick.item for pick in plan_today(offers, memory, read, 24 * 60, TODAY)} == wanted


@given(situations())
def test_the_same_inputs_give_the_same_plan(situation):
    offers, memory, read, minutes = situation
    turned = dict(reversed(memory.items()))
    assert plan_today(offers, memory, read, minutes, TODAY) == plan_today(
        iter(offers), turned, list(read), minutes, TODAY
    )


@given(situations())
def test_more_minutes_only_add_to_the_plan(situation):
    offers, memory, read, minutes = situation
    shorter = plan_today(offers, memory, read, minutes, TODAY)
    assert plan_today(offers, memory, read, minutes + 5, TODAY)[: len(shorter)] == shorter
