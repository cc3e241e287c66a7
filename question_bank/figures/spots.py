"""The named places of a figure, for questions that ask for a part, and the drawing without its names.

A figure that can be asked has one group of circles, never drawn as they are:

    <g id="slips--spots">
      <circle id="slips--spot-dies" cx="120" cy="200">
        <title>dies</title><desc>toothed faces against the pipe</desc>
      </circle>
    </g>

The title is the part's name. The desc says where it stands and what it looks like, for a hand who can't see the
drawing, and must not name it. A small part that its number would hide has the number beside it, and data-at="154 221"
on the circle says where the part is: a line leads there. Groups whose id begins with slips--names are left out where
the names are asked.
"""

import re
from dataclasses import dataclass
from xml.etree import ElementTree

SVG = "{http://www.w3.org/2000/svg}"
ElementTree.register_namespace("", SVG.strip("{}"))
TITLE = "Drawing with numbers in place of names"
HINT = (
    "A drawing without names. Each part that can be chosen has a number; the list below says where each number stands."
)


@dataclass(frozen=True)
class Spot:
    """One part that can be asked: its id in the figure, its name, where it stands, and its number's place.

    `at` is the part's own place where the number stands beside it, or None.
    """

    part: str
    name: str
    where: str
    x: float
    y: float
    at: tuple[float, float] | None = None


def spots_of(id: str, root: ElementTree.Element) -> tuple[Spot, ...]:
    """The spots of a figure in the file's order; empty where it has none. Raises ValueError, a sentence."""
    group = next((each for each in root.iter(f"{SVG}g") if each.get("id") == f"{id}--spots"), None)
    return () if group is None else tuple(_spot(id, each) for each in group)


def _spot(id: str, circle: ElementTree.Element) -> Spot:
    start = f"{id}--spot-"
    name, where = (" ".join((circle.findtext(f"{SVG}{tag}") or "").split()) for tag in ("title", "desc"))
    part = (circle.get("id") or "").removeprefix(start)
    if not (circle.get("id") or "").startswith(start) or not name or not where:
        raise ValueError(f"the spot {circle.get('id')!r} needs an id like {start}dies, a <title> and a <desc>.")
    try:
        at = tuple(float(each) for each in circle.get("data-at", "").split())
        if len(at) not in (0, 2):
            raise ValueError
        return Spot(part, name, where, float(circle.get("cx")), float(circle.get("cy")), at or None)
    except (TypeError, ValueError):
        raise ValueError(f"the spot {part!r} needs numbers for cx and cy, and two for data-at if it has one.") from None


def without_spots(id: str, svg: str) -> str:
    """The drawing as a lesson shows it."""
    return re.sub(rf'\s*<g id="{re.escape(id)}--spots">.*?</g>', "", svg, flags=re.DOTALL)


def without_names(id: str, svg: str) -> str:
    """The drawing as a question shows it: no names in it, none in its title or description."""
    root = ElementTree.fromstring(without_spots(id, svg))
    for parent in list(root.iter()):
        for child in list(parent):
            if (child.get("id") or "").startswith(f"{id}--names"):
                parent.remove(child)
    root.find(f"{SVG}title").text = TITLE
    root.find(f"{SVG}desc").text = HINT
    return ElementTree.tostring(root, encoding="unicode")
