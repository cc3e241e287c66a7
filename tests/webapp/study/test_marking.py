"""Marking a test: invariants, and sums done by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.study.marking import OUTCOMES, Answered, mark, needed

ANSWERS = st.lists(
    st.builds(
        Answered,
        item=st.integers(0, 999).map("m.item-{}".format),
        lesson=st.sampled_from(["m/one", "m/two", "m/three"]),
        must_pass=st.booleans(),
        outcome=st.sampled_from(OUTCOMES),
    ),
    max_size=20,
)


def fifteen(right: int, must_pass_missed: bool = False) -> list[Answered]:
    """Fifteen answers over three lessons, so many of them right; the last one may be a must-pass item."""
    outcomes = ["right"] * right + ["wrong"] * (15 - right)
    return [
        Answered(f"m.{at}", f"m/{at % 3}", must_pass_missed and at == 14, outcome)
        for at, outcome in enumerate(outcomes)
    ]


@pytest.mark.parametrize(
    ("pass_mark", "asked", "must_be_right"),
    # By hand: 80 % of 15 is 12; 90 % of 15 is 13.5, and a half question is a whole one; 80 % of 9 is 7.2; 75 % of 60.
    [(80, 15, 12), (90, 15, 14), (80, 9, 8), (75, 60, 45), (100, 15, 15), (50, 1, 1), (0, 15, 0)],
)
def test_how_many_must_be_right_is_rounded_up(pass_mark, asked, must_be_right):
    assert needed(pass_mark, asked) == must_be_right


@pytest.mark.parametrize(("right", "passed"), [(15, True), (12, True), (11, False), (0, False)])
def test_twelve_of_fifteen_pass_at_80_percent(right, passed):
    assert mark(fifteen(right), 80).passed is passed


def test_a_must_pass_item_missed_is_not_passed_however_many_are_right():
    found = mark(fifteen(14, must_pass_missed=True), 80)
    assert (found.right, found.passed, found.missed) == (14, False, ("m.14",))


def test_close_open_and_unread_are_not_right():
    found = mark([Answered("m.a", "m/one", False, each) for each in OUTCOMES], 80)
    assert (found.right, found.asked) == (1, 5)


def test_lesson_by_lesson():
    found = mark([Answered("m.a", "m/one", False, "right"), Answered("m.b", "m/two", False, "open")], 80)
    assert found.lessons == (("m/one", 1, 1), ("m/two", 0, 1))


def test_where_must_pass_items_are_not_asked_for_they_are_named_and_stop_nothing():
    found = mark(fifteen(14, must_pass_missed=True), 80, must_pass=False)
    assert found.passed and found.missed == ("m.14",)


def test_a_test_of_nothing_is_not_passed():
    assert mark([], 80).passed is False


def test_an_unknown_outcome_is_refused():
    with pytest.raises(ValueError, match="no way in which a question can end"):
        mark([Answered("m.a", "m/one", False, "alone")], 80)


@given(ANSWERS, st.integers(0, 100))
def test_the_parts_come_to_the_whole(answers, pass_mark):
    found = mark(answers, pass_mark)
    assert sum(right for _, right, _ in found.lessons) == found.right <= found.asked == len(answers)
    assert sum(asked for _, _, asked in found.lessons) == found.asked
    assert 0 <= found.percent <= 100
    assert len(found.missed) == sum(each.must_pass and each.outcome != "right" for each in answers)


@given(ANSWERS, st.integers(0, 100))
def test_passed_means_the_share_is_reached_and_nothing_missed(answers, pass_mark):
    """The share compared in whole numbers, another way round than the count of needed answers."""
    found = mark(answers, pass_mark)
    right = sum(each.outcome == "right" for each in answers)
    assert found.passed == (bool(answers) and right * 100 >= pass_mark * len(answers) and not found.missed)


@given(ANSWERS.filter(bool), st.integers(0, 100), st.data())
def test_one_more_right_answer_never_undoes_a_pass(answers, pass_mark, data):
    at = data.draw(st.integers(0, len(answers) - 1))
    bettered = [*answers]
    bettered[at] = Answered(answers[at].item, answers[at].lesson, answers[at].must_pass, "right")
    assert mark(bettered, pass_mark).passed >= mark(answers, pass_mark).passed


def of_modules(*counts: tuple[str, int, int]) -> list[Answered]:
    """(module, right, asked) as answers, over two lessons of each module."""
    return [
        Answered(f"{module}.{at}", f"{module}/{at % 2}", False, "right" if at < right else "wrong")
        for module, right, asked in counts
        for at in range(asked)
    ]


@pytest.mark.parametrize(
    ("masts", "least", "low"),
    # By hand: 50 % of 7 is 3.5, so 4; 60 % of 7 is 4.2, so 5; 0 % asks for none.
    [(3, 50, ("masts",)), (4, 50, ()), (4, 60, ("masts",)), (5, 60, ()), (0, 0, ())],
)
def test_a_module_under_its_least_mark_fails_a_paper_that_has_enough(masts, least, low):
    found = mark(of_modules(("units", 40, 40), ("masts", masts, 7)), 75, least=least)
    assert found.modules == (("units", 40, 40), ("masts", masts, 7))
    assert found.low == low and found.right >= found.needed
    assert found.passed is not bool(low)


def test_what_was_lost_comes_the_most_first():
    found = mark(of_modules(("units", 4, 4), ("masts", 0, 5), ("pipe", 1, 2)), 75)
    assert found.lost == [("masts/0", 0, 3), ("masts/1", 0, 2), ("pipe/1", 0, 1)]


@given(ANSWERS, st.integers(0, 100), st.integers(0, 100))
def test_a_least_mark_never_lets_pass_what_did_not(answers, pass_mark, least):
    strict, mild = mark(answers, pass_mark, least=least), mark(answers, pass_mark)
    assert not strict.passed or mild.passed
    assert sum(asked for _, _, asked in strict.modules) == strict.asked == len(answers)
    assert strict.passed == (mild.passed and not strict.low)
