"""The merit of an item: recall on the day of the exam that asking it today adds for a second of study. Pure."""

from webapp.study.looking_ahead import Outlook, after_at_most
from webapp.study.worth import LOOKS_ROUND, seconds_of

NEW_COUNTS = 0.8
"""What an unseen item counts beside its gain: it is less sure than what is known of one that was answered."""
ROUNDING = 1e-12
"""Far less than any merit that matters, far more than what floats lose in its sum."""


def merit(outlook: Outlook, seconds: float, unseen: bool = False) -> float:
    """Recall on the far day that asking adds for a second of study: the better of asking once and asking twice."""
    now, as_it_is, one, two, again = outlook
    once = seconds_of(seconds, now, unseen)
    by_one = (one - as_it_is) / once
    by_two = (two - as_it_is) / (once + seconds_of(seconds, again))
    found = by_one if by_one > by_two else by_two
    return found * NEW_COUNTS if unseen and found > 0 else found


def most_merit(strength: float, toughness: float, now: float, as_it_is: float, days: int, seconds: float) -> float:
    """What the merit of an item seen before can be at most: `strength` is its days to ninety.

    The second answer can be no quicker than a right one is.
    """
    one, two = after_at_most(strength, toughness, now, days)
    once = seconds_of(seconds, now)
    by_one = (one - as_it_is) / once
    by_two = (two - as_it_is) / (once + seconds * LOOKS_ROUND)
    return (by_one if by_one > by_two else by_two) + ROUNDING
