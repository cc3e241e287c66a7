"""A right answer to whatever a question asks, from its own row."""

from webapp.records import questions


def answer_rightly(browser, house, question_id):
    """Answer the open question with that id, rightly."""
    question = questions.get(house, question_id).question
    fields = {
        "numeric": lambda: {"free": question.key_text},
        "estimate": lambda: {"free": question.quick},
        "gauge": lambda: {"free": question.key_text},
        "find-the-wrong-line": lambda: {"line": str(question.wrong)},
        "choice": lambda: {"choice": question.right},
        "order": lambda: {"step": question.accepted[0]},
        "match": lambda: {f"pair__{left}": right for left, right in question.pairs.items()},
        "part": lambda: {"part": question.right[0]},
        "card": lambda: {"mark": "said"},
    }[question.kind]()
    assert browser.send(f"/questions/{question_id}/answer", **fields).status_code == 303
