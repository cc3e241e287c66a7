"""A part of a figure, to be tapped in the drawing or chosen from the list beside it."""

import re
from dataclasses import dataclass
from typing import Any

from question_bank.figures import FigureError, figure
from question_bank.figures.spots import Spot
from question_bank.item import Item
from question_bank.item_fields import Fields
from question_bank.picking import Picker
from question_bank.question import Question
from question_bank.verdict import Verdict

FEWEST, MOST = 4, 12
FAR = 18.0
"""Two numbers this near to each other, in the drawing's own units, could not be told apart by a thumb."""


@dataclass(frozen=True)
class Place:
    """A numbered place of the drawing. `name` is told once it is answered; `where` says how to find it unseen.

    A tap within `reach` of it, in the drawing's own units, is meant for it and for no other place.
    Where the number stands beside its part, `part_x` and `part_y` are the part's own place; elsewhere None.
    """

    key: str
    part: str
    name: str
    where: str
    x: float
    y: float
    reach: float = 20.0
    part_x: float | None = None
    part_y: float | None = None


@dataclass(frozen=True, kw_only=True)
class PartQuestion(Question):
    """`figure` is the figure's id and `svg` its drawing without names. `right` holds every key that is right.

    Keys are the numbers in the drawing, given in drawn order, so they tell nothing.
    """

    kind = "part"

    figure: str
    svg: str
    places: list[Place]
    right: list[str]
    tells: dict[str, str]

    def grade(self, answer: Any, comma: bool = False) -> Verdict:
        """`answer` is the number of a place."""
        chosen = self.place(answer)
        if chosen is None:
            return Verdict("unreadable", "No part was chosen. Tap its number, or choose it from the list.")
        read_as = f"{chosen.key}: {chosen.name}"
        if chosen.key in self.right:
            return Verdict("right", self.why or "", read_as=read_as)
        told = self.tells.get(chosen.part) or f"Number {chosen.key} is: {chosen.name}."
        return Verdict("wrong", told, mistake=f"part-{chosen.part}", read_as=read_as)

    def place(self, key: Any) -> Place | None:
        """The place of that number, or None."""
        return next((each for each in self.places if each.key == key), None)

    def drawing(self, at: str) -> str:
        """The drawing with ids of its own on the page, `at` being a word used once a page."""
        return re.sub(rf'(?<=["# ]){re.escape(self.figure)}--', f"at-{at}--", self.svg)

    @property
    def view_box(self) -> str:
        """The drawing's own measure, for what is laid over it."""
        return re.search(r'viewBox="([^"]*)"', self.svg)[1]

    @classmethod
    def _rebuilt(cls, values: dict[str, Any]) -> dict[str, Any]:
        return {**values, "places": [Place(**row) for row in values["places"]]}


class PartItem(Item):
    """`figure` names the drawing and `part` the right part of it; `also` lists others that are right as well.

    `among` keeps to some of the figure's parts; `tells` says of a part why taking it misleads.
    """

    kind = "part"
    usual_seconds = 25
    own_fields = ("figure", "part", "also", "among", "tells")

    def read(self, fields: Fields) -> None:
        self.figure = fields.needed("figure")
        try:
            spots = {each.part: each for each in figure(self.figure).spots}
        except FigureError as error:
            raise self.fault("figure", str(error)) from None
        among = fields.texts("among") if "among" in fields.table else list(spots)
        also = fields.texts("also") if "also" in fields.table else []
        self.right = [fields.needed("part"), *also]
        tells = fields.inner("tells") if "tells" in fields.table else None
        self.tells = {part: tells.needed(part) for part in tells.table} if tells else {}
        for field, named in (("among", among), ("part", self.right), ("tells", list(self.tells))):
            for part in named:
                if part not in spots:
                    raise self.fault(field, f"{self.figure} has no spot {part!r}. Its spots are {', '.join(spots)}.")
        self.spots = [spots[part] for part in among]
        if not set(self.right) <= set(among) or not FEWEST <= len(among) <= MOST:
            raise self.fault("among", f"there must be {FEWEST} to {MOST} parts, the right one among them.")
        self._check_room()

    def draw(self, seed: int, system: str = "us", fixed: Any = None) -> PartQuestion:
        drawn = Picker(seed).shuffled(self.spots)
        places = [
            Place(str(at), each.part, each.name, each.where, each.x, each.y, self._reach(each), *(each.at or ()))
            for at, each in enumerate(drawn, start=1)
        ]
        return PartQuestion(
            **self.in_common(seed, system),
            figure=self.figure,
            svg=figure(self.figure, system).unnamed,
            places=places,
            right=[each.key for each in places if each.part in self.right],
            tells={part: self.filled(text, system) for part, text in self.tells.items()},
        )

    def _reach(self, spot: Spot) -> float:
        """Half of the way to the nearest other place, across or down, and 20 at most: taps never overlap."""
        ways = [max(abs(spot.x - other.x), abs(spot.y - other.y)) for other in self.spots if other is not spot]
        return min(20.0, min(ways) / 2)

    def _check_room(self) -> None:
        for at, one in enumerate(self.spots):
            for other in self.spots[:at]:
                if abs(one.x - other.x) < FAR and abs(one.y - other.y) < FAR:
                    raise self.fault("among", f"{one.part!r} and {other.part!r} stand too near to each other to tap.")
