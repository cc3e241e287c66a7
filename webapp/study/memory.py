"""What a hand still remembers of one item, and from when it fades.

This is the only file that knows the fsrs library and its words. Everybody else sees a `State`: the days until the
chance of recall has come down to ninety in a hundred, how tough the item is for this hand (1 to 10), and the study day
it was last answered on.

A plan looks ahead at what each of some hundred items would be after one more answer, and after two. It does that with
the library's own sums on plain floats, since a call of the library takes ten times as long; the tests hold the two to
the same result. What is kept as memory always comes from the library itself.

The library runs without chance and without steps inside a day, so the same answers give the same state on every run,
and `pinandbox rebuild` can compare them bit for bit.
"""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from importlib.metadata import version
from math import exp
from typing import NamedTuple

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

Floats = tuple[float, float]
"""Days to ninety and toughness, where a State with its day would only be in the way."""

_library = fsrs.Scheduler(
    desired_retention=NINETY,
    learning_steps=(),
    relearning_steps=(),
    maximum_interval=FURTHEST,
    enable_fuzzing=False,
)

MODEL = f"fsrs {version('fsrs')}; rule {RULE}; {FADING_BELOW}; " + ", ".join(repr(each) for each in _library.parameters)
"""What the rows of the memory table were computed with. Raise RULE when `_mark` or `fold` changes its mind."""

# The library's parameters in the places where its sums have them, for looking ahead.
_W = _library.parameters
_BEND = -_W[20]
_FADE = NINETY ** (1 / _BEND) - 1
_TO_FADING = (FADING_BELOW ** (1 / _BEND) - 1) / _FADE
_GROWTH, _TIRES, _SURPRISE = exp(_W[8]), -_W[9], _W[10]
_LEFT, _LEFT_TOUGH, _LEFT_LONG, _LEFT_SURPRISE = _W[11], -_W[12], _W[13], _W[14]
_MOST_LEFT, _LEAST = exp(-_W[17] * _W[18]), 0.001
_TOUGHER, _KEEPS = 2 * _W[6] / 9, 1 - _W[7]
_MIDDLE = _W[7] * (_W[4] - exp(_W[5] * 3) + 1)


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


class Outlook(NamedTuple):
    """What an item's recall looks like ahead: chances from 0 to 1.

    `now`: that it is answered right today. `as_it_is`, `after_one`, `after_two`: recall on the far day if nothing is
    done, after an answer today, and after a second one tomorrow, each over right and wrong as likely as they are.
    `again`: that the second one is right.
    """

    now: float
    as_it_is: float
    after_one: float
    after_two: float
    again: float


def look_ahead(days_to_ninety: float, toughness: float, elapsed: int, days: int) -> Outlook:
    """The outlook on a day `days` from today, 1 at least, of an item last answered `elapsed` days ago."""
    now = (1 + _FADE * elapsed / days_to_ninety) ** _BEND
    as_it_is = (1 + _FADE * (elapsed + days) / days_to_ninety) ** _BEND
    right = if_right(days_to_ninety, toughness, now)
    return _outlook(now, as_it_is, right, if_wrong(days_to_ninety, toughness, now), days)


def look_ahead_unseen(kind: str, chance: float, days: int) -> Outlook:
    """The outlook of an item never asked, whose first answer is right by that chance."""
    return _outlook(chance, chance, first_if_right(kind), _FIRST[fsrs.Rating.Again], days)


def _outlook(now: float, as_it_is: float, right: Floats, wrong: Floats, days: int) -> Outlook:
    # `kept` stands written out here and below: this runs for every item of the course, and a call costs as much.
    slow, fast, missed = right[0], wrong[0], 1 - now
    again_right, two_right = _one_more(*right, days - 1)
    again_wrong, two_wrong = _one_more(*wrong, days - 1)
    one = now * (1 + _FADE * days / slow) ** _BEND + missed * (1 + _FADE * days / fast) ** _BEND
    two = now * two_right + missed * two_wrong
    return Outlook(now, as_it_is, one, two, now * again_right + missed * again_wrong)


def _one_more(days_to_ninety: float, toughness: float, days: int) -> tuple[float, float]:
    """The chance that an answer a day after the last one is right, and recall `days` after it."""
    chance = (1 + _FADE / days_to_ninety) ** _BEND
    right = _grown(days_to_ninety, toughness, chance)
    wrong = _dropped(days_to_ninety, toughness, chance)
    ahead = _FADE * days
    return chance, chance * (1 + ahead / right) ** _BEND + (1 - chance) * (1 + ahead / wrong) ** _BEND


def kept(days_to_ninety: float, days: int) -> float:
    """The chance of recall so many days after the last answer: `recall` without dates."""
    return (1 + _FADE * days / days_to_ninety) ** _BEND


def if_right(days_to_ninety: float, toughness: float, chance: float) -> Floats:
    """Days to ninety and toughness after a right answer that came with that chance."""
    return _grown(days_to_ninety, toughness, chance), _clamped(_MIDDLE + _KEEPS * toughness)


def if_wrong(days_to_ninety: float, toughness: float, chance: float) -> Floats:
    """Days to ninety and toughness after a wrong answer, where right would have come with that chance."""
    tougher = toughness + (10 - toughness) * _TOUGHER
    return _dropped(days_to_ninety, toughness, chance), _clamped(_MIDDLE + _KEEPS * tougher)


def _grown(days_to_ninety: float, toughness: float, chance: float) -> float:
    surprise = exp((1 - chance) * _SURPRISE) - 1
    return days_to_ninety * (1 + _GROWTH * (11 - toughness) * days_to_ninety**_TIRES * surprise)


def _dropped(days_to_ninety: float, toughness: float, chance: float) -> float:
    left = (
        _LEFT * toughness**_LEFT_TOUGH * ((days_to_ninety + 1) ** _LEFT_LONG - 1) * exp((1 - chance) * _LEFT_SURPRISE)
    )
    most = days_to_ninety * _MOST_LEFT
    if left > most:
        left = most
    return left if left > _LEAST else _LEAST


def _clamped(toughness: float) -> float:
    return 1.0 if toughness < 1 else 10.0 if toughness > 10 else toughness


def first_if_right(kind: str) -> Floats:
    """Days to ninety and toughness after a first answer that is right."""
    return _FIRST[fsrs.Rating.Good if kind in GUESSED_OR_ROUGH else fsrs.Rating.Easy]


def first_if_wrong() -> Floats:
    """Days to ninety and toughness after a first answer that is wrong."""
    return _FIRST[fsrs.Rating.Again]


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


_FIRST = {
    mark: (card.stability, card.difficulty)
    for mark in fsrs.Rating
    for card in [_library.review_card(_card(None), mark, _noon(date(2000, 1, 1)))[0]]
}
