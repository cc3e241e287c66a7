"""A right answer to whatever a question asks, from its own row."""

from tests.webapp.sittings import right_fields
from webapp.records import questions


def answer_rightly(browser, house, question_id):
    """Answer the open question with that id, rightly."""
    question = questions.get(house, question_id).question
    assert browser.send(f"/questions/{question_id}/answer", **right_fields(question)).status_code == 303
