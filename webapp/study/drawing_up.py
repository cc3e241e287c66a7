"""Which items a test asks: a pure choice by one seed. The questions themselves are drawn from the items afterwards."""

from collections import Counter
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from question_bank.picking import Picker

QUESTIONS = 15
"""How many a test of a module asks, where the bank has as many."""
MOST_MUST_PASS = 4
"""So many of a module's must-pass items are in each test of it; where it has more, the seed says which."""
IN_A_REFRESHER = 5
"""How many questions a refresher asks for each lesson that is called for (common practice, no source)."""
SELF_MARKED = ("card",)
"""Kinds that the hand marks: they prove nothing to anybody else, so no test asks them."""


@dataclass(frozen=True, slots=True)
class Askable:
    """An item that a test could ask. Where `system` and `seed` are set, its question is drawn by them."""

    item: str
    lesson: str
    kind: str
    must_pass: bool
    system: str | None = None
    seed: int | None = None


def draw_up(
    items: Iterable[Askable], seed: int, seen: Collection[str] = (), how_many: int = QUESTIONS
) -> list[Askable]:
    """The items of a test in the order to ask them: `how_many`, or all there are if there are fewer.

    Must-pass items are in, up to MOST_MUST_PASS; every lesson is in, while there is room; the rest is spread evenly
    over the lessons, and within a lesson over the kinds. What was `seen` in the last test is asked only where a lesson,
    or the whole module, has nothing else, or where it must be passed.
    """
    picker = Picker(seed)
    pool = picker.shuffled([each for each in items if each.kind not in SELF_MARKED])
    old = set(seen)
    fresh_first = sorted(pool, key=lambda each: each.item in old)
    chosen = [each for each in fresh_first if each.must_pass][: min(MOST_MUST_PASS, how_many)]
    for lesson in picker.shuffled(sorted({each.lesson for each in pool} - {each.lesson for each in chosen})):
        if len(chosen) < how_many:
            chosen.append(_one_more([each for each in fresh_first if each.lesson == lesson], chosen, old))
    while len(chosen) < how_many and len(chosen) < len(pool):
        chosen.append(_one_more([each for each in fresh_first if each not in chosen], chosen, old))
    return picker.shuffled(chosen)


def _one_more(left: Sequence[Askable], chosen: Sequence[Askable], seen: Collection[str]) -> Askable:
    """The best of what is left: not seen, then of the lesson asked least so far, then of the kind asked least.

    Must-pass items beyond MOST_MUST_PASS come after all others, so that a test is not made of them.
    """
    lessons = Counter(each.lesson for each in chosen)
    kinds = Counter(each.kind for each in chosen)
    return min(left, key=lambda each: (each.item in seen, each.must_pass, lessons[each.lesson], kinds[each.kind]))
