"""Wire rope: design factor and what it allows on the hook, size and strength, sheaves and grooves, wear.

Strength is that of new rope. The certificate of the reel decides, never a rule of scaling.
"""

from question_bank.equations import printed
from question_bank.formulas.formula import Count, Length, Load, Ratio, WeightPerLength, registered
from question_bank.formulas.gravity import STANDARD_GRAVITY
from question_bank.formulas.steel import FOOT, INCH, POUND
from question_bank.rounding import rounded_up

DESIGN = "API RP 9B, Addendum 1 (2020), 2.3.3.4"
ROPE_WEIGHT = 1.85 * POUND * STANDARD_GRAVITY / FOOT / INCH**2


@registered(
    symbols="DF S F",
    us=printed("{nominal_strength} / {line_pull}", "", nominal_strength="lbf", line_pull="lbf"),
    metric=printed("{nominal_strength} / {line_pull}", "", nominal_strength="kN", line_pull="kN"),
    holds={"nominal_strength": (20_000, 500_000, "lbf"), "line_pull": (2_000, 200_000, "lbf")},
    source=DESIGN,
)
def design_factor(nominal_strength: Load, line_pull: Load) -> Ratio:
    """How many times the pull in the fast line the rope's nominal strength is.

    Takes two loads; gives a ratio. Holds for new rope and steady hoisting. Leaves out wear, broken wires, bending and
    jerks, which eat it; the local code may ask more. Source: API RP 9B.
    """
    return nominal_strength / line_pull


@registered(
    symbols="W S n E DF",
    us=printed(
        "{nominal_strength} × {lines} × {efficiency} / {least_factor}",
        "lbf", nominal_strength="lbf", lines="", efficiency="", least_factor="",
    ),
    metric=printed(
        "{nominal_strength} × {lines} × {efficiency} / {least_factor}",
        "kN", nominal_strength="kN", lines="", efficiency="", least_factor="",
    ),
    holds={
        "nominal_strength": (20_000, 500_000, "lbf"), "lines": (2, 16, ""),
        "efficiency": (0.5, 1, ""), "least_factor": (2, 7, ""),
    },
    source=DESIGN,
)  # fmt: skip
def hook_load_for_factor(nominal_strength: Load, lines: Count, efficiency: Ratio, least_factor: Ratio) -> Load:
    """Largest hook load that keeps the drilling line at a design factor.

    Takes a load, a count and two ratios; gives a load. Holds for new rope and steady hoisting. Leaves out mast, hook
    and string, any of which may be weaker. Source: API RP 9B.
    """
    return nominal_strength * lines * efficiency / least_factor


@registered(
    symbols="Sg S",
    us=printed("0.9 × {bright_strength}", "lbf", bright_strength="lbf"),
    metric=printed("0.9 × {bright_strength}", "kN", bright_strength="kN"),
    holds={"bright_strength": (20_000, 500_000, "lbf")},
    source="Lyons, Standard Handbook, Table 4-25",
)
def galvanised_strength(bright_strength: Load) -> Load:
    """Nominal strength of galvanised rope: a tenth under the same rope in bright wire.

    Takes a load; gives a load. Holds for wire galvanised to finished size. Leaves out wire drawn after galvanising,
    which keeps its strength. Source: Lyons, Standard Handbook.
    """
    return 0.9 * bright_strength


@registered(
    symbols="w d",
    us=printed("1.85 × {diameter}^2", "lb/ft", diameter="in"),
    metric=printed("0.004267 × {diameter}^2", "kg/m", diameter="mm"),
    holds={"diameter": (0.75, 2.25, "in")},
    source="rope tables: 1.85 lb/ft for 1 in rope with a steel core, and weight grows as the square",
)
def rope_weight(diameter: Length) -> WeightPerLength:
    """About what a length of drilling line weighs.

    Takes a length; gives a weight-per-length. Holds for 6×19 rope with a steel core, within 1 %. Leaves out grease.
    Source: rope tables.
    """
    return ROPE_WEIGHT * diameter**2


@registered(
    symbols="S S1 d1 d",
    us=printed(
        "{known_strength} × ({diameter} / {known_diameter})^2",
        "lbf", known_strength="lbf", known_diameter="in", diameter="in",
    ),
    metric=printed(
        "{known_strength} × ({diameter} / {known_diameter})^2",
        "kN", known_strength="kN", known_diameter="mm", diameter="mm",
    ),
    holds={
        "known_strength": (20_000, 500_000, "lbf"), "known_diameter": (0.75, 2.25, "in"),
        "diameter": (0.75, 2.25, "in"),
    },
    source="geometry (derived here); within 5 % of rope tables from 1 to 2 in",
)  # fmt: skip
def strength_by_size(known_strength: Load, known_diameter: Length, diameter: Length) -> Load:
    """Estimate of a rope's strength from another size of the same rope: it grows as the square of the diameter.

    Takes a load and two lengths; gives a load. Holds for one construction and grade. Leaves out what the table says:
    use this to check a table, never in its place. Source: derived here.
    """
    return known_strength * (diameter / known_diameter) ** 2


