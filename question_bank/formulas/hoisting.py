"""Block, tackle and hook: sheave friction, fast line and dead line, block and line speed, hook power.

`lines` are those strung to the travelling block; fast line and dead line are extra. The hook load is all that the lines
carry: string in mud and travelling equipment.
"""

from question_bank.equations import printed
from question_bank.formulas.formula import Count, Length, Load, Power, Ratio, Speed, Time, registered

TEXTBOOK = "Bourgoyne et al. (1986), as given in public worked copies"
SHEAVES = "API RP 9B, as quoted by the Well Engineers Notebook (2001); Wire Rope Users Manual, 4th ed., p. 88"
RIGID = "a line that does not stretch (derived here)"


@registered(
    symbols="E n K",
    us=printed(
        "({sheave_factor}^{lines} − 1) / ({lines} × {sheave_factor}^{lines} × ({sheave_factor} − 1))",
        "", lines="", sheave_factor="",
    ),
    metric=printed(
        "({sheave_factor}^{lines} − 1) / ({lines} × {sheave_factor}^{lines} × ({sheave_factor} − 1))",
        "", lines="", sheave_factor="",
    ),
    holds={"lines": (2, 16, ""), "sheave_factor": (1.01, 1.1, "")},
    source=SHEAVES,
)  # fmt: skip
def tackle_efficiency(lines: Count, sheave_factor: Ratio) -> Ratio:
    """Share of the fast line's work that reaches the hook when the block goes up.

    Takes a count and a ratio (1.04 a roller-bearing sheave, 1.09 a plain one); gives a ratio. Holds for the model in
    which each sheave adds that factor. Leaves out dry sheaves; the textbook table is 1.5 % lower at 12 lines.
    Source: API RP 9B.
    """
    if sheave_factor == 1:
        return 1.0
    return (sheave_factor**lines - 1) / (lines * sheave_factor**lines * (sheave_factor - 1))


@registered(
    symbols="f n K",
    us=printed(
        "{sheave_factor}^{lines} × ({sheave_factor} − 1) / ({sheave_factor}^{lines} − 1)",
        "", lines="", sheave_factor="",
    ),
    metric=printed(
        "{sheave_factor}^{lines} × ({sheave_factor} − 1) / ({sheave_factor}^{lines} − 1)",
        "", lines="", sheave_factor="",
    ),
    holds={"lines": (2, 16, ""), "sheave_factor": (1.01, 1.1, "")},
    source=SHEAVES,
)  # fmt: skip
def fast_line_factor(lines: Count, sheave_factor: Ratio) -> Ratio:
    """Share of the hook load that pulls in the fast line when the block goes up: 1 / (lines × efficiency).

    Takes a count and a ratio (1.04 a roller-bearing sheave, 1.09 a plain one); gives a ratio. Holds at steady speed.
    Leaves out dry sheaves and starting. Source: API RP 9B.
    """
    return 1 / (lines * tackle_efficiency(lines, sheave_factor))


@registered(
    symbols="F f K s",
    us=printed("{pull} × {sheave_factor}^{extra_sheaves}", "lbf", pull="lbf", sheave_factor="", extra_sheaves=""),
    metric=printed("{pull} × {sheave_factor}^{extra_sheaves}", "kN", pull="kN", sheave_factor="", extra_sheaves=""),
    holds={"pull": (500, 150_000, "lbf"), "sheave_factor": (1.01, 1.1, ""), "extra_sheaves": (0, 4, "")},
    source=SHEAVES,
)
def pull_past_lead_sheaves(pull: Load, sheave_factor: Ratio, extra_sheaves: Count) -> Load:
    """Pull that is left to be made behind lead sheaves: each adds its friction.

    Takes a load, a ratio and a count; gives a load. Holds for a line that is being pulled in. Leaves out the angle of
    wrap. Source: Wire Rope Users Manual.
    """
    return pull * sheave_factor**extra_sheaves


@registered(
    symbols="n s",
    us=printed("2 × {travelling_sheaves}", "", travelling_sheaves=""),
    metric=printed("2 × {travelling_sheaves}", "", travelling_sheaves=""),
    holds={"travelling_sheaves": (1, 8, "")},
    source="geometry (derived here); multiplier of the weight indicator on a public rig-instrument page",
)
def lines_strung(travelling_sheaves: Count) -> Count:
    """Lines strung, and the multiplier of the weight indicator: two for each travelling sheave in use.

    Takes a count; gives a count. Holds where the dead line goes to an anchor. Leaves out string-ups that end at the
    travelling block. Source: derived here.
    """
    return 2 * travelling_sheaves


