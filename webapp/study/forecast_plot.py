"""Where the lines of a forecast's plot lie: pure geometry. The template draws it, and colours come from the page.

The days run from left to right: a day's mark stands at the day's end, so the last one stands on the day of the exam.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from webapp.study.forecast import Day
from webapp.study.readiness import Mark
from webapp.study.rotation import Rotation, on_the_rig

WIDTH, HEIGHT = 360, 244
LEFT, RIGHT, TOP, BOTTOM = 34.0, 284.0, 30.0, 184.0
"""The field in which marks are drawn. To its right stand the words at the end of the lines."""
STRIP = 8.0
"""Under the field: how far below it the strip of hitches lies. It is as thick."""
LEVELS = (0, 25, 50, 75, 100)
FEW_DAYS = 14
"""So many days are told day by day in the table; of more, one in each week."""
ROOM_FOR_A_MIDDLE = 8
"""From so many days on there is room for a date in the middle."""
APART = 13.0
"""Two words on the same side stand at least so far apart, or one hides the other."""


@dataclass(frozen=True, slots=True)
class Tick:
    """A date under the field: where, and how its words stand there (the SVG word for it)."""

    x: float
    day: date
    anchor: str


@dataclass(frozen=True, slots=True)
class Plot:
    """All that is drawn, in the units of a view box of WIDTH by HEIGHT.

    `line` and `band` are points of an SVG polyline and polygon; `hitches` are (x, width) of the days on the rig, none
    where nobody goes by a rotation. `now` and `end` are where the marks of today and of the exam stand.
    """

    line: str
    band: str
    now: float
    end: float
    end_words: float
    pass_mark: float
    pass_words: float
    levels: tuple[tuple[float, int], ...]
    hitches: tuple[tuple[float, float], ...]
    ticks: tuple[Tick, ...]


def plot(now: Mark, days: Sequence[Day], rotation: Rotation, pass_mark: float) -> Plot:
    """The plot of a forecast that begins with the mark of now. `days` are consecutive, one at least."""
    marks = [(x_of(place + 1, len(days)), each.mark) for place, each in enumerate(days)]
    here = (x_of(0, len(days)), now)
    upper = [(x, mark.high) for x, mark in marks]
    lower = [(x, mark.low) for x, mark in reversed(marks)]
    last, passes = y_of(marks[-1][1].about), y_of(pass_mark)
    return Plot(
        line=_points((x, mark.about) for x, mark in (here, *marks)),
        band=_points((*upper, *lower)),
        now=y_of(now.about),
        end=last,
        end_words=max(last, TOP + APART),
        pass_mark=passes,
        # Over its line, unless the marks begin there: then under it.
        pass_words=passes + APART if now.about >= pass_mark else passes - 5,
        levels=tuple((y_of(level / 100), level) for level in LEVELS),
        hitches=tuple(_hitches(days, rotation)),
        ticks=tuple(_ticks(days)),
    )


def told(days: Sequence[Day]) -> list[Day]:
    """The days that the table tells: each of a few, of many one a week, and always the last."""
    if len(days) <= FEW_DAYS:
        return list(days)
    found = list(days[6::7])
    return found if found[-1] is days[-1] else [*found, days[-1]]


def x_of(place: int, days: int) -> float:
    """Where the beginning of that day stands, today being 0; the exam is at `days`."""
    return round(LEFT + (RIGHT - LEFT) * place / days, 1)


def y_of(share: float) -> float:
    """Where a mark from 0 to 1 stands."""
    return round(BOTTOM - (BOTTOM - TOP) * share, 1)


def _points(marks: Iterator[tuple[float, float]] | Sequence[tuple[float, float]]) -> str:
    return " ".join(f"{x},{y_of(share)}" for x, share in marks)


def _hitches(days: Sequence[Day], rotation: Rotation) -> Iterator[tuple[float, float]]:
    """Runs of days on the rig, as far as the plot reaches."""
    if not rotation.days_off:
        return
    begun = None
    for place, each in enumerate(days):
        on = on_the_rig(rotation, each.day)
        if on and begun is None:
            begun = place
        if begun is not None and (not on or place == len(days) - 1):
            first, end = x_of(begun, len(days)), x_of(place + 1 if on else place, len(days))
            yield first, round(end - first, 1)
            begun = None


def _ticks(days: Sequence[Day]) -> Iterator[Tick]:
    first = days[0].day
    yield Tick(x_of(0, len(days)), first, "start")
    if len(days) >= ROOM_FOR_A_MIDDLE:
        middle = len(days) // 2
        yield Tick(x_of(middle, len(days)), first + timedelta(middle), "middle")
    yield Tick(x_of(len(days), len(days)), first + timedelta(len(days)), "middle")
