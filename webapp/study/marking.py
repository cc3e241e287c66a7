"""What a test comes to: right of how many, lesson by lesson, the must-pass items missed, passed or not. Pure."""

from collections.abc import Iterable
from dataclasses import dataclass

RIGHT = "right"
OUTCOMES = ("right", "close", "wrong", "unread", "open")
"""How a question of a test can end: graded, or handed in with an answer that can't be read, or with none."""


@dataclass(frozen=True, slots=True)
class Answered:
    """One question of a test as it was handed in. Only `right` counts; `close` is not right."""

    item: str
    lesson: str
    must_pass: bool
    outcome: str


@dataclass(frozen=True, slots=True)
class Mark:
    """What all of them come to. `lessons` are (lesson, right, asked) in the order given, `missed` must-pass items.

    `must_pass` is False where whoever asked for the test lets it pass without them. `least` is the percent that is
    needed in each module beside the pass mark; 0 where nothing is.
    """

    right: int
    asked: int
    pass_mark: int
    lessons: tuple[tuple[str, int, int], ...]
    missed: tuple[str, ...]
    must_pass: bool = True
    least: int = 0

    @property
    def modules(self) -> tuple[tuple[str, int, int], ...]:
        """(module, right, asked) of each module that was asked of."""
        found: dict[str, list[int]] = {}
        for lesson, right, asked in self.lessons:
            of = found.setdefault(lesson.partition("/")[0], [0, 0])
            of[0] += right
            of[1] += asked
        return tuple((module, right, asked) for module, (right, asked) in found.items())

    @property
    def low(self) -> tuple[str, ...]:
        """The modules in which too few are right."""
        return tuple(module for module, right, asked in self.modules if right < needed(self.least, asked))

    @property
    def lost(self) -> list[tuple[str, int, int]]:
        """(lesson, right, asked) of the lessons in which something was lost, the most first."""
        return sorted((each for each in self.lessons if each[1] < each[2]), key=lambda each: each[1] - each[2])

    @property
    def needed(self) -> int:
        """How many must be right."""
        return needed(self.pass_mark, self.asked)

    @property
    def percent(self) -> int:
        """Right in a hundred, rounded down: a mark is never more than it is."""
        return self.right * 100 // self.asked if self.asked else 0

    @property
    def passed(self) -> bool:
        """Whether enough are right, in no module too few, and no must-pass item is missed. A test of nothing isn't."""
        enough = self.asked > 0 and self.right >= self.needed and not self.low
        return enough and not (self.missed and self.must_pass)


def needed(pass_mark: int, asked: int) -> int:
    """How many of so many must be right for a pass mark in percent: rounded up."""
    return -(-pass_mark * asked // 100)


def mark(answers: Iterable[Answered], pass_mark: int, must_pass: bool = True, least: int = 0) -> Mark:
    """Mark a test or a paper. Raises ValueError for an outcome that is not one of OUTCOMES."""
    lessons: dict[str, list[int]] = {}
    missed = []
    for each in answers:
        if each.outcome not in OUTCOMES:
            raise ValueError(f"{each.outcome!r} is no way in which a question can end. Ways are {', '.join(OUTCOMES)}.")
        of_lesson = lessons.setdefault(each.lesson, [0, 0])
        of_lesson[0] += each.outcome == RIGHT
        of_lesson[1] += 1
        if each.must_pass and each.outcome != RIGHT:
            missed.append(each.item)
    rows = tuple((lesson, right, asked) for lesson, (right, asked) in lessons.items())
    return Mark(
        sum(row[1] for row in rows), sum(row[2] for row in rows), pass_mark, rows, tuple(missed), must_pass, least
    )
