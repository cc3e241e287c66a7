"""A known wrong way, and those that need no word in an item's file: of any number, and of any pure conversion."""

from dataclasses import dataclass

TIMES = {1: "Ten", 2: "A hundred", 3: "A thousand"}
NUMBER_COPIED = "number-copied"
UPSIDE_DOWN = "factor-upside-down"
TEN_OFF = "Your figures are right, but the number is {times} times too {size}. Look where its decimal mark stands."
OTHER_UNIT = "other-unit"
"""The right number beside the wrong unit."""
ROUNDED_PAST = "rounded-past"
"""A right sum rounded to the unsafe side."""


@dataclass(frozen=True)
class Slip:
    """A known wrong way: the value it leads to in the asked unit, and what to tell the hand."""

    name: str
    title: str
    value: float
    tell: str


@dataclass(frozen=True)
class General:
    """A wrong way that is known of every item: its title, and what to tell of it whatever the item."""

    name: str
    title: str
    tell: str


def general(name: str) -> General | None:
    """The general wrong way of that name, or None."""
    return _GENERAL.get(name)


def slips_of_any_conversion(given: float, value: float) -> list[Slip]:
    """The wrong ways from the given number to `value`: copied, upside down, and some tens too large or too small."""
    values = {NUMBER_COPIED: given, UPSIDE_DOWN: given * given / value}
    values |= {each.name: value * 10.0**power for power, each in _TENS_OFF.items()}
    return [Slip(name, _GENERAL[name].title, at, _GENERAL[name].tell) for name, at in values.items()]


def _tens_off(power: int) -> General:
    times, size = TIMES[abs(power)], "large" if power > 0 else "small"
    title = f"{times} times too {size}"
    return General(title.lower().replace(" ", "-"), title, TEN_OFF.format(times=f"{10 ** abs(power):,}", size=size))


TENS = tuple(power for tens in TIMES for power in (tens, -tens))
"""How many places a decimal mark may be off, to be known for that."""
_TENS_OFF = {power: _tens_off(power) for power in TENS}
_GENERAL = {
    each.name: each
    for each in (
        General(
            NUMBER_COPIED, "Number copied", "You copied the number. It stands in another unit now, so it must change."
        ),
        General(
            UPSIDE_DOWN,
            "Factor upside down",
            "You turned the factor upside down: where you multiplied, divide, and where you divided, multiply.",
        ),
        *_TENS_OFF.values(),
        General(
            OTHER_UNIT,
            "Right number, other unit",
            "Your number fitted the unit that was asked for, but you wrote another one beside it. Read the unit twice.",
        ),
        General(
            ROUNDED_PAST,
            "Rounded to the unsafe side",
            "Ratings, and the room there is, are rounded down. Loads, and strengths that are needed, are rounded up.",
        ),
    )
}
