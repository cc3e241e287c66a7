"""A numeric item's steps with a hand's own numbers: read, held against the formulas' ranges, and worked.

What can be no such quantity (a load of −5, 7.5 lines) is refused with a sentence beside its number. What lies outside
the range in which a formula holds is worked, and says so.
"""

import ast
import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from question_bank.givens import Drawn, Given
from question_bank.numbers import in_comma, show
from question_bank.reading import AnswerError, Quantity, read_quantity
from question_bank.steps import ExpressionError
from question_bank.units import Unit, register
from question_bank.working import Line, lines

if TYPE_CHECKING:
    from question_bank.kinds.numeric_item import NumericItem

SYSTEMS = ("us", "metric")
PAIRED = ("lines", "other_lines", "lines_strung")
"""What formulas and rig sheets call the lines to a travelling block. They come in pairs: the dead line is anchored."""
END = 0.005
"""The ends of a range are printed with three figures. What lies this little past one is not outside."""


class NumbersError(AnswerError):
    """Numbers that can't be worked with. `problems` has a sentence for each given that has one, by its name."""

    def __init__(self, problems: Mapping[str, str]):
        super().__init__("unreadable", next(iter(problems.values())))
        self.problems = problems


@dataclass(frozen=True)
class Range:
    """Where the formulas that take a quantity hold, in base units."""

    low: float
    high: float

    def within(self, other: "Range") -> "Range":
        """Where both hold."""
        return Range(max(self.low, other.low), min(self.high, other.high))

    def has(self, value: float) -> bool:
        """Whether a value lies in it, its ends as they are printed included."""
        return self.low - abs(self.low) * END <= value <= self.high + abs(self.high) * END

    def shown(self, unit: Unit) -> str:
        """'44.5 to 11,100 kN'."""
        return f"{show(self.low / unit.factor, 3)} to {show(self.high / unit.factor, 3)} {unit.symbol}".strip()


@dataclass(frozen=True)
class OwnNumber:
    """One given with the number that was typed for it, or that its table has for the others."""

    name: str
    label: str
    drawn: Drawn
    holds: Range | None
    looked_up: bool = False

    @property
    def range(self) -> str | None:
        """Where the formulas hold, in the unit that was typed; None for plain arithmetic."""
        return self.holds and self.holds.shown(self.drawn.unit)

    @property
    def outside(self) -> bool:
        """Whether the number lies where the formulas do not hold."""
        return self.holds is not None and not self.holds.has(self.drawn.base)


@dataclass(frozen=True)
class Work:
    """A worked item: the answer with its companion, both systems' answers and workings, and what to be warned of."""

    value: float
    unit: str
    text: str
    working: list[Line]
    answers: Mapping[str, str]
    workings: Mapping[str, list[Line]]
    numbers: tuple[OwnNumber, ...]
    warnings: tuple[str, ...]


def ranges(item: "NumericItem") -> dict[str, Range]:
    """Where the formulas of an item's steps hold, by the name of the given or step that they take."""
    found: dict[str, Range] = {}
    same: dict[str, str] = {}
    for step in item.steps:
        if isinstance(step.expression.tree, ast.Name):
            same[step.name] = same.get(step.expression.tree.id, step.expression.tree.id)
        if step.formula is None:
            continue
        for taken, term in zip(step.formula.takes, step.terms, strict=True):
            name = same.get(term, term)
            held = Range(*step.formula.holds_in_base(taken))
            found[name] = held.within(found[name]) if name in found else held
    return found


def work(
    item: "NumericItem",
    texts: Mapping[str, str],
    system: str = "us",
    comma: bool = False,
    chosen: Mapping[str, str] | None = None,
) -> Work:
    """The steps with numbers as typed. A bare number takes the chosen unit, or the given's own.

    Raises NumbersError where a text is no such quantity, ExpressionError where the sum has no answer.
    """
    numbers = _read(item, texts, system, comma, chosen or {})
    drawn = {each.name: each.drawn for each in numbers}
    values = item.worked({name: each.base for name, each in drawn.items()})
    if not all(math.isfinite(each) for each in values.values()):
        raise ExpressionError("The numbers are too far apart for a sum.")
    base = values[item.steps[-1].name]
    answers, workings = {}, {}
    for each in SYSTEMS:
        unit = item.units[each]
        answers[each] = item.key(base / unit.factor, unit, each)
        own = {name: given.own_unit(each) for name, given in item.givens.items()}
        workings[each] = lines(item.steps, drawn, item.labels(each), values, each, answers[each], own)
    unit = item.units[system]
    value = base / unit.factor
    return Work(
        value, unit.symbol, item.key_both(value, unit, answers[system], system), workings[system], answers, workings,
        tuple(numbers), tuple(_warnings(item, values, system)),
    )  # fmt: skip


