"""Rounding that takes no notice of the last float digits: 93 ft into 4,650 ft is 50 stands, however it comes out."""

import math

PLACES = 9
"""Decimals that a quotient is rounded to first. Tallies are kept to 0.01 ft, so no true fraction is that small."""


def rounded_up(quotient: float) -> float:
    """The next whole number, or the quotient itself where it is whole but for float noise."""
    return float(math.ceil(round(quotient, PLACES)))


def whole_part(quotient: float) -> float:
    """The quotient without its fraction, and no lower where it is whole but for float noise."""
    return float(math.floor(round(quotient, PLACES)))
