"""What the fields of an answer form say, put together as `Question.grade` takes it."""

import re
from typing import Any

from werkzeug.datastructures import MultiDict

from question_bank import Question

NOT_TAKEN = 422
"""Status of a page that gives a form back: nothing was changed or counted, it is to be sent again."""
HAS_UNIT = re.compile(r"[^\W\d_½¼¾⅓⅔⅛⅜⅝⅞]\.?\s*$|['\"′″’”#%]\s*$|[²³]\s*$")
"""Ends in a letter, a foot or inch mark or a power: the hand typed a unit into the number's field."""


def typed_answer(form: MultiDict, question: Question) -> Any:
    """The answer in a submitted form: text, key, list of keys or mapping, by the question's kind."""
    match question.kind:
        case "numeric" | "estimate" | "gauge":
            return typed_text(form)
        case "find-the-wrong-line":
            return form.get("line")
        case "choice":
            return form.get("choice")
        case "order":
            return form.getlist("step")
        case "match":
            return {left.key: form.get(f"pair-{left.key}", "") for left in question.left}
        case "part":
            return form.get("part")
        case "card":
            return form.get("mark")
    raise ValueError(f"{question.kind!r} has no form.")


def typed_text(form: MultiDict) -> str:
    """Number, unit and inches as one text, as a hand would write it on a pad. What was typed freely stays as it is."""
    free = form.get("free")
    if free is not None:
        return free
    number, unit, inches = (form.get(name, "").strip() for name in ("number", "unit", "inches"))
    if not number and not inches:
        return ""
    if HAS_UNIT.search(number):
        return number
    if inches.strip("0") and (unit != "ft" or not inches[0].isdigit()):
        return f"{number} {unit}, {inches} in"  # inches go with feet alone: this is told, and nothing is dropped
    if inches.strip("0"):
        return f"{number or '0'} ft {inches} in"
    return f"{number} {unit}".strip()


def as_written(answer: Any) -> str:
    """The answer as the record keeps it: one line of text."""
    if isinstance(answer, list):
        return " ".join(map(str, answer))
    if isinstance(answer, dict):
        return " ".join(f"{left}={right}" for left, right in answer.items())
    return str(answer or "")


def moved(steps: list[str], up: str | None, down: str | None) -> list[str]:
    """The keys of an order with one of them a place higher or lower. Keys that are not there change nothing."""
    key, by = (up, -1) if up is not None else (down, 1)
    if key not in steps:
        return steps
    at = steps.index(key)
    to = min(max(at + by, 0), len(steps) - 1)
    rest = [each for each in steps if each != key]
    return [*rest[:to], key, *rest[to:]]
