"""Filling the hole on a trip: what steel displaces, what pipe and hole hold, how far level and pressure drop."""

import math

from question_bank.equations import printed
from question_bank.formulas.formula import (
    Capacity,
    Count,
    Density,
    Length,
    Pressure,
    Volume,
    WeightPerLength,
    registered,
)
from question_bank.formulas.gravity import STANDARD_GRAVITY
from question_bank.formulas.steel import STEEL_DENSITY
from question_bank.rounding import whole_part

BOOK = "Lapeyrouse, hole fill on trips"


@registered(
    symbols="v w",
    us=printed("{weight_per_length} / 2,751", "bbl/ft", weight_per_length="lb/ft"),
    metric=printed("{weight_per_length} / 7.85", "L/m", weight_per_length="kg/m"),
    holds={"weight_per_length": (3, 300, "lb/ft")},
    source="2,751 is 65.5 lb/gal × 42 gal (derived here); steel of 65.5 lb/gal (7,850 kg/m3)",
)
def steel_displacement(weight_per_length: WeightPerLength) -> Capacity:
    """Volume of steel in a length of pipe: the mud that it pushes out going in and leaves room for coming out.

    Takes a weight-per-length (in air, with tool joints); gives a capacity. Holds for steel of 65.5 lb/gal (7,850
    kg/m3), open-ended. Leaves out the mud inside. Source: derived here.
    """
    return weight_per_length / (STEEL_DENSITY * STANDARD_GRAVITY)


@registered(
    symbols="c d",
    us=printed("{bore}^2 / 1,029.4", "bbl/ft", bore="in"),
    metric=printed("{bore}^2 / 1,273.24", "L/m", bore="mm"),
    holds={"bore": (0.5, 30, "in")},
    source="1,029.4 is 231 × 42 × 4 / (12π) (derived here); Lapeyrouse",
)
def bore_capacity(bore: Length) -> Capacity:
    """Volume that a bore, a hole or a casing holds in each length of it.

    Takes a length (inside diameter); gives a capacity. Holds for a round bore. Leaves out tool joints and wash-out.
    Source: derived here; Lapeyrouse.
    """
    return math.pi / 4 * bore**2


@registered(
    symbols="c D d",
    us=printed("({hole}^2 − {pipe}^2) / 1,029.4", "bbl/ft", hole="in", pipe="in"),
    metric=printed("({hole}^2 − {pipe}^2) / 1,273.24", "L/m", hole="mm", pipe="mm"),
    holds={"hole": (5, 30, "in"), "pipe": (2, 14, "in")},
    source="1,029.4 is 231 × 42 × 4 / (12π) (derived here); Lapeyrouse",
)
def annulus_capacity(hole: Length, pipe: Length) -> Capacity:
    """Volume that the annulus holds in each length of it.

    Takes two lengths (diameter of the hole, outside of the pipe); gives a capacity. Holds for round hole and pipe, the
    pipe the smaller. Leaves out tool joints and wash-out. Source: derived here; Lapeyrouse.
    """
    return math.pi / 4 * (hole**2 - pipe**2)


@registered(
    symbols="V s L v",
    us=printed(
        "{stands} × {stand_length} × {displacement}", "bbl", stands="", stand_length="ft", displacement="bbl/ft"
    ),
    metric=printed("{stands} × {stand_length} × {displacement}", "L", stands="", stand_length="m", displacement="L/m"),
    holds={"stands": (1, 30, ""), "stand_length": (27, 135, "ft"), "displacement": (0.002, 0.2, "bbl/ft")},
    source=BOOK,
)
def fill_for_stands(stands: Count, stand_length: Length, displacement: Capacity) -> Volume:
    """Mud that the hole must take when stands are pulled.

    Takes a count, a length and a capacity: steel only when pulled dry, steel and bore together when pulled wet; gives
    a volume. Holds for one size of pipe. Leaves out losses. Less than this may be a flow: stop. Source: Lapeyrouse.
    """
    return stands * stand_length * displacement


