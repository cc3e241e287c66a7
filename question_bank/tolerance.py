"""The one tolerance of an item: exact, absolute with its unit, or relative."""

from collections.abc import Mapping
from dataclasses import dataclass

from question_bank.numbers import show, show_places
from question_bank.units import Unit, register, split_quantity

CLOSE = 3
"""A relative item calls an answer close up to this many tolerances off."""
FROM_KEY, FROM_EACH_OTHER = 4, 2
"""How many tolerances a mistake must lie from the key, and from every other mistake."""


@dataclass(frozen=True)
class Tolerance:
    """`kind` is 'exact', 'absolute' or 'relative'; `amounts` holds the half-width by system ({} for exact)."""

    kind: str
    amounts: Mapping[str, str]

    def half_width(self, value: float, unit: Unit, system: str) -> float:
        """Half the width of the band round a value, in the asked unit."""
        if self.kind == "exact":
            return 0.0
        if self.kind == "relative":
            return abs(value) * float(self.amounts[system])
        number, symbol = split_quantity(self.amounts[system])
        return float(number) * register(unit.register).unit(symbol).factor / unit.factor

    def print_key(self, value: float, unit: Unit, system: str) -> str:
        """The value with the figures that this tolerance is worth."""
        if self.kind == "exact":
            return show(value, 15)
        if self.kind == "relative":
            return show(value, 4)
        width = self.half_width(value, unit, system)
        places = next(n for n in range(9) if 10**-n <= width * 1.000001 or n == 8)
        return show_places(value, places)

    def in_words(self, system: str) -> str:
        """'to within 1 %', for a stem or a message."""
        if self.kind == "exact":
            return "exactly"
        if self.kind == "relative":
            return f"to within {float(self.amounts[system]) * 100:g} %"
        return f"to within {self.amounts[system]}"
