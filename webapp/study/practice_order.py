"""The order in which a lesson's items are practised: pure."""

from collections.abc import Mapping, Sequence


def practice_order(items: Sequence[str], last_attempt: Mapping[str, str]) -> list[str]:
    """Items never answered first, in the lesson's order; then those answered longest ago.

    `last_attempt` maps an item to the id of its latest attempt; ids sort by the time at which they were made.
    """
    return sorted(items, key=lambda item: last_attempt.get(item, ""))
