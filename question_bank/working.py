"""The printed working: one line a step, each with its equation, the numbers put in and the result."""

import ast
from collections.abc import Mapping
from dataclasses import dataclass

from question_bank.equations import PLACE, Printed
from question_bank.formulas.formula import Formula
from question_bank.givens import Drawn
from question_bank.numbers import show
from question_bank.steps import OPERATORS, Expression
from question_bank.units import Unit, register

PI_IN_ITEMS = 3.14159
"""How an item's file writes π."""

FIGURES = 6
"""Numbers carried from line to line keep this many figures, so that a hand who copies them stays in the band."""


@dataclass(frozen=True)
class Line:
    """'pull in the fast line' | 'hook load / (lines × efficiency)' | '300,000 lbf / (8 × 0.841)' | '44,590 lbf'."""

    find: str
    equation: str
    put_in: str
    result: str


@dataclass(frozen=True)
class Step:
    """One step of an item. `formula` is set where the step is a call of one; `terms` are then its arguments' names."""

    name: str
    find: str
    expression: Expression
    formula: Formula | None
    terms: tuple[str, ...]
    units: Mapping[str, str]
    register: str

    def unit(self, system: str) -> Unit:
        """The unit that this step's result is shown in."""
        return register(self.register).unit(self.units[system])

    def printed(self, system: str, shown: Mapping[str, Unit]) -> Printed:
        """The equation of this step with the item's own names. `shown` gives each name's unit in the question."""
        if self.formula is None:
            return _plain(self, system, shown)
        own = self.formula.printed(system)
        names = dict(zip(self.formula.takes, self.terms, strict=True))
        text = PLACE.sub(lambda found: f"{{{names[found[1]]}}}", own.text)
        return Printed(text, {names[name]: symbol for name, symbol in own.units.items()}, own.gives)

    @property
    def is_conversion(self) -> bool:
        """Whether the step only says a given in another unit."""
        return isinstance(self.expression.tree, ast.Name)


def _plain(step: Step, system: str, shown: Mapping[str, Unit]) -> Printed:
    """Plain arithmetic: what has the result's own register is put in with the result's unit, the rest as shown."""
    unit, text = step.unit(system), render(step.expression.tree)
    units = {
        name: unit.symbol if shown[name].register == unit.register else shown[name].symbol
        for name in PLACE.findall(text)  # in the order printed: a set's order differs from one start to the next
    }
    return Printed(text, units, unit.symbol)


def render(tree: ast.expr, within: int = 0) -> str:
    """A checked expression as text with {names}: 'hook load / (lines × efficiency)' before the names are filled in.

    An item writes no number of its own, so twice the wall is wall − wall there; it is printed as a hand writes it.
    """
    match tree:
        case ast.Name(id=name):
            return f"{{{name}}}"
        case ast.Constant(value=value):
            return "π" if value == PI_IN_ITEMS else f"{value:g}"
        case ast.UnaryOp(operand=operand):
            return f"−{render(operand, 3)}"
        case ast.BinOp(left=ast.BinOp(left=first, op=before, right=once), op=op, right=again) if (
            isinstance(op, ast.Add | ast.Sub) and type(before) is type(op) and ast.dump(once) == ast.dump(again)
        ):
            twice = ast.BinOp(ast.Constant(2), ast.Mult(), again)
            return render(ast.BinOp(first, op, twice), within)
        case ast.BinOp(left=left, op=op, right=right):
            rank = {ast.Add: 1, ast.Sub: 1, ast.Mult: 2, ast.Div: 2, ast.Pow: 4}[type(op)]
            sign = OPERATORS[type(op)]
            tight = sign == "^"
            text = f"{render(left, rank)}{'' if tight else ' '}{sign}{'' if tight else ' '}{render(right, rank + 1)}"
            return f"({text})" if rank < within else text
    raise ValueError(f"{ast.unparse(tree)} has no printed form.")


def lines(
    steps: tuple[Step, ...],
    givens: Mapping[str, Drawn],
    labels: Mapping[str, str],
    values: Mapping[str, float],
    system: str,
    key_text: str,
    own: Mapping[str, Unit] | None = None,
) -> list[Line]:
    """The working of one draw. `values` are in base units; `key_text` is the answer as printed, with its unit.

    `own` has the units that plain arithmetic is written for, where a hand may have typed others: 5 bar / 5.3 psi is
    no line that a pencil could follow.
    """
    shown = {name: drawn.unit for name, drawn in givens.items()}
    labels = {**labels, **{step.name: step.find for step in steps}}
    found: list[Line] = []
    for step in steps:
        last = step is steps[-1]
        if step.is_conversion:
            found.append(
                _conversion(
                    step.find,
                    _in(step.expression.text, shown, givens, values),
                    step.unit(system),
                    key_text if last else None,
                )
            )
        else:
            equation = step.printed(system, {**shown, **(own or {})})
            worked = _worked(step, equation, shown, givens, labels, values, system, key_text if last else None)
            found += [line for line in worked if line not in found]  # what is converted once is not converted again
        shown[step.name] = step.unit(system)
    return found


def _worked(step, equation, shown, givens, labels, values, system, key_text) -> list[Line]:
    """The line of a step; before it what has to be converted first, and after it what is asked in another unit."""
    before, put_in = [], {}
    for name, symbol in equation.units.items():
        text, own = _in(name, shown, givens, values)
        unit = register(own.register).unit(symbol)
        if own != unit:
            before.append(
                _conversion(
                    f"{labels[name]} {f'in {symbol}' if symbol else 'as a plain number'}", (text, own), unit, None
                )
            )
            text = before[-1].result
        put_in[name] = text
    gives = register(step.register).unit(equation.gives)
    asked = step.unit(system)
    words = equation.filled({name: labels[name] for name in equation.names})
    carried = f"{show(values[step.name] / gives.factor, FIGURES)} {gives.symbol}".strip()
    first = Line(step.find, words, equation.filled(put_in), key_text if key_text and gives == asked else carried)
    if gives == asked:
        return [*before, first]
    return [*before, first, _conversion(f"the same in {asked.symbol}", (carried, gives), asked, key_text)]


def _in(
    name: str, shown: Mapping[str, Unit], givens: Mapping[str, Drawn], values: Mapping[str, float]
) -> tuple[str, Unit]:
    """A value as text in the unit in which it is shown: the drawn text itself where it has that unit."""
    unit = shown[name]
    if name in givens and givens[name].unit == unit:
        return givens[name].text, unit
    return f"{show(values[name] / unit.factor, FIGURES)} {unit.symbol}".strip(), unit


def _conversion(find: str, given: tuple[str, Unit], asked: Unit, key_text: str | None) -> Line:
    text, unit = given
    factor = unit.factor / asked.factor
    back = asked.factor / unit.factor
    by = (
        f"/ {show(back, FIGURES)}"
        if factor < 1 and abs(back - round(back)) < 1e-9 * back
        else f"× {show(factor, FIGURES)}"
    )
    number = float(text.split(" ")[0].replace(",", "").replace("−", "-"))
    result = key_text or f"{show(number * factor, FIGURES)} {asked.symbol}".strip()
    # The factor's unit stands in the equation: '= st × 2 klbf per st' says what the 2 is.
    per = (unit.symbol, asked.symbol) if by.startswith("/") else (asked.symbol, unit.symbol)
    factor_unit = f" {per[0]} per {per[1]}" if asked.symbol != unit.symbol and all(per) else ""
    to, of = asked.symbol or "plain number", unit.symbol or "plain number"
    return Line(find, f"{to} = {of} {by}{factor_unit}", f"{text} {by}", result)
