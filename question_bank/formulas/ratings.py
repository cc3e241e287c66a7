"""What hangs where: weights and what a rating leaves over."""

from question_bank.equations import printed
from question_bank.formulas.formula import Load, Mass, registered
from question_bank.formulas.gravity import STANDARD_GRAVITY


@registered(
    symbols="W m",
    us=printed("{mass}", "lbf", mass="lb"),
    metric=printed("{mass} × 9.80665 / 1,000", "kN", mass="kg"),
    holds={"mass": (0.1, 1_000_000, "kg")},
    source="Newton's second law with standard gravity 9.80665 m/s2 (NIST SP 811, B.8)",
)
def weight_of(mass: Mass) -> Load:
    """Weight of a mass at standard gravity. One pound of mass weighs one pound-force."""
    return mass * STANDARD_GRAVITY


@registered(
    symbols="S W B",
    us=printed("{hook_load} − {travelling_weight}", "klbf", hook_load="klbf", travelling_weight="klbf"),
    metric=printed("{hook_load} − {travelling_weight}", "kN", hook_load="kN", travelling_weight="kN"),
    holds={"hook_load": (50, 1_500, "klbf"), "travelling_weight": (5, 100, "klbf")},
    source="statics; hook load counts block, hook or top drive, links and elevator (common practice, no source)",
)
def string_under_block(hook_load: Load, travelling_weight: Load) -> Load:
    """What hangs in the elevator when the lines carry `hook_load`: the travelling equipment taken off."""
    return hook_load - travelling_weight
