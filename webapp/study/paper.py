"""Which items a practice paper asks, in which order, in which system and with which numbers: all by one seed. Pure."""

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from question_bank.picking import Picker
from webapp.study.drawing_up import SELF_MARKED, Askable

IN_OTHER_SYSTEM = 10
"""Percent of a paper's numeric questions that are asked in the other unit system (plan of the course)."""
SEEDS = 2**31
OTHER = {"us": "metric", "metric": "us"}


@dataclass(frozen=True, slots=True)
class ModuleDemand:
    """How many questions a module has in a paper, and how they go to its kinds: (kinds that share a weight, questions).

    The questions of its kinds need not be whole; they add up to about `questions`, or to as many as it has items.
    """

    questions: int
    kinds: tuple[tuple[tuple[str, ...], float], ...]


@dataclass(frozen=True, slots=True)
class Demand:
    """What a paper asks for. Of `must_pass` questions each lesson of `one_each` gives one.

    Lessons of `may` give more of them only where a lesson of `one_each` has none.
    """

    modules: Mapping[str, ModuleDemand]
    must_pass: int
    one_each: tuple[str, ...]
    may: tuple[str, ...] = ()


def module_of(lesson: str) -> str:
    """The module that a lesson is in."""
    return lesson.partition("/")[0]


def draw_paper(
    items: Iterable[Askable], demand: Demand, seed: int, system: str, seen: Collection[str] = ()
) -> list[Askable]:
    """The paper: its items in the order to ask them, each with its system and the seed of its numbers.

    No item is asked twice. What was `seen` in the last paper is asked only where a lesson's must-pass items, or a
    module, have nothing else. An item that must be passed is so only in one of the must-pass places; in any other
    place it comes last, and counts as any other.
    """
    draw = _Draw(items, demand, Picker(seed), set(seen))
    chosen = draw.must_pass()
    for module in draw.picker.shuffled(sorted(demand.modules)):
        chosen += draw.rest_of(module, [each for each in chosen if module_of(each.lesson) == module])
    paper = draw.picker.shuffled(chosen)
    elsewhere = _in_other_system(paper, draw.picker)
    return [
        replace(
            each,
            system=OTHER[system] if each.item in elsewhere else system,
            seed=draw.picker.index(SEEDS),
        )
        for each in paper
    ]


def _in_other_system(paper: Sequence[Askable], picker: Picker) -> set[str]:
    """One numeric item in ten, to the nearest whole number, half a one being one."""
    numerics = [each.item for each in paper if each.kind == "numeric"]
    number = (IN_OTHER_SYSTEM * len(numerics) + 50) // 100
    return set(picker.shuffled(numerics)[:number])


class _Draw:
    """A paper while it is drawn. `owed` is what rounding to whole questions has kept from each row of kinds so far."""

    def __init__(self, items: Iterable[Askable], demand: Demand, picker: Picker, seen: set[str]) -> None:
        self.demand, self.picker, self.seen = demand, picker, seen
        self.pool = picker.shuffled(
            [each for each in items if each.kind not in SELF_MARKED and module_of(each.lesson) in demand.modules]
        )
        self.owed: Counter[str] = Counter()
        self.asked_of: Counter[str] = Counter()

    def must_pass(self) -> list[Askable]:
        """One of each lesson that gives one, then of those that may, within what their modules ask."""
        chosen: list[Askable] = []
        for lessons in [(each,) for each in self.demand.one_each] + [self.demand.may] * self.demand.must_pass:
            room = [each for each in self.pool if self._may_be_must(each, lessons, chosen)]
            if room and len(chosen) < self.demand.must_pass:
                chosen.append(min(room, key=lambda each: (each.item in self.seen, self.asked_of[each.lesson])))
                self.asked_of[chosen[-1].lesson] += 1
        return chosen

    def _may_be_must(self, item: Askable, lessons: Sequence[str], chosen: list[Askable]) -> bool:
        module = module_of(item.lesson)
        taken = sum(module_of(each.lesson) == module for each in chosen)
        return (
            item.must_pass
            and item.lesson in lessons
            and item not in chosen
            and taken < self.demand.modules[module].questions
        )

    def rest_of(self, module: str, chosen: list[Askable]) -> list[Askable]:
        """The other questions of a module: by kind as it demands, and within a kind spread over its lessons."""
        of = self.demand.modules[module]
        left = [each for each in self.pool if module_of(each.lesson) == module and each not in chosen]
        wanted = {kinds: number for kinds, number in of.kinds}
        for each in chosen:
            self._give(wanted, each.kind)
        more: list[Askable] = []
        while left and len(chosen) + len(more) < of.questions:
            best = min(left, key=lambda each: self._rank(each, wanted))
            left.remove(best)
            self._give(wanted, best.kind)
            self.asked_of[best.lesson] += 1
            more.append(replace(best, must_pass=False))
        for kinds, number in wanted.items():
            self.owed[kinds[0]] += number
        return more

    def _rank(self, item: Askable, wanted: Mapping[tuple[str, ...], float]) -> tuple:
        """Lowest first: what was not seen, the kind that most is wanted of, then the lesson that was asked least."""
        kind = max((number + self.owed[kinds[0]] for kinds, number in wanted.items() if item.kind in kinds), default=-1)
        return item.must_pass, item.item in self.seen, -kind, self.asked_of[item.lesson]

    @staticmethod
    def _give(wanted: dict[tuple[str, ...], float], kind: str) -> None:
        for kinds in wanted:
            if kind in kinds:
                wanted[kinds] -= 1
