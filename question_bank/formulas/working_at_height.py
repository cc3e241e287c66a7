"""Working at height: the clear space that a fall-arrest system needs below the worker."""

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