@registered(
    symbols="x d dm",
    us=printed("100 × ({nominal} − {measured}) / {nominal}", "%", nominal="in", measured="in"),
    metric=printed("100 × ({nominal} − {measured}) / {nominal}", "%", nominal="mm", measured="mm"),
    holds={"nominal": (0.75, 2.25, "in"), "measured": (0.6, 2.25, "in")},
    source="arithmetic (derived here)",
)
def diameter_loss(nominal: Length, measured: Length) -> Ratio:
    """How much thinner a rope has become, as a share of its nominal diameter.

    Takes two lengths, measured across the crowns; gives a ratio. Holds for wear all round. Leaves out broken wires,
    rust and a crushed core, which may stop a rope first. Source: derived here.
    """
    return (nominal - measured) / nominal


@registered(
    symbols="b w x",
    us=printed("roundup({wires} × {share})", "", wires="", share=""),
    metric=printed("roundup({wires} × {share})", "", wires="", share=""),
    holds={"wires": (42, 400, ""), "share": (0.02, 0.15, "")},
    source="arithmetic (derived here); a share of the wires of one lay is the form of one public rule for service rigs",
)
def broken_wires_at_share(wires: Count, share: Ratio) -> Count:
    """The first whole number of broken wires in one lay that reaches a share of the rope's wires.

    Takes a count (all wires of the rope) and a ratio; gives a count. Holds for a rule that counts so. Leaves out
    broken wires close together, valley breaks and all else that stops a rope first. Source: derived here.
    """
    return rounded_up(wires * share)


@registered(
    symbols="r D d",
    us=printed("{tread_diameter} / {rope}", "", tread_diameter="in", rope="in"),
    metric=printed("{tread_diameter} / {rope}", "", tread_diameter="mm", rope="mm"),
    holds={"tread_diameter": (10, 90, "in"), "rope": (0.5, 2.25, "in")},
    source="API RP 9B, Addendum 1 (2020), 2.3.3.5",
)
def bend_ratio(tread_diameter: Length, rope: Length) -> Ratio:
    """How many rope diameters the tread of a sheave, drum or pin is across.

    Takes two lengths; gives a ratio. Holds for the tread, at the bottom of the groove. Leaves out the construction of
    the rope, which says what it needs. Source: API RP 9B.
    """
    return tread_diameter / rope


@registered(
    symbols="D d F",
    us=printed("{rope} × {tread_factor}", "in", rope="in", tread_factor=""),
    metric=printed("{rope} × {tread_factor}", "mm", rope="mm", tread_factor=""),
    holds={"rope": (0.5, 2.25, "in"), "tread_factor": (15, 60, "")},
    source="wire-rope handbooks: the factor is that of the rope's construction (common practice, no source)",
)
def least_tread(rope: Length, tread_factor: Ratio) -> Length:
    """Least tread diameter of a sheave for a rope.

    Takes a length and a ratio; gives a length. Holds for the factor of that rope. Leaves out speed and load.
    Source: common practice, no source.
    """
    return rope * tread_factor


@registered(
    symbols="h d F",
    us=printed("{rope} × {depth_factor}", "in", rope="in", depth_factor=""),
    metric=printed("{rope} × {depth_factor}", "mm", rope="mm", depth_factor=""),
    holds={"rope": (0.5, 2.25, "in"), "depth_factor": (1.33, 1.75, "")},
    source="sheave groove between 1.33 and 1.75 rope diameters deep: check your maker's manual",
)
def groove_depth(rope: Length, depth_factor: Ratio) -> Length:
    """Depth of a sheave groove: 1.33 rope diameters at least, 1.75 at most.

    Takes a length and a ratio; gives a length. Holds for drilling-line sheaves. Leaves out the groove's radius, which
    a gauge checks. Source: check your maker's manual.
    """
    return rope * depth_factor


@registered(
    symbols="l d",
    us=printed("7.25 × {rope}", "in", rope="in"),
    metric=printed("7.25 × {rope}", "mm", rope="mm"),
    holds={"rope": (0.5, 2.25, "in")},
    source="Lyons, Standard Handbook: lay of 6×19 rope is not over 7¼ diameters",
)
def longest_lay(rope: Length) -> Length:
    """Longest lay of 6×19 rope: the length in which a strand goes once round, and in which broken wires are counted.

    Takes a length; gives a length. Holds for 6×19 rope. Leaves out other constructions. Source: Lyons, Standard
    Handbook.
    """
    return 7.25 * rope
