"""The drawworks drum and rope round it: layers, wraps, what fits on it, laps to cut, and how wraps hold by friction."""

import math

from question_bank.equations import printed
from question_bank.formulas.formula import Count, Length, Load, Ratio, Turns, registered
from question_bank.rounding import rounded_up, whole_part

GEOMETRY = "geometry (derived here)"
FRICTION = "rope friction after Euler and Eytelwein, public lesson on belt friction"


@registered(
    symbols="Dp D d i",
    us=printed("{barrel} + (2 × {layer} − 1) × {rope}", "in", barrel="in", rope="in", layer=""),
    metric=printed("{barrel} + (2 × {layer} − 1) × {rope}", "mm", barrel="mm", rope="mm", layer=""),
    holds={"barrel": (16, 48, "in"), "rope": (0.75, 2.25, "in"), "layer": (1, 5, "")},
    source=GEOMETRY,
)
def layer_diameter(barrel: Length, rope: Length, layer: Count) -> Length:
    """Diameter through the middle of the rope in a layer, each layer stacked straight on the one below.

    Takes two lengths and a count; gives a length. Holds for stacked layers. Leaves out nesting, which makes upper
    layers smaller. Source: derived here.
    """
    return barrel + (2 * layer - 1) * rope


@registered(
    symbols="Dp D d i",
    us=printed("{barrel} + {rope} × (1 + 1.732 × ({layer} − 1))", "in", barrel="in", rope="in", layer=""),
    metric=printed("{barrel} + {rope} × (1 + 1.732 × ({layer} − 1))", "mm", barrel="mm", rope="mm", layer=""),
    holds={"barrel": (16, 48, "in"), "rope": (0.75, 2.25, "in"), "layer": (1, 5, "")},
    source="geometry (derived here); nesting as wire-rope handbooks describe it",
)
def nested_layer_diameter(barrel: Length, rope: Length, layer: Count) -> Length:
    """Diameter through the middle of the rope in a layer that lies in the valleys of the one below.

    Takes two lengths and a count; gives a length. Holds for nested layers: each rises 0.866 of the rope diameter.
    Leaves out crossovers. Source: derived here.
    """
    return barrel + rope * (1 + math.sqrt(3) * (layer - 1))


@registered(
    symbols="n B d",
    us=printed("whole({face} / {rope})", "", face="in", rope="in"),
    metric=printed("whole({face} / {rope})", "", face="mm", rope="mm"),
    holds={"face": (20, 90, "in"), "rope": (0.75, 2.25, "in")},
    source=GEOMETRY,
)
def wraps_a_layer(face: Length, rope: Length) -> Count:
    """Whole wraps that lie side by side between the flanges.

    Takes two lengths; gives a count. Holds for tight spooling. Leaves out groove spacing. Source: derived here.
    """
    return whole_part(face / rope)


@registered(
    symbols="n L Dp",
    us=printed("12 × {line} / (π × {wrap_diameter})", "turns", line="ft", wrap_diameter="in"),
    metric=printed("1,000 × {line} / (π × {wrap_diameter})", "turns", line="m", wrap_diameter="mm"),
    holds={"line": (10, 2_000, "ft"), "wrap_diameter": (16, 60, "in")},
    source=GEOMETRY,
)
def wraps_for(line: Length, wrap_diameter: Length) -> Turns:
    """Wraps, or laps, that a length of line makes at one diameter through the middle of the rope.

    Takes two lengths; gives turns. Holds for one layer. Leaves out the step to the next layer. Source: derived here.
    """
    return line / (math.pi * wrap_diameter)


@registered(
    symbols="L N D d",
    us=printed("{laps} × π × ({barrel} + {rope}) / 12", "ft", laps="turns", barrel="in", rope="in"),
    metric=printed("{laps} × π × ({barrel} + {rope}) / 1,000", "m", laps="turns", barrel="mm", rope="mm"),
    holds={"laps": (1, 60, "turns"), "barrel": (16, 48, "in"), "rope": (0.75, 2.25, "in")},
    source="geometry (derived here); laps by mast height are in API RP 9B, not seen in the original",
)
def length_of_laps(laps: Turns, barrel: Length, rope: Length) -> Length:
    """Line in a number of laps on the first layer: the length to cut off.

    Takes turns and two lengths; gives a length. Holds for the first layer. Leaves out the layers above. Laps come from
    the table or the maker. Source: derived here; API RP 9B.
    """
    return laps * math.pi * (barrel + rope)


