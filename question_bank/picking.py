"""Every pick of a draw comes from here, so that a seed gives the same question on any machine for ever."""

import random
from collections.abc import Sequence
from typing import TypeVar

T = TypeVar("T")


class Picker:
    """Picks from `random.Random(seed).random()` alone: the one call whose numbers Python promises not to change."""

    def __init__(self, seed: int):
        self.part = random.Random(seed).random
        """The next part of one: a number from 0 up to 1. `int(part() * size)` is the rule of every pick."""

    def index(self, size: int) -> int:
        """A whole number from 0 to size - 1."""
        return int(self.part() * size)

    def one_of(self, among: Sequence[T]) -> T:
        """One of a sequence."""
        return among[self.index(len(among))]

    def shuffled(self, among: Sequence[T]) -> list[T]:
        """All of a sequence in a drawn order."""
        left = list(among)
        return [left.pop(self.index(len(left))) for _ in range(len(left))]
