"""What is remembered: the mapping of verdicts, the forgetting, and the day an item fades."""

import itertools
from datetime import UTC, date, datetime, timedelta

import fsrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.study import memory
from webapp.study.memory import Answer, State, after, back_on, fold, recall

DAY = date(2026, 3, 2)
KNOWN = State(days_to_ninety=6.5, toughness=5.0, last_day=DAY - timedelta(7))

answers = st.builds(
    Answer,
    outcome=st.sampled_from(["right", "close", "wrong"]),
    kind=st.sampled_from(["numeric", "choice", "card", "order", "match", "estimate", "gauge", "find-the-wrong-line"]),
    hint=st.booleans(),
    seconds=st.none() | st.floats(0, 1000),
    usual_seconds=st.none() | st.floats(1, 300),
)
histories = st.lists(st.tuples(st.integers(0, 400).map(lambda days: DAY + timedelta(days)), answers), min_size=1).map(
    lambda history: sorted(history, key=lambda each: each[0])
)


def library_after(state: State | None, mark: int) -> State:
    """The state that the library itself gives for one of its marks, asked for without our code."""
    scheduler = fsrs.Scheduler(learning_steps=(), relearning_steps=(), enable_fuzzing=False)
    card = fsrs.Card(card_id=1)
    if state:
        last = datetime(state.last_day.year, state.last_day.month, state.last_day.day, 12, tzinfo=UTC)
        card = fsrs.Card(1, fsrs.State.Review, None, state.days_to_ninety, state.toughness, last, last)
    card, _ = scheduler.review_card(card, mark, datetime(DAY.year, DAY.month, DAY.day, 12, tzinfo=UTC))
    return State(card.stability, card.difficulty, DAY)


@pytest.mark.parametrize(
    ("state", "answer", "mark"),
    [
        pytest.param(KNOWN, Answer("wrong", "numeric"), 1, id="wrong"),
        pytest.param(None, Answer("wrong", "numeric"), 1, id="wrong at first sight"),
        pytest.param(KNOWN, Answer("close", "numeric"), 2, id="close"),
        pytest.param(None, Answer("close", "numeric"), 2, id="close at first sight"),
        pytest.param(KNOWN, Answer("right", "numeric", hint=True), 2, id="with hint"),
        pytest.param(None, Answer("right", "numeric", hint=True), 2, id="with hint at first sight"),
        pytest.param(KNOWN, Answer("right", "numeric", False, 150.1, 60), 2, id="slower than 2.5 times usual"),
        pytest.param(None, Answer("right", "numeric", False, 150.1, 60), 2, id="slow at first sight"),
        pytest.param(KNOWN, Answer("right", "numeric", False, 150.0, 60), 3, id="just 2.5 times usual"),
        pytest.param(KNOWN, Answer("right", "numeric", False, 9999.0, None), 3, id="usual not known"),
        pytest.param(KNOWN, Answer("right", "numeric", False, None, 60), 3, id="nobody measured"),
        pytest.param(KNOWN, Answer("right", "choice"), 3, id="right"),
        pytest.param(None, Answer("right", "numeric"), 4, id="right at first sight"),
        pytest.param(None, Answer("right", "order"), 4, id="order right at first sight"),
        pytest.param(None, Answer("right", "choice"), 3, id="choice right at first sight"),
        pytest.param(None, Answer("right", "part"), 3, id="part found at first sight"),
        pytest.param(None, Answer("right", "estimate"), 3, id="estimate right at first sight"),
        pytest.param(None, Answer("right", "gauge"), 3, id="dial read at first sight"),
        pytest.param(None, Answer("right", "find-the-wrong-line"), 3, id="wrong line found at first sight"),
        pytest.param(KNOWN, Answer("right", "estimate", False, 150.1, 60), 2, id="estimated slowly"),
        pytest.param(None, Answer("wrong", "card"), 1, id="card not said"),
        pytest.param(None, Answer("close", "card"), 2, id="card said in part"),
        pytest.param(None, Answer("right", "card"), 3, id="card said"),
        pytest.param(KNOWN, Answer("right", "card", False, 500, 10), 3, id="card said slowly"),
        pytest.param(KNOWN, Answer("wrong", "numeric", True, 500, 10), 1, id="wrong beats the rest"),
    ],
)
def test_each_verdict_has_its_mark(state, answer, mark):
    """The state after an answer is the library's own after the mark that the plan's rule names."""
    expected = {each: library_after(state, each) for each in (1, 2, 3, 4)}
    assert len(set(expected.values())) == 4
    assert after(state, answer, DAY) == expected[mark]


