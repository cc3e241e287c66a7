"""Mast and derrick: what the lines put on the crown and the legs, old ratings, clearance at the crown.

The maker's plate and load diagram decide; these sums never stand in for them.
"""

from question_bank.equations import printed
from question_bank.formulas.formula import Count, Length, Load, Ratio, registered

DERRICK = "Bourgoyne et al. (1986), as given on public pages and university slides"


@registered(
    symbols="F W n",
    us=printed("{hook_load} × ({lines} + 2) / {lines}", "lbf", hook_load="lbf", lines=""),
    metric=printed("{hook_load} × ({lines} + 2) / {lines}", "kN", hook_load="kN", lines=""),
    holds={"hook_load": (10_000, 2_500_000, "lbf"), "lines": (2, 16, "")},
    source=DERRICK,
)
def derrick_load_static(hook_load: Load, lines: Count) -> Load:
    """What the crown carries while the hook load hangs still: fast line and dead line pull down too.

    Takes a load and a count; gives a load. Holds for hanging still. Leaves out the crown block's own weight, wind and
    racked pipe. Source: Bourgoyne et al. (1986).
    """
    return hook_load * (lines + 2) / lines


@registered(
    symbols="F W n E",
    us=printed(
        "{hook_load} × (1 + 1 / ({lines} × {efficiency}) + 1 / {lines})",
        "lbf", hook_load="lbf", lines="", efficiency="",
    ),
    metric=printed(
        "{hook_load} × (1 + 1 / ({lines} × {efficiency}) + 1 / {lines})",
        "kN", hook_load="kN", lines="", efficiency="",
    ),
    holds={"hook_load": (10_000, 2_500_000, "lbf"), "lines": (2, 16, ""), "efficiency": (0.5, 1, "")},
    source=DERRICK,
)  # fmt: skip
def derrick_load_hoisting(hook_load: Load, lines: Count, efficiency: Ratio) -> Load:
    """What the crown carries while the block goes up: hook load, fast line and dead line.

    Takes a load, a count and a ratio; gives a load. Holds in the textbook model, in which the dead line keeps its even
    share; the sheave-factor model gives 1.3 % less on 8 lines. Leaves out crown weight, wind and racked pipe.
    Source: Bourgoyne et al. (1986).
    """
    return hook_load * (1 + 1 / (lines * efficiency) + 1 / lines)


@registered(
    symbols="Fe W n",
    us=printed("{hook_load} × ({lines} + 4) / {lines}", "lbf", hook_load="lbf", lines=""),
    metric=printed("{hook_load} × ({lines} + 4) / {lines}", "kN", hook_load="kN", lines=""),
    holds={"hook_load": (10_000, 2_500_000, "lbf"), "lines": (2, 16, "")},
    source=DERRICK,
)
def equivalent_derrick_load(hook_load: Load, lines: Count) -> Load:
    """Four times the load on the heaviest leg.

    Takes a load and a count; gives a load. Holds for four legs, the dead line at one of them, the fast line between
    two others, hanging still. Leaves out crown weight and wind. Source: Bourgoyne et al. (1986).
    """
    return hook_load * (lines + 4) / lines


@registered(
    symbols="e F Fe",
    us=printed("{actual_load} / {equivalent_load}", "", actual_load="lbf", equivalent_load="lbf"),
    metric=printed("{actual_load} / {equivalent_load}", "", actual_load="kN", equivalent_load="kN"),
    holds={"actual_load": (10_000, 3_000_000, "lbf"), "equivalent_load": (10_000, 3_000_000, "lbf")},
    source=DERRICK,
)
def derrick_efficiency(actual_load: Load, equivalent_load: Load) -> Ratio:
    """How evenly the legs share the load: 1 would be all alike.

    Takes two loads; gives a ratio. Holds for the model that both loads come from. Leaves out wind.
    Source: Bourgoyne et al. (1986).
    """
    return actual_load / equivalent_load


@registered(
    symbols="G W n",
    us=printed("{hook_rating} × ({lines} + 4) / {lines}", "lbf", hook_rating="lbf", lines=""),
    metric=printed("{hook_rating} × ({lines} + 4) / {lines}", "kN", hook_rating="kN", lines=""),
    holds={"hook_rating": (50_000, 2_500_000, "lbf"), "lines": (4, 16, "")},
    source="gross nominal capacity of older mast handbooks, not seen in the original",
)
def gross_nominal_capacity(hook_rating: Load, lines: Count) -> Load:
    """Rating of an old mast said without its lines.

    Takes a load and a count; gives a load. Holds for the arithmetic of old plates only. Leaves out all that a plate of
    today states: a static hook load for a named number of lines. Source: older mast handbooks.
    """
    return hook_rating * (lines + 4) / lines


