"""Hoisting speed and power: block and fast line, power at the hook and at the drum."""

from question_bank.equations import printed
from question_bank.formulas.formula import Count, Length, Load, Power, Ratio, Speed, Time, registered

TEXTBOOK = "Bourgoyne et al. (1986), as given in public worked copies"
RIGID = "a line that does not stretch (derived here)"


@registered(
    symbols="vf vb n",
    us=printed("{block_speed} × {lines}", "ft/min", block_speed="ft/min", lines=""),
    metric=printed("{block_speed} × {lines}", "m/s", block_speed="m/s", lines=""),
    holds={"block_speed": (5, 500, "ft/min"), "lines": (2, 16, "")},
    source=RIGID,
)
def fast_line_speed(block_speed: Speed, lines: Count) -> Speed:
    """Speed of the fast line. Friction costs pull, never distance.

    Takes a speed and a count; gives a speed. Holds at any load. Leaves out stretch of the line. Source: derived here.
    """
    return block_speed * lines


@registered(
    symbols="L h n",
    us=printed("{travel} × {lines}", "ft", travel="ft", lines=""),
    metric=printed("{travel} × {lines}", "m", travel="m", lines=""),
    holds={"travel": (1, 150, "ft"), "lines": (2, 16, "")},
    source=RIGID,
)
def line_spooled(travel: Length, lines: Count) -> Length:
    """Line that goes on the drum when the block travels up.

    Takes a length and a count; gives a length. Holds at any load. Leaves out stretch of the line. Source: derived here.
    """
    return travel * lines


@registered(
    symbols="t h v",
    us=printed("{travel} / {block_speed}", "min", travel="ft", block_speed="ft/min"),
    metric=printed("{travel} / {block_speed}", "s", travel="m", block_speed="m/s"),
    holds={"travel": (1, 150, "ft"), "block_speed": (5, 500, "ft/min")},
    source=RIGID,
)
def travel_time(travel: Length, block_speed: Speed) -> Time:
    """Time that the block needs for a travel at a steady speed.

    Takes a length and a speed; gives a time. Holds at steady speed. Leaves out speeding up and slowing down.
    Source: derived here.
    """
    return travel / block_speed


@registered(
    symbols="Ph W v",
    us=printed("{hook_load} × {block_speed} / 33,000", "hp", hook_load="lbf", block_speed="ft/min"),
    metric=printed("{hook_load} × {block_speed}", "kW", hook_load="kN", block_speed="m/s"),
    holds={"hook_load": (10_000, 2_500_000, "lbf"), "block_speed": (5, 5_000, "ft/min")},
    source=TEXTBOOK,
)
def hook_power(hook_load: Load, block_speed: Speed) -> Power:
    """Power at the hook while the block goes up.

    Takes a load and a speed; gives a power. Holds at steady speed. Leaves out what tackle, drum and drive lose.
    Source: Bourgoyne et al. (1986).
    """
    return hook_load * block_speed


@registered(
    symbols="Ph Pd E",
    us=printed("{drawworks_output} × {efficiency}", "hp", drawworks_output="hp", efficiency=""),
    metric=printed("{drawworks_output} × {efficiency}", "kW", drawworks_output="kW", efficiency=""),
    holds={"drawworks_output": (50, 6_000, "hp"), "efficiency": (0.5, 1, "")},
    source=TEXTBOOK,
)
def hook_power_from_drawworks(drawworks_output: Power, efficiency: Ratio) -> Power:
    """Power at the hook from what the drum puts into the fast line.

    Takes a power and a ratio; gives a power. Holds for hoisting. Leaves out losses before the drum: a plate power may
    be input. Source: Bourgoyne et al. (1986).
    """
    return drawworks_output * efficiency


@registered(
    symbols="Pd Ph E",
    us=printed("{power_at_hook} / {efficiency}", "hp", power_at_hook="hp", efficiency=""),
    metric=printed("{power_at_hook} / {efficiency}", "kW", power_at_hook="kW", efficiency=""),
    holds={"power_at_hook": (20, 5_000, "hp"), "efficiency": (0.5, 1, "")},
    source=TEXTBOOK,
)
def drawworks_power(power_at_hook: Power, efficiency: Ratio) -> Power:
    """Power that the drum must put into the fast line for a power at the hook.

    Takes a power and a ratio; gives a power. Holds for hoisting. Leaves out losses before the drum.
    Source: Bourgoyne et al. (1986).
    """
    return power_at_hook / efficiency


@registered(
    symbols="v Ph W",
    us=printed("33,000 × {power_at_hook} / {hook_load}", "ft/min", power_at_hook="hp", hook_load="lbf"),
    metric=printed("{power_at_hook} / {hook_load}", "m/s", power_at_hook="kW", hook_load="kN"),
    holds={"power_at_hook": (20, 5_000, "hp"), "hook_load": (10_000, 2_500_000, "lbf")},
    source=TEXTBOOK,
)
def block_speed_at_power(power_at_hook: Power, hook_load: Load) -> Speed:
    """Greatest steady speed of the block with a power at the hook.

    Takes a power and a load; gives a speed. Holds for hoisting, and for lowering with the power that a brake takes.
    Leaves out gears, which may not allow that speed, and brakes that are hot, wet or worn, which hold less.
    Source: Bourgoyne et al. (1986).
    """
    return power_at_hook / hook_load