@pytest.mark.parametrize("outcome", ["ask-back", "unreadable", "other-dimension", "good", ""])
def test_what_is_not_counted_leaves_no_memory(outcome):
    with pytest.raises(ValueError, match="not a counted verdict"):
        after(KNOWN, Answer(outcome, "numeric"), DAY)


def test_a_wrong_answer_later_in_the_day_stands_for_the_day():
    """Right at first and wrong with other numbers: the day counts as wrong, whatever comes after it."""
    right, wrong, close = (Answer(outcome, "numeric") for outcome in ("right", "wrong", "close"))
    as_wrong = fold([(DAY, wrong)])
    assert fold([(DAY, right), (DAY, wrong)]) == as_wrong
    assert fold([(DAY, right), (DAY, wrong), (DAY, right)]) == as_wrong
    assert fold([(DAY, wrong), (DAY, right)]) == as_wrong
    assert fold([(DAY, right), (DAY, close)]) == fold([(DAY, right)]) != as_wrong


def test_only_the_first_answer_of_a_day_moves_the_memory():
    first = after(KNOWN, Answer("wrong", "numeric"), DAY)
    for outcome in ("right", "close", "wrong"):
        assert after(first, Answer(outcome, "numeric"), DAY) is first
        assert after(first, Answer(outcome, "numeric"), DAY - timedelta(1)) is first
        assert after(first, Answer(outcome, "numeric"), DAY + timedelta(1)) != first


@given(histories)
def test_a_state_stays_within_its_bounds(history):
    """Whatever is answered: positive days, toughness 1 to 10, the last day that of the last answer."""
    state = fold(history)
    assert state.days_to_ninety > 0
    assert 1 <= state.toughness <= 10
    assert state.last_day == history[-1][0]


@given(histories)
def test_the_same_answers_give_the_same_state(history):
    """No clock and no chance: two folds agree to the last bit."""
    assert fold(history) == fold(history)


@given(histories)
def test_an_item_fades_on_the_first_day_that_recall_is_under_eighty_eight(history):
    """The line above which the plan lets an item rest."""
    state = fold(history)
    day = back_on(state)
    assert recall(state, day) < 0.88
    assert recall(state, day - timedelta(1)) >= 0.88
    assert day > state.last_day


@given(histories)
def test_recall_only_falls(history):
    state = fold(history)
    chances = [recall(state, state.last_day + timedelta(days)) for days in (0, 1, 2, 5, 30, 365)]
    assert chances[0] == 1
    assert all(earlier > later > 0 for earlier, later in itertools.pairwise(chances))


def test_a_memory_beyond_a_lifetime_still_has_a_day():
    """The day is at most a hundred years on, and no date overflows."""
    assert back_on(State(1e12, 1.0, DAY)) == DAY + timedelta(36_500)


def test_nobody_has_a_memory_of_nothing():
    assert fold([]) is None


def test_the_model_names_the_release_and_every_parameter():
    assert f"fsrs {fsrs.__version__ if hasattr(fsrs, '__version__') else '6.3.2'}" in memory.MODEL
    parameters = fsrs.Scheduler().parameters
    assert len(parameters) == 21
    assert all(repr(each) in memory.MODEL for each in parameters)


def test_what_was_foretold_stands_beside_what_came():
    """Three days: the first foretells nothing; of two answers on the second the wrong one stands."""
    right, wrong = Answer("right", "numeric"), Answer("wrong", "numeric")
    second, third = DAY + timedelta(4), DAY + timedelta(9)
    history = [(DAY, right), (second, right), (second, wrong), (third, right)]
    one, two = fold(history[:1]), fold(history[:3])
    assert memory.foretold(history) == [(second, recall(one, second), False), (third, recall(two, third), True)]
    assert memory.foretold([]) == memory.foretold(history[:1]) == []
