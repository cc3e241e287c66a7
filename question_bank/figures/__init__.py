"""Drawn figures: original SVG files of this folder, with their quantities filled in for one system of units.

A file is named for the figure and holds a <title>, a <desc>, and ids that start with the figure's name and two hyphens,
so that several figures can stand on one page. It holds no colours and no styles. The page's style sheet gives them:

    fig-line     outline: stroke ink, no fill                fig-fill     light grey area, outlined
    fig-accent   the part in question: stroke accent,        fig-fill-2   darker grey area, outlined
                 no fill                                     fig-dot      full dot or arrow head: fill accent
    fig-hatch    lines of a hatching: thin stroke            fig-leader   leader and level lines: thin stroke
    fig-text     labels: fill ink, no stroke

Its names stand in groups of their own, and a group of spots says which parts can be asked: see spots.py.
"""

import functools
import re
from dataclasses import dataclass
from pathlib import Path
from xml.etree import ElementTree

from question_bank.figures.spots import Spot, spots_of, without_names, without_spots
from question_bank.quantities_in_text import fill

HERE = Path(__file__).parent
NAME = re.compile(r"[a-z0-9-]+")
SVG = "{http://www.w3.org/2000/svg}"


class FigureError(LookupError):
    """No such figure, or a file that can't be shown. The message says which there are, or what to mend."""


@dataclass(frozen=True)
class Figure:
    """One figure; `svg` is the whole <svg> element, to be put into the page as it is.

    `unnamed` is the same drawing without its names, for questions about its `spots`.
    """

    id: str
    title: str
    description: str
    svg: str
    unnamed: str
    spots: tuple[Spot, ...]


@functools.lru_cache(maxsize=256)
def figure(id: str, system: str = "us", comma: bool = False) -> Figure:
    """The figure with that id for a hand who reads 'us' or 'metric' and, with comma=True, writes 12,5.

    Raises FigureError.
    """
    path = HERE / f"{id}.svg"
    if not NAME.fullmatch(id) or not path.is_file():
        raise FigureError(f"There is no figure {id!r}. Figures are {', '.join(figure_ids())}.")
    return _read(path, system, comma)


def figure_ids() -> list[str]:
    """Ids of all figures of this folder, in alphabetical order."""
    return sorted(each.stem for each in HERE.glob("*.svg"))


def _read(path: Path, system: str, comma: bool) -> Figure:
    """Fill in the file's quantities and tie the title and the description to the picture for screen readers."""
    try:
        svg = fill(path.read_text(encoding="utf-8"), system, comma).strip()
        root = ElementTree.fromstring(svg)
        spots = spots_of(path.stem, root)
    except (ValueError, ElementTree.ParseError) as error:
        raise FigureError(f"{path.name} can't be shown: {error}") from None
    title, description = (" ".join((root.findtext(f"{SVG}{tag}") or "").split()) for tag in ("title", "desc"))
    if not title or not description:
        raise FigureError(f"{path.name} needs a <title> and a <desc>, for those who can't see it.")
    id = path.stem
    svg = svg.replace("<svg ", f'<svg class="figure" role="img" aria-labelledby="{id}--title {id}--desc" ', 1)
    svg = svg.replace("<title>", f'<title id="{id}--title">', 1).replace("<desc>", f'<desc id="{id}--desc">', 1)
    return Figure(id, title, description, without_spots(id, svg), without_names(id, svg), spots)
