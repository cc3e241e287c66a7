"""A sum done roughly, in the head: right is what lies within a wide range, and a quick way there is shown."""

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from question_bank.drawing import Numbers, Width
from question_bank.formulas import all_formulas
from question_bank.item_fields import SYSTEMS, Fields
from question_bank.kinds.expression_fields import read_expressions
from question_bank.kinds.numeric import NumericQuestion
from question_bank.kinds.numeric_item import NumericItem
from question_bank.numbers import show
from question_bank.reading import Quantity
from question_bank.steps import Expression
from question_bank.tolerance import RANGE, Tolerance
from question_bank.verdict import Verdict

NARROWEST, WIDEST = Decimal("0.05"), Decimal("0.5")
AGAIN = "That is too far off. Take the quick way once more, in round numbers."


@dataclass(frozen=True, kw_only=True)
class EstimateQuestion(NumericQuestion):
    """`quick` is what the quick way gives, as printed."""

    kind = "estimate"

    quick: str

    def tell(self, outcome: str, mistake: str | None = None) -> str:
        """As of a numeric question; who is merely too far off is sent to the quick way."""
        told = super().tell(outcome, mistake)
        return AGAIN if outcome == "wrong" and told == super().tell("wrong") else told

    def _judge(self, read: Quantity, comma: bool) -> Verdict:
        """The range is wide enough: nothing outside it is called close."""
        verdict = super()._judge(read, comma)
        return dataclasses.replace(verdict, outcome="wrong", message=AGAIN) if verdict.outcome == "close" else verdict


@dataclass(frozen=True)
class QuickWay:
    """How a hand does it in the head: an expression by system, and where it leads for the worked check."""

    formulas: Mapping[str, Expression]
    gives: Mapping[str, str]


class EstimateItem(NumericItem):
    """A numeric item whose tolerance is a range and whose quick way leads into it on every draw."""

    kind = "estimate"
    usual_seconds = 40
    own_fields = (*NumericItem.own_fields, "quick")

    def read(self, fields: Fields) -> None:
        super().read(fields)
        if "about" not in self.stem.lower().split():
            raise self.fault("stem", "it must say 'about', so that nobody works it out to the last figure.")
        if self.why is None:
            raise self.fault("why", "say here how it is done quickly in the head.")
        row = fields.inner("quick")
        row.only("formula", "gives")
        formulas = read_expressions(row, self.givens, self.steps, self.register, all_formulas())
        gives = row.by_system("gives")
        if set(formulas) != set(SYSTEMS) or set(gives) != set(SYSTEMS):
            raise row.fault("", "both systems need a formula, and the value that it gives for the check.")
        self.quick = QuickWay(formulas, gives)

    def _width(self, system: str) -> Width:
        """None: an estimate's slips are kept apart by their ranges."""
        return Width(0.0, False)

    def _is_good(self, numbers: Numbers, system: str) -> bool:
        """Whether no range round a known wrong way touches the range of the answer, or that of another one."""
        share = float(self.tolerance.amounts[system])
        ways = [numbers.values[self.steps[-1].name], *numbers.slips.values()]
        return all(
            abs(one - other) > share * (abs(one) + abs(other)) for at, one in enumerate(ways) for other in ways[:at]
        )

    def quick_value(self, values: Mapping[str, float], system: str) -> float:
        """Where the quick way leads, in base units."""
        return self.quick.formulas[system].evaluate(values)

    def _tolerance(self, fields: Fields) -> Tolerance:
        inner = fields.inner("tolerance")
        inner.only(RANGE)
        share = inner.decimal(RANGE)
        if not NARROWEST <= share <= WIDEST:
            raise inner.fault(RANGE, f"an estimate's range is a share of the value from {NARROWEST} to {WIDEST}.")
        return Tolerance(RANGE, dict.fromkeys(SYSTEMS, str(share)))

    def _question(self, seed: int, system: str, numbers: Numbers) -> EstimateQuestion:
        exact = super()._question(seed, system, numbers)
        unit = self.units[system]
        quick = f"{show(self.quick_value(numbers.values, system) / unit.factor, 3)} {unit.symbol}".strip()
        return EstimateQuestion(
            **{each.name: getattr(exact, each.name) for each in dataclasses.fields(exact)}, quick=quick
        )
