"""What no number of a sum can be: a load below 0, half a line, more than the whole, a design factor of 1.

The rules hold for all sums. They go by what a given is (its register, what it is drawn as, the formula that takes it),
never by which item it stands in.
"""

import ast
from typing import TYPE_CHECKING

from question_bank.givens import Drawn, Given
from question_bank.kinds.hold_range import Range

if TYPE_CHECKING:
    from question_bank.kinds.numeric_item import NumericItem

PAIRED = ("lines", "other_lines", "lines_strung")
"""What formulas and rig sheets call the lines to a travelling block. They come in pairs: the dead line is anchored."""
FACTORS_TO_KEEP = ("least_factor",)
"""What formulas call a design factor that is to be kept. At 1 a line parts at the very pull it is meant for."""


def kinds_of(item: "NumericItem") -> dict[str, set[str]]:
    """What the givens of an item are: 'paired' for lines strung, 'factor' for a design factor that is to be kept."""
    taken: dict[str, set[str]] = {name: {name, given.rig or name} for name, given in item.givens.items()}
    for step in item.steps:
        pairs = zip(step.formula.takes, step.terms, strict=True) if step.formula is not None else ()
        for called, term in pairs:
            taken.setdefault(term, set()).add(called)
    return {
        name: ({"paired"} if taken[name] & set(PAIRED) or _are_lines_strung(given) else set())
        | ({"factor"} if taken[name] & set(FACTORS_TO_KEEP) else set())
        for name, given in item.givens.items()
    }


def _are_lines_strung(given: Given) -> bool:
    """Lines of the block under another name: 'lines set', 'lines now'. A mast's 'raising lines' are not reeved."""
    even = given.register == "count" and all(each % 2 == 0 for each in given.ends)
    return even and given.labels["us"].startswith("lines")


def is_share(given: Given, held: Range | None) -> bool:
    """Whether a plain number is a part of a whole: no draw of it and no range of its formula goes above 1."""
    return given.register == "ratio" and ((held is not None and held.high <= 1) or max(given.ends) <= 1)


def refusal(given: Given, drawn: Drawn, held: Range | None, kinds: set[str]) -> str | None:
    """A sentence where a number can't be what it is given for, in our own print; None where it can."""
    lowest = min([each.ends[0] for each in given.grids.values()] + [float(each) for each in given.among] or [1.0])
    lowest = min(lowest, held.low if held else lowest)
    if drawn.base < 0 <= lowest:
        return f"This can’t be below 0. You wrote {drawn.text}."
    if drawn.base == 0 < lowest:
        return "This can’t be 0: there is then nothing to work out."
    if given.register == "count" and drawn.base != round(drawn.base):
        return f"Write a whole number: this is counted. You wrote {drawn.text}."
    if "paired" in kinds and drawn.base % 2:
        return f"Write an even number: each sheave of the travelling block takes two lines. You wrote {drawn.text}."
    if is_share(given, held) and drawn.base > 1:
        return f"This is 1 at most, which is 100 %. You wrote {drawn.text}.{_as_percent(drawn)}"
    if "factor" in kinds and drawn.base <= 1:
        return f"This is above 1. At 1 the line parts at the pull it is for. You wrote {drawn.text}."
    return None


def _as_percent(drawn: Drawn) -> str:
    return f" If you mean {drawn.number} %, write it so." if not drawn.unit.symbol and drawn.base <= 100 else ""


SHARES = ("buoyancy_factor", "tackle_efficiency", "derrick_efficiency")
"""Formulas that find a part of a whole."""
CHANGED_PLACES = "A limit is passed already, or two of the numbers have changed places. There is no answer to build on."


def impossible(item: "NumericItem", values: dict[str, float], held: dict[str, Range], system: str) -> str | None:
    """A sentence where a result on the way can't be: below zero, or more than the whole of what it is a part of.

    What a step that only repeats a given shows was refused or allowed with that given.
    """
    for step in item.steps:
        value, last = values[step.name], step is item.steps[-1]
        came = f"the {step.find} comes to {step.unit(system).printed(value)}"
        if isinstance(step.expression.tree, ast.Name):
            continue
        if value < 0 and not last:
            own = [each.say for each in item.meanings if each.of == step.name and each.is_passed(values)]
            return own[0] if own else f"On the way, {came}, below zero. {CHANGED_PLACES}"
        share = step.formula is not None and step.formula.name in SHARES
        share = share or (step.register == "ratio" and not last and step.name in held and held[step.name].high <= 1)
        if share and value > 1 + 1e-9:
            return f"Here {came}. It is a part of a whole: 1, which is 100 %, is the most. {CHANGED_PLACES}"
    return None
