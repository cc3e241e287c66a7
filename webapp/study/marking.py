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

    `must_pass` is False where whoever asked for the test lets it pass without them.
    """

    right: int
    asked: int
    pass_mark: int
    lessons: tuple[tuple[str, int, int], ...]
    missed: tuple[str, ...]
    must_pass: bool = True

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
        """Whether enough are right and no item that must be passed is missed. A test of nothing is not passed."""
        return self.asked > 0 and self.right >= self.needed and not (self.missed and self.must_pass)


def needed(pass_mark: int, asked: int) -> int:
    """How many of so many must be right for a pass mark in percent: rounded up."""
    return -(-pass_mark * asked // 100)


def mark(answers: Iterable[Answered], pass_mark: int, must_pass: bool = True) -> Mark:
    """Mark a test. Raises ValueError for an outcome that is not one of OUTCOMES."""
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
    return Mark(sum(row[1] for row in rows), sum(row[2] for row in rows), pass_mark, rows, tuple(missed), must_pass)
