"""Steps of a job to be put in order. Several orders may be right."""

from dataclasses import dataclass
from typing import Any

from question_bank.item import Item
from question_bank.item_fields import Fields
from question_bank.picking import Picker
from question_bank.question import Option, Question, options_from
from question_bank.verdict import Verdict


@dataclass(frozen=True, kw_only=True)
class OrderQuestion(Question):
    """`steps` stand in drawn order, numbered by it; `accepted` holds each right order as keys, the file's own first."""

    kind = "order"

    steps: list[Option]
    accepted: list[list[str]]

    def grade(self, answer: Any, comma: bool = False) -> Verdict:
        """`answer` is the list of keys in the hand's order."""
        texts = {each.key: each.text for each in self.steps}
        if not _all_texts(answer) or sorted(answer) != sorted(texts):
            return Verdict("unreadable", "Every step must stand once. Put all of them in order.")
        read_as = " → ".join(texts[key] for key in answer)
        if answer in self.accepted:
            return Verdict("right", self.why or "", read_as=read_as)
        place = max(_alike(answer, each) for each in self.accepted)
        return Verdict(
            "wrong", f"Step {place + 1} is the first one out of place: “{texts[answer[place]]}”.", read_as=read_as
        )

    @classmethod
    def _rebuilt(cls, values: dict[str, Any]) -> dict[str, Any]:
        return {**values, "steps": options_from(values["steps"])}


def _all_texts(answer: Any) -> bool:
    return isinstance(answer, list) and all(isinstance(each, str) for each in answer)


def _alike(answer: list[str], accepted: list[str]) -> int:
    """How many steps from the top agree."""
    return next((at for at, (one, other) in enumerate(zip(answer, accepted, strict=True)) if one != other), len(answer))


class OrderItem(Item):
    """`steps` in right order; `accept` lists other right orders by place, from 0."""

    kind = "order"
    usual_seconds = 75
    own_fields = ("steps", "accept")

    def read(self, fields: Fields) -> None:
        texts = fields.texts("steps")
        if not 3 <= len(texts) <= 10 or len(set(texts)) < len(texts):
            raise self.fault("steps", "there must be three to ten steps, each different.")
        self.steps = texts
        own = list(range(len(texts)))
        accept = fields.table.get("accept", [])
        self.orders = [own, *(accept if isinstance(accept, list) else [accept])]
        for order in self.orders:
            if not isinstance(order, list) or any(type(place) is not int for place in order) or sorted(order) != own:
                raise self.fault("accept", f"{order} must name each place from 0 to {len(texts) - 1} once.")

    def draw(self, seed: int, system: str = "us", fixed: Any = None) -> OrderQuestion:
        """The drawn order is never a right one already."""
        picker = Picker(seed)
        places = picker.shuffled(range(len(self.steps)))
        while places in self.orders:
            places = picker.shuffled(range(len(self.steps)))
        keys = {place: str(at) for at, place in enumerate(places, start=1)}
        return OrderQuestion(
            **self.in_common(seed, system),
            steps=[Option(keys[place], self.filled(self.steps[place], system)) for place in places],
            accepted=[[keys[place] for place in order] for order in self.orders],
        )
