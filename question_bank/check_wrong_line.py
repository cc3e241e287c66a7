"""A working with one wrong line, on each draw: it leads where its mistake leads, and one line alone is wrong in it."""

from question_bank.check_lines import check_line
from question_bank.drawing import Numbers
from question_bank.kinds.wrong_line import FEWEST, WrongLineItem, WrongLineQuestion, WrongStep

SAME = 1e-6
LINE = 0.001


def check_wrong_line(item: WrongLineItem, question: WrongLineQuestion) -> None:
    """Raises BankError."""
    where, at = f"seed {question.seed}, {question.system}", question.wrong - 1
    wrong, right, numbers = item.drawn(question.seed, question.system)
    _check_where_it_leads(item, wrong, numbers, question.system, where)
    if len(question.shown) < FEWEST:
        raise item.fault("of", f"{where}: only {len(question.shown)} lines are shown. With so few, one can guess.")
    for line in question.shown:
        check_line(
            item, line, max(LINE, right.half_width) if right.relative else right.half_width, right.relative, where
        )
    if question.shown[at].equation == question.mended.equation:
        raise item.fault("wrong", f"{where}: the wrong line is printed as the right one is.")
    for each in range(1, len(question.shown) + 1):
        if (question.grade(each).outcome == "right") != (each == question.wrong):
            raise item.fault("wrong", f"{where}: line {each} is graded {question.grade(each).outcome}.")


def _check_where_it_leads(item: WrongLineItem, wrong: WrongStep, numbers: Numbers, system: str, where: str) -> None:
    """The last value of the wrong working is the one that the source item's mistake of that name leads to."""
    source, step = item.source_item, wrong.steps[system]
    value, wanted = item.values(step, numbers)[source.steps[-1].name], numbers.slips[wrong.mistake.name]
    if abs(value - wanted) > SAME * abs(wanted):
        unit = source.units[system]
        raise item.fault(
            "wrong",
            f"{where}: the wrong step {step.name!r} leads to {value / unit.factor:.6g} {unit.symbol}, "
            f"the mistake {wrong.mistake.name!r} to {wanted / unit.factor:.6g}.",
        )
