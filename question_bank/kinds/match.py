"""Two columns to be paired."""

from dataclasses import dataclass
from typing import Any

from question_bank.item import Item
from question_bank.item_fields import Fields
from question_bank.picking import Picker
from question_bank.question import Option, Question, options_from
from question_bank.verdict import Verdict


@dataclass(frozen=True, kw_only=True)
class MatchQuestion(Question):
    """`pairs` maps each left key to a right key. Right keys are numbered in drawn order, so they tell nothing."""

    kind = "match"

    left: list[Option]
    right: list[Option]
    pairs: dict[str, str]

    def grade(self, answer: Any, comma: bool = False) -> Verdict:
        """`answer` maps left keys to right keys."""
        rights = {each.key: each.text for each in self.right}
        chosen = [answer.get(each.key) for each in self.left] if isinstance(answer, dict) else [None]
        if any(not isinstance(key, str) or key not in rights for key in chosen):
            return Verdict("unreadable", "Every line on the left needs a partner. Choose one for each.")
        read_as = "; ".join(f"{each.text} – {rights[answer[each.key]]}" for each in self.left)
        amiss = [each.text for each in self.left if rights[answer[each.key]] != rights[self.pairs[each.key]]]
        if not amiss:
            return Verdict("right", self.why or "", read_as=read_as)
        return Verdict("wrong", f"Not the right partner for: {', '.join(amiss)}.", read_as=read_as)

    @classmethod
    def _rebuilt(cls, values: dict[str, Any]) -> dict[str, Any]:
        return {**values, "left": options_from(values["left"]), "right": options_from(values["right"])}


class MatchItem(Item):
    """`pairs` of texts; two lefts may share one right, which is then offered once."""

    kind = "match"
    usual_seconds = 60
    own_fields = ("pairs",)

    def read(self, fields: Fields) -> None:
        rows = fields.table.get("pairs")
        if not isinstance(rows, list) or not 2 <= len(rows) <= 8 or any(not _is_pair(row) for row in rows):
            raise self.fault("pairs", 'there must be two to eight pairs like ["left", "right"].')
        self.pairs = [tuple(row) for row in rows]
        if len({left for left, _ in self.pairs}) < len(self.pairs):
            raise self.fault("pairs", "a left text stands twice. Change one.")

    def draw(self, seed: int, system: str = "us", fixed: Any = None) -> MatchQuestion:
        picker = Picker(seed)
        rights = picker.shuffled(list(dict.fromkeys(right for _, right in self.pairs)))
        lefts = picker.shuffled(list(enumerate(self.pairs)))
        keys = {text: str(at) for at, text in enumerate(rights, start=1)}
        return MatchQuestion(
            **self.in_common(seed, system),
            left=[Option("abcdefgh"[at], self.filled(left, system)) for at, (left, _) in lefts],
            right=[Option(keys[text], self.filled(text, system)) for text in rights],
            pairs={"abcdefgh"[at]: keys[right] for at, (_, right) in lefts},
        )


def _is_pair(row: Any) -> bool:
    return isinstance(row, list) and len(row) == 2 and all(isinstance(each, str) and each.strip() for each in row)
