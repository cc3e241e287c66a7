"""Drawn questions, nearly three hundred, answered from their words alone by somebody who had not seen the program.

Each was worked out with a calculator from definitions and trade formulas. blind_answers.csv keeps the question as it
was asked, the answer as it came back, and who was right where the two differ: 'both', 'bank' or 'reader'. A question
whose numbers stand here is drawn again with just those numbers; when its task changes, it has to be asked anew.
"""

import csv
import re
from collections import Counter
from pathlib import Path

import pytest

from question_bank import load_bank

FILE = Path(__file__).with_name("blind_answers.csv")
HOW_MANY = 296
BANK = load_bank()
with FILE.open(encoding="utf-8", newline="") as file:
    ROWS = list(csv.DictReader(file))


def drawn(row):
    """The question with the numbers that were asked."""
    fixed = dict(each.split(" = ", 1) for each in row["givens"].split("; "))
    return BANK[row["item"]].draw(0, row["system"], fixed)


def test_as_many_different_questions_were_asked():
    assert len({(row["item"], row["system"], row["givens"]) for row in ROWS}) == len(ROWS) == HOW_MANY
    assert {row["system"] for row in ROWS} == {"us", "metric"}


def test_they_come_from_every_module_of_the_bank():
    asked = Counter(row["item"].split(".")[0] for row in ROWS)
    assert set(asked) == {each.split(".")[0] for each in BANK}


@pytest.mark.parametrize("row", ROWS, ids=[f"{at} {row['item']}" for at, row in enumerate(ROWS, start=1)])
def test_the_answer_given_blind_is_right_here(row):
    question = drawn(row)
    for value in re.findall(r"= ([^;]+)", row["givens"]):
        assert value in row["question"], "the row must hold the numbers that were asked"
    assert question.unit in row["question"] or {"in": "inches"}.get(question.unit, "") in row["question"]
    agrees = question.grade(row["answer"]).outcome == "right"
    assert agrees == (row["right_side"] == "both"), f"the bank says {question.key_text}"


def test_every_disagreement_says_which_side_was_right():
    for row in ROWS:
        assert row["right_side"] in ("both", "bank", "reader")
        assert row["right_side"] == "both" or row["note"], "a disagreement needs a word on why"


def test_a_wrong_answer_would_be_seen():
    """The same row with a tenth more than was answered is not called right."""
    row = next(row for row in ROWS if row["item"] == "loads.fast-line-hoisting" or "." in row["answer"])
    number, _, unit = row["answer"].partition(" ")
    assert drawn(row).grade(f"{float(number) * 1.1:.6g} {unit}".strip()).outcome != "right"
