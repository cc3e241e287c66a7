"""The kinds of item, one small module each."""

from typing import Any

from question_bank.item import Item
from question_bank.kinds.card import CardItem, CardQuestion
from question_bank.kinds.choice import ChoiceItem, ChoiceQuestion
from question_bank.kinds.estimate import EstimateItem, EstimateQuestion
from question_bank.kinds.gauge import GaugeItem, GaugeQuestion
from question_bank.kinds.match import MatchItem, MatchQuestion
from question_bank.kinds.numeric import NumericQuestion
from question_bank.kinds.numeric_item import NumericItem
from question_bank.kinds.order import OrderItem, OrderQuestion
from question_bank.kinds.part import PartItem, PartQuestion
from question_bank.kinds.wrong_line import WrongLineItem, WrongLineQuestion
from question_bank.question import Question

ITEMS: dict[str, type[Item]] = {
    each.kind: each
    for each in (
        NumericItem, EstimateItem, GaugeItem, WrongLineItem, ChoiceItem, OrderItem, MatchItem, PartItem, CardItem,
    )
}  # fmt: skip
QUESTIONS: dict[str, type[Question]] = {
    each.kind: each
    for each in (
        NumericQuestion, EstimateQuestion, GaugeQuestion, WrongLineQuestion, ChoiceQuestion, OrderQuestion,
        MatchQuestion, PartQuestion, CardQuestion,
    )
}  # fmt: skip


def question_from_body(body: dict[str, Any]) -> Question:
    """The question that `Question.body()` gave. Raises KeyError for a kind that is not known."""
    return QUESTIONS[body["kind"]].from_body(body)
