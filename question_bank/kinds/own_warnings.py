"""What is said beside an answer to own numbers: warnings, the part that decides, and the way of rounding."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from question_bank.kinds.hold_range import ranges
from question_bank.kinds.refusals import kinds_of
from question_bank.numbers import show

if TYPE_CHECKING:
    from question_bank.kinds.numeric_item import NumericItem

LEAST_OF = ("governing_rating",)
"""Formulas that take the least of what they are given."""


def warnings_of(item: "NumericItem", values: Mapping[str, float], system: str) -> list[str]:
    """What the item says of values past a limit, the first of each side alone, and what holds for all sums."""
    said = {(each.of, each.side): each.say for each in reversed(item.meanings) if each.is_passed(values)}
    passed = list(said.values())
    below = values[item.steps[-1].name] < 0
    if below and not passed:
        passed.append("The answer is below zero. A limit may be passed, or two of the numbers have changed places.")
    return [*passed, *_low_factors(item, values), *_past_a_range(item, values, system)]


def _low_factors(item: "NumericItem", values: Mapping[str, float]) -> list[str]:
    """A design factor that is to be kept, and is under the least that the course keeps for that rope."""
    kinds = kinds_of(item)
    return [
        f"You keep a factor of {show(values[name])}. The course keeps {show(min(given.ends))} or more here. Compare "
        "with your rig’s least factor."
        for name, given in item.givens.items()
        if "factor" in kinds[name] and values[name] < min(given.ends)
    ]


def _past_a_range(item: "NumericItem", values: Mapping[str, float], system: str) -> list[str]:
    """Results on the way that leave a later formula's range."""
    held = ranges(item)
    return [
        f"On the way, the {step.find} comes to {step.unit(system).printed(values[step.name])}. "
        f"The next step holds for {held[step.name].shown(step.unit(system))}."
        for step in item.steps[:-1]
        if step.name in held and not held[step.name].has(values[step.name])
    ]


def weakest_parts(item: "NumericItem", values: Mapping[str, float], system: str) -> str | None:
    """Which of several parts decides, by name: 'The weakest here: room of the line.' None where none is compared."""
    for step in reversed(item.steps):
        if step.formula is not None and step.formula.name in LEAST_OF:
            labels = {**item.labels(system), **{each.name: each.find for each in item.steps}}
            least = values[step.name]
            parts = [labels[term] for term in step.terms if abs(values[term] - least) <= abs(least) * 1e-9]
            return f"The weakest here: {' and '.join(parts)}."
    return None


def rounded_words(item: "NumericItem", is_sound: bool) -> str | None:
    """Which way the answer is rounded. It is the safe way where the answer is what is allowed or needed, and sound."""
    side = item.tolerance.side
    if side == "either":
        return None
    return f"Rounded {side}, to the safe side." if item.allowed and is_sound else f"Rounded {side}."
