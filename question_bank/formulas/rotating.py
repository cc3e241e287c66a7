"""Turning the string: power, torque and speed, gears, rims, what holds the torque back, and the rotary hose."""

import math

from question_bank.equations import printed
from question_bank.formulas.formula import Length, Load, Power, Ratio, Speed, Torque, Turning, registered

MECHANICS = "mechanics (derived here)"
POWER = "power = 2π × torque × turns (mechanics); 5,252 is 33,000 / 2π, the form of the IADC online glossary"
HOSE_EXTRA = 0.3048
"""One foot, which the rotary hose gets beyond half the travel and its bend."""


@registered(
    symbols="P T N",
    us=printed("{torque} × {turning} / 5,252", "hp", torque="ft·lbf", turning="rpm"),
    metric=printed("{torque} × {turning} / 9,549", "kW", torque="N·m", turning="rpm"),
    holds={"torque": (1_000, 75_000, "ft·lbf"), "turning": (10, 300, "rpm")},
    source=POWER,
)
def rotary_power(torque: Torque, turning: Turning) -> Power:
    """Power that goes into the string at a torque and a turning speed.

    Takes a torque and a turning; gives a power. Holds at steady speed; a stalled drive gives none. Leaves out losses
    before the place where torque is measured. Source: mechanics; IADC online glossary.
    """
    return 2 * math.pi * torque * turning


@registered(
    symbols="T P N",
    us=printed("5,252 × {power} / {turning}", "ft·lbf", power="hp", turning="rpm"),
    metric=printed("9,549 × {power} / {turning}", "N·m", power="kW", turning="rpm"),
    holds={"power": (50, 2_000, "hp"), "turning": (20, 300, "rpm")},
    source=POWER,
)
def torque_at_power(power: Power, turning: Turning) -> Torque:
    """Torque that a drive of that power has left at a turning speed: the faster it turns, the less torque.

    Takes a power and a turning; gives a torque. Holds above the drive's base speed. Leaves out the torque limit, which
    rules below base speed, and the limits of pipe and connections. Source: mechanics; IADC online glossary.
    """
    return power / (2 * math.pi * turning)


@registered(
    symbols="Pin P η",
    us=printed("{power} / {efficiency}", "hp", power="hp", efficiency=""),
    metric=printed("{power} / {efficiency}", "kW", power="kW", efficiency=""),
    holds={"power": (10, 4_000, "hp"), "efficiency": (0.5, 1, "")},
    source=MECHANICS,
)
def input_power(power: Power, efficiency: Ratio) -> Power:
    """Power that a drive must be given to put out `power`: what is lost on the way comes on top.

    Takes a power and a ratio; gives a power. Holds for gears, chains and tables alike. Leaves out the change of
    efficiency with load. Source: derived here.
    """
    return power / efficiency


@registered(
    symbols="g P2 P1",
    us=printed("100 × ({printed_power} − {true_power}) / {true_power}", "%", printed_power="hp", true_power="hp"),
    metric=printed("100 × ({printed_power} − {true_power}) / {true_power}", "%", printed_power="kW", true_power="kW"),
    holds={"printed_power": (50, 3_000, "hp"), "true_power": (50, 3_000, "hp")},
    source="arithmetic (derived here)",
)
def power_gap(printed_power: Power, true_power: Power) -> Ratio:
    """How far a printed power is off the true one: below zero it is too low.

    Takes two powers; gives a ratio. Holds where both stand for the same thing (both output, both lasting). Leaves out
    which of the two is to be believed. Source: derived here.
    """
    return (printed_power - true_power) / true_power


@registered(
    symbols="N2 N1 G",
    us=printed("{turning} / {gear_ratio}", "rpm", turning="rpm", gear_ratio=""),
    metric=printed("{turning} / {gear_ratio}", "rpm", turning="rpm", gear_ratio=""),
    holds={"turning": (50, 60_000, "rpm"), "gear_ratio": (1, 120, "")},
    source=MECHANICS,
)
def geared_speed(turning: Turning, gear_ratio: Ratio) -> Turning:
    """Turning speed behind a reduction of `gear_ratio` to 1.

    Takes a turning and a ratio; gives a turning. Holds for gears and chains. Leaves out slip of belts and torque
    converters. Source: derived here.
    """
    return turning / gear_ratio


