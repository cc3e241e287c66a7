"""Rig arithmetic by subject. `formula("drop_energy")` is the one of that name; `all_formulas()` is every one."""

from collections.abc import Mapping
from types import MappingProxyType

from question_bank.formulas import dropped_objects, ratings  # noqa: F401  importing a file registers its formulas
from question_bank.formulas.formula import FORMULAS, Formula


def formula(name: str) -> Formula:
    """The formula of that name. Raises KeyError."""
    return FORMULAS[name]


def all_formulas() -> Mapping[str, Formula]:
    """Every registered formula by name."""
    return MappingProxyType(FORMULAS)
