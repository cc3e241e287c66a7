"""What to study today: a pure function. The same inputs give the same plan; no clock and no chance inside.

Items that fade come first, the most faded at the head; then new items of the lessons read, in course order. The plan
stops when the minutes are used.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from webapp.study.memory import FADING_BELOW, State, recall

FADING = "fading"
NEW = "new"


@dataclass(frozen=True, slots=True)
class Offer:
    """An item that could be asked, its lesson, and the seconds that answering it usually takes."""

    item: str
    lesson: str
    seconds: float


@dataclass(frozen=True, slots=True)
class Pick:
    """An item that the plan asks for today. `recall` is the chance of recall now, None for a new item."""

    item: str
    seconds: float
    reason: str
    recall: float | None


def plan_today(
    offers: Iterable[Offer],
    memory: Mapping[str, State],
    lessons_read: Collection[str],
    minutes: float,
    today: date,
    seconds_spent: float = 0,
) -> list[Pick]:
    """The picks for today, in the order to ask them.

    `offers` come in course order, each item once; `memory` is keyed by item id; `lessons_read` are lesson ids.
    `seconds_spent` is what the hand has already studied today. The last pick may run over the minutes, no other.
    """
    plan: list[Pick] = []
    left = minutes * 60 - seconds_spent
    for pick in _wanted(list(offers), memory, lessons_read, today):
        if left <= 0:
            break
        plan.append(pick)
        left -= pick.seconds
    return plan


def _wanted(
    offers: list[Offer], memory: Mapping[str, State], lessons_read: Collection[str], today: date
) -> Iterator[Pick]:
    """All that could be studied today, the most useful first, however long it takes."""
    seen = ((offer, recall(memory[offer.item], today)) for offer in offers if offer.item in memory)
    fading = [(offer, chance) for offer, chance in seen if chance < FADING_BELOW]
    for offer, chance in sorted(fading, key=lambda each: each[1]):
        yield Pick(offer.item, offer.seconds, FADING, chance)
    for offer in offers:
        if offer.item not in memory and offer.lesson in lessons_read:
            yield Pick(offer.item, offer.seconds, NEW, None)
