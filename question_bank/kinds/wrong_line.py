"""A working in which one line is wrong: made from a numeric item's own known mistakes, with its own drawn numbers."""

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from question_bank.formulas import all_formulas
from question_bank.item import Item
from question_bank.item_fields import SYSTEMS, Fields
from question_bank.kinds.expression_fields import read_wrong_step
from question_bank.kinds.numeric import NumericQuestion
from question_bank.kinds.numeric_fields import Mistake
from question_bank.kinds.numeric_item import Numbers, NumericItem
from question_bank.picking import Picker
from question_bank.question import Question
from question_bank.verdict import Verdict
from question_bank.working import Line, Step, lines

FEWEST = 3
"""Lines that are shown at least. With two, the other one would be a guess."""
PLACES = 2
"""Steps of an item that are wrong in turn, at least. With one, who has seen it once need not read the lines."""


@dataclass(frozen=True, kw_only=True)
class WrongLineQuestion(Question):
    """`task` is what was to be worked out, `shown` how somebody did it. Lines are counted from 1; `wrong` is one.

    `mended` is that line put right; `working` and `key_both` are the right ones; `slip` names the mistake.
    """

    kind = "find-the-wrong-line"
    has_numbers = True

    task: str
    shown: list[Line]
    wrong: int
    mended: Line
    slip: str
    tell: str
    working: list[Line]
    key_both: str

    def grade(self, answer: Any, comma: bool = False) -> Verdict:
        """`answer` is a line's number, as text or whole number."""
        chosen = answer if isinstance(answer, str) else str(answer) if type(answer) is int else ""
        if chosen not in {str(at) for at in range(1, len(self.shown) + 1)}:
            return Verdict("unreadable", "No line was chosen. Choose the one that is wrong.")
        outcome = "right" if chosen == str(self.wrong) else "wrong"
        return Verdict(outcome, self.tell, read_as=f"line {chosen}")

    @classmethod
    def _rebuilt(cls, values: dict[str, Any]) -> dict[str, Any]:
        return {
            **values,
            "shown": [Line(**row) for row in values["shown"]],
            "working": [Line(**row) for row in values["working"]],
            "mended": Line(**values["mended"]),
        }


@dataclass(frozen=True)
class WrongStep:
    """One way to go wrong: the mistake of the source item that it leads to, and the step in its place, by system."""

    mistake: Mistake
    steps: Mapping[str, Step]
    tell: Mapping[str, str]


class WrongLineItem(Item):
    """`of` names the numeric item that it is made from. It can be drawn once `find_source` has been called."""

    kind = "find-the-wrong-line"
    usual_seconds = 75
    own_fields = ("of", "wrong")

    source_item: NumericItem | None = None

    def read(self, fields: Fields) -> None:
        self.of = fields.needed("of")
        if not fields.tables("wrong"):
            raise self.fault("wrong", "an item needs at least one wrong step.")

    def find_source(self, items: Mapping[str, Item]) -> None:
        """Take the numeric item that this one is made from out of all items, and compile the wrong steps.

        The version is then the hash of both texts, since a draw follows from both. Raises BankError.
        """
        source = items.get(self.of)
        if not isinstance(source, NumericItem) or source.kind != "numeric":
            raise self.fault("of", f"there is no numeric item {self.of!r}.")
        self.source_item = source
        self.text = f"{self.text}\n{source.text}"
        self.wrong = tuple(self._wrong(source, row) for row in self.fields.tables("wrong"))
        for system in SYSTEMS:
            if len({each.steps[system].name for each in self.wrong if system in each.steps}) < PLACES:
                raise self.fault("wrong", f"in {system!r}, {PLACES} different steps at least must be wrong in turn.")

    def draw(self, seed: int, system: str = "us", fixed: Mapping[str, Any] | None = None) -> WrongLineQuestion:
        """The source item's question of that seed, worked wrongly. Raises BankError."""
        wrong, right, numbers = self.drawn(seed, system, fixed)
        shown, at = self._worked_wrongly(wrong.steps[system], numbers, system)
        mended = next(line for line in right.working if line.find == wrong.steps[system].find)
        return WrongLineQuestion(
            **self.in_common(seed, system),
            task=right.stem,
            shown=shown,
            wrong=at,
            mended=mended,
            slip=wrong.mistake.title,
            tell=self.filled(wrong.tell[system], system),
            working=right.working,
            key_both=right.key_both,
        )

    def drawn(
        self, seed: int, system: str, fixed: Mapping[str, Any] | None = None
    ) -> tuple[WrongStep, NumericQuestion, Numbers]:
        """What a draw is made of: the wrong step, the source item's question, and its numbers. Raises BankError."""
        if self.source_item is None:
            raise self.fault("of", f"{self.of!r} was not looked up: read the whole bank to draw this item.")
        # Another seed than the source item's: else its first given would tell which step is wrong.
        wrong = Picker(seed + 1).one_of([each for each in self.wrong if system in each.steps])
        right = self.source_item.draw(seed, system, fixed)
        return wrong, right, self.source_item.picked(seed, system, fixed or {})

    def values(self, step: Step, numbers: Numbers) -> dict[str, float]:
        """Givens and every step's value in base units, with that step in the place of the right one of its name."""
        values = {name: each.base for name, each in numbers.givens.items()}
        for each in self._steps(step):
            values[each.name] = each.expression.evaluate(values)
        return values

    def _worked_wrongly(self, step: Step, numbers: Numbers, system: str) -> tuple[list[Line], int]:
        """The lines of the wrong working, and the place of the wrong one."""
        source = self.source_item
        steps, values = self._steps(step), self.values(step, numbers)
        key = source.printed_key(values[steps[-1].name], system)
        own = {name: each.own_unit(system) for name, each in source.givens.items()}
        made = lines(steps, numbers.givens, source.labels(system), values, system, key, own)
        at = next(at for at, line in enumerate(made) if line.find == step.find)
        if step.is_conversion:
            made[at] = self._taken_as_it_is(step, made[at], system)
        return made, at + 1

    def _taken_as_it_is(self, step: Step, line: Line, system: str) -> Line:
        """The line of a wrong step that only takes another value for the one it should find."""
        names = {**self.source_item.labels(system), **{each.name: each.find for each in self.source_item.steps}}
        return dataclasses.replace(line, equation=names[step.expression.text], put_in=line.put_in.removesuffix(" × 1"))

    def _steps(self, step: Step) -> tuple[Step, ...]:
        return tuple(step if each.name == step.name else each for each in self.source_item.steps)

    def _wrong(self, source: NumericItem, row: Fields) -> WrongStep:
        row.only("mistake", "step", "formula", "tell")
        mistake = next((each for each in source.mistakes if each.name == row.needed("mistake")), None)
        if mistake is None:
            raise row.fault("mistake", f"{self.of!r} has no such mistake. It has {[m.name for m in source.mistakes]}.")
        at = next((at for at, each in enumerate(source.steps) if each.name == row.needed("step")), None)
        if at is None:
            raise row.fault("step", f"{self.of!r} has no such step. It has {[each.name for each in source.steps]}.")
        right, texts, tell = source.steps[at], row.by_system("formula"), row.by_system("tell")
        if set(texts) - set(tell) or set(texts) - set(mistake.formulas):
            raise row.fault("formula", "each system that has a formula needs its tell, and the mistake in that system.")
        steps = {}
        for system, text in texts.items():
            expression, called, terms = read_wrong_step(
                row, text, source.givens, source.steps[:at], right.register, all_formulas()
            )
            steps[system] = dataclasses.replace(right, expression=expression, formula=called, terms=terms)
        return WrongStep(mistake, steps, tell)
