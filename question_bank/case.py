"""A case: shared givens and an ordered list of items, each later one worked on from the right results before it.

A drawn case is ordinary questions. What is shared, and every earlier result as its verdict shows it in both systems,
is fixed in the parts that name it; what else an item needs is drawn as usual. So a result is turned into the other
system once, and a case never shows two numbers there for one.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from question_bank.errors import BankError
from question_bank.givens import Drawn, Given
from question_bank.item import Item
from question_bank.item_fields import Fields
from question_bank.kinds.numeric_item import NumericItem
from question_bank.picking import Picker
from question_bank.quantities_in_text import fill
from question_bank.question import Question
from question_bank.steps import ExpressionError

TRIES = 50
SEEDS = 2**31
NAMED = re.compile(r"(?<!\{)\{(\w+)\}(?!\})")
EARLIER = re.compile(r"part (\d+)")
"""How a part names the result of an earlier one: 'part 2', counted from 1."""


@dataclass(frozen=True)
class Part:
    """One item of a case. `given` maps its givens to what fixes them: a shared given's name, or 'part 2'."""

    item: Item
    given: Mapping[str, str]

    def result(self, question: Question) -> tuple[str, str] | None:
        """What its answer is called, and the right one as printed, in both systems; None where it is no number."""
        if not isinstance(self.item, NumericItem):
            return None
        return self.item.steps[-1].find, question.key_both


@dataclass(frozen=True)
class DrawnPart:
    """A part as it is asked. `fixed` are the texts of the givens that the case decided.

    `result` is what its answer is called and the right one as later parts show it, None where it is no number.
    `on_paper` is its stem with a blank in the place of each earlier result, for a sheet that must not tell it.
    """

    question: Question
    fixed: Mapping[str, str]
    result: tuple[str, str] | None
    on_paper: str


@dataclass(frozen=True)
class DrawnCase:
    """One draw of a case: `givens` are the shared ones as they are shown, `bases` the same in base units."""

    seed: int
    system: str
    story: str
    givens: tuple[tuple[str, str], ...]
    bases: Mapping[str, float]
    parts: tuple[DrawnPart, ...]


class Case:
    """What a case file states, its parts bound to items of the bank."""

    def __init__(self, fields: Fields, givens: Mapping[str, Given], parts: tuple[Part, ...]):
        self.fields = fields
        self.id = fields.item
        self.file = fields.file
        self.title = fields.needed("title")
        self.module = fields.needed("module")
        self.story = fields.needed("story")
        self.source = fields.needed("source")
        self.givens = givens
        self.parts = parts
        self._choices: dict[tuple[str, str], tuple[Drawn, ...]] = {}

    @property
    def lessons(self) -> tuple[str, ...]:
        """The lessons that its items belong to, each once, in the order they are met."""
        return tuple(dict.fromkeys(part.item.lesson for part in self.parts))

    @property
    def usual_seconds(self) -> float:
        """How long its parts usually take together."""
        return float(sum(part.item.usual_seconds for part in self.parts))

    def draw(self, seed: int, system: str = "us") -> DrawnCase:
        """The questions of that seed in 'us' or 'metric' units.

        Raises BankError where 50 tries gave none in which every part lies in its item's range and keeps its mistakes
        apart.
        """
        picker, last = Picker(seed), None
        for _ in range(TRIES):
            try:
                return self._drawn(seed, system, picker)
            except (BankError, ExpressionError) as error:
                last = error
        raise self.fault("parts", f"{TRIES} tries in {system!r} gave no case. The last one: {last}")

    def _drawn(self, seed: int, system: str, picker: Picker) -> DrawnCase:
        shared: dict[str, Drawn] = {}
        for name, given in self.givens.items():
            shared[name] = self._picked(given, picker, system, shared)
        known = {name: drawn.text for name, drawn in shared.items()}
        parts: list[DrawnPart] = []
        for at, part in enumerate(self.parts, start=1):
            parts.append(self._drawn_part(at, part, known, system, picker))
            if parts[-1].result is not None:
                known[f"part {at}"] = parts[-1].question.key_both
        return DrawnCase(
            seed,
            system,
            self._told(shared, system),
            tuple((self.givens[name].labels[system], drawn.beside(system)) for name, drawn in shared.items()),
            {name: drawn.base for name, drawn in shared.items()},
            tuple(parts),
        )

    def _picked(self, given: Given, picker: Picker, system: str, before: Mapping[str, Drawn]) -> Drawn:
        if given.by is not None:
            return given.fixed(given.table[before[given.by].number], system)
        if (given.name, system) not in self._choices:
            self._choices[given.name, system] = given.choices(system)
        return picker.one_of(self._choices[given.name, system])

    def _drawn_part(self, at: int, part: Part, known: Mapping[str, str], system: str, picker: Picker) -> DrawnPart:
        fixed = {name: known[source] for name, source in part.given.items()}
        for name, text in fixed.items():
            given = part.item.givens[name]
            if not given.holds(given.fixed(text, system).base):
                raise self.fault(f"parts {at} given {name}", f"{text} lies outside the range of {part.item.id}.")
        question = part.item.draw(picker.index(SEEDS), system, fixed=fixed)
        return DrawnPart(question, fixed, part.result(question), _on_paper(part, question))

    def _told(self, shared: Mapping[str, Drawn], system: str) -> str:
        """The story with the givens that it names, and its quantities, in that system."""
        text = NAMED.sub(lambda found: shared[found[1]].beside(system), self.story)
        try:
            return fill(text, system)
        except ValueError as error:
            raise self.fault("story", str(error)) from None

    def fault(self, field: str, problem: str) -> BankError:
        """A BankError for a field of this case."""
        return self.fields.fault(field, problem)


def _on_paper(part: Part, question: Question) -> str:
    if not isinstance(part.item, NumericItem):
        return question.stem
    shown = {name: text for name, (_, text) in zip(part.item.givens, question.givens, strict=True)}
    for name, source in part.given.items():
        if earlier := EARLIER.fullmatch(source):
            shown[name] = f"________ (answer {earlier[1]})"
    return part.item.filled(part.item.put_in(shown, question.system), question.system)
