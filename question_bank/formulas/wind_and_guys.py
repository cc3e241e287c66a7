"""Wind on mast and racked pipe, and the guy lines that hold against it.

The plate gives the wind for a bare and for a full racking board; these sums never stand in for it.
"""

import math

from question_bank.equations import printed
from question_bank.formulas.formula import Area, Density, Load, Ratio, Speed, Turns, registered
from question_bank.formulas.gravity import STANDARD_GRAVITY
from question_bank.formulas.steel import FOOT, POUND

STATICS = "statics (derived here)"
KNOT = 1_852 / 3_600
"""m/s, exact."""

WIND = 0.00338 * POUND * STANDARD_GRAVITY / FOOT**2 / KNOT**2
"""0.00338 lbf for each ft2 and each knot squared, in base units."""


@registered(
    symbols="F V C A",
    us=printed(
        "0.00338 × {wind_speed}^2 × {shape_factor} × {area}", "lbf", wind_speed="kn", shape_factor="", area="ft²",
    ),
    metric=printed(
        "0.6115 × {wind_speed}^2 × {shape_factor} × {area}", "N", wind_speed="m/s", shape_factor="", area="m²",
    ),
    holds={"wind_speed": (5, 130, "kn"), "shape_factor": (0.5, 2, ""), "area": (10, 3_000, "ft²")},
    source="API Spec 4F form, not seen in the original; 0.00338 is half the air's density, in knots and feet",
)  # fmt: skip
def wind_force(wind_speed: Speed, shape_factor: Ratio, area: Area) -> Load:
    """Force of a wind on an area.

    Takes a speed, a ratio and an area; gives a load. Holds for air at sea level and one wind, steady or a gust.
    Leaves out height and how a gust shakes a mast; stop work by procedure, not by this sum. Source: API Spec 4F.
    """
    return WIND * wind_speed**2 * shape_factor * area


@registered(
    symbols="F V C A ρ",
    us=printed(
        "0.04427 × {air_density} × {wind_speed}^2 × {shape_factor} × {area}",
        "lbf", wind_speed="kn", shape_factor="", area="ft²", air_density="lb/ft³",
    ),
    metric=printed(
        "0.5 × {air_density} × {wind_speed}^2 × {shape_factor} × {area}",
        "N", wind_speed="m/s", shape_factor="", area="m²", air_density="kg/m³",
    ),
    holds={
        "wind_speed": (5, 130, "kn"), "shape_factor": (0.5, 2, ""), "area": (10, 3_000, "ft²"),
        "air_density": (0.9, 1.5, "kg/m³"),
    },
    source="half the density times the square of the speed (mechanics, derived here)",
)  # fmt: skip
def wind_force_in_air(wind_speed: Speed, shape_factor: Ratio, area: Area, air_density: Density) -> Load:
    """Force of a wind on an area, for air of a known density: cold air pushes harder.

    Takes a speed, a ratio, an area and a density; gives a load. Holds for steady wind. Leaves out height and gusts.
    Source: derived here.
    """
    return air_density / 2 * wind_speed**2 * shape_factor * area


@registered(
    symbols="T H a",
    us=printed("{side_load} / cosine({angle})", "lbf", side_load="lbf", angle="°"),
    metric=printed("{side_load} / cosine({angle})", "kN", side_load="kN", angle="°"),
    holds={"side_load": (500, 40_000, "lbf"), "angle": (20, 70, "°")},
    source=STATICS,
)
def guy_tension(side_load: Load, angle: Turns) -> Load:
    """Pull in a guy line that holds a side load: the steeper the line, the more.

    Takes a load and an angle from the ground in turns; gives a load. Holds for one guy taking the side load. Leaves out
    pre-tension: pattern and pull come from the maker's guying plate. Source: derived here.
    """
    return side_load / math.cos(2 * math.pi * angle)


@registered(
    symbols="V H a",
    us=printed("{side_load} × tangent({angle})", "lbf", side_load="lbf", angle="°"),
    metric=printed("{side_load} × tangent({angle})", "kN", side_load="kN", angle="°"),
    holds={"side_load": (500, 40_000, "lbf"), "angle": (20, 70, "°")},
    source=STATICS,
)
def guy_pull_down(side_load: Load, angle: Turns) -> Load:
    """How hard a guy line pulls the mast down, and its anchor up.

    Takes a load and an angle from the ground in turns; gives a load. Holds for one guy taking the side load. Leaves out
    pre-tension. Source: derived here.
    """
    return side_load * math.tan(2 * math.pi * angle)