@registered(
    symbols="Nc N",
    us=printed("roundup({laps} − 0.5) + 0.5", "turns", laps="turns"),
    metric=printed("roundup({laps} − 0.5) + 0.5", "turns", laps="turns"),
    holds={"laps": (1, 60, "turns")},
    source="arithmetic (derived here); cuts by half laps are in API RP 9B, not seen in the original",
)
def half_laps_up(laps: Turns) -> Turns:
    """Laps to cut where a programme cuts a half lap over a whole number, and never less than is asked.

    Takes turns; gives turns. Holds for a drum with one crossover in each lap. Leaves out drums with two, whose
    programmes cut quarter laps. Source: derived here; API RP 9B.
    """
    return rounded_up(laps - 0.5) + 0.5


@registered(
    symbols="L A B D d",
    us=printed(
        "0.2618 × ({depth} + {barrel}) × {depth} × {face} / {rope_as_wound}^2",
        "ft", depth="in", face="in", barrel="in", rope_as_wound="in",
    ),
    metric=printed(
        "0.0031416 × ({depth} + {barrel}) × {depth} × {face} / {rope_as_wound}^2",
        "m", depth="mm", face="mm", barrel="mm", rope_as_wound="mm",
    ),
    holds={"depth": (2, 20, "in"), "face": (20, 90, "in"), "barrel": (16, 48, "in"), "rope_as_wound": (0.5, 2.4, "in")},
    source="geometry (derived here); wire-rope reel page, whose ropes are wound some 6 % over their nominal size",
)  # fmt: skip
def line_on_drum(depth: Length, face: Length, barrel: Length, rope_as_wound: Length) -> Length:
    """Line that a drum or reel holds, spooled to a depth over its barrel.

    Takes four lengths (new rope is over its nominal diameter); gives a length. Holds for stacked, tight spooling.
    Leaves out loose wraps and the flange that must stay clear. Source: derived here.
    """
    return math.pi * (depth + barrel) * depth * face / rope_as_wound**2


@registered(
    symbols="r μ n",
    us=printed("exp(2 × π × {friction} × {wraps})", "", friction="", wraps="turns"),
    metric=printed("exp(2 × π × {friction} × {wraps})", "", friction="", wraps="turns"),
    holds={"friction": (0.03, 0.4, ""), "wraps": (0, 8, "turns")},
    source=FRICTION,
)
def capstan_ratio(friction: Ratio, wraps: Turns) -> Ratio:
    """How many times the holding pull a rope round a drum can hold. The diameter does not matter.

    Takes a ratio (friction) and turns; gives a ratio. Holds when the rope is about to slip. Leaves out grease, which
    may grip less than any table: dead wraps follow the maker. Source: Euler and Eytelwein.
    """
    return math.exp(2 * math.pi * friction * wraps)


@registered(
    symbols="T1 T2 μ n",
    us=printed("{pull} / exp(2 × π × {friction} × {wraps})", "lbf", pull="lbf", friction="", wraps="turns"),
    metric=printed("{pull} / exp(2 × π × {friction} × {wraps})", "kN", pull="kN", friction="", wraps="turns"),
    holds={"pull": (500, 150_000, "lbf"), "friction": (0.03, 0.4, ""), "wraps": (0, 8, "turns")},
    source=FRICTION,
)
def pull_behind_wraps(pull: Load, friction: Ratio, wraps: Turns) -> Load:
    """What is left of a line's pull behind dead wraps: what the clamp on the drum must hold.

    Takes a load, a ratio (friction) and turns; gives a load. Holds when the rope is about to slip. Leaves out grease:
    dead wraps follow the maker. Source: Euler and Eytelwein.
    """
    return pull / math.exp(2 * math.pi * friction * wraps)
