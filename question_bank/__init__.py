"""What is asked: formulas, items, figures. It knows no learner, no clock and no database."""

from question_bank.bank import Bank, load_bank
from question_bank.case import Case
from question_bank.case_files import load_cases
from question_bank.errors import BankError
from question_bank.item import Item
from question_bank.kinds import question_from_body
from question_bank.question import Question
from question_bank.reading import AnswerError
from question_bank.verdict import Verdict

__all__ = [
    "AnswerError", "Bank", "BankError", "Case", "Item", "Question", "Verdict", "load_bank", "load_cases",
    "question_from_body",
]  # fmt: skip
