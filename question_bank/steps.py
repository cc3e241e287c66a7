"""An expression of our own files: rebuilt node by node from a white list, dimension-checked once, compiled to floats.

White list: names, numbers, + - * /, a minus sign, power by a whole literal up to 4, calls of registered formulas by
position. Nothing else of Python is let through, and only the rebuilt tree is compiled.
"""

import ast
import dataclasses
import functools
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from question_bank.units import Dimension

MOST_NODES = 200
MOST_DEPTH = 12
LONGEST = 2_000
HIGHEST_POWER = 4
PURE: Dimension = (0.0, 0.0, 0.0)
OPERATORS = {ast.Add: "+", ast.Sub: "−", ast.Mult: "×", ast.Div: "/", ast.Pow: "^"}


class ExpressionError(ValueError):
    """An expression that is refused. The message says which part and why."""


@dataclass(frozen=True)
class Rule:
    """What an expression may call: the function on base-unit floats and the dimensions it takes and gives."""

    function: Callable[..., float]
    takes: tuple[Dimension, ...]
    gives: Dimension


@dataclass(frozen=True)
class Expression:
    """A checked expression. `evaluate` takes the values of its names, in base units."""

    text: str
    tree: ast.expr
    dimension: Dimension
    names: frozenset[str]
    code: object
    calls: Mapping[str, Callable[..., float]]
    constants: Mapping[str, float]

    def with_constants(self, constants: Mapping[str, float]) -> "Expression":
        """The same expression with some of its names fixed."""
        return dataclasses.replace(self, constants=dict(constants))

    @functools.cached_property
    def scope(self) -> dict[str, object]:
        """All that the code can reach besides the values it is given."""
        return {"__builtins__": {}, **self.calls, **self.constants}

    def evaluate(self, values: Mapping[str, float]) -> float:
        """The value in base units. Raises ExpressionError where the arithmetic has no answer."""
        try:
            return float(eval(self.code, self.scope, values))
        except (ZeroDivisionError, OverflowError, ValueError, TypeError) as error:
            raise ExpressionError(f"“{self.text}” has no answer for these numbers: {error}.") from None


def compile_expression(
    text: str,
    names: Mapping[str, Dimension],
    callables: Mapping[str, Rule],
    literals: bool = False,
) -> Expression:
    """Check and compile. `literals` allows plain numbers (known wrong ways need them, steps never do).

    Raises ExpressionError naming the part that is refused.
    """
    builder = _Builder(names, callables, literals)
    tree = builder.rebuild(_parse(text))
    dimension = builder.dimension(tree)
    code = compile(ast.fix_missing_locations(ast.Expression(tree)), "<expression>", "eval")
    calls = {name: callables[name].function for name in builder.called}
    return Expression(text, tree, dimension, frozenset(builder.named), code, calls, {})


def _parse(text: str) -> ast.expr:
    if len(text) > LONGEST:
        raise ExpressionError(f"The expression is {len(text)} signs long. It may have {LONGEST}.")
    try:
        tree = ast.parse(text.strip(), mode="eval").body
    except (SyntaxError, ValueError, MemoryError, RecursionError):
        raise ExpressionError(f"“{_short(text)}” can't be read as an expression.") from None
    nodes = sum(isinstance(node, ast.expr) for node in ast.walk(tree))
    if nodes > MOST_NODES:
        raise ExpressionError(f"The expression has {nodes} parts. It may have {MOST_NODES}.")
    return tree


