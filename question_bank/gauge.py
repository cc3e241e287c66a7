"""A drawn dial: numbers outside the ring, marks inside it, one needle. Drawn from range, marks and reading alone.

The numbers stand outside, so that the needle never lies over one. The picture holds no colours and no style; classes of
the site's style sheet give them: dial-ring, dial-mark, dial-mark-numbered, dial-needle, dial-hub, dial-number,
dial-unit, dial-word.
"""

import math
from dataclasses import dataclass
from decimal import Decimal
from xml.sax.saxutils import escape

WIDTH, HEIGHT = 360, 316
X, Y, RING = 180, 168, 126
SWEEP = 300
"""Degrees from the first mark to the last, clockwise, the open part below."""
SMALL, MIDDLE, NUMBERED = 14, 19, 24
FONT = 18
DIGIT = 10.5
"""How wide a digit of a number is, at most."""
APART = 9


@dataclass(frozen=True)
class Dial:
    """A scale from `start` to `stop` in one unit: a small mark every `mark`, a number every `numbered`.

    `word` is lettered under the unit: 'weight', 'torque', 'pressure'.
    """

    unit: str
    word: str
    start: Decimal
    stop: Decimal
    mark: Decimal
    numbered: Decimal

    @property
    def numbers(self) -> list[Decimal]:
        """The values that stand on the dial as numbers."""
        return [self.start + at * self.numbered for at in range(int((self.stop - self.start) / self.numbered) + 1)]

    @property
    def spaces(self) -> int:
        """How many small spaces there are from one number to the next."""
        return int(self.numbered / self.mark)

    def passed(self, reading: Decimal) -> Decimal:
        """The last number that the needle has passed, or stands on."""
        return self.start + (reading - self.start) // self.numbered * self.numbered

    def past(self, reading: Decimal) -> Decimal:
        """How many small spaces the needle stands past that number."""
        return (reading - self.passed(reading)) / self.mark

    def angle(self, value: Decimal) -> float:
        """Degrees clockwise from straight up."""
        return float((value - self.start) / (self.stop - self.start)) * SWEEP - SWEEP / 2


def drawn(dial: Dial, reading: Decimal, id: str) -> str:
    """The dial as an <svg> element whose own ids begin with `id`."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="figure dial" viewBox="0 0 {WIDTH} {HEIGHT}" font-size="{FONT}"'
        f' role="img" aria-labelledby="{id}--title {id}--desc">'
        f'<title id="{id}--title">{escape(title(dial))}</title>'
        f'<desc id="{id}--desc">{escape(description(dial, reading))}</desc>'
        f"{_ring()}{_marks(dial)}{_numbers(dial)}{_letters(dial)}{_needle(dial.angle(reading))}</svg>"
    )


def title(dial: Dial) -> str:
    """'Dial of a weight gauge, 0 to 400 klbf'."""
    return f"Dial of a {dial.word} gauge, {plain(dial.start)} to {plain(dial.stop)} {dial.unit}"


def description(dial: Dial, reading: Decimal) -> str:
    """For those who can't see the dial: its numbers, the spaces between them, and where the needle stands.

    Which numbers the needle stands between, and how many small spaces past the lower one, is what an eye takes from the
    picture. What one space is worth, and so the reading, is left to the hand, as it is for one who sees.
    """
    first, second, *_, last = map(plain, dial.numbers)
    passed, past = dial.passed(reading), dial.past(reading)
    spaces = f"{half(past)} small {'space' if past <= 1 else 'spaces'}"
    return (
        f"A round dial lettered {dial.unit}. Its numbers run clockwise: {first}, {second} and so on to {last}. "
        f"From one number to the next there are {dial.spaces} small spaces. The needle stands between "
        f"{plain(passed)} and {plain(passed + dial.numbered)}, {spaces} past {plain(passed)}."
    )


def plain(value: Decimal) -> str:
    """A value of a dial as a number without grouping, as dials are lettered: '2500', '0.5'."""
    text = f"{value:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def half(count: Decimal) -> str:
    """A count of spaces in halves: '3', '3½', '½'."""
    return plain(count) if count % 1 == 0 else f"{plain(count // 1) if count >= 1 else ''}½"


def _ring() -> str:
    start, stop = _at(-SWEEP / 2, RING), _at(SWEEP / 2, RING)
    return f'<path class="dial-ring" fill="none" d="M{start}A{RING} {RING} 0 1 1 {stop}"/>'


def _marks(dial: Dial) -> str:
    """Small marks as one path and numbered marks as another. Half-way between two numbers a mark is a little longer."""
    small, numbered = [], []
    for at in range(int((dial.stop - dial.start) / dial.mark) + 1):
        angle = dial.angle(dial.start + at * dial.mark)
        if at % dial.spaces == 0:
            numbered.append(f"M{_at(angle, RING)}L{_at(angle, RING - NUMBERED)}")
        else:
            length = MIDDLE if at % dial.spaces * 2 == dial.spaces else SMALL
            small.append(f"M{_at(angle, RING)}L{_at(angle, RING - length)}")
    return (
        f'<path class="dial-mark" fill="none" d="{"".join(small)}"/>'
        f'<path class="dial-mark-numbered" fill="none" d="{"".join(numbered)}"/>'
    )


def _numbers(dial: Dial) -> str:
    """Each number outside the ring, as far out as its own width and height ask for."""
    found = []
    for value in dial.numbers:
        text, angle = plain(value), math.radians(dial.angle(value))
        wide, high = len(text) * DIGIT / 2, FONT * 0.36
        out = RING + APART + abs(math.sin(angle)) * wide + abs(math.cos(angle)) * high
        x, y = X + out * math.sin(angle), Y - out * math.cos(angle) + high
        found.append(f'<text class="dial-number" text-anchor="middle" x="{x:.1f}" y="{y:.1f}">{text}</text>')
    return "".join(found)


def _letters(dial: Dial) -> str:
    return (
        f'<text class="dial-unit" text-anchor="middle" font-size="20" x="{X}" y="{Y + 84}">{escape(dial.unit)}</text>'
        f'<text class="dial-word" text-anchor="middle" font-size="16" x="{X}" y="{Y + 110}">{escape(dial.word)}</text>'
    )


def _needle(angle: float) -> str:
    """Thick from the hub to below the marks, then a fine tip into them; each mark still shows beyond the tip."""
    shoulder, tip = RING - NUMBERED - 8, RING - SMALL / 2
    return (
        f'<g transform="rotate({angle:.2f} {X} {Y})">'
        f'<path class="dial-needle" d="M{X - 6} {Y + 30}H{X + 6}L{X + 4.5} {Y - shoulder}L{X + 0.8} {Y - tip:g}'
        f'H{X - 0.8}L{X - 4.5} {Y - shoulder}Z"/></g>'
        f'<circle class="dial-hub" cx="{X}" cy="{Y}" r="11"/>'
    )


def _at(angle: float, radius: float) -> str:
    """A point at that angle and distance from the middle, as 'x y'."""
    turned = math.radians(angle)
    return f"{X + radius * math.sin(turned):.2f} {Y - radius * math.cos(turned):.2f}"
