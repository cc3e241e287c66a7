"""What hangs where: weights, what a rating leaves over, and ratings said as a hook load to be compared."""

from question_bank.equations import printed
from question_bank.formulas.formula import Count, Load, Mass, Ratio, registered
from question_bank.formulas.gravity import STANDARD_GRAVITY

GRAVITY = "Newton's second law with standard gravity 9.80665 m/s2 (NIST SP 811, B.8)"
STATICS = "statics (derived here)"


@registered(
    symbols="W m",
    us=printed("{mass}", "lbf", mass="lb"),
    metric=printed("{mass} × 9.80665 / 1,000", "kN", mass="kg"),
    holds={"mass": (0.1, 1_000_000, "kg")},
    source=GRAVITY,
)
def weight_of(mass: Mass) -> Load:
    """Weight of a mass: what it puts on the hook. One pound of mass weighs one pound-force.

    Takes a mass; gives a load. Holds at standard gravity, on any rig within 0.3 %. Leaves out buoyancy.
    Source: NIST SP 811.
    """
    return mass * STANDARD_GRAVITY


@registered(
    symbols="m R",
    us=printed("{rating}", "lb", rating="lbf"),
    metric=printed("{rating} / 9.80665", "t", rating="kN"),
    holds={"rating": (1, 2_500_000, "lbf")},
    source=GRAVITY,
)
def hanging_mass(rating: Load) -> Mass:
    """Mass that puts a load of `rating` on a hook: what may hang from a plate that is stamped in kN.

    Takes a load; gives a mass. Holds while it hangs still. Leaves out jerks, wear and wind. Source: NIST SP 811.
    """
    return rating / STANDARD_GRAVITY


@registered(
    symbols="S W B",
    us=printed("{hook_load} − {travelling_weight}", "klbf", hook_load="klbf", travelling_weight="klbf"),
    metric=printed("{hook_load} − {travelling_weight}", "kN", hook_load="kN", travelling_weight="kN"),
    holds={"hook_load": (50, 1_500, "klbf"), "travelling_weight": (5, 100, "klbf")},
    source="statics; hook load counts block, hook or top drive, links and elevator (common practice, no source)",
)
def string_under_block(hook_load: Load, travelling_weight: Load) -> Load:
    """What hangs in the elevator when the lines carry `hook_load`: the travelling equipment taken off.

    Takes two loads; gives a load. Holds where the hook load counts block, hook or top drive, links and elevator.
    Leaves out friction in the hole. Source: common practice, no source.
    """
    return hook_load - travelling_weight


@registered(
    symbols="M R W",
    us=printed("{rating} − {load}", "lbf", rating="lbf", load="lbf"),
    metric=printed("{rating} − {load}", "kN", rating="kN", load="kN"),
    holds={"rating": (50_000, 2_500_000, "lbf"), "load": (10_000, 2_500_000, "lbf")},
    source=STATICS,
)
def rating_left(rating: Load, load: Load) -> Load:
    """Margin: what a rating leaves over when `load` is on it. Below zero is an overload.

    Takes two loads; gives a load. Holds where both stand for the same thing (both static, both at the same place).
    Leaves out jerks, wind and wear, which come off the rating. Source: derived here.
    """
    return rating - load


@registered(
    symbols="R R1 R2 R3",
    us=printed("least({first}, {second}, {third})", "klbf", first="klbf", second="klbf", third="klbf"),
    metric=printed("least({first}, {second}, {third})", "kN", first="kN", second="kN", third="kN"),
    holds={"first": (50, 2_500, "klbf"), "second": (50, 2_500, "klbf"), "third": (50, 2_500, "klbf")},
    source=STATICS,
)
def governing_rating(first: Load, second: Load, third: Load) -> Load:
    """The least of three ratings: what hangs on all three parts may weigh no more than the weakest carries.

    Takes three loads, each what that part leaves for the thing that is asked; gives a load. Holds while it hangs still.
    Leaves out jerks, wind and wear, which come off each rating. Source: derived here.
    """
    return min(first, second, third)


@registered(
    symbols="u W R",
    us=printed("100 × {load} / {rating}", "%", load="lbf", rating="lbf"),
    metric=printed("100 × {load} / {rating}", "%", load="kN", rating="kN"),
    holds={"load": (10_000, 2_500_000, "lbf"), "rating": (50_000, 2_500_000, "lbf")},
    source=STATICS,
)
def share_of_rating(load: Load, rating: Load) -> Ratio:
    """How much of a rating is used. Over 100 % is an overload.

    Takes two loads; gives a ratio. Holds where both stand for the same thing. Leaves out jerks, wind and wear.
    Source: derived here.
    """
    return load / rating


@registered(
    symbols="W R n",
    us=printed("{crown_rating} × {lines} / ({lines} + 2)", "lbf", crown_rating="lbf", lines=""),
    metric=printed("{crown_rating} × {lines} / ({lines} + 2)", "kN", crown_rating="kN", lines=""),
    holds={"crown_rating": (100_000, 2_500_000, "lbf"), "lines": (4, 14, "")},
    source=STATICS,
)
def crown_rating_as_hook_load(crown_rating: Load, lines: Count) -> Load:
    """Hook load at which the crown block is at its rating: fast line and dead line pull on the crown too.

    Takes a load and a count; gives a load. Holds while everything hangs still. Leaves out friction, which puts about
    2 % more on the crown when the block goes up. Source: derived here.
    """
    return crown_rating * lines / (lines + 2)


@registered(
    symbols="W2 W1 n1 n2",
    us=printed(
        "{hook_load} × (({lines} + 2) / {lines}) / (({other_lines} + 2) / {other_lines})",
        "lbf", hook_load="lbf", lines="", other_lines="",
    ),
    metric=printed(
        "{hook_load} × (({lines} + 2) / {lines}) / (({other_lines} + 2) / {other_lines})",
        "kN", hook_load="kN", lines="", other_lines="",
    ),
    holds={"hook_load": (50_000, 1_500_000, "lbf"), "lines": (4, 14, ""), "other_lines": (4, 14, "")},
    source=STATICS,
)  # fmt: skip
def hook_load_at_same_crown_load(hook_load: Load, lines: Count, other_lines: Count) -> Load:
    """Hook load on `other_lines` that loads the crown as much as `hook_load` does on `lines`.

    Takes a load and two counts; gives a load. Holds while everything hangs still, for the crown only. Leaves out the
    mast: its rating on another string-up is on the maker's plate and is never worked out. Source: derived here.
    """
    return hook_load * ((lines + 2) / lines) / ((other_lines + 2) / other_lines)
