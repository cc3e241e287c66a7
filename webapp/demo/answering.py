"""How an invented hand answers a question: right, or wrong in one of the ways the course knows."""

import random
from collections.abc import Iterator
from typing import Any

from question_bank import Question, Verdict
from question_bank.numbers import in_comma, show
from webapp.demo.scenario import Hand


def answer(question: Question, hand: Hand, chance: random.Random) -> tuple[str, Verdict]:
    """What the hand writes, and the verdict on it: the first of their answers that counts."""
    is_right, knows = chance.random() < hand.right, chance.random() < hand.slips
    for given in _answers(question, is_right, knows, chance):
        if question.is_typed and hand.comma:
            given = in_comma(given)
        verdict = question.grade(given, comma=hand.comma)
        if verdict.counted:
            return _written(given), verdict
    raise ValueError(f"{question.item}, seed {question.seed}: no answer of the demo's counts.")


def _answers(question: Question, is_right: bool, knows: bool, chance: random.Random) -> Iterator[Any]:
    """The answer that comes to mind, and after it the right one, should the first be asked back."""
    right, wrong = _right_and_wrong(question, knows, chance)
    if not is_right:
        yield chance.choice(wrong)
    yield right


def _right_and_wrong(question: Question, knows: bool, chance: random.Random) -> tuple[Any, list[Any]]:
    match question.kind:
        case "estimate":
            slips = [each.value for each in question.mistakes] if knows else []
            return question.quick, [f"{show(each, 2)} {question.unit}" for each in slips or [question.value * 2.5]]
        case "gauge":
            slips = [each.value for each in question.mistakes] if knows else []
            wrong = slips or [question.value + 3 * question.half_width]
            return question.key_text, [f"{show(each, 6)} {question.unit}" for each in wrong]
        case "find-the-wrong-line":
            others = [str(at) for at in range(1, len(question.shown) + 1) if at != question.wrong]
            return str(question.wrong), others
        case "numeric":
            slips = [each.value for each in question.mistakes] if knows else []
            wrong = slips or [question.value * 1.02, question.value * chance.uniform(0.4, 0.8)]
            return question.key_text, [f"{show(each, 4)} {question.unit}" for each in wrong]
        case "choice":
            return question.right, [each.key for each in question.options if each.key != question.right]
        case "order":
            return question.accepted[0], [[each.key for each in question.steps]]
        case "match":
            keys = [each.key for each in question.right]
            return question.pairs, [{left: keys[keys.index(right) - 1] for left, right in question.pairs.items()}]
        case "part":
            return question.right[0], [each.key for each in question.places if each.key not in question.right]
        case "card":
            return "said", ["part", "could-not"]
    raise ValueError(f"{question.kind!r} is a kind that the demo can't answer.")


def _written(given: Any) -> str:
    """The answer as the record keeps it: one line of text."""
    if isinstance(given, list):
        return " ".join(given)
    if isinstance(given, dict):
        return " ".join(f"{left}={right}" for left, right in given.items())
    return given
