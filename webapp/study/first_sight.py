"""How likely a hand answers an item right at first sight, kind by kind, from the first answers so far. Pure."""

from collections import Counter
from collections.abc import Iterable

PRIOR = {
    "numeric": 0.35,
    "choice": 0.55,
    "card": 0.35,
    "part": 0.50,
    "match": 0.45,
    "order": 0.35,
    "estimate": 0.45,
    "gauge": 0.55,
    "find-the-wrong-line": 0.40,
}
"""Before anything is known of the hand, who has read the lesson. Guessed for hands of this trade; no source."""
OTHERWISE = 0.40
PRIOR_ANSWERS = 8
"""How many answers the prior counts as."""


def first_chances(first_answers: Iterable[tuple[str, bool]]) -> dict[str, float]:
    """The chance by kind, from (kind, right) of each item's first answer. Every kind of `PRIOR` is there."""
    asked, right = Counter(), Counter()
    for kind, was_right in first_answers:
        asked[kind] += 1
        right[kind] += was_right
    return {
        kind: (PRIOR_ANSWERS * PRIOR.get(kind, OTHERWISE) + right[kind]) / (PRIOR_ANSWERS + asked[kind])
        for kind in {**PRIOR, **asked}
    }
