"""The string on the hook: its weight in air and in mud, how hard it may be pulled, how it stretches."""

import math

from question_bank.equations import printed
from question_bank.formulas.formula import (
    Area,
    Density,
    Length,
    Load,
    PressurePerLength,
    Ratio,
    Turns,
    WeightPerLength,
    registered,
)  # fmt: skip
from question_bank.formulas.steel import FOOT, PSI, STEEL_DENSITY, STEEL_STIFFNESS, STEEL_WEIGHT

ARITHMETIC = "arithmetic (derived here)"
BUOYANCY = "Lapeyrouse, 2nd ed., p. 20; steel of 65.5 lb/gal (7,850 kg/m3)"
STRETCH = "Lapeyrouse, free point; API RP 7G; 735,294 is 30,000,000 psi / (12 × 3.4)"
STEEL_GRADIENT = 3.412 * PSI / FOOT


@registered(
    symbols="W L w",
    us=printed("{length} × {weight_per_length}", "lbf", length="ft", weight_per_length="lb/ft"),
    metric=printed("{length} × {weight_per_length} × 9.80665 / 1,000", "kN", length="m", weight_per_length="kg/m"),
    holds={"length": (10, 25_000, "ft"), "weight_per_length": (3, 300, "lb/ft")},
    source=ARITHMETIC,
)
def weight_in_air(length: Length, weight_per_length: WeightPerLength) -> Load:
    """Weight in air of a length of pipe, collars or line.

    Takes a length and a weight-per-length (the adjusted one, with tool joints); gives a load. Holds for the whole
    length alike. Leaves out the mud. Source: derived here.
    """
    return length * weight_per_length


@registered(
    symbols="BF ρ",
    us=printed("1 − {mud_density} / 65.5", "", mud_density="lb/gal"),
    metric=printed("1 − {mud_density} / 7,850", "", mud_density="kg/m³"),
    holds={"mud_density": (0, 21, "lb/gal")},
    source=BUOYANCY,
)
def buoyancy_factor(mud_density: Density) -> Ratio:
    """Share of its weight in air that steel keeps in mud.

    Takes a density; gives a ratio. Holds for steel of 65.5 lb/gal (7,850 kg/m3), open-ended and all in one mud. Leaves
    out floats, empty casing and aluminium, which need sums of their own. Source: Lapeyrouse.
    """
    return 1 - mud_density / STEEL_DENSITY


@registered(
    symbols="BF x",
    us=printed("1 − {mud_gradient} / 3.412", "", mud_gradient="psi/ft"),
    metric=printed("1 − {mud_gradient} / 77.18", "", mud_gradient="kPa/m"),
    holds={"mud_gradient": (0, 1.1, "psi/ft")},
    source="field worksheet of the RP 9B equations; 3,412 psi per 1,000 ft is steel of 65.7 lb/gal",
)
def buoyancy_factor_by_gradient(mud_gradient: PressurePerLength) -> Ratio:
    """Share of its weight in air that steel keeps in a mud whose pressure gradient is known.

    Takes a pressure-per-length; gives a ratio. Holds for steel, open-ended and all in one mud. Leaves out floats and
    empty casing. Source: a field worksheet of the RP 9B equations.
    """
    return 1 - mud_gradient / STEEL_GRADIENT


@registered(
    symbols="S W BF",
    us=printed("{air_weight} × {buoyancy}", "klbf", air_weight="klbf", buoyancy=""),
    metric=printed("{air_weight} × {buoyancy}", "kN", air_weight="kN", buoyancy=""),
    holds={"air_weight": (5, 1_500, "klbf"), "buoyancy": (0.65, 1, "")},
    source=BUOYANCY,
)
def string_in_mud(air_weight: Load, buoyancy: Ratio) -> Load:
    """What the string weighs in mud, hanging free and still.

    Takes a load and a ratio; gives a load. Holds for a straight hole and one mud. Leaves out drag, flow and the block
    gear, which no mud carries. Source: Lapeyrouse.
    """
    return air_weight * buoyancy


