"""The bare tube: wall area, moduli, yield in tension and torsion, wind-up, and what slips do to it.

`outside` and `inside` are diameters. Worn pipe has its worn ones.
"""

import math

from question_bank.equations import printed
from question_bank.formulas.formula import (
    Area,
    Length,
    Load,
    Ratio,
    SecondMoment,
    SectionModulus,
    Stress,
    Torque,
    Turns,
    WeightPerLength,
    registered,
)  # fmt: skip
from question_bank.formulas.steel import SHEAR_SHARE, SLIP_TAPER, STEEL_WEIGHT

GEOMETRY = "geometry and mechanics (derived here)"
TUBE = {"outside": (2.375, 6.625, "in"), "inside": (1, 6, "in")}
"""And the inside is the smaller one."""
SLIPS = "Reinhold and Spiri (1959), as given in IADC/SPE 74488 and 99074"


@registered(
    symbols="A D d",
    us=printed("π / 4 × ({outside}^2 − {inside}^2)", "in²", outside="in", inside="in"),
    metric=printed("π / 4 × ({outside}^2 − {inside}^2)", "mm²", outside="mm", inside="mm"),
    holds=TUBE,
    source=GEOMETRY,
)
def wall_area(outside: Length, inside: Length) -> Area:
    """Area of steel in a cut through the tube: what carries the pull.

    Takes two lengths; gives an area. Holds for a round tube of even wall. Leaves out upsets, tool joints and wear on
    one side. Source: derived here.
    """
    return math.pi / 4 * (outside**2 - inside**2)


@registered(
    symbols="J D d",
    us=printed("π / 32 × ({outside}^4 − {inside}^4)", "in⁴", outside="in", inside="in"),
    metric=printed("π / 32 × ({outside}^4 − {inside}^4) / 10,000", "cm⁴", outside="mm", inside="mm"),
    holds=TUBE,
    source=GEOMETRY,
)
def polar_moment(outside: Length, inside: Length) -> SecondMoment:
    """Polar moment of the tube: how much it resists being wound up.

    Takes two lengths; gives a second-moment. Holds for a round tube of even wall. Leaves out upsets and tool joints.
    Source: derived here.
    """
    return math.pi / 32 * (outside**4 - inside**4)


@registered(
    symbols="Z D d",
    us=printed("π / 32 × ({outside}^4 − {inside}^4) / {outside}", "in³", outside="in", inside="in"),
    metric=printed("π / 32 × ({outside}^4 − {inside}^4) / {outside} / 1,000", "cm³", outside="mm", inside="mm"),
    holds=TUBE,
    source=GEOMETRY,
)
def section_modulus(outside: Length, inside: Length) -> SectionModulus:
    """Section modulus in bending, I/C. In torsion it is twice that.

    Takes two lengths; gives a section-modulus. Holds for a round tube of even wall. Leaves out upsets and tool joints.
    Source: derived here.
    """
    return math.pi / 32 * (outside**4 - inside**4) / outside


@registered(
    symbols="w D d",
    us=printed("2.67 × ({outside}^2 − {inside}^2)", "lb/ft", outside="in", inside="in"),
    metric=printed("0.00616 × ({outside}^2 − {inside}^2)", "kg/m", outside="mm", inside="mm"),
    holds=TUBE,
    source="Lapeyrouse, free point; steel of 3.4 lb/ft for each in2 of wall",
)
def plain_end_weight(outside: Length, inside: Length) -> WeightPerLength:
    """Weight per length of the bare tube. The hook feels the adjusted weight, which is more.

    Takes two lengths; gives a weight-per-length. Holds for steel. Leaves out upsets and tool joints.
    Source: Lapeyrouse.
    """
    return STEEL_WEIGHT * math.pi / 4 * (outside**2 - inside**2)


@registered(
    symbols="P Y A",
    us=printed("{yield_strength} × {wall_area}", "lbf", yield_strength="psi", wall_area="in²"),
    metric=printed("{yield_strength} × {wall_area} / 1,000", "kN", yield_strength="MPa", wall_area="mm²"),
    holds={"yield_strength": (55_000, 150_000, "psi"), "wall_area": (1, 30, "in²")},
    source="mechanics; agrees with the strength tables after API RP 7G",
)
def tensile_yield(yield_strength: Stress, wall_area: Area) -> Load:
    """Pull at which the tube begins to stretch for good.

    Takes a stress and an area; gives a load. Holds for a straight tube in pure pull. Leaves out torque, bending,
    slips, wear and the connection. Source: mechanics; tables after API RP 7G.
    """
    return yield_strength * wall_area


@registered(
    symbols="Q J Y D",
    us=printed(
        "0.096167 × {polar_moment} × {yield_strength} / {outside}",
        "ft·lbf", polar_moment="in⁴", yield_strength="psi", outside="in",
    ),
    metric=printed(
        "11.54 × {polar_moment} × {yield_strength} / {outside}",
        "N·m", polar_moment="cm⁴", yield_strength="MPa", outside="mm",
    ),
    holds={
        "polar_moment": (2, 120, "in⁴"), "yield_strength": (55_000, 150_000, "psi"), "outside": (2.375, 6.625, "in"),
    },
    source="API RP 7G, Appendix A, not seen in the original; agrees with the strength tables after it",
)  # fmt: skip
def torsional_yield(polar_moment: SecondMoment, yield_strength: Stress, outside: Length) -> Torque:
    """Torque at which the tube begins to twist for good: shear yield, 0.577 of the tensile one, at its outside.

    Takes a second-moment, a stress and a length; gives a torque. Holds for the tube without pull. Leaves out pull,
    which lowers it, and the connection, which is often weaker. Source: API RP 7G.
    """
    return SHEAR_SHARE * yield_strength * polar_moment * 2 / outside