@registered(
    symbols="W G n",
    us=printed("{gross_capacity} × {lines} / ({lines} + 4)", "lbf", gross_capacity="lbf", lines=""),
    metric=printed("{gross_capacity} × {lines} / ({lines} + 4)", "kN", gross_capacity="kN", lines=""),
    holds={"gross_capacity": (50_000, 3_500_000, "lbf"), "lines": (4, 16, "")},
    source="gross nominal capacity of older mast handbooks, not seen in the original",
)
def hook_load_from_gross(gross_capacity: Load, lines: Count) -> Load:
    """Hook load of an old mast on a number of lines: fewer lines, less hook load.

    Takes a load and a count; gives a load. Holds to show which way it goes. Leaves out the maker's load diagram, which
    alone is valid for a real mast. Source: older mast handbooks.
    """
    return gross_capacity * lines / (lines + 4)


@registered(
    symbols="Fs W n",
    us=printed("{hook_load} / {lines}", "lbf", hook_load="lbf", lines=""),
    metric=printed("{hook_load} / {lines}", "kN", hook_load="kN", lines=""),
    holds={"hook_load": (10_000, 2_500_000, "lbf"), "lines": (2, 16, "")},
    source="Lyons, Standard Handbook, vol. 1, terms of Eq. 4-1",
)
def extra_leg_load(hook_load: Load, lines: Count) -> Load:
    """What the dead line adds to the leg that it is tied down at. Between two legs each takes half.

    Takes a load and a count; gives a load. Holds for hanging still. Leaves out wind. Source: Lyons, Standard Handbook.
    """
    return hook_load / lines


@registered(
    symbols="F W C H Fs",
    us=printed(
        "1.5 × ({hook_load} + {crown_weight} + {hung_tools} + 4 × {leg_load})",
        "lbf", hook_load="lbf", crown_weight="lbf", hung_tools="lbf", leg_load="lbf",
    ),
    metric=printed(
        "1.5 × ({hook_load} + {crown_weight} + {hung_tools} + 4 × {leg_load})",
        "kN", hook_load="kN", crown_weight="kN", hung_tools="kN", leg_load="kN",
    ),
    holds={
        "hook_load": (50_000, 1_500_000, "lbf"), "crown_weight": (1_000, 40_000, "lbf"),
        "hung_tools": (0, 40_000, "lbf"), "leg_load": (5_000, 300_000, "lbf"),
    },
    source="Lyons, Standard Handbook, vol. 1, Eq. 4-1, for old API Std 4A derricks",
)  # fmt: skip
def derrick_rule_load(hook_load: Load, crown_weight: Load, hung_tools: Load, leg_load: Load) -> Load:
    """Load that an old rule asks a derrick to stand, with half as much again for impact.

    Takes four loads (the last is what `extra_leg_load` gives); gives a load. Holds as history: structures of today
    follow API Spec 4F. Leaves out wind and racked pipe. Source: Lyons, Standard Handbook.
    """
    return 1.5 * (hook_load + crown_weight + hung_tools + 4 * leg_load)


@registered(
    symbols="c H u s l b",
    us=printed(
        "{clear_height} − ({stick_up} + {stand_length} + {links_and_elevator} + {block_and_drive})",
        "ft", clear_height="ft", stick_up="ft", stand_length="ft", links_and_elevator="ft", block_and_drive="ft",
    ),
    metric=printed(
        "{clear_height} − ({stick_up} + {stand_length} + {links_and_elevator} + {block_and_drive})",
        "m", clear_height="m", stick_up="m", stand_length="m", links_and_elevator="m", block_and_drive="m",
    ),
    holds={
        "clear_height": (87, 200, "ft"), "stick_up": (1, 6, "ft"), "stand_length": (27, 135, "ft"),
        "links_and_elevator": (4, 20, "ft"), "block_and_drive": (5, 40, "ft"),
    },
    source="geometry (derived here); clear height as API Spec 4F means it",
)  # fmt: skip
def crown_clearance(
    clear_height: Length, stick_up: Length, stand_length: Length, links_and_elevator: Length, block_and_drive: Length
) -> Length:
    """What is left between block and crown with a stand hanging over its stick-up.

    Takes five lengths; gives a length. Holds for a block at rest. Leaves out how far it runs on while it stops.
    Source: derived here.
    """
    return clear_height - (stick_up + stand_length + links_and_elevator + block_and_drive)
