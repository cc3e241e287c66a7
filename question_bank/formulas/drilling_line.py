"""Service of the drilling line: work of trips, drilling, coring and casing, and when to slip and cut.

Work is pull times travel. A ton-mile is 2,000 lbf over a mile, 10,560,000 ft·lbf; the metric one is a tonne over a
kilometre. Ton-miles say when to cut at the latest: a bad-looking rope is cut whatever the book says.
"""

from question_bank.equations import printed
from question_bank.formulas.formula import (
    Count,
    Length,
    LineWork,
    LineWorkPerLength,
    Load,
    Ratio,
    WeightPerLength,
    registered,
)  # fmt: skip
from question_bank.rounding import whole_part

SERVICE = "API RP 9B, as given by Lapeyrouse, 2nd ed., p. 44, and a field worksheet of its equations"


@registered(
    symbols="E F h",
    us=printed("{load} × {distance} / 10,560,000", "ton-mile", load="lbf", distance="ft"),
    metric=printed("{load} × {distance} / 9,806.65", "t·km", load="kN", distance="m"),
    holds={"load": (100, 2_000_000, "lbf"), "distance": (1, 50_000, "ft")},
    source="definition: a ton-mile is 2,000 lbf × 5,280 ft",
)
def work_of_pull(load: Load, distance: Length) -> LineWork:
    """Work of a steady pull over a distance.

    Takes a load and a length; gives a line-work. Holds for a steady pull. Leaves out jarring, and wear where the
    same short piece of line runs over the sheaves again and again. Source: definition.
    """
    return load * distance


@registered(
    symbols="C Wb Lb w BF",
    us=printed(
        "({bha_in_air} − {bha_length} × {pipe_in_air}) × {buoyancy}",
        "lb", bha_in_air="lb", bha_length="ft", pipe_in_air="lb/ft", buoyancy="",
    ),
    metric=printed(
        "({bha_in_air} − {bha_length} × {pipe_in_air}) × {buoyancy}",
        "kg", bha_in_air="kg", bha_length="m", pipe_in_air="kg/m", buoyancy="",
    ),
    holds={
        "bha_in_air": (20_000, 200_000, "lb"), "bha_length": (30, 1_500, "ft"),
        "pipe_in_air": (6, 30, "lb/ft"), "buoyancy": (0.65, 1, ""),
    },
    source=SERVICE,
)  # fmt: skip
def bha_excess(bha_in_air: Load, bha_length: Length, pipe_in_air: WeightPerLength, buoyancy: Ratio) -> Load:
    """How much more the bottom-hole assembly weighs in mud than the same length of drill pipe.

    Takes a load, a length, a weight-per-length and a ratio; gives a load. Holds for collars, heavy-weight pipe and
    tools together. Leaves out drag. Source: Lapeyrouse; API RP 9B.
    """
    return (bha_in_air - bha_length * pipe_in_air) * buoyancy


@registered(
    symbols="Tr D Ls w M C",
    us=printed(
        "({depth} × ({stand_length} + {depth}) × {pipe_in_mud} + 4 × {depth} × ({travelling_weight} + {excess} / 2))"
        " / 10,560,000",
        "ton-mile", depth="ft", stand_length="ft", pipe_in_mud="lb/ft", travelling_weight="lb", excess="lb",
    ),
    metric=printed(
        "({depth} × ({stand_length} + {depth}) × {pipe_in_mud} + 4 × {depth} × ({travelling_weight} + {excess} / 2))"
        " / 1,000,000",
        "t·km", depth="m", stand_length="m", pipe_in_mud="kg/m", travelling_weight="kg", excess="kg",
    ),
    holds={
        "depth": (300, 25_000, "ft"), "stand_length": (27, 135, "ft"), "pipe_in_mud": (4, 40, "lb/ft"),
        "travelling_weight": (5_000, 200_000, "lb"), "excess": (0, 150_000, "lb"),
    },
    source=SERVICE,
)  # fmt: skip
def round_trip_work(
    depth: Length, stand_length: Length, pipe_in_mud: WeightPerLength, travelling_weight: Load, excess: Load
) -> LineWork:
    """Work of one round trip: string out and in, and the empty block up and down for every stand.

    Takes two lengths, a weight-per-length (in mud) and two loads (block gear; what `bha_excess` gives); gives a
    line-work. Holds for a trip without trouble. Leaves out drag, jarring and back-reaming. Source: API RP 9B.
    """
    pipe = pipe_trip_work(depth, stand_length, pipe_in_mud)
    return pipe + 4 * depth * (travelling_weight + excess / 2)


