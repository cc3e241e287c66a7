"""What a value of a sum means past a limit, as the item's file states it: over 100 % of a rating is an overload.

    warn = [{ of = "used", above = "100 %", say = "This is an overload." }]

`of` is a given or a step, and the last step where it is left out. `above` or `below` is a value in one of its units.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from question_bank.givens import Given
from question_bank.item_fields import Fields
from question_bank.units import UnitError, register, split_quantity
from question_bank.working import Step

ROUNDING = 1e-9
"""What a sum of floats may be off. 100 % itself is not above 100 %."""


@dataclass(frozen=True)
class Meaning:
    """A limit in base units, the side on which it is passed ('above' or 'below'), and what is then told."""

    of: str
    side: str
    limit: float
    say: str

    def is_passed(self, values: Mapping[str, float]) -> bool:
        """Whether the value lies past the limit. At the limit it does not."""
        beyond = values[self.of] - self.limit
        return (beyond if self.side == "above" else -beyond) > abs(self.limit) * ROUNDING


def read_meanings(fields: Fields, givens: Mapping[str, Given], steps: tuple[Step, ...]) -> tuple[Meaning, ...]:
    """The item's `warn` rows in their order. Raises BankError."""
    registers = {name: each.register for name, each in {**givens, **{step.name: step for step in steps}}.items()}
    return tuple(_meaning(row, registers, steps[-1].name) for row in fields.tables("warn"))


def _meaning(row: Fields, registers: Mapping[str, str], last: str) -> Meaning:
    row.only("of", "above", "below", "say")
    of = row.text("of", last)
    if of not in registers:
        raise row.fault("of", f"{of!r} is no given and no step of this item.")
    sides = [side for side in ("above", "below") if side in row.table]
    if len(sides) != 1:
        raise row.fault("", "a warning has above or below: one of them.")
    text = row.needed(sides[0])
    try:
        number, symbol = split_quantity(text)
        limit = float(number.replace(",", "").replace("−", "-")) * register(registers[of]).unit(symbol).factor
    except (UnitError, ValueError) as error:
        raise row.fault(sides[0], f"{text!r} is no value of {of}: {error}") from None
    return Meaning(of, sides[0], limit, row.needed("say"))
