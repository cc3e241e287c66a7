"""What two numbers of a rig sheet say together: what can't be, what is doubtful, and what is only worth knowing.

Each rule needs all of its numbers; a sheet with gaps is held against fewer rules. Values are in base units.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from question_bank.units import unit

STRENGTH_OF_SIZE = (75_000.0, 135_000.0)
"""Strength in lbf over the square of the diameter in inches. Tables of 6×19 rope with a steel core run from near 89,000
(improved plow steel) to 114,000 (the strongest grade): API RP 9B for 1⅜ in, other sizes from memory of tables."""
BARREL_OVER_LINE = (14.0, 40.0)
"""Barrel diameters that drums have, in line diameters. Common practice, no source."""
LEAST_AT_REST = 3.0
"""Strength of the line over its share of the hook load at rest. API RP 9B keeps 3 or more when hoisting, where the
share is larger still."""
HAIR = 1 - 1e-9
"""250 st and 500 klbf are one load; in floats they may differ by a hair."""
READ_AGAIN = "Read both again, and their units. If both are right, stop and tell your driller."


@dataclass(frozen=True)
class Finding:
    """What is told beside a field: kind is 'problem', 'doubt' or 'remark'."""

    field: str
    kind: str
    says: str


@dataclass(frozen=True)
class Rule:
    """`holds` takes the numbers of `takes` in their order; where it gives False, the finding is made."""

    field: str
    kind: str
    takes: tuple[str, ...]
    holds: Callable[..., bool]
    says: str


def _strength_fits(strength: float, size: float) -> bool:
    low, high = STRENGTH_OF_SIZE
    return low <= strength / unit("lbf").factor / (size / unit("in").factor) ** 2 <= high


def _barrel_fits(barrel: float, size: float) -> bool:
    return BARREL_OVER_LINE[0] <= barrel / size <= BARREL_OVER_LINE[1]


RULES = (
    Rule(
        "hook_load", "problem", ("hook_load", "travelling_weight"), lambda hook, gear: hook > gear,
        "The indicator shows {hook_load}, and the travelling equipment alone weighs {travelling_weight}. With a string "
        "on it the hook load is more. Read both again.",
    ),
    Rule(
        "hook_load", "problem", ("hook_load", "mast_rating"), lambda hook, mast: hook <= mast,
        "A hook load of {hook_load} is more than the {mast_rating} on the mast plate. " + READ_AGAIN,
    ),
    Rule(
        "travelling_weight", "problem", ("travelling_weight", "mast_rating"), lambda gear, mast: gear < mast,
        "The travelling equipment weighs {travelling_weight}; the mast plate allows {mast_rating}. " + READ_AGAIN,
    ),
    Rule(
        "tool_rating", "problem", ("tool_rating", "hook_load", "travelling_weight"),
        lambda tool, hook, gear: hook - gear <= tool,
        "A hook load of {hook_load}, less {travelling_weight} of travelling equipment, is more than the {tool_rating} "
        "of the elevator. " + READ_AGAIN,
    ),
    Rule(
        "links_rating", "problem", ("links_rating", "hook_load", "travelling_weight"),
        lambda links, hook, gear: hook - gear <= links,
        "A hook load of {hook_load}, less {travelling_weight} of travelling equipment, is more than the {links_rating} "
        "of the links. " + READ_AGAIN,
    ),
    Rule(
        "stand_length", "problem", ("stand_length", "clear_height"), lambda stand, clear: stand < clear,
        "A stand of {stand_length} has no room under a clear height of {clear_height}. Read both again.",
    ),
    Rule(
        "combined_rating", "doubt", ("combined_rating", "setback_rating"), lambda both, setback: both >= setback,
        "Rotary load and setback together, {combined_rating}, are less than the setback alone, {setback_rating}. "
        "Is it right? Read both again.",
    ),
    Rule(
        "line_strength", "doubt", ("line_strength", "line_size"), _strength_fits,
        "{line_strength} is far from what a line of {line_size} usually holds. Is it right? Read the certificate and "
        "its unit again.",
    ),
    Rule(
        "drum_diameter", "doubt", ("drum_diameter", "line_size"), _barrel_fits,
        "A barrel of {drum_diameter} is unusual for a line of {line_size}. Is it right? Measure the bare barrel, not "
        "the layers.",
    ),
    Rule(
        "hook_load", "doubt", ("hook_load", "line_strength", "lines_strung"),
        lambda hook, strength, lines: strength * lines >= LEAST_AT_REST * hook,
        "With {hook_load} on {lines_strung} lines of {line_strength} each, the line’s factor is under 3 even at rest. "
        "Is it right? " + READ_AGAIN,
    ),
    Rule(
        "mast_rating", "remark", ("mast_rating", "tool_rating"), lambda mast, tool: mast >= tool * HAIR,
        "The elevator is rated {tool_rating}, more than the mast’s {mast_rating}. That can be: then the mast decides.",
    ),
    Rule(
        "links_rating", "remark", ("links_rating", "tool_rating"), lambda links, tool: links >= tool * HAIR,
        "The links are rated {links_rating}, less than the elevator’s {tool_rating}. That can be: then they decide.",
    ),
)  # fmt: skip


def across(bases: Mapping[str, float], shown: Mapping[str, str]) -> list[Finding]:
    """What the rules say of these numbers: in base units, and as they are shown in a sentence."""
    return [
        Finding(rule.field, rule.kind, rule.says.format(**{name: shown[name] for name in rule.takes}))
        for rule in RULES
        if all(name in bases for name in rule.takes) and not rule.holds(*(bases[name] for name in rule.takes))
    ]
