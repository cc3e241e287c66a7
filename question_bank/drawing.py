"""The draw of a numeric item, compiled: picks, steps, known wrong ways and whether they stand apart, as one function.

It is put together from the checked trees of the item's expressions and from the tables of what its givens can be; no
text is read. It is compiled at the first draw of an item in a system, and kept.
"""

import ast
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from itertools import combinations
from textwrap import indent
from typing import Any

from question_bank.givens import Drawn, Given
from question_bank.picking import Picker
from question_bank.steps import Expression, ExpressionError
from question_bank.tolerance import FROM_EACH_OTHER, FROM_KEY, Tolerance
from question_bank.units import Unit

HALF_A_COUNT = 0.5
"""What keeps the slips of an exact item apart, in its unit."""


@dataclass(frozen=True)
class Numbers:
    """The numbers of one draw, in base units: givens and steps by name, and where each known wrong way leads."""

    givens: Mapping[str, Drawn]
    values: Mapping[str, float]
    slips: Mapping[str, float]


@dataclass(frozen=True)
class Width:
    """A tolerance in base units, or as a share of the value."""

    amount: float
    is_share: bool


def width_of(tolerance: Tolerance, unit: Unit, system: str) -> Width:
    """The width that slips are kept apart by."""
    if tolerance.is_share:
        return Width(tolerance.half_width(1.0, unit, system), True)
    return Width((tolerance.half_width(0.0, unit, system) or HALF_A_COUNT) * unit.factor, False)


class Drawing:
    """How an item is drawn in one system while the givens named in `fixed` are decided elsewhere."""

    def __init__(
        self,
        givens: Mapping[str, Given],
        steps: Mapping[str, Expression],
        slips: Mapping[str, Expression],
        width: Width,
        system: str,
        fixed: frozenset[str] = frozenset(),
    ):
        self.choices = {name: () if name in fixed else each.choices(system) for name, each in givens.items()}
        self.steps, self.slips = tuple(steps), tuple(slips)
        self.function = _compiled(givens, self.choices, steps, list(slips.values()), width)

    def numbers(self, picker: Picker, fixed: Mapping[str, Drawn]) -> Numbers | None:
        """One pick and what follows from it; None where its known wrong ways do not stand apart.

        Raises ExpressionError where the arithmetic has no answer.
        """
        try:
            places, values, slips, apart = self.function(picker.part, {name: each.base for name, each in fixed.items()})
        except (ZeroDivisionError, OverflowError, ValueError) as error:
            raise ExpressionError(f"These numbers have no answer: {error}.") from None
        if not apart:
            return None
        drawn = {
            name: choices[place] if choices else fixed[name]
            for (name, choices), place in zip(self.choices.items(), places, strict=True)
        }
        found = {name: each.base for name, each in drawn.items()}
        return Numbers(
            drawn, found | dict(zip(self.steps, values, strict=True)), dict(zip(self.slips, slips, strict=True))
        )


def _compiled(
    givens: Mapping[str, Given],
    choices: Mapping[str, tuple[Drawn, ...]],
    steps: Mapping[str, Expression],
    slips: list[Expression],
    width: Width,
) -> Callable[[Callable[[], float], Mapping[str, float]], tuple]:
    """The function (part, fixed) -> (places, steps, slips, apart). Names of ours begin with _; an item's never do."""
    scope: dict[str, Any] = {"__builtins__": {}, "_int": int, "_abs": abs}
    for each in (*steps.values(), *slips):
        scope |= {**each.calls, **each.constants}
    scope |= {f"_base_of_{name}": tuple(each.base for each in rows) for name, rows in choices.items()}
    key, wrong = list(steps)[-1], [f"_slip_{at}" for at in range(len(slips))]
    function = ast.parse("def _draw(_part, _fixed): pass").body[0]
    function.body = [
        *(line for name in givens for line in _picked(name, givens[name], len(choices[name]))),
        *(_assigned(name, each.tree) for name, each in steps.items()),
        *(_assigned(name, each.tree) for name, each in zip(wrong, slips, strict=True)),
        *_read(f"_width = {width.amount!r}" + (f" * _abs({key})" if width.is_share else "")),
        *_read(f"_apart = {_apart(key, wrong, width)}"),
        *_read(f"return {_row(f'_at_{name}' for name in givens)}, {_row(steps)}, {_row(wrong)}, _apart"),
    ]
    exec(compile(ast.fix_missing_locations(ast.Module([function], [])), "<draw>", "exec"), scope)
    return scope["_draw"]


def _picked(name: str, given: Given, count: int) -> list[ast.stmt]:
    """A given's place among its choices, and its value; the place is of no use where it was decided elsewhere."""
    if not count:
        return _read(f"_at_{name} = 0\n{name} = _fixed[{name!r}]")
    place = f"_at_{given.by}" if given.by else f"_int(_part() * {count})"
    return _read(f"_at_{name} = {place}\n{name} = _base_of_{name}[_at_{name}]")


def _apart(key: str, wrong: list[str], width: Width) -> str:
    """The condition that each slip lies well away from the answer, and from each other one.

    An answer is held to be a slip within that slip's own width, so two slips far above the answer need more room.
    """
    from_key = [f"_abs({one} - {key}) >= {FROM_KEY} * _width" for one in wrong]
    pairs = list(combinations(wrong, 2))
    from_others = [f"_abs({one} - {other}) >= {FROM_EACH_OTHER} * _width" for one, other in pairs]
    own = [f"_abs({one} - {other}) > {width.amount!r} * (_abs({one}) + _abs({other}))" for one, other in pairs]
    return " and ".join((*from_key, *from_others, *(own if width.is_share else ()))) or "True"


def _assigned(name: str, tree: ast.expr) -> ast.stmt:
    return ast.Assign([ast.Name(name, ast.Store())], tree)


def _read(text: str) -> list[ast.stmt]:
    """Lines of ours as they stand in a function."""
    return ast.parse(f"def _():\n{indent(text, ' ')}").body[0].body


def _row(names: Iterable[str]) -> str:
    return f"({''.join(f'{name}, ' for name in names)})"
