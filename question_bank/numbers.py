"""How numbers are printed: 44,590 and 0.0178 with a point, and the same text rewritten for a hand who writes 12,5."""

import math
import re
from fractions import Fraction

PRINTED = re.compile(r"(?<![\w.,])(?:\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+\.\d+)(?!\d|[.,]\d)")
GROUP = "\N{NARROW NO-BREAK SPACE}"


def show(value: float, figures: int = 4, to: str = "either") -> str:
    """The value rounded to that many figures, thousands grouped by commas, a true minus, no idle zeros.

    Whole digits are rounded too: show(44592.2, 4) is '44,590'. `to` is 'either' for the nearest, 'down' for a rating,
    'up' for a strength that is needed. Raises ValueError for nan and infinities.
    """
    if not math.isfinite(value):
        raise ValueError(f"{value} can't be printed as a number.")
    if value == 0:
        return "0"
    places = figures - 1 - math.floor(math.log10(abs(value)))
    rounded = round(value, places) if to == "either" else _towards(value, places, to)
    return show_places(rounded, max(places, 0))


def show_exact(value: Fraction, figures: int) -> str:
    """An exact number rounded to that many figures; a half goes up, as on a pocket calculator. Grouped as by `show`."""
    if value == 0:
        return "0"
    size, places = abs(value), figures - 1
    while size >= Fraction(10) ** (figures - places):
        places -= 1
    while size < Fraction(10) ** (figures - 1 - places):
        places += 1
    whole = math.floor(size * Fraction(10) ** places + Fraction(1, 2))
    digits = str(whole).rjust(max(places, 0) + 1, "0") + "0" * max(-places, 0)
    before, after = (digits[:-places], digits[-places:].rstrip("0")) if places > 0 else (digits, "")
    return f"{'−' if value < 0 else ''}{int(before):,}{'.' if after else ''}{after}"


def _towards(value: float, places: int, to: str) -> float:
    """The value rounded down or up at that place. Float noise is no reason to leave a round value."""
    scaled = round(value * 10.0**places, 6)
    whole = math.floor(scaled) if to == "down" else math.ceil(scaled)
    return round(whole / 10.0**places, max(places, 0))


def show_places(value: float, places: int) -> str:
    """The value with at most that many decimals, grouped, idle zeros dropped."""
    text = f"{abs(value):,.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return f"−{text}" if value < 0 and text != "0" else text


def digits_in(number: str) -> int:
    """How many figures a printed number has: 3 for '0.0178', 4 for '2,000'."""
    return len(re.sub(r"[^0-9]", "", number).lstrip("0")) or 1


def in_comma(text: str) -> str:
    """Our own printed text for a hand who writes 12,5: '1,234.5 kN' -> '1 234,5 kN' (narrow space)."""
    return PRINTED.sub(lambda found: found[0].replace(",", GROUP).replace(".", ","), text)