@registered(
    symbols="h V C v",
    us=printed(
        "{volume} / ({hole_capacity} − {displacement})",
        "ft", volume="bbl", hole_capacity="bbl/ft", displacement="bbl/ft",
    ),
    metric=printed(
        "{volume} / ({hole_capacity} − {displacement})", "m", volume="L", hole_capacity="L/m", displacement="L/m",
    ),
    holds={
        "volume": (0.2, 60, "bbl"), "hole_capacity": (0.04, 0.4, "bbl/ft"), "displacement": (0.002, 0.035, "bbl/ft"),
    },
    source=BOOK,
)  # fmt: skip
def level_drop(volume: Volume, hole_capacity: Capacity, displacement: Capacity) -> Length:
    """How far the mud level falls when a volume is pulled out and not made up.

    Takes a volume and two capacities, the second as in `fill_for_stands`; gives a length. Holds with pipe of that size
    where the level falls. Leaves out mud that runs out of the pipe. Source: Lapeyrouse.
    """
    return volume / (hole_capacity - displacement)


@registered(
    symbols="p ρ h",
    us=printed("0.052 × {mud_density} × {height}", "psi", mud_density="lb/gal", height="ft"),
    metric=printed("0.009807 × {mud_density} × {height}", "kPa", mud_density="kg/m³", height="m"),
    holds={"mud_density": (6, 21, "lb/gal"), "height": (1, 25_000, "ft")},
    source="hydrostatics; 0.052 is 12 / 231 rounded (0.1 % high), as in Lapeyrouse",
)
def mud_pressure(mud_density: Density, height: Length) -> Pressure:
    """Pressure of a height of mud, and what the hole loses when the level falls by it.

    Takes a density and a length (straight down); gives a pressure. Holds for mud at rest. Leaves out pump pressure,
    swab and surge; for training, not for a kill sheet. Source: Lapeyrouse.
    """
    return mud_density * STANDARD_GRAVITY * height


@registered(
    symbols="s pl p",
    us=printed("whole({limit} / {drop_a_stand})", "", limit="psi", drop_a_stand="psi"),
    metric=printed("whole({limit} / {drop_a_stand})", "", limit="kPa", drop_a_stand="kPa"),
    holds={"limit": (20, 300, "psi"), "drop_a_stand": (1, 100, "psi")},
    source="arithmetic (derived here); a limit of 75 psi or five stands, whichever is less, is in 30 CFR 250.456",
)
def stands_to_limit(limit: Pressure, drop_a_stand: Pressure) -> Count:
    """Whole stands that may be pulled before the hole has lost the limit.

    Takes two pressures; gives a count. Holds for one size of pipe; where the rule also names a number of stands, the
    smaller governs. Leaves out swab. Source: derived here; 30 CFR 250.456.
    """
    return whole_part(limit / drop_a_stand)


@registered(
    symbols="s V L v",
    us=printed(
        "whole({usable_volume} / ({stand_length} × {displacement}))",
        "", usable_volume="bbl", stand_length="ft", displacement="bbl/ft",
    ),
    metric=printed(
        "whole({usable_volume} / ({stand_length} × {displacement}))",
        "", usable_volume="L", stand_length="m", displacement="L/m",
    ),
    holds={
        "usable_volume": (5, 120, "bbl"), "stand_length": (27, 135, "ft"), "displacement": (0.002, 0.2, "bbl/ft"),
    },
    source="arithmetic (derived here)",
)  # fmt: skip
def stands_a_tank(usable_volume: Volume, stand_length: Length, displacement: Capacity) -> Count:
    """Whole stands that one trip tank fills.

    Takes a volume, a length and a capacity as in `fill_for_stands`; gives a count. Holds for one size of pipe. Leaves
    out what must stay in the tank. Source: derived here.
    """
    return whole_part(usable_volume / (stand_length * displacement))
