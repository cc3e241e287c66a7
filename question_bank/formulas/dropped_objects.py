"""Things that fall: energy, speed, time and the height at which a small thing becomes a dangerous one.

No air: over the height of a mast it takes a few per cent off a compact tool's speed (common practice, no source).
"""

import math

from question_bank.equations import printed
from question_bank.formulas.formula import Energy, Length, Mass, Speed, Time, registered
from question_bank.formulas.gravity import STANDARD_GRAVITY

MECHANICS = "free fall from rest with standard gravity (mechanics, derived here)"


@registered(
    symbols="E m h",
    us=printed("{mass} × {height}", "ft·lbf", mass="lb", height="ft"),
    metric=printed("{mass} × 9.80665 m/s² × {height}", "J", mass="kg", height="m"),
    holds={"mass": (0.05, 50, "kg"), "height": (1, 60, "m")},
    source=MECHANICS,
)
def drop_energy(mass: Mass, height: Length) -> Energy:
    """Energy that a thing of `mass` has gained when it has fallen `height`.

    Takes a mass and a length; gives an energy. Holds from rest. Leaves out the air. Source: derived here.
    """
    return mass * STANDARD_GRAVITY * height


@registered(
    symbols="v h",
    us=printed("√(2 × 32.174 ft/s² × {height})", "ft/s", height="ft"),
    metric=printed("√(2 × 9.80665 m/s² × {height})", "m/s", height="m"),
    holds={"height": (1, 60, "m")},
    source=MECHANICS,
)
def impact_speed(height: Length) -> Speed:
    """Speed after falling `height` from rest. The mass does not matter.

    Takes a length; gives a speed. Holds from rest. Leaves out the air. Source: derived here.
    """
    return math.sqrt(2 * STANDARD_GRAVITY * height)


@registered(
    symbols="t h",
    us=printed("√(2 × {height} / 32.174 ft/s²)", "s", height="ft"),
    metric=printed("√(2 × {height} / 9.80665 m/s²)", "s", height="m"),
    holds={"height": (1, 60, "m")},
    source=MECHANICS,
)
def fall_time(height: Length) -> Time:
    """Time from letting go to landing: no time to shout and step aside.

    Takes a length; gives a time. Holds from rest. Leaves out the air. Source: derived here.
    """
    return math.sqrt(2 * height / STANDARD_GRAVITY)


@registered(
    symbols="h E m",
    us=printed("{energy} / {mass}", "ft", energy="ft·lbf", mass="lb"),
    metric=printed("{energy} / ({mass} × 9.80665 m/s²)", "m", energy="J", mass="kg"),
    holds={"energy": (5, 2_000, "J"), "mass": (0.05, 50, "kg")},
    source=MECHANICS,
)
def height_for_energy(energy: Energy, mass: Mass) -> Length:
    """Height from which a thing of `mass` lands with `energy`.

    Takes an energy and a mass; gives a length. Holds from rest. Leaves out the air. Source: derived here.
    """
    return energy / (mass * STANDARD_GRAVITY)
