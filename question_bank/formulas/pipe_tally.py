"""Stands in the derrick: average joint, what a setback weighs, how many stands racking board and setback take."""

from question_bank.equations import printed
from question_bank.formulas.formula import Count, Length, Load, WeightPerLength, registered
from question_bank.rounding import whole_part

ARITHMETIC = "arithmetic (derived here)"
SETBACK = "arithmetic (derived here); setback is a rated load in API Spec 4F"


@registered(
    symbols="La T j",
    us=printed("{tally} / {joints}", "ft", tally="ft", joints=""),
    metric=printed("{tally} / {joints}", "m", tally="m", joints=""),
    holds={"tally": (20, 25_000, "ft"), "joints": (1, 900, "")},
    source=ARITHMETIC,
)
def average_joint(tally: Length, joints: Count) -> Length:
    """Average joint of a tally: a check for a skipped joint or a misread tape.

    Takes a length and a count; gives a length. Holds for joints measured shoulder to shoulder. Leaves out the thread.
    Source: derived here.
    """
    return tally / joints


@registered(
    symbols="L s Ls",
    us=printed("{stands} × {stand_length}", "ft", stands="", stand_length="ft"),
    metric=printed("{stands} × {stand_length}", "m", stands="", stand_length="m"),
    holds={"stands": (1, 400, ""), "stand_length": (27, 135, "ft")},
    source=ARITHMETIC,
)
def length_of_stands(stands: Count, stand_length: Length) -> Length:
    """Length of a number of stands at their average length.

    Takes a count and a length; gives a length. Holds for an estimate. Leaves out the differences that a tally shows.
    Source: derived here.
    """
    return stands * stand_length


@registered(
    symbols="W s L w",
    us=printed(
        "{stands} × {stand_length} × {weight_per_length}",
        "lbf", stands="", stand_length="ft", weight_per_length="lb/ft",
    ),
    metric=printed(
        "{stands} × {stand_length} × {weight_per_length} × 9.80665 / 1,000",
        "kN", stands="", stand_length="m", weight_per_length="kg/m",
    ),
    holds={"stands": (1, 400, ""), "stand_length": (27, 135, "ft"), "weight_per_length": (10, 300, "lb/ft")},
    source=SETBACK,
)  # fmt: skip
def setback_of(stands: Count, stand_length: Length, weight_per_length: WeightPerLength) -> Load:
    """What racked stands put on the setback floor.

    Takes a count, a length and a weight-per-length (in air, with tool joints); gives a load. Holds for one size of
    pipe: add pipe and collars. Leaves out wind on the racked pipe. Source: derived here; API Spec 4F.
    """
    return stands * stand_length * weight_per_length


@registered(
    symbols="s a f p",
    us=printed("{sides} × {fingers} × {places}", "", sides="", fingers="", places=""),
    metric=printed("{sides} × {fingers} × {places}", "", sides="", fingers="", places=""),
    holds={"sides": (1, 2, ""), "fingers": (4, 20, ""), "places": (4, 20, "")},
    source=ARITHMETIC,
)
def stands_by_space(sides: Count, fingers: Count, places: Count) -> Count:
    """Stands for which the racking board has room: `fingers` a side, `places` in each.

    Takes three counts; gives a count. Holds for one size of pipe. Leaves out collar slots and what the setback may
    carry, which may be less. Source: derived here.
    """
    return sides * fingers * places


@registered(
    symbols="s R L w",
    us=printed(
        "whole({setback_rating} / ({stand_length} × {weight_per_length}))",
        "", setback_rating="lbf", stand_length="ft", weight_per_length="lb/ft",
    ),
    metric=printed(
        "whole({setback_rating} × 1,000 / ({stand_length} × {weight_per_length} × 9.80665))",
        "", setback_rating="kN", stand_length="m", weight_per_length="kg/m",
    ),
    holds={
        "setback_rating": (100_000, 1_200_000, "lbf"), "stand_length": (27, 135, "ft"),
        "weight_per_length": (10, 300, "lb/ft"),
    },
    source=SETBACK,
)  # fmt: skip
def stands_by_weight(setback_rating: Load, stand_length: Length, weight_per_length: WeightPerLength) -> Count:
    """Whole stands that the setback rating allows.

    Takes a load, a length and a weight-per-length (in air, with tool joints); gives a count. Holds for one size of
    pipe. Leaves out wind, which may allow fewer. Source: derived here; API Spec 4F.
    """
    return whole_part(setback_rating / (stand_length * weight_per_length))


@registered(
    symbols="j R w",
    us=printed("whole({load_left} / {joint_weight})", "", load_left="lb", joint_weight="lb"),
    metric=printed("whole({load_left} / {joint_weight})", "", load_left="kg", joint_weight="kg"),
    holds={"load_left": (5_000, 200_000, "lb"), "joint_weight": (300, 9_000, "lb")},
    source=ARITHMETIC,
)
def joints_by_weight(load_left: Load, joint_weight: Load) -> Count:
    """Whole joints that a rack or a catwalk may still carry.

    Takes two loads; gives a count. Holds for joints of one weight that lie still. Leaves out room, blows, and how the
    plate wants the load spread. Source: derived here.
    """
    return whole_part(load_left / joint_weight)
