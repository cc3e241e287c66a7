"""Block, tackle and hook: sheave friction, and the pull in fast line and dead line.

`lines` are those strung to the travelling block; fast line and dead line are extra. The hook load is all that the lines
carry: string in mud and travelling equipment.
"""

from question_bank.equations import printed
from question_bank.formulas.formula import Count, Load, Ratio, registered

SHEAVES = "API RP 9B, as quoted by the Well Engineers Notebook (2001); Wire Rope Users Manual, 4th ed., p. 88"


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

    Takes a load, a count and a ratio; gives a load. Holds in that model only: the textbook model keeps the even share,
    and this is 13 % below it on 8 lines. Leaves out dry sheaves. Source: Well Engineers Notebook (2001).
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
