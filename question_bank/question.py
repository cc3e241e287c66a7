"""A question: an item drawn for one learner. It can be kept as JSON and made again from it, word for word."""

import dataclasses
from dataclasses import dataclass
from typing import Any, ClassVar

from question_bank.verdict import Verdict


@dataclass(frozen=True, kw_only=True)
class Question:
    """What every kind has. `stem` is text in the hand's system; `caution` names a caution or is None."""

    kind: ClassVar[str]
    is_typed: ClassVar[bool] = False
    """Whether its answer is a number and a unit, as typed."""
    has_numbers: ClassVar[bool] = False
    """Whether another draw has other numbers; else only an order changes, or nothing."""

    item: str
    item_hash: str
    seed: int
    system: str
    title: str
    stem: str
    why: str | None = None
    hint: str | None = None
    caution: str | None = None

    def grade(self, answer: Any, comma: bool = False) -> Verdict:
        """The verdict on an answer. What is not counted is a verdict too: nothing a learner sends raises."""
        raise NotImplementedError

    def not_read(self, answer: Any, comma: bool = False) -> Verdict | None:
        """Why an answer could not be counted, without a word on whether it is right; None for one that can be.

        For a test, in which an answer is looked at long before it is graded. The same is said of right and wrong ones.
        """
        verdict = self.grade(answer, comma)
        return None if verdict.counted else verdict

    def doubt(self, answer: Any, comma: bool = False) -> Verdict | None:
        """What is asked back where an answer may be meant otherwise than it is read; None where it can't be."""
        return None

    def body(self) -> dict[str, Any]:
        """All of the question as JSON-able values; `question_from_body` makes it again."""
        return {"kind": self.kind, **dataclasses.asdict(self)}

    @classmethod
    def from_body(cls, body: dict[str, Any]) -> "Question":
        """The question that `body` was taken from."""
        return cls(**cls._rebuilt({name: value for name, value in body.items() if name != "kind"}))

    @classmethod
    def _rebuilt(cls, values: dict[str, Any]) -> dict[str, Any]:
        """Rows of plain values made into this kind's own rows again."""
        return values


@dataclass(frozen=True)
class Option:
    """One thing to choose, place or pair. `tell` says why a wrong one misleads."""

    key: str
    text: str
    tell: str | None = None


def options_from(rows: list[dict[str, Any]]) -> list[Option]:
    """Options from their JSON rows."""
    return [Option(**row) for row in rows]
