"""About how big: the power of ten of an answer, as a hand chooses it before working it out."""

from dataclasses import dataclass

from question_bank.picking import Picker

HOW_MANY = 4
LOWEST = -2
"""Nothing smaller is offered, unless it is right: a mast of hundredths of a metre would be no choice."""
CLEAR = (1.05, 9.5)
"""A value whose first figures lie outside these is so near the next power of ten that a fair estimate may miss it."""
NAMES = {
    -3: "thousandths",
    -2: "hundredths",
    -1: "tenths",
    0: "ones",
    1: "tens",
    2: "hundreds",
    3: "thousands",
    4: "tens of thousands",
    5: "hundreds of thousands",
    6: "millions",
    7: "tens of millions",
    8: "hundreds of millions",
}


@dataclass(frozen=True)
class Size:
    """One power of ten as it is offered: 2, '100 to 999 kN', 'hundreds'."""

    power: int
    text: str
    name: str


def power_of(value: float) -> int:
    """The power of ten of a value's first figure: 2 for 286, 3 for 1,000, −1 for 0.78. Raises ValueError for 0."""
    if value == 0:
        raise ValueError("Nothing has no power of ten.")
    return int(f"{abs(value):.9e}".partition("e")[2])


def is_clear(value: float) -> bool:
    """Whether a value lies so far from the ends of its power of ten that the choice is fair."""
    low, high = CLEAR
    return low <= abs(value) / 10.0 ** power_of(value) <= high


def lowest_offered(value: float, seed: int) -> int:
    """The lowest of the four powers of ten that are offered; the right one has any place among them, by the seed.

    The seed has drawn the givens already: counted on, so that the place tells nothing about the size.
    """
    power = power_of(value)
    return max(power - Picker(seed + 2**31).index(HOW_MANY), min(LOWEST, power))


def size(power: int, unit: str) -> Size:
    """A power of ten in words: '10 to 99 kN' is 'tens'."""
    return Size(power, f"{_range(power)} {unit}".strip(), NAMES.get(power, f"10 to the power of {power}"))


def offered(lowest: int, unit: str) -> list[Size]:
    """The four sizes from the lowest on."""
    return [size(power, unit) for power in range(lowest, lowest + HOW_MANY)]


def _range(power: int) -> str:
    """'100 to 999', '1 to 9.9', '0.1 to 0.99'."""
    if power > 0:
        return f"{10**power:,} to {10 ** (power + 1) - 1:,}"
    return f"{10.0**power:.{-power}f} to {9.9 * 10.0**power:.{1 - power}f}"
