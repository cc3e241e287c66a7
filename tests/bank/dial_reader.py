"""Reads a drawn dial from its SVG alone, as an eye does: needle, numbers, marks. It knows nothing of the bank."""

import math
import re
from dataclasses import dataclass
from xml.etree import ElementTree

SVG = "{http://www.w3.org/2000/svg}"
STROKE = re.compile(r"M(-?[\d.]+) (-?[\d.]+)L(-?[\d.]+) (-?[\d.]+)")
TURN = re.compile(r"rotate\((-?[\d.]+) (-?[\d.]+) (-?[\d.]+)\)")
WIDEST_SIGN = 0.62
"""How wide a sign of the page's type is at most, beside its size: bold digits are 0.56 wide."""


@dataclass(frozen=True)
class Text:
    """A text of the picture: what it says, its size, and the box that it fills at most."""

    text: str
    size: float
    left: float
    top: float
    right: float
    bottom: float

    @property
    def middle(self) -> tuple[float, float]:
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2


class Picture:
    """One drawn dial."""

    def __init__(self, svg: str):
        self.root = ElementTree.fromstring(svg)
        self.wide, self.high = map(float, self.root.get("viewBox").split()[2:])
        turn = next(each for each in self.root.iter(f"{SVG}g") if each.get("transform"))
        self.needle, self.x, self.y = map(float, TURN.fullmatch(turn.get("transform")).groups())
        self.tip = self.y - min(float(y) for _, y in re.findall(r"([\d.]+) ([\d.]+)", turn[0].get("d")))

    def texts(self, of: str) -> list[Text]:
        """The texts of a class."""
        return [self._text(each) for each in self.root.iter(f"{SVG}text") if each.get("class") == of]

    def strokes(self, of: str) -> list[tuple[float, float, float]]:
        """Marks of a class as (degrees clockwise from straight up, outer radius, inner radius), clockwise."""
        (path,) = (each for each in self.root.iter(f"{SVG}path") if each.get("class") == of)
        ends = [tuple(map(float, found.groups())) for found in STROKE.finditer(path.get("d"))]
        return sorted((self._angle(x, y), self._radius(x, y), self._radius(to_x, to_y)) for x, y, to_x, to_y in ends)

    def reading(self) -> float:
        """Number passed, and of the way to the next one what the needle has gone."""
        numbers = sorted((self._angle(*each.middle), float(each.text)) for each in self.texts("dial-number"))
        marks = [angle for angle, *_ in self.strokes("dial-mark-numbered")]
        assert len(marks) == len(numbers)
        below = max(at for at, angle in enumerate(marks) if angle <= self.needle)
        part = (self.needle - marks[below]) / (marks[below + 1] - marks[below])
        return numbers[below][1] + part * (numbers[below + 1][1] - numbers[below][1])

    def spaces_past(self) -> float:
        """Small spaces between the numbered mark passed and the needle, measured by the next mark that is drawn."""
        small = [angle for angle, *_ in self.strokes("dial-mark")]
        numbered = [angle for angle, *_ in self.strokes("dial-mark-numbered")]
        passed = max(angle for angle in numbered if angle <= self.needle)
        following = min(angle for angle in small if angle > passed)
        return (self.needle - passed) / (following - passed)

    def covers(self, text: Text) -> bool:
        """Whether the needle comes within a unit of a text's box. It is twelve wide at most, and two at its tip."""
        turned = math.radians(self.needle)
        for far in range(-30, int(self.tip) + 1):
            near = 7 if far < self.tip - 32 else 2 + 4 * (self.tip - far) / 32
            x, y = self.x + far * math.sin(turned), self.y - far * math.cos(turned)
            if text.left - near <= x <= text.right + near and text.top - near <= y <= text.bottom + near:
                return True
        return False

    def _text(self, each: ElementTree.Element) -> Text:
        size = float(each.get("font-size") or self.root.get("font-size"))
        x, y, half = float(each.get("x")), float(each.get("y")), len(each.text) * size * WIDEST_SIGN / 2
        return Text(each.text, size, x - half, y - 0.74 * size, x + half, y + 0.04 * size)

    def _angle(self, x: float, y: float) -> float:
        return math.degrees(math.atan2(x - self.x, self.y - y))

    def _radius(self, x: float, y: float) -> float:
        return math.hypot(x - self.x, y - self.y)