@registered(
    symbols="Tp D Ls w",
    us=printed(
        "{depth} × ({stand_length} + {depth}) × {pipe_in_mud} / 10,560,000",
        "ton-mile", depth="ft", stand_length="ft", pipe_in_mud="lb/ft",
    ),
    metric=printed(
        "{depth} × ({stand_length} + {depth}) × {pipe_in_mud} / 1,000,000",
        "t·km", depth="m", stand_length="m", pipe_in_mud="kg/m",
    ),
    holds={
        "depth": (300, 25_000, "ft"), "stand_length": (27, 135, "ft"), "pipe_in_mud": (4, 40, "lb/ft"),
    },
    source=SERVICE,
)  # fmt: skip
def pipe_trip_work(depth: Length, stand_length: Length, pipe_in_mud: WeightPerLength) -> LineWork:
    """The drill pipe's part of a round trip: all of it in the first stand's move, one stand of it in the last.

    Takes two lengths and a weight-per-length (in mud); gives a line-work. Holds for pipe down to the bit. Leaves out
    the block and the heavy part. Source: API RP 9B.
    """
    return depth * (stand_length + depth) * pipe_in_mud


@registered(
    symbols="Td k T2 T1",
    us=printed(
        "{factor} × ({trip_at_end} − {trip_at_start})",
        "ton-mile", factor="", trip_at_end="ton-mile", trip_at_start="ton-mile",
    ),
    metric=printed(
        "{factor} × ({trip_at_end} − {trip_at_start})", "t·km", factor="", trip_at_end="t·km", trip_at_start="t·km",
    ),
    holds={
        "factor": (1, 4, ""), "trip_at_end": (50, 2_000, "ton-mile"), "trip_at_start": (10, 1_900, "ton-mile"),
    },
    source=SERVICE,
)  # fmt: skip
def drilling_work(factor: Ratio, trip_at_end: LineWork, trip_at_start: LineWork) -> LineWork:
    """Work of drilling an interval, from the round trips at its two ends.

    Takes a ratio (3 with one ream of each joint, 2 with none, 4 with two; a top drive that does not ream is often
    counted as 1) and two line-works; gives a line-work. Holds for the factor that the rig's programme names. Leaves
    out trips. Source: API RP 9B.
    """
    return factor * (trip_at_end - trip_at_start)


@registered(
    symbols="Tc T4 T3",
    us=printed("2 × ({trip_at_end} − {trip_at_start})", "ton-mile", trip_at_end="ton-mile", trip_at_start="ton-mile"),
    metric=printed("2 × ({trip_at_end} − {trip_at_start})", "t·km", trip_at_end="t·km", trip_at_start="t·km"),
    holds={"trip_at_end": (50, 2_000, "ton-mile"), "trip_at_start": (10, 1_900, "ton-mile")},
    source=SERVICE,
)
def coring_work(trip_at_end: LineWork, trip_at_start: LineWork) -> LineWork:
    """Work of cutting a core, from the round trips at its two ends. A core is not reamed.

    Takes two line-works; gives a line-work. Holds without reaming. Leaves out the trip with the core.
    Source: API RP 9B.
    """
    return 2 * (trip_at_end - trip_at_start)


@registered(
    symbols="Ts T6 T5",
    us=printed("{trip_from_deep} − {trip_from_top}", "ton-mile", trip_from_deep="ton-mile", trip_from_top="ton-mile"),
    metric=printed("{trip_from_deep} − {trip_from_top}", "t·km", trip_from_deep="t·km", trip_from_top="t·km"),
    holds={"trip_from_deep": (50, 2_000, "ton-mile"), "trip_from_top": (10, 1_900, "ton-mile")},
    source=SERVICE,
)
def short_trip_work(trip_from_deep: LineWork, trip_from_top: LineWork) -> LineWork:
    """Work of a short trip: the round trip from its deep point less the one from where it turns.

    Takes two line-works; gives a line-work. Holds for one trip up and back. Leaves out jarring. Source: API RP 9B.
    """
    return trip_from_deep - trip_from_top


