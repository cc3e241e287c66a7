"""The merit of an item: recall on the day of the exam that asking it today adds for a second of study. Pure."""

from webapp.study.looking_ahead import Outlook, again_at_most, look_once
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


def merit_at_most(
    strength: float, toughness: float, now: float, as_it_is: float, days: int, seconds: float
) -> tuple[float, float, bool]:
    """What the merit of an item seen before can be at most, what one answer adds to its recall, and if there is doubt.

    `strength` is its days to ninety. There is doubt where a second answer could be the better, if that were sure to be
    right, which is also the quickest. Without doubt this is the merit itself.
    """
    one, right, wrong = look_once(strength, toughness, now, days)
    once, added = seconds_of(seconds, now), one - as_it_is
    by_one, twice = added / once, once + seconds * LOOKS_ROUND
    two = again_at_most(right, toughness, days - 1)
    if (two - as_it_is) / twice + ROUNDING <= by_one:
        return by_one, added, False
    # Two right answers would be better than one; but the first one may be wrong.
    two = now * two + (1 - now) * again_at_most(wrong, toughness, days - 1)
    by_two = (two - as_it_is) / twice + ROUNDING
    return (by_two, added, True) if by_two > by_one else (by_one, added, False)
