"""Rig arithmetic by subject. `formula("drop_energy")` is the one of that name; `all_formulas()` is every one."""

from collections.abc import Mapping
from types import MappingProxyType

from question_bank.formulas import (  # noqa: F401  importing a file registers its formulas
    bearings,
    brakes,
    connections,
    drilling_line,
    dropped_objects,
    drum,
    hoisting,
    hoisting_speed,
    hole_fill,
    pipe_body,
    pipe_tally,
    ratings,
    rotating,
    strings,
    structures,
    wind_and_guys,
    wire_rope,
    working_at_height,
)
from question_bank.formulas.formula import FORMULAS, Formula


def formula(name: str) -> Formula:
    """The formula of that name. Raises KeyError."""
    return FORMULAS[name]


def all_formulas() -> Mapping[str, Formula]:
    """Every registered formula by name."""
    return MappingProxyType(FORMULAS)