@registered(
    symbols="Tc D L w M",
    us=printed(
        "({depth} × ({joint_length} + {depth}) × {casing_in_mud} + 4 × {depth} × {travelling_weight}) / 21,120,000",
        "ton-mile", depth="ft", joint_length="ft", casing_in_mud="lb/ft", travelling_weight="lb",
    ),
    metric=printed(
        "({depth} × ({joint_length} + {depth}) × {casing_in_mud} + 4 × {depth} × {travelling_weight}) / 2,000,000",
        "t·km", depth="m", joint_length="m", casing_in_mud="kg/m", travelling_weight="kg",
    ),
    holds={
        "depth": (200, 18_000, "ft"), "joint_length": (16, 135, "ft"),
        "casing_in_mud": (5, 150, "lb/ft"), "travelling_weight": (5_000, 200_000, "lb"),
    },
    source="API RP 9B half-trip rule, as a field worksheet of its equations gives it",
)  # fmt: skip
def casing_work(
    depth: Length, joint_length: Length, casing_in_mud: WeightPerLength, travelling_weight: Load
) -> LineWork:
    """Work of setting casing: half a round trip, since it stays in the hole.

    Takes two lengths, a weight-per-length (in mud) and a load (block gear); gives a line-work. Holds with the block
    counted four times, as an empty block must come back up for each joint. Leaves out landing joints and working the
    pipe. Source: API RP 9B.
    """
    return (depth * (joint_length + depth) * casing_in_mud + 4 * depth * travelling_weight) / 2


@registered(
    symbols="ΔT D ΔM",
    us=printed("{depth} × {extra_weight} / 2,640,000", "ton-mile", depth="ft", extra_weight="lb"),
    metric=printed("4 × {depth} × {extra_weight} / 1,000,000", "t·km", depth="m", extra_weight="kg"),
    holds={"depth": (300, 25_000, "ft"), "extra_weight": (500, 100_000, "lb")},
    source=SERVICE,
)
def extra_work_a_trip(depth: Length, extra_weight: Load) -> LineWork:
    """Work that heavier travelling equipment adds to each round trip.

    Takes a length and a load; gives a line-work. Holds for a trip without trouble. Leaves out lines and sheaves, which
    may change with the equipment. Source: API RP 9B.
    """
    return 4 * depth * extra_weight


@registered(
    symbols="S g L f",
    us=printed(
        "{goal} × {cut_length} × {share_taken}",
        "ton-mile", goal="ton-mile/ft", cut_length="ft", share_taken="",
    ),
    metric=printed(
        "{goal} × {cut_length} × {share_taken}", "t·km", goal="t·km/m", cut_length="m", share_taken="",
    ),
    holds={"goal": (2, 40, "ton-mile/ft"), "cut_length": (20, 200, "ft"), "share_taken": (0.2, 1.5, "")},
    source="API RP 9B cut-off programme, not seen in the original: the goal is the rig's own",
)  # fmt: skip
def cut_interval(goal: LineWorkPerLength, cut_length: Length, share_taken: Ratio) -> LineWork:
    """Work between one cut and the next: so much for each length that is cut off.

    Takes a line-work-per-length, a length and a ratio; gives a line-work. Holds for the goal of the rig's programme.
    Leaves out what the rope looks like. Source: API RP 9B.
    """
    return goal * cut_length * share_taken


@registered(
    symbols="Ts Tc n",
    us=printed("{work_a_cut} / {slips_a_cut}", "ton-mile", work_a_cut="ton-mile", slips_a_cut=""),
    metric=printed("{work_a_cut} / {slips_a_cut}", "t·km", work_a_cut="t·km", slips_a_cut=""),
    holds={"work_a_cut": (200, 6_000, "ton-mile"), "slips_a_cut": (1, 6, "")},
    source="arithmetic (derived here)",
)
def slip_interval(work_a_cut: LineWork, slips_a_cut: Count) -> LineWork:
    """Work between one slip and the next, where the line is slipped several times for each cut.

    Takes a line-work and a count; gives a line-work. Holds for slips of one length. Leaves out crossover points that
    need an odd slip. Source: derived here.
    """
    return work_a_cut / slips_a_cut


@registered(
    symbols="n T Tr",
    us=printed("whole({work_left} / {work_a_trip})", "", work_left="ton-mile", work_a_trip="ton-mile"),
    metric=printed("whole({work_left} / {work_a_trip})", "", work_left="t·km", work_a_trip="t·km"),
    holds={"work_left": (20, 6_000, "ton-mile"), "work_a_trip": (10, 900, "ton-mile")},
    source="arithmetic (derived here)",
)
def trips_left(work_left: LineWork, work_a_trip: LineWork) -> Count:
    """Whole round trips that the line may still make before the cut is due.

    Takes two line-works; gives a count. Holds for trips from one depth. Leaves out drilling between them.
    Source: derived here.
    """
    return whole_part(work_left / work_a_trip)
