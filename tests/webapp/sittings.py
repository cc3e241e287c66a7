"""Sittings to try things with, made through the records' own functions."""

import functools
from collections.abc import Sequence
from datetime import UTC, datetime

from question_bank import load_bank
from webapp.records import questions, sittings
from webapp.records.ids import new_id
from webapp.records.sittings import Sitting

START = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


def a_sitting(
    house,
    person: str,
    items: Sequence[str],
    *,
    kind: str = "module",
    module: str | None = "units",
    pass_mark: int = 80,
    must_pass: bool = True,
    deadline: datetime | None = None,
    now: datetime = START,
    least: int = 50,
    sheet: bool = False,
) -> tuple[str, list[str]]:
    """An open sitting of that person with a question of each item, drawn by the seed 1; its id and theirs."""
    id, drawn, rows = new_id(now), [], []
    with house.writing():
        for name in items:
            item = bank()[name]
            drawn.append(questions.keep(house, item.draw(1, "us"), person, "sitting", now, drill=id, text=item.text))
            rows.append({"question": drawn[-1], "item": name, "lesson": item.lesson, "must_pass": item.must_pass})
        body = {"items": rows, "lessons": sorted({row["lesson"] for row in rows}), "must_pass": must_pass}
        if module is None:
            minutes = deadline and int((deadline - now).total_seconds() // 60)
            body["paper"] = {"seed": 1, "questions": len(rows), "least": least, "minutes": minutes, "sheet": sheet}
        sittings.start(house, Sitting(id, person, kind, module, pass_mark, body, now, deadline))
    return id, drawn


@functools.cache
def bank():
    """The bank, read once for all tests."""
    return load_bank()


def right_fields(question) -> dict[str, str | list[str]]:
    """The fields of a form with a right answer to that question, as `Browser.send` takes them."""
    return {
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


def wrong_fields(question) -> dict[str, str | list[str]]:
    """The fields of a form with an answer that can be counted, and is wrong."""
    return {
        "numeric": lambda: {"free": f"{question.value * 31.7:.6g} {question.unit}"},
        "estimate": lambda: {"free": f"{question.value * 31.7:.6g} {question.unit}"},
        "gauge": lambda: {"free": f"{question.value * 31.7 + 3:.6g} {question.unit}"},
        "find-the-wrong-line": lambda: {"line": str(question.wrong % len(question.shown) + 1)},
        "choice": lambda: {"choice": next(each.key for each in question.options if each.key != question.right)},
        "order": lambda: {"step": [each.key for each in question.steps]},
        "match": lambda: {
            f"pair__{left}": next(each.key for each in question.right if each.key != right)
            for left, right in question.pairs.items()
        },
        "part": lambda: {"part": next(each.key for each in question.places if each.key not in question.right)},
    }[question.kind]()
