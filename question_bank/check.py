"""Every invariant of the bank, checked on the items themselves: what `pinandbox check` runs.

Form is checked when the bank is read. Here come the sums: formulas against their printed equations, worked check
values, known wrong ways, both systems' grids, printed lines worked out again, and what a learner would see.
"""

import random
import re
from collections.abc import Iterator, Mapping
from typing import Any

from question_bank.bank import Bank
from question_bank.check_dials import check_dials
from question_bank.check_estimates import check_quick_answer, check_quick_way
from question_bank.check_lines import agrees, check_line, quantity
from question_bank.check_wrong_line import check_wrong_line
from question_bank.equations import EquationError
from question_bank.errors import BankError
from question_bank.formulas import all_formulas
from question_bank.formulas.formula import Formula
from question_bank.item import Item
from question_bank.item_fields import SYSTEMS
from question_bank.kinds.card import MARKS
from question_bank.kinds.estimate import EstimateItem
from question_bank.kinds.gauge import GaugeItem
from question_bank.kinds.numeric import NumericQuestion
from question_bank.kinds.numeric_item import NumericItem
from question_bank.kinds.wrong_line import WrongLineItem
from question_bank.question import Question
from question_bank.rig_sheet import sheet_fields
from question_bank.steps import ExpressionError
from question_bank.units import UnitError, register, split_quantity

WIDEST_LINE = 0.02
"""How far a printed line may be off its result, however wide the range of an estimate."""
FORMULA_INPUTS = 50
FORMULA_AGREES = 0.002
GRIDS_AGREE = 0.08
BLANK = re.compile(r"[{}]|\bNone\b|\bnan\b|\binf\b")


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
            _check_asked_systems(item)
            _check_written_units(item)
            _check_rig_keys(item)
        if isinstance(item, EstimateItem):
            check_quick_way(item)
        if isinstance(item, GaugeItem):
            check_dials(item)
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
    if question.grade(_right_answer(question)).outcome != "right":
        field = "tolerance" if question.is_typed else "kind"
        raise item.fault(field, f"seed {question.seed}, {question.system}: its own right answer is not graded right.")
    if isinstance(question, NumericQuestion):
        _check_number(item, question)
    if isinstance(item, NumericItem):
        _check_plausible(item, question, f"seed {question.seed}, {question.system}")
    if isinstance(item, EstimateItem):
        check_quick_answer(item, question)
    if isinstance(item, WrongLineItem):
        check_wrong_line(item, question)


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
        case "numeric" | "estimate" | "gauge":
            return question.key_text
        case "find-the-wrong-line":
            return str(question.wrong)
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


def _check_number(item: Item, question: NumericQuestion) -> None:
    where = f"seed {question.seed}, {question.system}"
    for slip in question.mistakes:
        verdict = question.grade(f"{slip.value:.12g} {question.unit}")
        if verdict.mistake != slip.name:
            raise item.fault(
                "mistakes", f"{where}: {slip.value:.6g} {question.unit} is not recognised as {slip.name!r}."
            )
    for line in question.working:
        allowed = min(question.half_width, WIDEST_LINE) if question.relative else question.half_width
        check_line(item, line, allowed, question.relative, where)


def _check_plausible(item: NumericItem, question: NumericQuestion, where: str) -> None:
    ends = item.fields.texts("plausible")
    if not makes_sense(item, question):
        raise item.fault("plausible", f"{where}: {question.key_text} lies outside {ends[0]} to {ends[1]}.")


def makes_sense(item: NumericItem, question: NumericQuestion) -> bool:
    """Whether the right answer lies where the item says that answers make sense. Raises BankError."""
    fields = item.fields
    ends = fields.texts("plausible")
    if len(ends) != 2:
        raise item.fault("plausible", "this must be two quantities, the lowest and the highest that make sense.")
    low, high = (quantity(fields, "plausible", each, item.register)[0] for each in ends)
    return low <= question.value * register(item.register).unit(question.unit).factor <= high


def _check_worked_value(item: NumericItem) -> None:
    """The check value, worked by hand or published, against the steps; each known wrong way against its own."""
    check = item.fields.inner("check")
    check.only("given", "gives", "by")
    check.needed("by")
    texts = {name: str(value) for name, value in check.inner("given").table.items()}
    if set(texts) != set(item.givens):
        raise check.fault("given", f"the check gives {sorted(texts)}; the item has {sorted(item.givens)}.")
    givens = {name: quantity(check, "given", text, item.givens[name].register)[0] for name, text in texts.items()}
    try:
        values = item.worked(givens)
        agrees(check, "gives", check.needed("gives"), item.register, values[item.steps[-1].name], item.tolerance)
        for at, each in enumerate(item.mistakes, start=1):
            row = item.fields.tables("mistakes")[at - 1]
            for system, expression in each.formulas.items():
                agrees(row, "gives", each.gives[system], item.register, expression.evaluate(values), item.tolerance)
    except ExpressionError as error:
        raise check.fault("given", str(error)) from None


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


def _check_asked_systems(item: NumericItem) -> None:
    """Who reads US units is asked for them and works in them; only a conversion asks for the other system's."""
    for step in () if item.is_conversion else item.steps:
        for system in SYSTEMS:
            unit = step.unit(system)
            if unit.system not in (system, None):
                raise item.fault(
                    f"steps {step.name}", f"{unit.symbol!r} is no {system} unit. Take one that such a hand reads."
                )


def _check_rig_keys(item: NumericItem) -> None:
    """A given that a rig sheet can fill names a field of it, of its own register."""
    for given in item.givens.values():
        field = sheet_fields().get(given.rig or "")
        if given.rig is not None and (field is None or field.register != given.register):
            raise item.fault(f"givens {given.name}", f"a rig sheet has no {given.register} called {given.rig!r}.")


def _check_grids(item: NumericItem) -> None:
    for given in item.givens.values():
        if not given.grids:
            continue
        for end, us, metric in zip(("from", "to"), given.grids["us"].ends, given.grids["metric"].ends, strict=True):
            if abs(us - metric) > GRIDS_AGREE * max(abs(us), abs(metric)):
                raise item.fault(
                    f"givens {given.name}", f"the {end} of both grids differ by more than {GRIDS_AGREE:.0%}."
                )