class _Builder:
    """Rebuilds one tree and works out its dimension."""

    def __init__(self, names: Mapping[str, Dimension], callables: Mapping[str, Rule], literals: bool):
        self.names = names
        self.callables = callables
        self.literals = literals
        self.named: set[str] = set()
        self.called: set[str] = set()

    def rebuild(self, node: ast.expr, depth: int = 1) -> ast.expr:
        if depth > MOST_DEPTH:
            raise ExpressionError(f"The expression is nested more than {MOST_DEPTH} deep.")
        match node:
            case ast.Name(id=name):
                return self._name(name)
            case ast.Constant(value=value) if self.literals and _is_number(value):
                return ast.Constant(self._float(value))
            case ast.Constant(value=value) if _is_number(value):
                raise ExpressionError(f"The bare number {value} is refused. Give it a name among the givens.")
            case ast.UnaryOp(op=ast.USub(), operand=operand):
                return ast.UnaryOp(ast.USub(), self.rebuild(operand, depth + 1))
            case ast.BinOp(left=left, op=ast.Pow(), right=ast.Constant(value=power)):
                return self._power(left, power, depth)
            case ast.BinOp(left=left, op=ast.Add() | ast.Sub() | ast.Mult() | ast.Div() as op, right=right):
                return ast.BinOp(self.rebuild(left, depth + 1), type(op)(), self.rebuild(right, depth + 1))
            case ast.Call(func=ast.Name(id=name), args=args, keywords=[]):
                return self._call(name, args, depth)
        raise ExpressionError(f"“{_short(ast.unparse(node))}” is not allowed in an expression.")

    def _float(self, value: float) -> float:
        try:
            return float(value)
        except OverflowError:
            raise ExpressionError("The expression holds a number that is too large.") from None

    def _name(self, name: str) -> ast.expr:
        if name not in self.names:
            raise ExpressionError(f"{name!r} is no given, earlier step or unit.")
        self.named.add(name)
        return ast.Name(name, ast.Load())

    def _power(self, left: ast.expr, power: object, depth: int) -> ast.expr:
        if type(power) is not int or not 1 <= power <= HIGHEST_POWER:
            raise ExpressionError(
                f"The power {power!r} is refused. Powers are whole numbers from 1 to {HIGHEST_POWER}."
            )
        return ast.BinOp(self.rebuild(left, depth + 1), ast.Pow(), ast.Constant(power))

    def _call(self, name: str, args: list[ast.expr], depth: int) -> ast.expr:
        if name not in self.callables:
            raise ExpressionError(f"There is no formula {name!r}.")
        wanted = len(self.callables[name].takes)
        if len(args) != wanted:
            raise ExpressionError(f"The formula {name!r} takes {wanted} values and was given {len(args)}.")
        self.called.add(name)
        return ast.Call(ast.Name(name, ast.Load()), [self.rebuild(each, depth + 1) for each in args], [])

    def dimension(self, node: ast.expr) -> Dimension:
        match node:
            case ast.Name(id=name):
                return self.names[name]
            case ast.Constant():
                return PURE
            case ast.UnaryOp(operand=operand):
                return self.dimension(operand)
            case ast.BinOp(left=left, op=ast.Pow(), right=ast.Constant(value=power)):
                return _scaled(self.dimension(left), power)
            case ast.BinOp(left=left, op=ast.Add() | ast.Sub(), right=right):
                return self._alike(left, right)
            case ast.BinOp(left=left, op=op, right=right):
                sign = 1 if isinstance(op, ast.Mult) else -1
                return _joined(self.dimension(left), self.dimension(right), sign)
            case ast.Call(func=ast.Name(id=name), args=args):
                return self._of_call(name, args)
        raise ExpressionError(f"“{_short(ast.unparse(node))}” has no dimension.")

    def _alike(self, left: ast.expr, right: ast.expr) -> Dimension:
        first, second = self.dimension(left), self.dimension(right)
        if first != second:
            raise ExpressionError(
                f"“{ast.unparse(left)}” ({in_words(first)}) and “{ast.unparse(right)}” ({in_words(second)}) "
                "differ in dimension and can't be added or taken away."
            )
        return first

    def _of_call(self, name: str, args: list[ast.expr]) -> Dimension:
        for place, (arg, wanted) in enumerate(zip(args, self.callables[name].takes, strict=True), start=1):
            given = self.dimension(arg)
            if given != wanted:
                raise ExpressionError(
                    f"The formula {name!r} takes {in_words(wanted)} in place {place}; "
                    f"“{ast.unparse(arg)}” is {in_words(given)}."
                )
        return self.callables[name].gives


def in_words(dimension: Dimension) -> str:
    """A dimension for an error message: 'mass^1 length^1 time^-2', or 'a plain number'."""
    parts = [f"{name}^{power:g}" for name, power in zip(("mass", "length", "time"), dimension, strict=True) if power]
    return " ".join(parts) or "a plain number"


def _is_number(value: object) -> bool:
    return type(value) in (int, float)


def _scaled(dimension: Dimension, power: int) -> Dimension:
    return tuple(each * power for each in dimension)


def _joined(first: Dimension, second: Dimension, sign: int) -> Dimension:
    return tuple(one + sign * other for one, other in zip(first, second, strict=True))


def _short(text: str) -> str:
    return text if len(text) <= 60 else text[:57] + "…"
