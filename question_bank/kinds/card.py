"""A card: look, say it, turn it, mark it yourself."""

from dataclasses import dataclass
from typing import Any

from question_bank.item import Item
from question_bank.item_fields import Fields
from question_bank.question import Question
from question_bank.verdict import Verdict

MARKS = {"could-not": ("wrong", "could not say it"), "part": ("close", "said part of it"), "said": ("right", "said it")}
"""The three self-marks in tab order: the outcome that each is kept as, and its words."""


@dataclass(frozen=True, kw_only=True)
class CardQuestion(Question):
    """`stem` is the front."""

    kind = "card"

    back: str

    @property
    def front(self) -> str:
        """What is shown before the card is turned."""
        return self.stem

    def grade(self, answer: Any, comma: bool = False) -> Verdict:
        """`answer` is one of the three self-marks."""
        if not isinstance(answer, str) or answer not in MARKS:
            return Verdict("unreadable", "Mark the card: could not say it, said part of it, or said it.")
        outcome, words = MARKS[answer]
        return Verdict(outcome, read_as=words)


class CardItem(Item):
    """`front` and `back`."""

    kind = "card"
    usual_seconds = 20
    own_fields = ("front", "back")

    def _stem(self, fields: Fields) -> str:
        return fields.needed("front")

    def read(self, fields: Fields) -> None:
        self.back = fields.needed("back")

    def draw(self, seed: int, system: str = "us", fixed: Any = None) -> CardQuestion:
        return CardQuestion(**self.in_common(seed, system), back=self.filled(self.back, system))
