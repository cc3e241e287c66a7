"""What a hand's answers add up to so far: plain counts of items, and no forecast. Pure."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date

from webapp.study.memory import FADING_BELOW, State, recall


@dataclass(frozen=True, slots=True)
class SoFar:
    """Items in the course; of them seen; right when last answered; fading today."""

    items: int
    seen: int
    right: int
    fading: int


def is_fading(state: State, today: date) -> bool:
    """Whether the chance of recall has fallen under what the plan lets stand."""
    return recall(state, today) < FADING_BELOW


def so_far(items: Collection[str], last_outcome: Mapping[str, str], memory: Mapping[str, State], today: date) -> SoFar:
    """The counts over the course's own items; what was answered of items that are gone is left out.

    `last_outcome` maps an item to how it was last answered, in counted attempts.
    """
    return SoFar(
        items=len(items),
        seen=sum(item in last_outcome for item in items),
        right=sum(last_outcome.get(item) == "right" for item in items),
        fading=sum(item in memory and is_fading(memory[item], today) for item in items),
    )
