"""A forecast as a page shows it: its plot, and the rows of the table beside it."""

from dataclasses import dataclass

from webapp.my_readiness import Ready
from webapp.study.forecast import Day
from webapp.study.forecast_plot import Plot, plot, told
from webapp.study.rotation import on_the_rig


@dataclass(frozen=True)
class Row:
    """One row of the table: the day whose study it follows, and whether that is on the rig; None without a rotation."""

    day: Day
    on_rig: bool | None


@dataclass(frozen=True)
class Picture:
    """Plot and table of one forecast."""

    plot: Plot
    rows: list[Row]
    goes_by_hitches: bool


def pictured(ready: Ready) -> Picture:
    """The forecast drawn and told."""
    rotation = ready.situation.aim.rotation
    hitches = rotation.days_off > 0
    rows = [Row(each, on_the_rig(rotation, each.day) if hitches else None) for each in told(ready.days)]
    return Picture(plot(ready.now.mark, ready.days, rotation, ready.pass_mark), rows, hitches)
