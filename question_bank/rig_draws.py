"""Items drawn with the numbers of a rig sheet: which givens take one, and what stands against it.

A draw is asked only where all holds that holds of any draw: the check of the bank is run on it. An item that fails in
any of fifty draws keeps its own numbers, and whoever filled in the sheet is told why.
"""

from collections.abc import Iterable, Mapping

from question_bank.check import check_question, makes_sense
from question_bank.check_lines import quantity
from question_bank.errors import BankError
from question_bank.givens import Drawn
from question_bank.item import Item
from question_bank.item_fields import SYSTEMS
from question_bank.kinds.hold_range import Range, ranges
from question_bank.kinds.numeric_item import NumericItem
from question_bank.kinds.refusals import impossible, kinds_of, refusal
from question_bank.kinds.wrong_line import WrongLineItem
from question_bank.question import Question
from question_bank.steps import ExpressionError
from question_bank.units import UnitError, register

DRAWS = 50
"""So many draws of an item are checked when a sheet is saved, half of them in each system."""
BY_FIELD = {
    "mistakes": "With these numbers a common mistake gives nearly the right answer, so it would not be seen.",
    "quick": "With these numbers the quick way in the head lands too far off.",
}
OTHERWISE = "With these numbers the printed working does not come out with a pencil."


class SheetDoesNotFit(ValueError):
    """A draw that can't be asked with a sheet's numbers. str() says why, in a sentence."""


def takes(item: Item) -> dict[str, str]:
    """Which given takes which field of a sheet. A change of units alone takes none: its numbers are its subject."""
    source = _numbers_of(item)
    if source is None or source.is_conversion:
        return {}
    return {name: given.rig for name, given in source.givens.items() if given.rig is not None}


def taken(item: Item, values: Mapping[str, str]) -> dict[str, str]:
    """The givens that these values fix, each with its value."""
    return {name: values[field] for name, field in takes(item).items() if field in values}


def fixes_all(item: Item, values: Mapping[str, str]) -> bool:
    """Whether these values leave nothing to draw: each question of the item with them is the same one."""
    return len(taken(item, values)) == len(_numbers_of(item).givens)


def draw_with_sheet(item: Item, seed: int, system: str, values: Mapping[str, str]) -> Question:
    """The question of that seed with the sheet's values in it. Raises SheetDoesNotFit."""
    fixed = taken(item, values)
    try:
        question = item.draw(seed, system, fixed=fixed)
        _against(_numbers_of(item), seed, system, fixed)
        _makes_sense(item, question)
        check_question(item, question)
    except BankError as error:
        raise SheetDoesNotFit(_sentence(error)) from None
    except (ExpressionError, UnitError):
        raise SheetDoesNotFit("With these numbers the sum has no answer.") from None
    return question


def trouble(item: Item, system: str, values: Mapping[str, str], draws: int = DRAWS // 2) -> str | None:
    """Why an item can't be asked with these values in that system, in a sentence; None where it can."""
    source, fixed = _numbers_of(item), taken(item, values)
    drawn = {name: source.givens[name].fixed(text, system) for name, text in fixed.items()}
    if told := _outside(source, drawn, system):
        return told
    for seed in range(draws):
        try:
            draw_with_sheet(item, seed, system, values)
        except SheetDoesNotFit as error:
            return str(error)
    return None


def check_draws(
    items: Iterable[Item], values: Mapping[str, str], draws: int = DRAWS // 2
) -> dict[str, dict[str, str | None]]:
    """For each item that takes a value: its hash, and by system why it can't be asked with it, or None.

    `draws` are tried in each system.
    """
    return {
        item.id: {"hash": item.text_hash, **{system: trouble(item, system, values, draws) for system in SYSTEMS}}
        for item in items
        if taken(item, values)
    }


def is_fit(item: Item, system: str, values: Mapping[str, str], found: Mapping[str, Mapping[str, str | None]]) -> bool:
    """Whether an item may be asked with these values. `found` is what a check of them gave once.

    An item that is new or was changed since is checked now.
    """
    if not taken(item, values):
        return False
    known = found.get(item.id)
    if known is None or known["hash"] != item.text_hash:
        return trouble(item, system, values) is None
    return known[system] is None


def labels_taken(item: Item, system: str, values: Mapping[str, str]) -> list[str]:
    """What the givens are called that these values fix."""
    source = _numbers_of(item)
    return [source.givens[name].labels[system] for name in taken(item, values)]


def _numbers_of(item: Item) -> NumericItem | None:
    """The item that has the givens: itself, or the one whose working is shown with a wrong line."""
    if isinstance(item, WrongLineItem):
        return item.source_item
    return item if isinstance(item, NumericItem) else None


def _outside(item: NumericItem, drawn: Mapping[str, Drawn], system: str) -> str | None:
    """A value that can't be what this item gives, or that lies where its formulas do not hold."""
    held, kinds = ranges(item), kinds_of(item)
    for name, each in drawn.items():
        label = item.givens[name].labels[system]
        if told := refusal(item.givens[name], each, held.get(name), kinds[name]):
            return told
        if name in held and not held[name].has(each.base):
            return f"Its formula holds for a {label} of {held[name].shown(each.unit)}. The sheet has {each.text}."
    return None


def _against(item: NumericItem, seed: int, system: str, fixed: Mapping[str, str]) -> None:
    """Results on the way that can't be, or that leave the range of the next formula."""
    values = item.picked(seed, system, fixed).values
    held = ranges(item)
    if told := impossible(item, dict(values), held, system):
        raise SheetDoesNotFit(told)
    for step in item.steps[:-1]:
        if step.name in held and not held[step.name].has(values[step.name]):
            came = step.unit(system).printed(values[step.name])
            raise SheetDoesNotFit(f"On the way the {step.find} comes to {came}, where the next formula does not hold.")


def _makes_sense(item: Item, question: Question) -> None:
    if isinstance(item, NumericItem) and not makes_sense(item, question):
        ends = item.fields.texts("plausible")
        low, high = (quantity(item.fields, "plausible", each, item.register)[0] for each in ends)
        made_for = Range(low, high).shown(register(item.register).unit(question.unit))
        raise SheetDoesNotFit(f"The answer comes to {question.key_text}. The question is made for {made_for}.")


def _sentence(error: BankError) -> str:
    """A fault of the bank, said for somebody who filled in a sheet."""
    if error.field.startswith("givens "):
        return f"{error.field.removeprefix('givens ').capitalize()}: {error.problem}"
    return BY_FIELD.get(error.field, OTHERWISE)
