"""The order in which a lesson's items are practised: pure."""

from collections import Counter
from collections.abc import Mapping


def practice_order(kinds: Mapping[str, str], last_attempt: Mapping[str, str]) -> list[str]:
    """Items never answered first, their kinds mixed; then those answered longest ago.

    `kinds` maps each item to its kind, in the lesson's order; `last_attempt` maps an item to the id of its latest
    attempt, and ids sort by the time at which they were made.
    """
    return sorted(mixed(kinds), key=lambda item: last_attempt.get(item, ""))


def mixed(kinds: Mapping[str, str]) -> list[str]:
    """Each kind spread evenly over the whole, in its own order.

    Questions of one drawing would give each other away if they came in a row, and sums at the end come to a tired hand.
    """
    sizes, before = Counter(kinds.values()), Counter()
    place = {}
    for item, kind in kinds.items():
        place[item] = (before[kind] + 0.5) / sizes[kind]
        before[kind] += 1
    return sorted(kinds, key=lambda item: place[item])