@registered(
    symbols="W S B",
    us=printed("{string_weight} + {travelling_weight}", "klbf", string_weight="klbf", travelling_weight="klbf"),
    metric=printed("{string_weight} + {travelling_weight}", "kN", string_weight="kN", travelling_weight="kN"),
    holds={"string_weight": (5, 1_500, "klbf"), "travelling_weight": (5, 150, "klbf")},
    source="statics; hook load counts block, hook or top drive, links and elevator (common practice, no source)",
)
def hook_load_with_block(string_weight: Load, travelling_weight: Load) -> Load:
    """What the lines carry and the weight indicator shows: string in mud and travelling equipment.

    Takes two loads; gives a load. Holds hanging still. Leaves out drag and motion, which move the needle.
    Source: common practice, no source.
    """
    return string_weight + travelling_weight


@registered(
    symbols="W L w BF a",
    us=printed(
        "{length} × {weight_per_length} × {buoyancy} × cosine({inclination})",
        "lbf", length="ft", weight_per_length="lb/ft", buoyancy="", inclination="°",
    ),
    metric=printed(
        "{length} × {weight_per_length} × {buoyancy} × cosine({inclination}) × 9.80665 / 1,000",
        "kN", length="m", weight_per_length="kg/m", buoyancy="", inclination="°",
    ),
    holds={
        "length": (100, 15_000, "ft"), "weight_per_length": (3, 300, "lb/ft"),
        "buoyancy": (0.65, 1, ""), "inclination": (0, 85, "°"),
    },
    source="statics (derived here)",
)  # fmt: skip
def inclined_string_load(
    length: Length, weight_per_length: WeightPerLength, buoyancy: Ratio, inclination: Turns
) -> Load:
    """What a straight inclined part of the string adds to the hook load: only its share along the hole.

    Takes a length, a weight-per-length, a ratio and an angle from vertical in turns; gives a load. Holds without
    friction, as the middle between pick-up and slack-off weight. Leaves out drag. Source: derived here.
    """
    return length * weight_per_length * buoyancy * math.cos(2 * math.pi * inclination)


@registered(
    symbols="Ta Py f",
    us=printed("{table_strength} × {working_factor}", "klbf", table_strength="klbf", working_factor=""),
    metric=printed("{table_strength} × {working_factor}", "kN", table_strength="kN", working_factor=""),
    holds={"table_strength": (50, 2_000, "klbf"), "working_factor": (0.5, 1, "")},
    source="overpull practice: 90 % of the table value for the pipe's class (common practice, no source)",
)
def pull_allowed(table_strength: Load, working_factor: Ratio) -> Load:
    """Pull that the string is allowed: a share of its strength in the table.

    Takes a load and a ratio; gives a load. Holds for the weakest part and its class. Leaves out slips, hoist and mast,
    which may rule. Source: common practice, no source.
    """
    return table_strength * working_factor


@registered(
    symbols="MOP Ta S",
    us=printed("{allowed_pull} − {string_load}", "klbf", allowed_pull="klbf", string_load="klbf"),
    metric=printed("{allowed_pull} − {string_load}", "kN", allowed_pull="kN", string_load="kN"),
    holds={"allowed_pull": (100, 1_500, "klbf"), "string_load": (20, 1_200, "klbf")},
    source="public overpull lesson; Air and Gas Drilling Field Guide, 3rd ed., p. 92",
)
def margin_of_overpull(allowed_pull: Load, string_load: Load) -> Load:
    """What may be pulled over the string's own weight.

    Takes two loads, both without block gear; gives a load. Holds for the same place in the string. Leaves out jarring;
    overpull needs permission. Source: Air and Gas Drilling Field Guide.
    """
    return allowed_pull - string_load


