"""A known wrong way, and those that every pure conversion has: they need no word in an item's file."""

from dataclasses import dataclass

TIMES = {1: "Ten", 2: "A hundred", 3: "A thousand"}
COPIED = "You copied the number. It stands in another unit now, so it must change."
UPSIDE_DOWN = "You turned the factor upside down: where you multiplied, divide, and where you divided, multiply."
TEN_OFF = "Your figures are right, but the number is {times} times too {size}. Look where its decimal mark stands."


@dataclass(frozen=True)
class Slip:
    """A known wrong way: the value it leads to in the asked unit, and what to tell the hand."""

    name: str
    title: str
    value: float
    tell: str


def slips_of_any_conversion(given: float, value: float) -> list[Slip]:
    """The wrong ways from the given number to `value`: copied, upside down, and some tens too large or too small."""
    found = [
        Slip("number-copied", "Number copied", given, COPIED),
        Slip("factor-upside-down", "Factor upside down", given * given / value, UPSIDE_DOWN),
    ]
    for tens, times in TIMES.items():
        for power, size in ((tens, "large"), (-tens, "small")):
            title = f"{times} times too {size}"
            tell = TEN_OFF.format(times=f"{10**tens:,}", size=size)
            found.append(Slip(title.lower().replace(" ", "-"), title, value * 10.0**power, tell))
    return found
