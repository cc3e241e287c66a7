"""The merit of an item: recall on the day of the exam that asking it today adds for a second of study. Pure."""

from webapp.study.looking_ahead import Outlook, most_a_second
from webapp.study.memory import State
from webapp.study.worth import LOOKS_ROUND, seconds_of

NEW_COUNTS = 0.8
"""What an unseen item counts beside its gain: it is less sure than what is known of one that was answered."""


def merit(outlook: Outlook, seconds: float, unseen: bool = False) -> float:
    """Recall on the far day that asking adds for a second of study: the better of asking once and asking twice."""
    now, as_it_is, one, two, again = outlook
    once = seconds_of(seconds, now, unseen)
    by_one = (one - as_it_is) / once
    by_two = (two - as_it_is) / (once + seconds_of(seconds, again))
    found = by_one if by_one > by_two else by_two
    return found * NEW_COUNTS if unseen and found > 0 else found


def most_merit(state: State, now: float, as_it_is: float, days: int, seconds: float) -> float:
    """What the merit of an item seen before can be at most. The second answer can be no quicker than a right one is."""
    once = seconds_of(seconds, now)
    twice = once + seconds * LOOKS_ROUND
    return most_a_second(state.days_to_ninety, state.toughness, now, as_it_is, days, once, twice)
