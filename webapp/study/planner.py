"""What to study today: a pure function. The same inputs give the same plan; no clock and no chance inside.

Each item that may be asked has a merit: how much recall on the day of the exam an answer today adds for a second of
study, alone or with a second answer tomorrow. That times what the exam and the weak sections make it worth is its gain.
The highest gain is asked first, until the minutes are used. No third item in a row is of one module while another
module has something to ask.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from webapp.study.aim import Aim
from webapp.study.memory import State
from webapp.study.rotation import minutes_of
from webapp.study.sitting import ASKED, Choice, Sitting
from webapp.study.worth import Offer

FADING = "fading"
WEAK = "weak module"
NEW = "new"
NEW_AND_WORTH = "new, and worth much in the exam"
LAST_DAYS = "last days"

WEAK_SHOWS = 0.25
"""The share of its worth in the exam that a weak section must add before it is the reason told."""


class Pick(NamedTuple):
    """An item that the plan asks for today. `recall` is the chance of recall now, None for a new item."""

    item: str
    seconds: float
    reason: str
    recall: float | None


@dataclass(frozen=True, slots=True)
class Plan:
    """The picks in the order to ask them, and why each other item is not among them (the words are in sitting.py)."""

    picks: list[Pick]
    left_out: dict[str, str]


def plan_today(
    offers: Sequence[Offer],
    memory: Mapping[str, State],
    lessons_read: Collection[str],
    aim: Aim,
    today: date,
    minutes: float | None = None,
    seconds_spent: float = 0,
    asked: Collection[str] = (),
) -> Plan:
    """The plan of today, made from what was known this morning.

    `offers` come in course order, each item once; `memory` is keyed by item id; `lessons_read` are lesson ids. Without
    `minutes` they are the rotation's for today. `seconds_spent` is what the hand has already studied today. The last
    pick may run over the minutes, no other. Items `asked` today keep their place in the order and take no time of it:
    with the memory of the morning, what is left of a plan is the same whatever was answered.
    """
    left = (minutes_of(aim.rotation, today) if minutes is None else minutes) * 60 - seconds_spent
    sitting = Sitting(offers, memory, lessons_read, aim, today)
    picks, passed = [], {}
    while left > 0 and (choice := sitting.next_choice()):
        offer = choice.offer
        if offer.item in asked:
            passed[offer.item] = ASKED
            continue
        picks.append(Pick(offer.item, offer.seconds, _reason(choice, aim, sitting.is_last), choice.recall))
        left -= offer.seconds
    return Plan(picks, sitting.left_out() | passed)


def _reason(choice: Choice, aim: Aim, is_last: bool) -> str:
    """Why the item is asked, for a hand to read."""
    if choice.recall is None:
        return NEW_AND_WORTH if aim.worth and choice.exam >= 1 else NEW
    if is_last:
        return LAST_DAYS
    return WEAK if choice.weak > WEAK_SHOWS * choice.exam else FADING