@registered(
    symbols="F W n",
    us=printed("{hook_load} / {lines}", "lbf", hook_load="lbf", lines=""),
    metric=printed("{hook_load} / {lines}", "kN", hook_load="kN", lines=""),
    holds={"hook_load": (10_000, 2_500_000, "lbf"), "lines": (2, 16, "")},
    source="statics (derived here)",
)
def static_line_pull(hook_load: Load, lines: Count) -> Load:
    """Pull in every line, fast line and dead line too, while the hook load hangs still.

    Takes a load and a count; gives a load. Holds for hanging still; the textbook model keeps it for the dead line of a
    block that moves. Leaves out friction. Source: derived here.
    """
    return hook_load / lines


@registered(
    symbols="F W n E",
    us=printed("{hook_load} / ({lines} × {efficiency})", "lbf", hook_load="lbf", lines="", efficiency=""),
    metric=printed("{hook_load} / ({lines} × {efficiency})", "kN", hook_load="kN", lines="", efficiency=""),
    holds={"hook_load": (10_000, 2_500_000, "lbf"), "lines": (2, 16, ""), "efficiency": (0.5, 1, "")},
    source="Bourgoyne et al. (1986), fast-line equation; API RP 9B",
)
def fast_line_pull(hook_load: Load, lines: Count, efficiency: Ratio) -> Load:
    """Pull in the fast line while the block goes up at a steady speed.

    Takes a load, a count and a ratio; gives a load. Holds for hoisting. Leaves out starting and stopping, which add to
    it, and the weight of the line. Source: Bourgoyne et al. (1986); API RP 9B.
    """
    return hook_load / (lines * efficiency)


@registered(
    symbols="F W f",
    us=printed("{hook_load} × {fast_line_share}", "lbf", hook_load="lbf", fast_line_share=""),
    metric=printed("{hook_load} × {fast_line_share}", "kN", hook_load="kN", fast_line_share=""),
    holds={"hook_load": (10_000, 2_500_000, "lbf"), "fast_line_share": (0.06, 0.6, "")},
    source="API RP 9B, Addendum 1 (2020), 2.3.3.4",
)
def fast_line_pull_by_factor(hook_load: Load, fast_line_share: Ratio) -> Load:
    """Pull in the fast line from the fast-line factor of a table.

    Takes a load and a ratio; gives a load. Holds for hoisting on the lines that the factor is for. Leaves out starting
    and stopping. Source: API RP 9B.
    """
    return hook_load * fast_line_share


@registered(
    symbols="D W n K",
    us=printed(
        "{hook_load} × ({sheave_factor} − 1) / ({sheave_factor}^{lines} − 1)",
        "lbf", hook_load="lbf", lines="", sheave_factor="",
    ),
    metric=printed(
        "{hook_load} × ({sheave_factor} − 1) / ({sheave_factor}^{lines} − 1)",
        "kN", hook_load="kN", lines="", sheave_factor="",
    ),
    holds={"hook_load": (10_000, 2_500_000, "lbf"), "lines": (2, 16, ""), "sheave_factor": (1.01, 1.1, "")},
    source=SHEAVES,
)  # fmt: skip
def dead_line_pull_hoisting(hook_load: Load, lines: Count, sheave_factor: Ratio) -> Load:
    """Pull in the dead line while the block goes up, by the sheave-factor model: less than its even share.

    Takes a load, a count and a ratio; gives a load. Holds in that model only: the textbook model keeps an even share,
    13 % more on 8 lines. Leaves out dry sheaves. Neither was checked here against a rig. Source: Well Engineers Notebook.
    """
    if sheave_factor == 1:
        return hook_load / lines
    return hook_load * (sheave_factor - 1) / (sheave_factor**lines - 1)


@registered(
    symbols="W D n",
    us=printed("{dead_line_pull} × {lines}", "lbf", dead_line_pull="lbf", lines=""),
    metric=printed("{dead_line_pull} × {lines}", "kN", dead_line_pull="kN", lines=""),
    holds={"dead_line_pull": (1_000, 200_000, "lbf"), "lines": (2, 16, "")},
    source="statics (derived here)",
)
def indicated_hook_load(dead_line_pull: Load, lines: Count) -> Load:
    """Hook load that a weight indicator shows when it is set for `lines`.

    Takes a load and a count; gives a load. Holds while everything hangs still. Leaves out friction and a sticky anchor,
    which reads low. Source: derived here.
    """
    return dead_line_pull * lines


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
    holds={"hook_load": (10_000, 2_500_000, "lbf"), "block_speed": (5, 500, "ft/min")},
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

    Takes a power and a load; gives a speed. Holds for hoisting. Leaves out gears, which may not allow that speed.
    Source: Bourgoyne et al. (1986).
    """
    return power_at_hook / hook_load
