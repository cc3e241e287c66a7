"""The known mistakes that come again, each by its title and with what to tell of it: for the hand and for who helps."""

from collections.abc import Iterable
from dataclasses import dataclass

from question_bank import Item
from question_bank.quantities_in_text import fill
from webapp.at_hand import bank, system
from webapp.records.attempts import MistakeCount

AGAIN = 2


@dataclass(frozen=True)
class Again:
    """A mistake that came more than once, and what to tell of it."""

    item: Item
    title: str
    tell: str
    count: int


def come_again(counts: Iterable[MistakeCount]) -> list[Again]:
    """Those that came more than once and that the course still has, in their order."""
    found = (_told(each.item, each.mistake, each.count) for each in counts if each.count >= AGAIN)
    return [each for each in found if each]


def _told(name: str, mistake: str, count: int) -> Again | None:
    """A mistake by its title, with what to tell of it; None if the course no longer has it."""
    item = bank().get(name)
    if item is None:
        return None
    if item.kind == "choice":
        option = next((each for each in item.options if f"option-{each.key}" == mistake), None)
        return option and Again(
            item, f"You chose: {fill(option.text, system())}", fill(option.tell or "", system()), count
        )
    if item.kind == "part":
        spot = next((each for each in item.spots if f"part-{each.part}" == mistake), None)
        return spot and Again(item, f"You chose: {spot.name}", fill(item.tells.get(spot.part, ""), system()), count)
    slip = next((each for each in getattr(item, "mistakes", ()) if each.name == mistake), None)
    return slip and Again(item, slip.title, fill(slip.tell.get(system(), ""), system()), count)