def _read(
    item: "NumericItem", texts: Mapping[str, str], system: str, comma: bool, chosen: Mapping[str, str]
) -> list[OwnNumber]:
    held, paired = ranges(item), _paired(item)
    found: dict[str, OwnNumber] = {}
    problems: dict[str, str] = {}
    for name, given in item.givens.items():
        label = given.labels[system]
        text = texts.get(name, "")
        if given.by in problems and not text.strip():
            continue  # it is looked up once that number is mended
        try:
            drawn = None if text.strip() else _looked_up(given, found, system)
            looked_up = drawn is not None
            if drawn is None:
                symbol = chosen.get(name, given.own_unit(system).symbol)
                drawn = _typed(name, read_quantity(text, symbol, comma, given.register))
            if refused := _refusal(given, drawn, held.get(name), name in paired):
                raise AnswerError("unreadable", in_comma(refused) if comma else refused)
            found[name] = OwnNumber(name, label, drawn, held.get(name), looked_up)
        except AnswerError as error:
            problems[name] = error.message
    if problems:
        raise NumbersError(problems)
    return list(found.values())


def _typed(name: str, read: Quantity) -> Drawn:
    return Drawn(name, show(read.value, 10), register(read.register).unit(read.unit), read.base)


def _looked_up(given: Given, found: Mapping[str, OwnNumber], system: str) -> Drawn | None:
    """What the given's table has for the number that it is looked up by. None: it has no table, so it must be typed."""
    if given.by is None:
        return None
    if given.by not in found:
        raise AnswerError("unreadable", f"Write it, or write {given.by.replace('_', ' ')}: it is then looked up.")
    key = found[given.by].drawn.number
    if key not in given.table:
        known = ", ".join(given.table)
        raise AnswerError("unreadable", f"Write it. The table of this sum has {known}, and not {key}.")
    return given.fixed(given.table[key], system)


def _paired(item: "NumericItem") -> set[str]:
    """The givens that are lines strung: by the formula that takes them, by their own name or by the rig sheet's."""
    called = (
        zip(step.formula.takes, step.terms, strict=True) if step.formula is not None else () for step in item.steps
    )
    taken = {term for pairs in called for name, term in pairs if name in PAIRED}
    return taken | {name for name, given in item.givens.items() if name in PAIRED or given.rig in PAIRED}


def _refusal(given: Given, drawn: Drawn, held: Range | None, paired: bool) -> str | None:
    """A sentence where a number can't be what it is given for, in our own print; None where it can."""
    lowest = min([each.ends[0] for each in given.grids.values()] + [float(each) for each in given.among] or [1.0])
    lowest = min(lowest, held.low if held else lowest)
    if drawn.base < 0 <= lowest:
        return f"This can’t be below 0. You wrote {drawn.text}."
    if drawn.base == 0 < lowest:
        return "This can’t be 0: there is then nothing to work out."
    if given.register == "count" and drawn.base != round(drawn.base):
        return f"Write a whole number: this is counted. You wrote {drawn.text}."
    if paired and drawn.base % 2:
        return f"Write an even number: each sheave of the travelling block takes two lines. You wrote {drawn.text}."
    if given.register == "ratio" and held and held.high <= 1 < drawn.base:
        return f"This is 1 at most, which is 100 %. You wrote {drawn.text}."
    return None


def _warnings(item: "NumericItem", values: Mapping[str, float], system: str) -> list[str]:
    """What to say of results on the way that leave a later formula's range, and of an answer below zero."""
    held = ranges(item)
    found = []
    for step in item.steps[:-1]:
        if step.name in held and not held[step.name].has(values[step.name]):
            unit = step.unit(system)
            result = f"{show(values[step.name] / unit.factor)} {unit.symbol}".strip()
            found.append(
                f"On the way, the {step.find} comes to {result}. The next step holds for {held[step.name].shown(unit)}."
            )
    if values[item.steps[-1].name] < 0:
        found.append("The answer is below zero. A limit may be passed, or two of the numbers have changed places.")
    return found
