"""Every invariant of the bank, checked on the items themselves: what `pinandbox check` runs.

Form is checked when the bank is read. Here come the sums: formulas against their printed equations, worked check
values, known wrong ways, both systems' grids, printed lines worked out again, and what a learner would see.
"""

import random
import re
from collections.abc import Iterator, Mapping
from typing import Any

from question_bank.bank import Bank
from question_bank.equations import EquationError, worked_out
from question_bank.errors import BankError
from question_bank.formulas import all_formulas
from question_bank.formulas.formula import Formula
from question_bank.item import Item
from question_bank.item_fields import SYSTEMS, Fields
from question_bank.kinds.card import MARKS
from question_bank.kinds.numeric import NumericQuestion
from question_bank.kinds.numeric_item import NumericItem
from question_bank.question import Question
from question_bank.steps import ExpressionError
from question_bank.tolerance import Tolerance
from question_bank.units import Unit, UnitError, register, split_quantity

FORMULA_INPUTS = 50
FORMULA_AGREES = 0.002
WORKED_AGREES = 0.002
GRIDS_AGREE = 0.08
BLANK = re.compile(r"[{}]|\bNone\b|\bnan\b|\binf\b")
NUMBER = re.compile(r"[−-]?\d[\d,]*(?:\.\d+)?")


def check_bank(bank: Bank, seeds: int = 50) -> Iterator[BankError]:
    """Every fault of formulas and items, one by one; nothing where all is well. `seeds` draws an item and system."""
    yield from check_formulas()
    for item in bank.values():
        yield from check_item(item, seeds)


def check_formulas() -> Iterator[BankError]:
    """Faults of the formulas: a function and its printed equations must agree within 0.2 % on 50 random inputs."""
    for each in all_formulas().values():
        for system in SYSTEMS:
            problem = _printed_problem(each, system)
            if problem:
                yield BankError("formulas", each.name, system, problem)


def _printed_problem(formula: Formula, system: str) -> str | None:
    picks = random.Random(formula.name)
    equation = formula.printed(system)
    if set(equation.names) != set(formula.takes) or set(equation.units) != set(formula.takes):
        return f"the printed equation has {sorted(equation.names)}; the function takes {sorted(formula.takes)}."
    gives = register(formula.gives).unit(equation.gives)
    for _ in range(FORMULA_INPUTS):
        base = {name: picks.uniform(*formula.holds_in_base(name)) for name in formula.takes}
        numbers = {
            name: value / register(formula.takes[name]).unit(equation.units[name]).factor
            for name, value in base.items()
        }
        try:
            own, from_print = formula(**base) / gives.factor, equation.work_out(numbers)
        except EquationError as error:
            return str(error)
        if abs(own - from_print) > FORMULA_AGREES * abs(own):
            return (
                f"for {numbers} the function gives {own:.6g} {gives.symbol} and the printed equation {from_print:.6g}."
            )
    return None


def check_item(item: Item, seeds: int) -> Iterator[BankError]:
    """Faults of one item. After a fault in its worked check it is not drawn."""
    try:
        if isinstance(item, NumericItem):
            _check_worked_value(item)
            _check_grids(item)
            _check_written_units(item)
        for system in SYSTEMS:
            for seed in range(seeds):
                check_question(item, item.draw(seed, system))
    except BankError as error:
        yield error
    except UnitError as error:
        # Dimensions agree, registers do not: a bore's capacity, in bbl/ft, where its area is wanted.
        yield item.fault("steps", str(error))


def check_question(item: Item, question: Question) -> None:
    """What must hold of every drawn question. Raises BankError."""
    for field, text in _texts(question.body()):
        if BLANK.search(text):
            raise item.fault(field, f"seed {question.seed}, {question.system}: a blank is left in “{text}”.")
    if isinstance(question, NumericQuestion):
        _check_numeric(item, question)
    elif question.grade(_right_answer(question)).outcome != "right":
        raise item.fault("kind", f"seed {question.seed}: its own right answer is not graded right.")


def _texts(body: Mapping[str, Any], field: str = "") -> Iterator[tuple[str, str]]:
    """Every text in a question, with the field of the question it stands in."""
    for name, value in body.items():
        yield from _texts_in(field or name, value)


def _texts_in(field: str, value: Any) -> Iterator[tuple[str, str]]:
    if isinstance(value, str):
        yield field, value
    elif isinstance(value, Mapping):
        yield from _texts(value, field)
    elif isinstance(value, list):
        for each in value:
            yield from _texts_in(field, each)


def _right_answer(question: Question) -> object:
    match question.kind:
        case "choice":
            return question.right
        case "order":
            return question.accepted[0]
        case "match":
            return question.pairs
        case "part":
            return question.right[0]
        case "card":
            return next(mark for mark, (outcome, _) in MARKS.items() if outcome == "right")
    raise ValueError(f"{question.kind!r} has no right answer here.")


