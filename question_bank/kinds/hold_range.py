"""Where the formulas of an item's steps hold, by the given or step that they take."""

import ast
from dataclasses import dataclass
from typing import TYPE_CHECKING

from question_bank.numbers import show
from question_bank.units import Unit

if TYPE_CHECKING:
    from question_bank.kinds.numeric_item import NumericItem

END = 0.005
"""The ends of a range are printed with three figures. What lies this little past one is not outside."""


@dataclass(frozen=True)
class Range:
    """From low to high, in base units."""

    low: float
    high: float

    def within(self, other: "Range") -> "Range":
        """Where both hold."""
        return Range(max(self.low, other.low), min(self.high, other.high))

    def has(self, value: float) -> bool:
        """Whether a value lies in it, its ends as they are printed included."""
        return self.low - abs(self.low) * END <= value <= self.high + abs(self.high) * END

    def shown(self, unit: Unit) -> str:
        """'44.5 to 11,100 kN'; one value alone where both ends are the same."""
        low, high = (show(each / unit.factor, 3) for each in (self.low, self.high))
        return f"{low if low == high else f'{low} to {high}'} {unit.symbol}".strip()


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
