"""Stopping the block: energy, heat and distance, and the force and work of a pressure."""

import math

from question_bank.equations import printed
from question_bank.formulas.formula import (
    Acceleration,
    Area,
    Energy,
    Length,
    Load,
    Power,
    Pressure,
    Speed,
    Time,
    Volume,
    registered,
)  # fmt: skip

ENERGY = "conservation of energy (derived here)"
MOTION = "motion at a steady slowing (derived here)"


@registered(
    symbols="E W h",
    us=printed("{hook_load} × {travel}", "ft·lbf", hook_load="lbf", travel="ft"),
    metric=printed("{hook_load} × {travel}", "kJ", hook_load="kN", travel="m"),
    holds={"hook_load": (10_000, 1_500_000, "lbf"), "travel": (1, 150, "ft")},
    source=ENERGY,
)
def brake_energy(hook_load: Load, travel: Length) -> Energy:
    """Energy that brakes must turn into heat when a load is lowered.

    Takes a load and a length; gives an energy. Holds for lowering at steady speed. Leaves out friction in the tackle,
    which helps a little. Source: derived here.
    """
    return hook_load * travel


@registered(
    symbols="P W v",
    us=printed("{hook_load} × {lowering_speed} / 33,000", "hp", hook_load="lbf", lowering_speed="ft/min"),
    metric=printed("{hook_load} × {lowering_speed}", "kW", hook_load="kN", lowering_speed="m/s"),
    holds={"hook_load": (10_000, 1_500_000, "lbf"), "lowering_speed": (5, 500, "ft/min")},
    source=ENERGY,
)
def brake_power(hook_load: Load, lowering_speed: Speed) -> Power:
    """Heat that brakes must take in each second while a load is lowered at a steady speed.

    Takes a load and a speed; gives a power. Holds at steady speed. Leaves out slowing down, which adds to it, and
    friction in the tackle, which helps a little. Source: derived here.
    """
    return hook_load * lowering_speed


@registered(
    symbols="P W h t",
    us=printed("{hook_load} × {travel} / (550 × {time})", "hp", hook_load="lbf", travel="ft", time="s"),
    metric=printed("{hook_load} × {travel} / {time}", "kW", hook_load="kN", travel="m", time="s"),
    holds={"hook_load": (10_000, 1_500_000, "lbf"), "travel": (1, 150, "ft"), "time": (5, 300, "s")},
    source=ENERGY,
)
def mean_brake_power(hook_load: Load, travel: Length, time: Time) -> Power:
    """Mean heat that brakes take in each second while a load is lowered in a time.

    Takes a load, a length and a time; gives a power. Holds as a mean. Leaves out the peak and friction in the tackle.
    Source: derived here.
    """
    return hook_load * travel / time


@registered(
    symbols="d v t",
    us=printed("{speed} × {reaction_time}", "ft", speed="ft/s", reaction_time="s"),
    metric=printed("{speed} × {reaction_time}", "m", speed="m/s", reaction_time="s"),
    holds={"speed": (0.5, 15, "ft/s"), "reaction_time": (0.1, 5, "s")},
    source=MOTION,
)
def run_on(speed: Speed, reaction_time: Time) -> Length:
    """How far the block travels before anything begins to stop it.

    Takes a speed and a time; gives a length. Holds at steady speed. Leaves out the braking itself.
    Source: derived here.
    """
    return speed * reaction_time


@registered(
    symbols="d v a",
    us=printed("{speed}^2 / (2 × {slowing})", "ft", speed="ft/s", slowing="ft/s²"),
    metric=printed("{speed}^2 / (2 × {slowing})", "m", speed="m/s", slowing="m/s²"),
    holds={"speed": (0.5, 15, "ft/s"), "slowing": (0.5, 20, "ft/s²")},
    source=MOTION,
)
def braking_distance(speed: Speed, slowing: Acceleration) -> Length:
    """How far the block travels from where the brake bites until it stands.

    Takes a speed and an acceleration; gives a length. Holds for steady slowing. Leaves out the run before the brake
    bites, and wet or hot brakes. Source: derived here.
    """
    return speed**2 / (2 * slowing)


