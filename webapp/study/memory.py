"""What a hand still remembers of one item, and from when it fades.

This is the only file that knows the fsrs library and its words. Everybody else sees a `State`: the days until the
chance of recall has come down to ninety in a hundred, how tough the item is for this hand (1 to 10), and the study day
it was last answered on.

What is kept as memory always comes from the library itself. What an item would be after answers that nobody has given
yet is in `looking_ahead.py`, by the same sums on plain floats.

The library runs without chance and without steps inside a day, so the same answers give the same state on every run,
and `pinandbox rebuild` can compare them bit for bit.
"""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from importlib.metadata import version

import fsrs

FADING_BELOW = 0.88
"""The chance of recall under which an item fades: above it, it rests and the plan does not ask it."""
NINETY = 0.9
SLOW = 2.5
FURTHEST = 36_500
RULE = 3
GUESSED_OR_ROUGH = ("choice", "card", "part", "find-the-wrong-line", "estimate", "gauge")
"""Kinds of which one right answer proves little at first sight: a choice, a part or a line is guessed right one time
in three or four, a card is marked by the hand, an estimate is right over a wide range, a dial is read and not known."""

_library = fsrs.Scheduler(
    desired_retention=NINETY,
    learning_steps=(),
    relearning_steps=(),
    maximum_interval=FURTHEST,
    enable_fuzzing=False,
)

MODEL = f"fsrs {version('fsrs')}; rule {RULE}; {FADING_BELOW}; " + ", ".join(repr(each) for each in _library.parameters)
"""What the rows of the memory table were computed with. Raise RULE when `_mark` or `fold` changes its mind."""

PARAMETERS = _library.parameters
"""The library's numbers, for looking ahead by its sums."""
BEND = -PARAMETERS[20]
FADE = NINETY ** (1 / BEND) - 1
"""Recall t days after an answer is (1 + FADE t / days to ninety) to the power of BEND."""
_TO_FADING = (FADING_BELOW ** (1 / BEND) - 1) / FADE


@dataclass(frozen=True, slots=True)
class Answer:
    """One counted answer, as far as memory is concerned. Seconds are None where nobody measured them."""

    outcome: str
    kind: str
    hint: bool = False
    seconds: float | None = None
    usual_seconds: float | None = None


@dataclass(frozen=True, slots=True)
class State:
    """What is known of one person's memory of one item."""

    days_to_ninety: float
    toughness: float
    last_day: date


def after(state: State | None, answer: Answer, day: date) -> State:
    """The state after the answer that stands for a study day. `None` is an item never answered before.

    A day that is not after the last one changes nothing, so that a clock set back can't undo what is known.
    """
    if state is not None and day <= state.last_day:
        return state
    card, _ = _library.review_card(_card(state), _mark(state, answer), _noon(day))
    return State(card.stability, card.difficulty, day)


def fold(answers: Iterable[tuple[date, Answer]]) -> State | None:
    """The state after all these (study day, answer) pairs, in the order given. None when there are none.

    One answer stands for a study day: the first one, or the first wrong one if there is any. A right answer later in
    the day comes minutes after the working was shown; it tells how well the hand reads, not what will be left tomorrow.
    A wrong one later in the day does tell something: the first was luck.
    """
    state = None
    for day, answer in _one_a_day(answers):
        state = after(state, answer, day)
    return state


def foretold(answers: Iterable[tuple[date, Answer]]) -> list[tuple[date, float, bool]]:
    """Of each answer that stands for a study day, but the first: the day, the chance foretold, whether it was right.

    `answers` are those of one item, as for `fold`. This is the record that corrects what is told of readiness.
    """
    state, found = None, []
    for day, answer in _one_a_day(answers):
        if state is not None and day > state.last_day:
            found.append((day, recall(state, day), answer.outcome == "right"))
        state = after(state, answer, day)
    return found


def _one_a_day(answers: Iterable[tuple[date, Answer]]) -> Iterator[tuple[date, Answer]]:
    """The answer that stands for each study day. A day before the one in hand counts as the same day."""
    standing: tuple[date, Answer] | None = None
    for day, answer in answers:
        if standing is None or day > standing[0]:
            if standing is not None:
                yield standing
            standing = day, answer
        elif answer.outcome == "wrong" and standing[1].outcome != "wrong":
            standing = standing[0], answer
    if standing is not None:
        yield standing


def recall(state: State, day: date) -> float:
    """The chance, 0 to 1, that the hand can still answer on that day. It is 1 on the day of the last answer."""
    return _library.get_card_retrievability(_card(state), _noon(day))


def back_on(state: State) -> date:
    """The first day on which the chance of recall is under `FADING_BELOW`, at most a hundred years on."""
    days = min(max(math.floor(_TO_FADING * state.days_to_ninety) - 1, 0), FURTHEST)
    while days < FURTHEST and recall(state, state.last_day + timedelta(days)) >= FADING_BELOW:
        days += 1
    return state.last_day + timedelta(days)


def _mark(state: State | None, answer: Answer) -> fsrs.Rating:
    """Our verdict in the library's own marks. Raises ValueError for a verdict that is not counted."""
    if answer.outcome not in ("right", "close", "wrong"):
        raise ValueError(f"{answer.outcome!r} is not a counted verdict. Counted are right, close and wrong.")
    if answer.outcome == "wrong":
        return fsrs.Rating.Again
    if answer.outcome == "close" or answer.hint or _slow(answer):
        return fsrs.Rating.Hard
    if state is None and answer.kind not in GUESSED_OR_ROUGH:
        return fsrs.Rating.Easy
    return fsrs.Rating.Good


def _slow(answer: Answer) -> bool:
    if answer.kind == "card" or answer.seconds is None or answer.usual_seconds is None:
        return False
    return answer.seconds > SLOW * answer.usual_seconds


def _card(state: State | None) -> fsrs.Card:
    # Without an id of its own a Card sleeps a millisecond to find one; without a due date it reads the clock.
    if state is None:
        return fsrs.Card(card_id=1, due=_noon(date.min))
    last = _noon(state.last_day)
    return fsrs.Card(1, fsrs.State.Review, None, state.days_to_ninety, state.toughness, due=last, last_review=last)


def _noon(day: date) -> datetime:
    """Noon UTC stands for the whole study day, so that elapsed time is a difference of dates."""
    return datetime.combine(day, time(12), UTC)