@registered(
    symbols="T2 T1 G η",
    us=printed("{torque} × {gear_ratio} × {efficiency}", "ft·lbf", torque="ft·lbf", gear_ratio="", efficiency=""),
    metric=printed("{torque} × {gear_ratio} × {efficiency}", "N·m", torque="N·m", gear_ratio="", efficiency=""),
    holds={"torque": (500, 20_000, "ft·lbf"), "gear_ratio": (1, 120, ""), "efficiency": (0.8, 1, "")},
    source=MECHANICS,
)
def geared_torque(torque: Torque, gear_ratio: Ratio, efficiency: Ratio) -> Torque:
    """Torque behind a reduction: the low gear turns slower and pulls harder.

    Takes a torque and two ratios; gives a torque. Holds at steady speed. Leaves out what it takes to speed the wheels
    up. Source: derived here.
    """
    return torque * gear_ratio * efficiency


@registered(
    symbols="T Ts N Nr",
    us=printed(
        "{stall_torque} × (1 − {turning} / {runaway_speed})",
        "ft·lbf", stall_torque="ft·lbf", turning="rpm", runaway_speed="rpm",
    ),
    metric=printed(
        "{stall_torque} × (1 − {turning} / {runaway_speed})",
        "N·m", stall_torque="N·m", turning="rpm", runaway_speed="rpm",
    ),
    holds={"stall_torque": (500, 20_000, "ft·lbf"), "turning": (0, 300, "rpm"), "runaway_speed": (350, 1_000, "rpm")},
    source="straight torque line of a turbine, Air and Gas Drilling Manual, p. 11-59",
)  # fmt: skip
def torque_on_falling_line(stall_torque: Torque, turning: Turning, runaway_speed: Turning) -> Torque:
    """Torque of a drive that pulls hardest at standstill and not at all at its runaway speed.

    Takes a torque and two turnings; gives a torque. Holds for a turbine at one flow. Leaves out bearing friction. An
    electric drive has another curve. Source: Air and Gas Drilling Manual.
    """
    return stall_torque * (1 - turning / runaway_speed)


@registered(
    symbols="v D N",
    us=printed("π × {diameter} × {turning} / 12", "ft/min", diameter="in", turning="rpm"),
    metric=printed("π × {diameter} × {turning} / 60,000", "m/s", diameter="mm", turning="rpm"),
    holds={"diameter": (4, 84, "in"), "turning": (5, 400, "rpm")},
    source="geometry (derived here)",
)
def rim_speed(diameter: Length, turning: Turning) -> Speed:
    """Speed of the rim of a bit, cathead, sheave or drum, and of the line that runs over it.

    Takes a length and a turning; gives a speed. Holds where the line does not slip. Leaves out stretch of the line.
    Source: derived here.
    """
    return math.pi * diameter * turning


@registered(
    symbols="N v D",
    us=printed("12 × {speed} / (π × {diameter})", "rpm", speed="ft/min", diameter="in"),
    metric=printed("60,000 × {speed} / (π × {diameter})", "rpm", speed="m/s", diameter="mm"),
    holds={"speed": (50, 6_000, "ft/min"), "diameter": (4, 84, "in")},
    source="geometry (derived here)",
)
def turning_at_rim_speed(speed: Speed, diameter: Length) -> Turning:
    """Turning speed of a drum or sheave whose line runs at `speed`.

    Takes a speed and a length; gives a turning. Holds where the line does not slip; for a drum the diameter is that of
    the layer. Leaves out stretch of the line. Source: derived here.
    """
    return speed / (math.pi * diameter)


@registered(
    symbols="F T s",
    us=printed("{torque} / {distance}", "lbf", torque="ft·lbf", distance="ft"),
    metric=printed("{torque} / {distance}", "kN", torque="kN·m", distance="m"),
    holds={"torque": (1_000, 100_000, "ft·lbf"), "distance": (1, 20, "ft")},
    source=MECHANICS,
)
def reaction_force(torque: Torque, distance: Length) -> Load:
    """Force on each side that holds a torque back: top-drive shoes on the rails, or a back-up tong.

    Takes a torque and a length; gives a load. Holds for two equal forces, `distance` apart and square to it. Leaves
    out the weight that the guide carries besides. Source: derived here.
    """
    return torque / distance


@registered(
    symbols="L H R",
    us=printed("{travel} / 2 + π × {bend_radius} + 1", "ft", travel="ft", bend_radius="ft"),
    metric=printed("{travel} / 2 + π × {bend_radius} + 0.305", "m", travel="m", bend_radius="m"),
    holds={"travel": (20, 140, "ft"), "bend_radius": (2, 8, "ft")},
    source="API Spec 7K, not seen in the original: check the hose maker's sheet",
)
def rotary_hose_length(travel: Length, bend_radius: Length) -> Length:
    """Length of rotary hose that reaches both ends of the travel without a bend under its least radius.

    Takes two lengths; gives a length. Holds for a standpipe outlet at half the travel. Leaves out the end fittings and
    stretch under pressure. Source: API Spec 7K, not seen in the original.
    """
    return travel / 2 + math.pi * bend_radius + HOSE_EXTRA
