"""Orders in which a hand could study: the plan, and the ones that it is compared with.

Each has `sitting(day, minutes)`, which gives items until the hand stops, and `told(item, day, right)`.
"""

from collections.abc import Iterator
from datetime import date, timedelta
from random import Random

from tests.bench.simulated_hand import FIRST_DAY, Hand, the_course
from webapp.study.aim import Aim
from webapp.study.first_sight import first_chances
from webapp.study.looking_ahead import kept
from webapp.study.memory import Answer, State, after
from webapp.study.planner import plan_today

READ = frozenset(offer.lesson for offer in the_course()[0])
PLACE = {offer.item: place for place, offer in enumerate(the_course()[0])}
KIND = [offer.section.kind for offer in the_course()[0]]
PER_SECOND = [share / offer.seconds for share, offer in zip(the_course()[2], the_course()[0], strict=True)]


class Remembering:
    """What all orders that follow the memory have: the states that the course itself would keep."""

    def __init__(self, hand: Hand) -> None:
        self.hand = hand
        self.memory: dict[str, State] = {}
        self.firsts: list[tuple[str, bool]] = []
        self.foretold: list[tuple[float, bool]] = []

    def told(self, item: int, day: date, right: bool) -> None:
        name = the_course()[0][item].item
        state = self.memory.get(name)
        if state is None:
            self.firsts.append((KIND[item], right))
        else:
            self.foretold.append((kept(state.days_to_ninety, (day - state.last_day).days), right))
        self.memory[name] = after(state, Answer("right" if right else "wrong", KIND[item]), day)


class ThePlan(Remembering):
    """The plan itself, by the function that the course calls."""

    name = "the plan"

    def aim(self) -> Aim:
        return Aim(self.hand.rotation, self.hand.exam, the_course()[1], first_chances(self.firsts))

    def sitting(self, day: date, minutes: float) -> Iterator[int]:
        plan = plan_today(the_course()[0], self.memory, READ, self.aim(), day, 1.5 * minutes + 3)
        yield from (PLACE[pick.item] for pick in plan.picks)


class ByDueDate(Remembering):
    """What has fallen under a recall is due, the longest due first; then new items in course order, so many a day."""

    name = "by due date"
    due_below, new_a_day = 0.9, 20

    def sitting(self, day: date, minutes: float) -> Iterator[int]:
        seen, new = self.due(day), [PLACE[each.item] for each in the_course()[0] if each.item not in self.memory]
        yield from seen
        yield from new[: self.new_a_day]

    def due(self, day: date) -> list[int]:
        """Items due, by the day on which they fell due."""
        found = []
        for name, state in self.memory.items():
            days = (day - state.last_day).days
            if days > 0 and kept(state.days_to_ninety, days) < self.due_below:
                found.append((self.fell_due(state), PLACE[name]))
        return [place for _, place in sorted(found)]

    def fell_due(self, state: State) -> int:
        """The day on which recall came down to what is due, counted from the first day of all."""
        least, most = 0, 1
        while kept(state.days_to_ninety, most) >= self.due_below:
            least, most = most, 2 * most
        while most - least > 1:
            middle = (least + most) // 2
            if kept(state.days_to_ninety, middle) >= self.due_below:
                least = middle
            else:
                most = middle
        return (state.last_day - FIRST_DAY).days + most


class Tuned(ByDueDate):
    """By due date, with the recall and the new items a day that did best for the model on seeds kept apart."""

    name = "by due date, tuned"


class WeightPerSecond(ByDueDate):
    """What is due, and what is new, by the exam's weight for a second of study."""

    name = "weight per second"

    def sitting(self, day: date, minutes: float) -> Iterator[int]:
        new = [PLACE[each.item] for each in the_course()[0] if each.item not in self.memory]
        yield from sorted(self.due(day) + new, key=lambda place: (-PER_SECOND[place], place))


class Doubling:
    """Each right answer doubles the days to the next one, a wrong one begins again at one day; then new items."""

    name = "doubling"

    def __init__(self, hand: Hand) -> None:
        self.next: dict[int, tuple[date, int]] = {}

    def sitting(self, day: date, minutes: float) -> Iterator[int]:
        yield from [place for when, place in sorted((w, p) for p, (w, _) in self.next.items()) if when <= day]
        yield from [place for place in range(len(KIND)) if place not in self.next][:20]

    def told(self, item: int, day: date, right: bool) -> None:
        gap = self.next.get(item, (day, 0))[1]
        gap = max(1, 2 * gap) if right else 1
        self.next[item] = day + timedelta(gap), gap


class AtRandom:
    """Items as they come, each once a day."""

    name = "at random"

    def __init__(self, hand: Hand) -> None:
        self.chance = Random(hand.seed)

    def sitting(self, day: date, minutes: float) -> Iterator[int]:
        yield from self.chance.sample(range(len(KIND)), len(KIND))

    def told(self, item: int, day: date, right: bool) -> None:
        pass


class Massed:
    """Course order, each item three times running; at the end from the beginning again."""

    name = "massed"

    def __init__(self, hand: Hand) -> None:
        self.asked = 0

    def sitting(self, day: date, minutes: float) -> Iterator[int]:
        while True:
            yield self.asked // 3 % len(KIND)

    def told(self, item: int, day: date, right: bool) -> None:
        self.asked += 1


ORDERS = (ThePlan, ByDueDate, Tuned, WeightPerSecond, Doubling, AtRandom, Massed)