@registered(
    symbols="n T L J G",
    us=printed(
        "22.918 × {torque} × {length} / ({polar_moment} × {shear_modulus})",
        "turns", torque="ft·lbf", length="ft", polar_moment="in⁴", shear_modulus="psi",
    ),
    metric=printed(
        "15.915 × {torque} × {length} / ({polar_moment} × {shear_modulus})",
        "turns", torque="kN·m", length="m", polar_moment="cm⁴", shear_modulus="GPa",
    ),
    holds={
        "torque": (1_000, 60_000, "ft·lbf"), "length": (300, 25_000, "ft"),
        "polar_moment": (2, 400, "in⁴"), "shear_modulus": (11_000_000, 12_500_000, "psi"),
    },
    source=GEOMETRY,
)  # fmt: skip
def wind_up(torque: Torque, length: Length, polar_moment: SecondMoment, shear_modulus: Stress) -> Turns:
    """Turns that the string winds up under a torque. They come back when the torque is let go.

    Takes a torque, a length, a second-moment and a stress (modulus); gives turns. Holds below yield, with the torque
    the same all the way down. Leaves out friction in the hole and tool joints. Source: derived here.
    """
    return torque * length / (2 * math.pi * polar_moment * shear_modulus)


@registered(
    symbols="T G J L",
    us=printed(
        "2 × π × {shear_modulus} × {polar_moment} / (144 × {length})",
        "ft·lbf", shear_modulus="psi", polar_moment="in⁴", length="ft",
    ),
    metric=printed(
        "2 × π × 10 × {shear_modulus} × {polar_moment} / {length}",
        "N·m", shear_modulus="GPa", polar_moment="cm⁴", length="m",
    ),
    holds={
        "shear_modulus": (11_000_000, 12_500_000, "psi"), "polar_moment": (2, 400, "in⁴"),
        "length": (100, 25_000, "ft"),
    },
    source=GEOMETRY,
)  # fmt: skip
def torque_for_a_turn(shear_modulus: Stress, polar_moment: SecondMoment, length: Length) -> Torque:
    """Torque that winds a length of pipe up by one turn.

    Takes a stress (modulus), a second-moment and a length; gives a torque. Holds below yield. Leaves out friction in
    the hole and tool joints. Source: derived here.
    """
    return 2 * math.pi * shear_modulus * polar_moment / length


@registered(
    symbols="k μ",
    us=printed("(6 − {friction}) / (1 + 6 × {friction})", "", friction=""),
    metric=printed("(6 − {friction}) / (1 + 6 × {friction})", "", friction=""),
    holds={"friction": (0.05, 0.25, "")},
    source=SLIPS,
)
def slip_squeeze_factor(friction: Ratio) -> Ratio:
    """How many times its own weight a string squeezes sideways on the slips: 1 / tan(taper + friction angle).

    Takes a ratio (friction of slips in the bowl); gives a ratio. Holds for the usual taper, 9° 27′ 45″ or 1 in 6, for
    which the tangent becomes this fraction. Leaves out worn bowls. Source: Reinhold and Spiri (1959).
    """
    return (1 - SLIP_TAPER * friction) / (SLIP_TAPER + friction)


@registered(
    symbols="r D L k",
    us=printed(
        "√(1 + {outside} × {squeeze_factor} / (2 × {slip_length})"
        " + ({outside} × {squeeze_factor} / (2 × {slip_length}))^2)",
        "", outside="in", slip_length="in", squeeze_factor="",
    ),
    metric=printed(
        "√(1 + {outside} × {squeeze_factor} / (2 × {slip_length})"
        " + ({outside} × {squeeze_factor} / (2 × {slip_length}))^2)",
        "", outside="mm", slip_length="mm", squeeze_factor="",
    ),
    holds={"outside": (2.375, 6.625, "in"), "slip_length": (10, 20, "in"), "squeeze_factor": (2, 5, "")},
    source=SLIPS,
)  # fmt: skip
def slip_crush_ratio(outside: Length, slip_length: Length, squeeze_factor: Ratio) -> Ratio:
    """How much stronger the tube is in plain pull than in the slips.

    Takes two lengths (the second is what the slips grip) and a ratio; gives a ratio. Holds for full, even grip. Leaves
    out uneven bite: tests found the pipe about 20 % weaker than this says. Source: Reinhold and Spiri (1959).
    """
    squeeze = outside * squeeze_factor / (2 * slip_length)
    return math.sqrt(1 + squeeze + squeeze**2)


@registered(
    symbols="P Py r",
    us=printed("{tensile_yield} / {crush_ratio}", "lbf", tensile_yield="lbf", crush_ratio=""),
    metric=printed("{tensile_yield} / {crush_ratio}", "kN", tensile_yield="kN", crush_ratio=""),
    holds={"tensile_yield": (50_000, 1_500_000, "lbf"), "crush_ratio": (1, 2.5, "")},
    source=SLIPS,
)
def slip_limited_load(tensile_yield: Load, crush_ratio: Ratio) -> Load:
    """Load at which the slips begin to crush the tube.

    Takes a load and a ratio; gives a load. Holds for full, even grip. Leaves out uneven bite: tests found about 20 %
    less. Source: Reinhold and Spiri (1959).
    """
    return tensile_yield / crush_ratio
