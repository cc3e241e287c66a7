"""The one tolerance of an item: exact, absolute with its unit, relative, or relative on the safe side only.

A rating is rounded down and a required strength up. Their bands end at the value itself, so that nothing past it is
ever called right: `down` lies below it, `up` above it.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from question_bank.numbers import show, show_places
from question_bank.units import Unit, register, split_quantity

CLOSE = 3
"""A relative item calls an answer close up to this many tolerances off."""
FROM_KEY, FROM_EACH_OTHER = 4, 2
"""How many tolerances a mistake must lie from the key, and from every other mistake."""
SHARES = ("relative", "down", "up")
"""The kinds whose width is a share of the value."""
RANGE = "range"
"""The kind of an estimate: a wide share of the value, either side."""
TRADE_FACTORS = 5e-5
"""What a one-sided band leaves past the value: a hand who multiplies by 9.807 or 0.9072 lands up to 0.004 % past it."""


@dataclass(frozen=True)
class Tolerance:
    """`kind` is 'exact', 'absolute', RANGE or one of SHARES; `amounts` holds the width by system ({} for exact)."""

    kind: str
    amounts: Mapping[str, str]

    @property
    def is_share(self) -> bool:
        """Whether the width is a share of the value."""
        return self.kind in (*SHARES, RANGE)

    @property
    def side(self) -> str:
        """Where the band lies: 'either' side of the value, or only 'down' or 'up' from it."""
        return self.kind if self.kind in ("down", "up") else "either"

    def half_width(self, value: float, unit: Unit, system: str) -> float:
        """How far the band goes from a value, in the asked unit."""
        if self.kind == "exact":
            return 0.0
        if self.is_share:
            return abs(value) * float(self.amounts[system])
        number, symbol = split_quantity(self.amounts[system])
        return float(number) * register(unit.register).unit(symbol).factor / unit.factor

    def print_key(self, value: float, unit: Unit, system: str) -> str:
        """The value with the figures that this tolerance is worth."""
        if self.kind == "exact":
            return show(value, 15)
        if self.is_share:
            return show(value, 4, self.side)
        width = self.half_width(value, unit, system)
        places = next(n for n in range(9) if 10**-n <= width * 1.000001 or n == 8)
        return show_places(value, places)

    def in_words(self, system: str) -> str:
        """'to within 1 %', for a stem or a message."""
        if self.kind == "exact":
            return "exactly"
        if self.kind == RANGE:
            return f"roughly: what lies within {float(self.amounts[system]) * 100:g} % of it is right"
        if self.is_share:
            rounded = "" if self.side == "either" else f", rounded {self.side}"
            return f"to within {float(self.amounts[system]) * 100:g} %{rounded}"
        return f"to within {self.amounts[system]}"