@registered(
    symbols="d v t a",
    us=printed(
        "{speed} × {reaction_time} + {speed}^2 / (2 × {slowing})",
        "ft", speed="ft/s", reaction_time="s", slowing="ft/s²",
    ),
    metric=printed(
        "{speed} × {reaction_time} + {speed}^2 / (2 × {slowing})",
        "m", speed="m/s", reaction_time="s", slowing="m/s²",
    ),
    holds={"speed": (0.5, 15, "ft/s"), "reaction_time": (0, 5, "s"), "slowing": (0.5, 20, "ft/s²")},
    source=MOTION,
)  # fmt: skip
def stopping_distance(speed: Speed, reaction_time: Time, slowing: Acceleration) -> Length:
    """How far the block travels until it stands: run-on and braking.

    Takes a speed, a time and an acceleration; gives a length. Holds for steady slowing. Leaves out wet or hot brakes,
    which lengthen the stop. Source: derived here.
    """
    return speed * reaction_time + speed**2 / (2 * slowing)


@registered(
    symbols="A d",
    us=printed("π / 4 × {diameter}^2", "in²", diameter="in"),
    metric=printed("π / 400 × {diameter}^2", "cm²", diameter="mm"),
    holds={"diameter": (0.5, 30, "in")},
    source="geometry (derived here)",
)
def piston_area(diameter: Length) -> Area:
    """Area of a round piston.

    Takes a length; gives an area. Holds for the full side. Leaves out the rod on the other side. Source: derived here.
    """
    return math.pi / 4 * diameter**2


@registered(
    symbols="F p A",
    us=printed("{pressure} × {area}", "lbf", pressure="psi", area="in²"),
    metric=printed("{pressure} × {area} / 100", "kN", pressure="bar", area="cm²"),
    holds={"pressure": (5, 10_000, "psi"), "area": (0.2, 200, "in²")},
    source="pressure = force / area (derived here)",
)
def piston_force(pressure: Pressure, area: Area) -> Load:
    """Force that a trapped pressure makes on a piston or a cap.

    Takes a pressure and an area; gives a load. Holds for gauge pressure. Leaves out friction of seals and springs.
    Source: derived here.
    """
    return pressure * area


@registered(
    symbols="p F A",
    us=printed("{force} / {area}", "psi", force="lbf", area="in²"),
    metric=printed("{force} × 100 / {area}", "bar", force="kN", area="cm²"),
    holds={"force": (10, 200_000, "lbf"), "area": (0.2, 200, "in²")},
    source="pressure = force / area (derived here)",
)
def pressure_for_force(force: Load, area: Area) -> Pressure:
    """Pressure that a piston needs to push with a force.

    Takes a load and an area; gives a pressure. Holds for the full side of the piston. Leaves out friction of seals and
    what presses on the other side, which need more. Source: derived here.
    """
    return force / area


@registered(
    symbols="E p V",
    us=printed("19.25 × {mean_pressure} × {volume}", "ft·lbf", mean_pressure="psi", volume="gal"),
    metric=printed("{mean_pressure} × {volume} / 10", "kJ", mean_pressure="bar", volume="L"),
    holds={"mean_pressure": (50, 6_000, "psi"), "volume": (0.1, 300, "gal")},
    source="work = pressure × volume (derived here); 19.25 is 231 / 12",
)
def pressure_work(mean_pressure: Pressure, volume: Volume) -> Energy:
    """Work that oil under pressure can do while an accumulator pushes it out.

    Takes a pressure (the mean on the way, by volume) and a volume of oil; gives an energy. Holds for gauge pressure.
    Leaves out friction in lines and valves, and the gas that stays behind, still squeezed. Source: derived here.
    """
    return mean_pressure * volume