def _check_numeric(item: NumericItem, question: NumericQuestion) -> None:
    where = f"seed {question.seed}, {question.system}"
    if question.grade(question.key_text).outcome != "right":
        raise item.fault("tolerance", f"{where}: the key as printed, {question.key_text}, is not graded right.")
    for slip in question.mistakes:
        verdict = question.grade(f"{slip.value:.12g} {question.unit}")
        if verdict.mistake != slip.name:
            raise item.fault(
                "mistakes", f"{where}: {slip.value:.6g} {question.unit} is not recognised as {slip.name!r}."
            )
    for line in question.working:
        _check_line(item, question, line, where)
    _check_plausible(item, question, where)


def _check_line(item: NumericItem, question: NumericQuestion, line, where: str) -> None:
    try:
        from_print, result = worked_out(line.put_in), worked_out(line.result)
    except EquationError as error:
        raise item.fault("steps", f"{where}: {error}") from None
    allowed = question.half_width if question.relative else max(question.half_width, abs(result) * 1e-6)
    if abs(from_print - result) > allowed * (abs(result) if question.relative else 1):
        raise item.fault(
            "steps", f"{where}: “{line.put_in}” works out to {from_print:.6g}, but {line.result} is printed."
        )


def _check_plausible(item: NumericItem, question: NumericQuestion, where: str) -> None:
    fields = item.fields
    ends = fields.texts("plausible")
    if len(ends) != 2:
        raise item.fault("plausible", "this must be two quantities, the lowest and the highest that make sense.")
    low, high = (_quantity(fields, "plausible", each, item.register)[0] for each in ends)
    value = question.value * register(item.register).unit(question.unit).factor
    if not low <= value <= high:
        raise item.fault("plausible", f"{where}: {question.key_text} lies outside {ends[0]} to {ends[1]}.")


def _check_worked_value(item: NumericItem) -> None:
    """The check value, worked by hand or published, against the steps; each known wrong way against its own."""
    check = item.fields.inner("check")
    check.only("given", "gives", "by")
    check.needed("by")
    texts = {name: str(value) for name, value in check.inner("given").table.items()}
    if set(texts) != set(item.givens):
        raise check.fault("given", f"the check gives {sorted(texts)}; the item has {sorted(item.givens)}.")
    givens = {name: _quantity(check, "given", text, item.givens[name].register)[0] for name, text in texts.items()}
    try:
        values = item.worked(givens)
        _agrees(check, "gives", check.needed("gives"), item.register, values[item.steps[-1].name], item.tolerance)
        for at, each in enumerate(item.mistakes, start=1):
            row = item.fields.tables("mistakes")[at - 1]
            for system, expression in each.formulas.items():
                _agrees(row, "gives", each.gives[system], item.register, expression.evaluate(values), item.tolerance)
    except ExpressionError as error:
        raise check.fault("given", str(error)) from None


def _agrees(fields: Fields, field: str, text: str, register_name: str, value: float, tolerance: Tolerance) -> None:
    wanted, unit = _quantity(fields, field, text, register_name)
    allowed = WORKED_AGREES * abs(wanted)
    if tolerance.kind == "absolute":
        allowed = min(allowed, tolerance.half_width(0.0, unit, "us") * unit.factor)
    if tolerance.kind == "exact":
        allowed = 1e-9 * abs(wanted)
    if abs(value - wanted) > allowed:
        raise fields.fault(
            field, f"worked by hand it is {text}; the formula gives {value / unit.factor:.6g} {unit.symbol}."
        )


def _check_written_units(item: NumericItem) -> None:
    """The worked value stands in one system's asked unit and the plausible range in the other's.

    So each asked unit is written twice in an item, and a slip in one of them is seen.
    """
    worked = split_quantity(item.fields.inner("check").needed("gives"))[1]
    ends = {split_quantity(each)[1] for each in item.fields.texts("plausible")}
    asked = {unit.symbol for unit in item.units.values()}
    if len(ends) > 1 or {worked, *ends} != asked:
        wanted = " and ".join(repr(symbol) for symbol in sorted(asked))
        raise item.fault(
            "plausible",
            f"the worked value is in {worked!r}, the range in {sorted(ends)}. Write one in each asked unit: {wanted}.",
        )


def _check_grids(item: NumericItem) -> None:
    for given in item.givens.values():
        if not given.grids:
            continue
        for end, us, metric in zip(("from", "to"), given.grids["us"].ends, given.grids["metric"].ends, strict=True):
            if abs(us - metric) > GRIDS_AGREE * max(abs(us), abs(metric)):
                raise item.fault(
                    f"givens {given.name}", f"the {end} of both grids differ by more than {GRIDS_AGREE:.0%}."
                )


def _quantity(fields: Fields, field: str, text: str, register_name: str) -> tuple[float, Unit]:
    """A quantity of our own files in base units, and its unit. Raises BankError."""
    number, symbol = split_quantity(text)
    try:
        unit = register(register_name).unit(symbol)
    except UnitError as error:
        raise fields.fault(field, str(error)) from None
    if not NUMBER.fullmatch(number):
        raise fields.fault(field, f"{text!r} does not begin with a number. Write it like '44,590 lbf'.")
    return float(number.replace(",", "").replace("−", "-")) * unit.factor, unit
