"""Which items a test asks: invariants over any bank, and the modules of our own."""

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from course import load_course
from question_bank import load_bank
from webapp.study.drawing_up import MOST_MUST_PASS, QUESTIONS, SELF_MARKED, Askable, draw_up

KINDS = ("numeric", "choice", "order", "match", "part", "card")
BANK, COURSE = load_bank(), load_course()


@st.composite
def banks(draw):
    """Up to sixty items of up to five lessons, a few of them must-pass, and what was seen in the last test."""
    size = draw(st.integers(0, 60))
    row = st.tuples(st.integers(1, 5), st.sampled_from(KINDS), st.integers(0, 9))
    rows = draw(st.lists(row, min_size=size, max_size=size))
    items = [Askable(f"m.item-{at}", f"m/{lesson}", kind, must == 0) for at, (lesson, kind, must) in enumerate(rows)]
    seen = draw(st.sets(st.sampled_from([each.item for each in items]))) if items else set()
    return items, seen


def askable(items):
    return [each for each in items if each.kind not in SELF_MARKED]


@given(banks(), st.integers(0, 2**31 - 1), st.integers(1, 20))
def test_as_many_as_wanted_or_as_there_are_each_once_and_none_marked_by_the_hand(bank, seed, how_many):
    items, seen = bank
    drawn = draw_up(items, seed, seen, how_many)
    assert len(drawn) == min(how_many, len(askable(items)))
    assert len({each.item for each in drawn}) == len(drawn)
    assert set(drawn) <= set(askable(items))


@given(banks(), st.integers(0, 2**31 - 1))
def test_must_pass_items_are_in_and_no_lesson_is_left_out(bank, seed):
    items, seen = bank
    drawn = draw_up(items, seed, seen)
    must = [each for each in askable(items) if each.must_pass]
    assert sum(each.must_pass for each in drawn) >= min(MOST_MUST_PASS, len(must))
    assert {each.lesson for each in drawn} == {each.lesson for each in askable(items)}


@given(banks(), st.integers(0, 2**31 - 1))
def test_what_was_seen_comes_only_where_nothing_else_is_left(bank, seed):
    items, seen = bank
    drawn = draw_up(items, seed, seen)
    left = [each for each in askable(items) if each not in drawn and each.item not in seen]
    for each in drawn:
        alone = all(other.item in seen for other in askable(items) if other.lesson == each.lesson)
        if each.item in seen and not each.must_pass and not alone:
            assert left == [], f"{each.item} was seen, and {left[0].item} was not"


@given(banks(), st.integers(0, 2**31 - 1))
def test_the_same_seed_asks_the_same(bank, seed):
    items, seen = bank
    assert draw_up(items, seed, seen) == draw_up(items, seed, seen)


def of_module(module):
    return [
        Askable(item.id, item.lesson, item.kind, item.must_pass)
        for lesson in module.lessons
        for item in BANK.of_lesson(lesson.id)
    ]


@pytest.mark.parametrize("module", COURSE.modules, ids=lambda module: module.id)
def test_two_tests_of_a_module_after_each_other(module):
    """On the bank as it is: no item twice where there are twice fifteen beside the must-pass ones."""
    items = of_module(module)
    for seed in range(30):
        first = draw_up(items, seed)
        second = draw_up(items, seed + 1000, {each.item for each in first})
        both = {each.item for each in first} & {each.item for each in second}
        must = {each.item for each in items if each.must_pass}
        assert len(first) == min(QUESTIONS, len(askable(items)))
        if len(askable(items)) - len(must) >= 2 * QUESTIONS:
            assert both <= must


@pytest.mark.parametrize("module", COURSE.modules, ids=lambda module: module.id)
def test_lessons_and_kinds_are_mixed(module):
    """The lessons are asked alike, and no kind fills the test."""
    items = of_module(module)
    for seed in range(30):
        drawn = draw_up(items, seed)
        lessons = Counter(each.lesson for each in drawn)
        kinds = Counter(each.kind for each in drawn)
        assert max(lessons.values()) - min(lessons.values()) <= 1
        assert len(kinds) >= 5 and max(kinds.values()) <= 5, kinds
