"""What one drill of Ten conversions shows: two answers a question, its time, and what went wrong twice. Pure."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from question_bank.kinds.numeric import NumericQuestion
from question_bank.kinds.slip import ROUNDED_PAST
from question_bank.powers_of_ten import Size, power_of, size
from question_bank.units import register, split_quantity

LONGEST = 600.0
"""Seconds. A question left open longer says nothing of how long the answer took."""
QUICK = 10.0
"""Seconds in which an experienced hand names the power of ten: the course asks for eight of ten."""
TIMES = {2: "twice", 3: "three times", 4: "four times"}


@dataclass(frozen=True)
class Asked:
    """One question of a drill, as far as it was answered. Times are None where something did not happen."""

    place: int
    question: NumericQuestion
    chosen: int | None = None
    outcome: str | None = None
    mistake: str | None = None
    read_as: str = ""
    shown_at: datetime | None = None
    chosen_at: datetime | None = None
    answered_at: datetime | None = None

    @property
    def right_size(self) -> Size:
        """The power of ten of the right answer."""
        return size(power_of(self.question.value), self.question.unit)

    @property
    def chosen_size(self) -> Size | None:
        """The power of ten that was chosen."""
        return None if self.chosen is None else size(self.chosen, self.question.unit)

    @property
    def size_is_right(self) -> bool:
        """Whether the chosen power of ten is the right one."""
        return self.chosen is not None and self.chosen == self.right_size.power

    @property
    def estimate_told(self) -> bool:
        """Whether the estimate speaks against the slip that followed: the size was right, the answer not in it."""
        slip = self.question.slip(self.mistake)
        return self.size_is_right and slip is not None and power_of(slip.value) != self.chosen

    @property
    def missed(self) -> bool:
        """Answered, and not right."""
        return self.outcome in ("close", "wrong")

    @property
    def seconds(self) -> float | None:
        """Seconds from the first showing to the answer; None if it was not answered, or lay open too long."""
        return _between(self.shown_at, self.answered_at)

    @property
    def seconds_to_size(self) -> float | None:
        """Seconds from the first showing to the choice of the power of ten."""
        return _between(self.shown_at, self.chosen_at)

    @property
    def way(self) -> str:
        """Which way it goes: 'from US to metric units', 'from metric to US units', or 'within one system'."""
        given = _system(self.question, split_quantity(self.question.givens[0][1])[1])
        asked = _system(self.question, self.question.unit)
        names = {"us": "US", "metric": "metric"}
        return "within one system" if given == asked else f"from {names[given]} to {names[asked]} units"


def right_answers(rows: Iterable[Asked]) -> int:
    """How many were answered right."""
    return sum(row.outcome == "right" for row in rows)


def right_sizes(rows: Iterable[Asked]) -> int:
    """How many powers of ten were chosen right."""
    return sum(row.size_is_right for row in rows)


def quick_sizes(rows: Iterable[Asked]) -> int:
    """How many powers of ten were chosen right in QUICK seconds."""
    return sum(row.size_is_right and row.seconds_to_size is not None and row.seconds_to_size <= QUICK for row in rows)


def all_seconds(rows: Iterable[Asked]) -> float:
    """Seconds over all answered questions; one that lay open too long is left out."""
    return sum(row.seconds or 0.0 for row in rows)


def came_twice(rows: Sequence[Asked]) -> list[str]:
    """Sentences about known mistakes and ways that went wrong more than once, the most frequent first.

    A right sum rounded to the unsafe side says nothing against the way it went: it is a mistake of its own.
    """
    missed = [row for row in rows if row.missed]
    mistakes = Counter(slip.title for row in missed if (slip := row.question.slip(row.mistake)))
    past = sum(row.mistake == ROUNDED_PAST for row in missed)
    ways = Counter(row.way for row in missed if row.mistake != ROUNDED_PAST)
    return [
        *(f"{title}: {_times(count)}." for title, count in mistakes.most_common() if count > 1),
        *([f"Rounded to the unsafe side: {_times(past)}."] if past > 1 else []),
        *(f"Missed {_times(count)} {way}." for way, count in ways.most_common() if count > 1),
    ]


def _times(count: int) -> str:
    return TIMES.get(count, f"{count} times")


def _between(start: datetime | None, end: datetime | None) -> float | None:
    if start is None or end is None:
        return None
    seconds = (end - start).total_seconds()
    return seconds if 0 <= seconds <= LONGEST else None


def _system(question: NumericQuestion, symbol: str) -> str:
    return register(question.register).unit(symbol).system
