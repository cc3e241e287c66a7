"""An invented hand, and a course of study as an order of items gives it: who they are follows from a seed.

The course has 250 items, 25 in each of the ten modules, in the kinds below; the exam is the second paper of
`course/blueprints.toml`. All lessons are read on the first day. Abilities, rotations, minutes, missed days and seconds
are spread by hand: no source.
"""

import math
from collections import Counter
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from random import Random

from course import load_blueprints, load_course
from course.blueprint import asked_chances
from tests.bench.memory_models import sigmoid
from webapp.study.rotation import Rotation, minutes_of, on_the_rig
from webapp.study.worth import Offer, Section, worth_of_sections

KINDS = {  # items in a module, seconds of a right answer, log odds at first sight, chance of a right guess
    "numeric": (10, 90.0, -0.8, 0.0),
    "choice": (6, 35.0, -0.2, 0.25),
    "part": (4, 25.0, -0.4, 0.15),
    "card": (2, 20.0, -0.6, 0.0),
    "match": (1, 60.0, -0.4, 0.05),
    "order": (1, 75.0, -0.8, 0.05),
    "estimate": (1, 40.0, -0.4, 0.10),
}
FIRST_DAY = date(2026, 3, 2)
ROTATIONS = ((14, 14), (21, 21), (28, 28), (14, 21))
MISSED_ON, MISSED_OFF = 0.15, 0.30
READS, AT_FIRST = 0.5, 0.3
ASKINGS = 60


@cache
def the_course() -> tuple[list[Offer], dict[Section, float], list[float]]:
    """The items in course order, what the exam makes each section worth, and each item's share of the exam."""
    course = load_course()
    modules = list(dict.fromkeys(lesson.split("/")[0] for lesson in _study_order(course)))
    offers = [
        Offer(f"{module}.{kind}-{number}", f"{module}/all", Section(module, kind), seconds)
        for module in modules
        for kind, (items, seconds, _, _) in KINDS.items()
        for number in range(items)
    ]
    chances = asked_chances(load_blueprints(course)["assistant-driller"], Counter(each.section for each in offers))
    asked = [chances[each.section] for each in offers]
    return offers, worth_of_sections(offers, chances), [each / sum(asked) for each in asked]


def _study_order(course) -> list[str]:
    return [each.id for each in course.lessons]


@dataclass(frozen=True)
class Hand:
    """Everything about one invented hand but how they remember. Lists are by item, in course order."""

    seed: int
    rotation: Rotation
    days: int
    missed: frozenset[date]
    at_first: list[float]
    known: list[bool]
    ease: list[float]
    seconds: list[float]
    luck: list[list[float]]

    @property
    def exam(self) -> date:
        return FIRST_DAY + timedelta(self.days)

    def minutes(self, day: date) -> float:
        """What the hand really studies that day."""
        return 0.0 if day in self.missed else minutes_of(self.rotation, day)


def hand_of(seed: int) -> Hand:
    """The hand of that seed."""
    chance, offers = Random(seed), the_course()[0]
    on, off = chance.choice(ROTATIONS)
    first = FIRST_DAY - timedelta(chance.randrange(on + off))
    rotation = Rotation(on, off, first, chance.choice((10, 12, 15, 20)), chance.choice((10, 15, 20, 30)))
    days = chance.randint(20, 90)
    missed = frozenset(
        day
        for day in (FIRST_DAY + timedelta(number) for number in range(days))
        if chance.random() < (MISSED_ON if on_the_rig(rotation, day) else MISSED_OFF)
    )
    ability, speed = chance.gauss(0, 0.5), math.exp(chance.gauss(0, 0.15))
    odds = [KINDS[each.section.kind][2] + ability + chance.gauss(0, 0.8) for each in offers]
    at_first = [sigmoid(each) for each in odds]
    return Hand(
        seed,
        rotation,
        days,
        missed,
        at_first,
        [chance.random() < each for each in at_first],
        [0.6 * ability + chance.gauss(0, 0.8) for _ in offers],
        [each.seconds * speed * math.exp(chance.gauss(0, 0.25)) for each in offers],
        [[chance.random() for _ in range(ASKINGS)] for _ in offers],
    )


class Study:
    """One hand who remembers by one model and studies by one order, day by day."""

    def __init__(self, hand: Hand, model: type) -> None:
        self.hand, (offers, _, self.shares) = hand, the_course()
        kinds = [each.section.kind for each in offers]
        first = [0.9 if known else 1e-4 for known in hand.known] if model.all_or_none else hand.at_first
        self.truth = model(first, hand.ease, kinds)
        self.guess = [KINDS[kind][3] for kind in kinds]
        self.times_asked = [0] * len(offers)
        self.seconds_used = 0.0

    def day(self, number: int, order) -> None:
        """One day: items as the order gives them, until the minutes are used."""
        day = FIRST_DAY + timedelta(number)
        left = self.hand.minutes(day) * 60
        if left <= 0:
            return
        for item in order.sitting(day, left / 60):
            seconds, right = self.ask(item, number)
            order.told(item, day, right)
            left -= seconds
            self.seconds_used += seconds
            if left <= 0:
                break

    def ask(self, item: int, number: int) -> tuple[float, bool]:
        """One asking: how long it took, with reading the working, and whether it was right."""
        times = self.times_asked[item]
        right = self.hand.luck[item][times % ASKINGS] < self.chance(item, number)
        self.truth.answered(item, number, right)
        self.times_asked[item] += 1
        return self.hand.seconds[item] * (1.1 + (not right) * READS + (times == 0) * AT_FIRST), right

    def chance(self, item: int, number: int) -> float:
        """The chance of a right answer on a day, by memory or by luck."""
        known = self.truth.recall(item, number)
        return known + (1 - known) * self.guess[item]

    def mark(self, number: int) -> float:
        """The mark to expect of the paper on that day: right answers as the exam weighs them, 0 to 1."""
        return sum(share * self.chance(item, number) for item, share in enumerate(self.shares) if share)

    def marks_by(self, number: int, name: str) -> dict[str, float]:
        """The mark of each module or each kind ('module', 'kind') on that day."""
        got, full = Counter(), Counter()
        for item, (offer, share) in enumerate(zip(the_course()[0], self.shares, strict=True)):
            if share:
                got[getattr(offer.section, name)] += share * self.chance(item, number)
                full[getattr(offer.section, name)] += share
        return {each: got[each] / full[each] for each in full}
