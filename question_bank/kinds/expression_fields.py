"""Expressions of an item's file: compiled over its givens and steps, held against the dimension that is wanted."""

import ast
from collections.abc import Mapping

from question_bank.formulas.formula import Formula
from question_bank.formulas.gravity import STANDARD_GRAVITY
from question_bank.givens import Given
from question_bank.item_fields import Fields
from question_bank.steps import Expression, ExpressionError, Rule, compile_expression, in_words
from question_bank.units import Dimension, register, unit_constants
from question_bank.working import Step


def read_expressions(
    row: Fields, givens: Mapping[str, Given], steps: tuple[Step, ...], asked: str, formulas: Mapping[str, Formula]
) -> dict[str, Expression]:
    """A row's `formula` by system, plain numbers allowed in it. Raises BankError where it gives another dimension."""
    known = {name: register(given.register).dimension for name, given in givens.items()}
    known |= {step.name: step.expression.dimension for step in steps}
    compiled = {}
    for system, text in row.by_system("formula").items():
        compiled[system] = compiled_from(row, text, known, formulas, literals=True)
        same_dimension(row, compiled[system], asked)
    return compiled


def read_wrong_step(
    row: Fields,
    text: str,
    givens: Mapping[str, Given],
    before: tuple[Step, ...],
    wanted: str,
    formulas: Mapping[str, Formula],
) -> tuple[Expression, Formula | None, tuple[str, ...]]:
    """A wrong step's expression, the formula it calls if it calls one, and that call's terms. Raises BankError.

    It can be printed as a step can. Plain numbers are allowed in it, units are not.
    """
    known = {name: register(given.register).dimension for name, given in givens.items()}
    known |= {step.name: step.expression.dimension for step in before}
    expression = compiled_from(row, text, known, formulas, literals=True)
    if used := expression.names - set(known):
        raise row.fault("formula", f"{', '.join(sorted(used))}: a wrong step uses givens and earlier steps only.")
    same_dimension(row, expression, wanted)
    return expression, *one_call(row, expression, formulas)


def compiled_from(
    row: Fields, text: str, known: Mapping[str, Dimension], formulas: Mapping[str, Formula], literals: bool
) -> Expression:
    """An expression of an item's file over the names that are known and the units. Raises BankError."""
    constants = {name: dimension for name, (_, dimension) in unit_constants().items()}
    names = {**constants, "gravity": register("acceleration").dimension, **known}
    rules: dict[str, Rule] = {name: each.rule() for name, each in formulas.items()}
    try:
        compiled = compile_expression(text, names, rules, literals)
    except ExpressionError as error:
        raise row.fault("formula", str(error)) from None
    used = compiled.names - set(known)
    if used and not literals:
        raise row.fault("formula", f"{', '.join(sorted(used))}: a step uses givens and earlier steps only.")
    values = {name: STANDARD_GRAVITY if name == "gravity" else unit_constants()[name][0] for name in used}
    return compiled.with_constants(values)


def one_call(
    row: Fields, expression: Expression, formulas: Mapping[str, Formula]
) -> tuple[Formula | None, tuple[str, ...]]:
    """The formula that a step calls, and the names it puts in. A step that mixes both is two steps."""
    if not expression.calls:
        return None, ()
    tree = expression.tree
    if not isinstance(tree, ast.Call) or not all(isinstance(arg, ast.Name) for arg in tree.args):
        raise row.fault(
            "formula", "a step calls one formula with plain names, or is plain arithmetic. Make two steps of it."
        )
    return formulas[tree.func.id], tuple(arg.id for arg in tree.args)


def same_dimension(row: Fields, expression: Expression, wanted: str) -> None:
    """Raises BankError where the expression measures something else than that register."""
    if expression.dimension != register(wanted).dimension:
        raise row.fault(
            "formula",
            f"“{expression.text}” gives {in_words(expression.dimension)}, but {register(wanted).title} is wanted "
            f"({in_words(register(wanted).dimension)}).",
        )
