"""How ready a hand is for the exam: the mark to expect, by module and kind, with a band. Pure.

The mark is the mean recall on the day of the exam, as the exam weighs it, if nothing more were studied. It is told a
little lower than memory has it, and the hand's own record corrects it: if answers came right more often than was
foretold, so will those of the exam.
"""

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from math import exp, log, sqrt

from webapp.study.aim import Aim
from webapp.study.first_sight import OTHERWISE
from webapp.study.looking_ahead import kept
from webapp.study.memory import State
from webapp.study.opened import days_to_go
from webapp.study.worth import Offer, Section

RECORD = 200
"""How many answers, the latest, tell how the hand's memory differs from what was foretold."""
PRIOR = 50
"""How many answers that came as foretold the hand is credited with before that."""
HOPEFUL = 0.2
"""Log odds by which recall on the exam's day is told lower than memory has it. What is known well rests, so the record
says little of it; hands simulated under ways of remembering unlike ours knew less of it than foretold. From seeds kept
apart from the bench's own.
"""
SURE = 1.645
"""Standard deviations to either side that hold 90 % of a normal spread."""
SPREAD_SEEN, SPREAD_UNSEEN = 0.045, 0.06
"""Standard deviation of a mark now, and what adds to it as long as nothing is seen. From hands simulated on seeds kept
apart from the bench's own.
"""
STEPS = 20


@dataclass(frozen=True, slots=True)
class Mark:
    """The mark to expect, 0 to 1, and the band that holds it in nine of ten cases."""

    about: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Readiness:
    """The mark of the whole exam; the mark to expect of each module, kind and section that it asks, without a band."""

    mark: Mark
    modules: dict[str, float]
    kinds: dict[str, float]
    sections: dict[Section, float]


def readiness(
    offers: Sequence[Offer],
    memory: Mapping[str, State],
    aim: Aim,
    today: date,
    record: Sequence[tuple[float, bool]] = (),
) -> Readiness:
    """How ready the hand is if nothing more were studied.

    `record` has (chance foretold, right) of answers to items seen before, oldest first.
    """
    recalls = exam_recalls(offers, memory, aim, today, shift_of(record))
    rows = [(offer.section, aim.worth.get(offer.section, 0.0) if aim.worth else 1.0) for offer in offers]

    def means(name: Callable[[Section], object]) -> dict:
        got, full = defaultdict(float), defaultdict(float)
        for (section, worth), recall in zip(rows, recalls, strict=True):
            if worth:
                got[name(section)] += worth * recall
                full[name(section)] += worth
        return {each: got[each] / full[each] for each in full}

    whole = means(lambda section: "all").get("all", 0.0)
    unseen = sum(worth for offer, (_, worth) in zip(offers, rows, strict=True) if offer.item not in memory)
    unseen /= sum(worth for _, worth in rows) or 1
    return Readiness(
        banded(whole, sqrt(SPREAD_SEEN**2 + SPREAD_UNSEEN**2 * unseen)),
        means(lambda section: section.module),
        means(lambda section: section.kind),
        means(lambda section: section),
    )


def exam_recalls(
    offers: Sequence[Offer], memory: Mapping[str, State], aim: Aim, today: date, shift: float = 0.0
) -> list[float]:
    """The chance that each item is answered right on the day of the exam if nothing more is studied."""
    days, found = days_to_go(aim.exam, today), []
    for offer in offers:
        state = memory.get(offer.item)
        if state is None:
            found.append(aim.first.get(offer.section.kind, OTHERWISE))
        else:
            recall = kept(state.days_to_ninety, max((today - state.last_day).days + days, 0))
            found.append(shifted(recall, shift - HOPEFUL))
    return found


def shift_of(record: Sequence[tuple[float, bool]]) -> float:
    """How far the log odds of recall lie above (or under) what was foretold, by the latest answers of the hand.

    The likeliest shift, where answers that came just as foretold count beside the hand's own. By Newton's method.
    """
    latest = [(_odds(chance), right) for chance, right in record[-RECORD:]]
    if not latest:
        return 0.0
    shift = 0.0
    spread = sum(_chance(odds) * (1 - _chance(odds)) for odds, _ in latest) / len(latest)
    for _ in range(STEPS):
        chances = [_chance(odds + shift) for odds, _ in latest]
        slope = sum(right - chance for chance, (_, right) in zip(chances, latest, strict=True)) - PRIOR * spread * shift
        bend = sum(chance * (1 - chance) for chance in chances) + PRIOR * spread
        shift += slope / bend
    return shift


def shifted(chance: float, shift: float) -> float:
    """The chance with its log odds moved by the shift."""
    return _chance(_odds(chance) + shift) if shift else chance


def banded(about: float, spread: float) -> Mark:
    """A mark with its band, kept from 0 to 1."""
    return Mark(about, max(0.0, about - SURE * spread), min(1.0, about + SURE * spread))


def spread_ahead(share_to_come: float) -> float:
    """Standard deviation of a mark foretold, by the share of the whole time of study that lies between."""
    return sqrt(0.03**2 + 0.10**2 * share_to_come)


def _odds(chance: float) -> float:
    chance = min(max(chance, 1e-6), 1 - 1e-6)
    return log(chance / (1 - chance))


def _chance(odds: float) -> float:
    return 1 / (1 + exp(-odds))
