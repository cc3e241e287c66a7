"""Every shipped item, drawn 200 times in each system: what must hold of each question."""

import json
import re
from math import inf, prod

import pytest

from question_bank import load_bank, question_from_body
from question_bank.check import check_bank
from question_bank.givens import Listed

BLANK = re.compile(r"[{}]|\bNone\b|\bnan\b|\binf\b|Decimal|0000000\d")
FEWEST = {
    "numeric": 10, "estimate": 10, "gauge": 10, "find-the-wrong-line": 10,
    "choice": 10, "match": 10, "order": 10, "card": 1, "part": 10,
}  # fmt: skip
"""How many different questions 200 seeds give at least: in words only the order can change, on a card nothing."""


@pytest.fixture(scope="module", params=list(load_bank()))
def item(request, bank):
    """Each item in turn."""
    return bank[request.param]


def texts_in(value):
    """Every text in a question's body, whatever its depth."""
    if isinstance(value, dict):
        return [text for each in value.values() for text in texts_in(each)]
    if isinstance(value, list):
        return [text for each in value for text in texts_in(each)]
    return [value] if isinstance(value, str) else []


def test_no_blank_is_left(questions):
    """No brace, no None, no long float in any text that a hand may see."""
    for question in questions:
        for text in texts_in(question.body()):
            assert not BLANK.search(text), f"seed {question.seed}: {text}"


def test_a_question_is_the_same_after_json(questions):
    for question in questions:
        again = question_from_body(json.loads(json.dumps(question.body())))
        assert again == question and again.body() == question.body()


def test_a_seed_gives_the_same_question_for_ever(item, system, questions):
    """Drawn again from a bank that was read again."""
    again = load_bank()[item.id]
    for seed in (0, 7, 199):
        assert again.draw(seed, system) == questions[seed]


def test_seeds_give_different_questions(item, system, questions):
    """Where a maker stamps only so many values, all of them come."""
    shown = {json.dumps({**question.body(), "seed": 0}) for question in questions}
    assert len(shown) >= min(FEWEST[item.kind], stamped(item, system))


def stamped(item, system):
    """How many questions a numeric item has whose givens are all listed values; any number where they are not."""
    grids = [each.grids.get(system) for each in getattr(item, "givens", {}).values()]
    return prod(len(grid.values) if isinstance(grid, Listed) else inf for grid in grids) if grids else inf


def test_a_question_carries_what_the_page_needs(item, system, questions):
    """Its item's id and version, its caution, and a title and a stem that are not empty."""
    for seed, question in enumerate(questions):
        assert (question.item, question.item_hash, question.kind) == (item.id, item.text_hash, item.kind)
        assert (question.seed, question.system, question.caution) == (seed, system, item.caution)
        assert question.title.strip() and question.stem.strip()


def test_the_check_finds_nothing(bank):
    """What `pinandbox check` runs, with 20 seeds in each system."""
    assert [str(each) for each in check_bank(bank, 20)] == []
