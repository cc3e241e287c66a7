"""The known mistakes that come again, each by its title and with what to tell of it: for the hand and for who helps."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from question_bank import Item
from question_bank.kinds.slip import general
from question_bank.quantities_in_text import fill
from webapp.at_hand import bank, system
from webapp.records.attempts import MistakeCount

AGAIN = 2


@dataclass(frozen=True)
class Again:
    """A mistake that came more than once, and what to tell of it. `item` is the one that it came in, if it was one."""

    item: Item | None
    title: str
    tell: str
    count: int


def come_again(counts: Iterable[MistakeCount], chose: str = "You chose") -> list[Again]:
    """What came more than once, the commonest first. A general mistake counts over all items, any other in its own.

    `chose` says before the words of a wrong option or part who took it, for whoever reads it.
    """
    made = list(counts)
    in_items = Counter(each.mistake for each in made if general(each.mistake))
    alone = [each for each in made if in_items[each.mistake] < AGAIN and each.count >= AGAIN]
    found = [_told(each.item, each.mistake, each.count, chose) for each in alone]
    for name in (each for each, items in in_items.items() if items >= AGAIN):
        found.append(_general(name, sum(each.count for each in made if each.mistake == name)))
    return sorted((each for each in found if each), key=lambda each: -each.count)


def _general(name: str, count: int, item: Item | None = None) -> Again | None:
    known = general(name)
    return known and Again(item, known.title, known.tell, count)


def _told(name: str, mistake: str, count: int, chose: str) -> Again | None:
    """A mistake by its title, with what to tell of it; None if the course no longer has it."""
    item = bank().get(name)
    if item is None:
        return None
    if item.kind == "choice":
        option = next((each for each in item.options if f"option-{each.key}" == mistake), None)
        return option and Again(
            item, f"{chose}: {fill(option.text, system())}", fill(option.tell or "", system()), count
        )
    if item.kind == "part":
        spot = next((each for each in item.spots if f"part-{each.part}" == mistake), None)
        return spot and Again(item, f"{chose}: {spot.name}", fill(item.tells.get(spot.part, ""), system()), count)
    slip = next((each for each in getattr(item, "mistakes", ()) if each.name == mistake), None)
    if slip is None:
        return _general(mistake, count, item)
    return Again(item, slip.title, fill(slip.tell.get(system(), ""), system()), count)
