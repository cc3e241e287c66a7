"""The merit of an item: recall on the day of the exam that asking it today adds for a second of study. Pure."""

from webapp.study.looking_ahead import Outlook, look_ahead_at_most
from webapp.study.worth import seconds_of

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


def most_merit(days_to_ninety: float, toughness: float, elapsed: int, days: int, seconds: float) -> tuple[float, float]:
    """What the merit of an item seen before can be at most, and its recall on the far day as it is.

    The second answer can be no quicker than a right one is.
    """
    now, as_it_is, one, two = look_ahead_at_most(days_to_ninety, toughness, elapsed, days)
    once = seconds_of(seconds, now)
    by_one = (one - as_it_is) / once
    by_two = (two - as_it_is) / (once + seconds_of(seconds, 1.0))
    return (by_one if by_one > by_two else by_two) + ROUNDING, as_it_is