@registered(
    symbols="r Ta S",
    us=printed("{allowed_pull} / {string_load}", "", allowed_pull="klbf", string_load="klbf"),
    metric=printed("{allowed_pull} / {string_load}", "", allowed_pull="kN", string_load="kN"),
    holds={"allowed_pull": (100, 1_500, "klbf"), "string_load": (20, 1_200, "klbf")},
    source="public overpull lesson; Air and Gas Drilling Field Guide, 3rd ed., p. 92",
)
def overpull_ratio(allowed_pull: Load, string_load: Load) -> Ratio:
    """How many times the string's own load the allowed pull is.

    Takes two loads, both without block gear; gives a ratio. Holds for the same place in the string. Leaves out
    jarring. Source: Air and Gas Drilling Field Guide.
    """
    return allowed_pull / string_load


@registered(
    symbols="e P L w",
    us=printed(
        "{pull} × {length} / (735,294 × {plain_end_weight})",
        "in", pull="lbf", length="ft", plain_end_weight="lb/ft",
    ),
    metric=printed(
        "{pull} × {length} / (26.37 × {plain_end_weight})", "mm", pull="kN", length="m", plain_end_weight="kg/m",
    ),
    holds={"pull": (5_000, 500_000, "lbf"), "length": (500, 25_000, "ft"), "plain_end_weight": (4, 60, "lb/ft")},
    source=STRETCH,
)  # fmt: skip
def string_stretch(pull: Load, length: Length, plain_end_weight: WeightPerLength) -> Length:
    """How much longer a pull makes a length of pipe.

    Takes a load, a length and a weight-per-length (bare tube); gives a length. Holds below yield. Leaves out friction,
    tool joints and the stretch under its own weight. Source: Lapeyrouse; API RP 7G.
    """
    return pull * length * STEEL_WEIGHT / (STEEL_STIFFNESS * plain_end_weight)


@registered(
    symbols="L e w ΔP",
    us=printed(
        "735,294 × {stretch} × {plain_end_weight} / {pull_difference}",
        "ft", stretch="in", plain_end_weight="lb/ft", pull_difference="lbf",
    ),
    metric=printed(
        "26.37 × {stretch} × {plain_end_weight} / {pull_difference}",
        "m", stretch="mm", plain_end_weight="kg/m", pull_difference="kN",
    ),
    holds={"stretch": (2, 80, "in"), "plain_end_weight": (4, 60, "lb/ft"), "pull_difference": (5_000, 150_000, "lbf")},
    source=STRETCH,
)  # fmt: skip
def free_pipe(stretch: Length, plain_end_weight: WeightPerLength, pull_difference: Load) -> Length:
    """Length of pipe that is free, from the stretch between two pulls.

    Takes a length, a weight-per-length (bare tube) and a load (the difference); gives a length. Holds below yield, as
    an estimate. Leaves out friction and tool joints: a free-point tool decides. Source: Lapeyrouse; API RP 7G.
    """
    return stretch * STEEL_STIFFNESS * plain_end_weight / (STEEL_WEIGHT * pull_difference)


@registered(
    symbols="L e A ΔP",
    us=printed(
        "2,500 × {stretch} × {wall_area} / {pull_difference}",
        "ft", stretch="in", wall_area="in²", pull_difference="klbf",
    ),
    metric=printed(
        "0.2068 × {stretch} × {wall_area} / {pull_difference}",
        "m", stretch="mm", wall_area="mm²", pull_difference="kN",
    ),
    holds={"stretch": (2, 80, "in"), "wall_area": (1, 20, "in²"), "pull_difference": (5, 150, "klbf")},
    source="Lapeyrouse, free-point constant 2,500 × wall area; 2,500 is 30,000,000 psi / 12,000",
)  # fmt: skip
def free_pipe_by_area(stretch: Length, wall_area: Area, pull_difference: Load) -> Length:
    """Length of pipe that is free, from the stretch between two pulls and the wall area.

    Takes a length, an area and a load (the difference); gives a length. Holds below yield, as an estimate. Leaves out
    friction and tool joints: a free-point tool decides. Source: Lapeyrouse.
    """
    return stretch * STEEL_STIFFNESS * wall_area / pull_difference
