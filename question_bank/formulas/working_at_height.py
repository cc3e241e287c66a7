"""Working at height: the clear space below a worker in fall arrest, and the line for getting down fast."""

import math

from question_bank.equations import printed
from question_bank.formulas.formula import Length, registered

PARTS = ("free_fall", "slowing", "harness_shift", "below_ring", "margin")


@registered(
    symbols="c f s h b m",
    us=printed(
        "{free_fall} + {slowing} + {harness_shift} + {below_ring} + {margin}", "ft", **dict.fromkeys(PARTS, "ft")
    ),
    metric=printed(
        "{free_fall} + {slowing} + {harness_shift} + {below_ring} + {margin}", "m", **dict.fromkeys(PARTS, "m")
    ),
    holds={
        "free_fall": (0.5, 6, "ft"), "slowing": (0.5, 5, "ft"), "harness_shift": (0.5, 2, "ft"),
        "below_ring": (4, 7, "ft"), "margin": (1, 4, "ft"),
    },
    source="addition (derived here); the parts are on the maker's label of the fall-arrest gear",
)  # fmt: skip
def fall_clearance(
    free_fall: Length, slowing: Length, harness_shift: Length, below_ring: Length, margin: Length
) -> Length:
    """Clear height that must be below the D-ring before a fall, so that the fall ends above the floor.

    Takes five lengths: free fall, stretch of the arrester, shift of harness and ring, worker below the ring, margin;
    gives a length. Holds for a straight fall. Leaves out a swing, which needs more. Source: the maker's label.
    """
    return free_fall + slowing + harness_shift + below_ring + margin


@registered(
    symbols="L h d",
    us=printed("√({height}^2 + {distance}^2)", "ft", height="ft", distance="ft"),
    metric=printed("√({height}^2 + {distance}^2)", "m", height="m", distance="m"),
    holds={"height": (10, 200, "ft"), "distance": (10, 400, "ft")},
    source="Pythagoras (geometry, derived here)",
)
def slanting_length(height: Length, distance: Length) -> Length:
    """Straight length from a point up on the mast to one out on level ground.

    Takes two lengths: height over the ground, distance along it; gives a length. Holds for a line without sag. Leaves
    out sag and what the ends take, which need more. Source: derived here.
    """
    return math.hypot(height, distance)
