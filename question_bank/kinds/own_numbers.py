"""A numeric item's steps with a hand's own numbers: read, held against the formulas' ranges, and worked.

What can be no such quantity (a load of −5, 7.5 lines) is refused with a sentence beside its number. What lies outside
the range in which a formula holds is worked, and says so. A result on the way that can't be stops the sum.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from question_bank.givens import Drawn, Given
from question_bank.kinds.hold_range import Range, ranges
from question_bank.kinds.looked_up import looked_up
from question_bank.kinds.own_warnings import rounded_words, warnings_of, weakest_parts
from question_bank.kinds.refusals import impossible, kinds_of, refusal
from question_bank.numbers import in_comma, show
from question_bank.reading import AnswerError, Quantity, other_way, read_quantity
from question_bank.steps import ExpressionError
from question_bank.units import register
from question_bank.working import Line, lines

if TYPE_CHECKING:
    from question_bank.kinds.numeric_item import NumericItem

SYSTEMS = ("us", "metric")
FAR = 10
"""Where no formula has a range: a number so many times past what the course draws is asked about."""


class NumbersError(AnswerError):
    """Numbers that can't be worked with. `problems` has a sentence for each given that has one, by its name."""

    def __init__(self, problems: Mapping[str, str]):
        super().__init__("unreadable", next(iter(problems.values())))
        self.problems = problems


class ImpossibleStep(ExpressionError):
    """A result on the way that can't be. str() tells the hand, in our own print."""


@dataclass(frozen=True)
class OwnNumber:
    """One given with the number that was typed for it, or that its table has for the others.

    `drawn_as` is what the course draws for it; `other` is the number read with the other decimal mark, where that is
    as likely.
    """

    name: str
    label: str
    drawn: Drawn
    holds: Range | None
    drawn_as: Range
    looked_up: bool = False
    other: Quantity | None = None

    @property
    def range(self) -> str | None:
        """Where the formulas hold, in the unit that was typed; None for plain arithmetic."""
        return self.holds and self.holds.shown(self.drawn.unit)

    @property
    def usual(self) -> str:
        """What the course draws, in the unit that was typed."""
        return self.drawn_as.shown(self.drawn.unit)

    @property
    def outside(self) -> bool:
        """Whether the number lies where the formulas do not hold."""
        return self.holds is not None and not self.holds.has(self.drawn.base)

    @property
    def far(self) -> bool:
        """Whether it has no range and is nothing like what the course draws: a slip of mark or unit, most likely."""
        return self.holds is None and not _around(self.drawn_as).has(self.drawn.base)


@dataclass(frozen=True)
class Work:
    """A worked item: the answer with its companion, both systems' answers and workings, and what to be warned of.

    `weakest` says which part decides, where the least of several is taken. `rounded` says which way, and whether that
    is the safe one.
    """

    value: float
    unit: str
    text: str
    working: list[Line]
    answers: Mapping[str, str]
    workings: Mapping[str, list[Line]]
    numbers: tuple[OwnNumber, ...]
    warnings: tuple[str, ...]
    weakest: str | None
    rounded: str | None


def work(
    item: "NumericItem",
    texts: Mapping[str, str],
    system: str = "us",
    comma: bool = False,
    chosen: Mapping[str, str] | None = None,
) -> Work:
    """The steps with numbers as typed. A bare number takes the chosen unit, or the given's own.

    Raises NumbersError where a text is no such quantity, ImpossibleStep where a result on the way can't be, another
    ExpressionError where the sum has no answer.
    """
    numbers = _read(item, texts, system, comma, chosen or {})
    drawn = {each.name: each.drawn for each in numbers}
    values = item.worked({name: each.base for name, each in drawn.items()})
    if not all(math.isfinite(each) for each in values.values()):
        raise ExpressionError("The numbers are too far apart for a sum.")
    if told := impossible(item, values, ranges(item), system):
        raise ImpossibleStep(told)
    base = values[item.steps[-1].name]
    answers, workings = {}, {}
    for each in SYSTEMS:
        unit = item.units[each]
        answers[each] = item.key(base / unit.factor, unit, each)
        own = {name: given.own_unit(each) for name, given in item.givens.items()}
        workings[each] = lines(item.steps, drawn, item.labels(each), values, each, answers[each], own)
    unit = item.units[system]
    value = base / unit.factor
    warnings = (*warnings_of(item, values, system), *_of_numbers(numbers))
    sound = not warnings and not any(each.outside for each in numbers)
    return Work(
        value, unit.symbol, item.key_both(value, unit, answers[system], system), workings[system], answers, workings,
        tuple(numbers), warnings, weakest_parts(item, values, system), rounded_words(item, sound),
    )  # fmt: skip


def likely_other_way(item: "NumericItem", name: str, text: str, symbol: str, comma: bool) -> Quantity | None:
    """The text read with the other decimal mark, where that makes thousands and a number that fits this given."""
    given = item.givens[name]
    other = other_way(text, symbol, comma, given.register)
    likely = ranges(item).get(name) or _around(_drawn_as(given))
    return other if other is not None and likely.has(other.base) else None


def _read(
    item: "NumericItem", texts: Mapping[str, str], system: str, comma: bool, chosen: Mapping[str, str]
) -> list[OwnNumber]:
    held, kinds = ranges(item), kinds_of(item)
    found: dict[str, OwnNumber] = {}
    problems: dict[str, str] = {}
    for name, given in item.givens.items():
        text, drawn = texts.get(name, "").strip(), None
        if given.by in problems and not text:
            continue  # it is looked up once that number is mended
        if given.by in found and not text and found[given.by].outside:
            problems[given.by] = (
                f"The formula holds for {found[given.by].range}. You wrote {found[given.by].drawn.text}."
            )
            continue
        try:
            other = None
            if not text:
                drawn = looked_up(given, {key: each.drawn for key, each in found.items()}, system)
            is_looked_up = drawn is not None
            if drawn is None:
                symbol = chosen.get(name, given.own_unit(system).symbol)
                drawn = _typed(name, read_quantity(text, symbol, comma, given.register))
                other = likely_other_way(item, name, text, symbol, comma)
            if refused := refusal(given, drawn, held.get(name), kinds[name]):
                raise AnswerError("unreadable", in_comma(refused) if comma else refused)
            found[name] = OwnNumber(
                name, given.labels[system], drawn, held.get(name), _drawn_as(given), is_looked_up, other
            )
        except AnswerError as error:
            problems[name] = error.message
    if problems:
        raise NumbersError(problems)
    return list(found.values())


def _typed(name: str, read: Quantity) -> Drawn:
    return Drawn(name, show(read.value, 10), register(read.register).unit(read.unit), read.base)


def _drawn_as(given: Given) -> Range:
    return Range(min(given.ends), max(given.ends))


def _around(drawn: Range) -> Range:
    """What is still something like it: a tenth to ten times, and nought where a draw may be that or less."""
    return Range(min(drawn.low / FAR, drawn.low * FAR), drawn.high * FAR)


def _of_numbers(numbers: list[OwnNumber]) -> list[str]:
    """What to ask about numbers that may be a slip of mark or unit."""
    found = []
    for each in numbers:
        if each.far and each.other is None:
            found.append(
                f"Your number for {each.label} is {each.drawn.text}. The course draws {each.usual} here. Read your "
                "decimal mark and your unit again."
            )
        if each.other is not None:
            found.append(
                f"Your number for {each.label} is read as {each.drawn.text}. If you mean {each.other.shown()}, the "
                "answer is wrong: write it like that."
            )
    return found
