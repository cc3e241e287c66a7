"""The quick way of an estimate: against its value worked by hand, and on each draw against the range."""

from question_bank.check_lines import agrees, quantity
from question_bank.kinds.estimate import EstimateItem, EstimateQuestion
from question_bank.steps import ExpressionError


def check_quick_way(item: EstimateItem) -> None:
    """Where the quick way leads for the worked givens, against the value worked by hand. Raises BankError."""
    row = item.fields.inner("quick")
    texts = item.fields.inner("check").inner("given").table
    givens = {name: quantity(row, "given", str(text), item.givens[name].register)[0] for name, text in texts.items()}
    try:
        values = item.worked(givens)
        for system, text in item.quick.gives.items():
            agrees(row, "gives", text, item.register, item.quick_value(values, system), item.tolerance)
    except ExpressionError as error:
        raise row.fault("formula", str(error)) from None


def check_quick_answer(item: EstimateItem, question: EstimateQuestion) -> None:
    """What the quick way gives, typed as it is printed, is right. Raises BankError."""
    if question.grade(question.quick).outcome != "right":
        raise item.fault(
            "quick",
            f"seed {question.seed}, {question.system}: the quick way gives {question.quick}, which is not right "
            f"beside {question.key_text}.",
        )
