"""One right option among a few, shown in a drawn order."""

from dataclasses import dataclass
from typing import Any

from question_bank.item import Item
from question_bank.item_fields import Fields
from question_bank.picking import Picker
from question_bank.question import Option, Question, options_from
from question_bank.verdict import Verdict


@dataclass(frozen=True, kw_only=True)
class ChoiceQuestion(Question):
    """`right` is a key. Keys go by drawn order, so they tell nothing; `letters` leads back to the file's order."""

    kind = "choice"

    options: list[Option]
    right: str
    letters: dict[str, str]

    def grade(self, answer: Any, comma: bool = False) -> Verdict:
        """`answer` is an option's key."""
        chosen = next((each for each in self.options if each.key == answer), None)
        if chosen is None:
            return Verdict("unreadable", "Nothing was chosen. Choose one.")
        if chosen.key == self.right:
            return Verdict("right", self.why or "", read_as=chosen.text)
        return Verdict("wrong", chosen.tell or "", mistake=f"option-{self.letters[chosen.key]}", read_as=chosen.text)

    @classmethod
    def _rebuilt(cls, values: dict[str, Any]) -> dict[str, Any]:
        return {**values, "options": options_from(values["options"])}


class ChoiceItem(Item):
    """Options in the file's order; each wrong one tells why it misleads."""

    kind = "choice"
    usual_seconds = 35
    own_fields = ("options",)

    def read(self, fields: Fields) -> None:
        rows = fields.tables("options")
        self.options = []
        right = []
        for key, row in zip("abcdefgh", rows, strict=False):
            row.only("text", "right", "tell")
            if row.flag("right"):
                right.append(key)
            elif "tell" not in row.table:
                raise row.fault("tell", "a wrong option says why it misleads. Add it.")
            self.options.append(Option(key, row.needed("text"), row.text("tell")))
        if not 2 <= len(rows) <= 8 or len(right) != 1:
            raise self.fault(
                "options", f"there must be two to eight options and one right; there are {len(rows)} and {len(right)}."
            )
        if len({each.text for each in self.options}) < len(self.options):
            raise self.fault("options", "two options have the same text. Change one.")
        self.right = right[0]

    def draw(self, seed: int, system: str = "us", fixed: Any = None) -> ChoiceQuestion:
        drawn = Picker(seed).shuffled(self.options)
        letters = {str(at): each.key for at, each in enumerate(drawn, start=1)}
        return ChoiceQuestion(
            **self.in_common(seed, system),
            options=[
                Option(key, self.filled(each.text, system), each.tell and self.filled(each.tell, system))
                for key, each in zip(letters, drawn, strict=True)
            ],
            right=next(key for key, letter in letters.items() if letter == self.right),
            letters=letters,
        )
