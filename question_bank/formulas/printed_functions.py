"""What only printed lines of these formulas use: sine, cosine and tangent of degrees, rounding up, the whole part.

Importing this file makes them known to printed equations. Rounding takes no notice of the last float digits: 93 ft into
4,650 ft is 50 stands, however the quotient comes out.
"""

import math

from question_bank.equations import FUNCTIONS

PLACES = 9
"""Decimals that a quotient is rounded to first. Tallies are kept to 0.01 ft, so no true fraction is that small."""


def rounded_up(quotient: float) -> float:
    """The next whole number, or the quotient itself where it is whole but for float noise."""
    return float(math.ceil(round(quotient, PLACES)))


def whole_part(quotient: float) -> float:
    """The quotient without its fraction, and no lower where it is whole but for float noise."""
    return float(math.floor(round(quotient, PLACES)))


FUNCTIONS.update(
    {
        "sine": lambda degrees: math.sin(math.radians(degrees)),
        "cosine": lambda degrees: math.cos(math.radians(degrees)),
        "tangent": lambda degrees: math.tan(math.radians(degrees)),
        "roundup": rounded_up,
        "whole": whole_part,
    }
)
