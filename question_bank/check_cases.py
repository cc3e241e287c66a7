"""Every invariant of the cases, part of what `pinandbox check` runs.

Each part must hold as a question by itself, and the chain, whose later parts go on from printed results, must agree
with the same chain worked in full floats from the givens to its end.
"""

from collections.abc import Iterator, Mapping

from question_bank.case import Case, DrawnCase
from question_bank.check import check_question
from question_bank.errors import BankError
from question_bank.item_fields import SYSTEMS
from question_bank.kinds.numeric_item import NumericItem
from question_bank.steps import ExpressionError
from question_bank.units import register


def check_case(case: Case, seeds: int) -> Iterator[BankError]:
    """The first fault of a case, or nothing. `seeds` draws in each system."""
    try:
        for system in SYSTEMS:
            for seed in range(seeds):
                drawn = case.draw(seed, system)
                _check_parts(case, drawn)
                _check_chain(case, drawn)
    except BankError as error:
        yield error


def _check_parts(case: Case, drawn: DrawnCase) -> None:
    for at, (part, asked) in enumerate(zip(case.parts, drawn.parts, strict=True), start=1):
        try:
            check_question(part.item, asked.question)
        except BankError as error:
            raise case.fault(
                f"parts {at}", f"case seed {drawn.seed}, {drawn.system}, {part.item.id}, {error.field}: {error.problem}"
            ) from None


def _check_chain(case: Case, drawn: DrawnCase) -> None:
    """Rounding from part to part must not lead out of any part's tolerance."""
    for at, exact in worked_through(case, drawn).items():
        question = drawn.parts[at - 1].question
        low, high = question.band
        width = max(high - question.value, question.value - low)
        value = exact / register(question.register).unit(question.unit).factor
        if abs(value - question.value) > width + abs(value) * 1e-9:
            raise case.fault(
                f"parts {at}",
                f"case seed {drawn.seed}, {drawn.system}: from printed results it is {question.value:.6g} "
                f"{question.unit}, in one go {value:.6g}. The rounding on the way is too coarse for the tolerance.",
            )


def worked_through(case: Case, drawn: DrawnCase) -> Mapping[int, float]:
    """Each numeric part's result in base units, worked from the shared givens in full floats; parts count from 1."""
    results: dict[int, float] = {}
    sources: dict[str, float] = dict(drawn.bases)
    for at, (part, asked) in enumerate(zip(case.parts, drawn.parts, strict=True), start=1):
        if not isinstance(part.item, NumericItem):
            continue
        numbers = part.item.picked(asked.question.seed, drawn.system, asked.fixed)
        bases = {name: each.base for name, each in numbers.givens.items()}
        bases |= {name: sources[source] for name, source in part.given.items()}
        try:
            results[at] = part.item.worked(bases)[part.item.steps[-1].name]
        except ExpressionError as error:
            raise case.fault(f"parts {at}", str(error)) from None
        sources[f"part {at}"] = results[at]
    return results
