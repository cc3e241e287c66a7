"""Papers to sit and to look at: answered rightly but for some, through the pages or by the records' own functions."""

from collections.abc import Collection

from tests.webapp.sittings import right_fields, wrong_fields
from webapp.records import questions, sittings


def begin(hand, letter: str = "a", **fields) -> str:
    """Begin a paper; the address of its sitting."""
    return hand.send(f"/papers/{letter}/begin", **fields).location


def id_of(at: str) -> str:
    """The id in the address of a sitting."""
    return at.rpartition("/")[2]


def rows_of(house, at: str) -> list[dict]:
    """What a sitting was drawn to: a row for each question, in order."""
    return sittings.get(house, id_of(at)).body["items"]


def answer_all(hand, house, at: str, wrong: Collection[str] = ()) -> None:
    """Answer each question: rightly, but for those whose item, lesson or module is in `wrong`."""
    for number, kept in enumerate(questions.of_drill(house, id_of(at)), start=1):
        row = rows_of(house, at)[number - 1]
        amiss = {row["item"], row["lesson"], row["lesson"].partition("/")[0]} & set(wrong)
        fields = wrong_fields(kept.question) if amiss else right_fields(kept.question)
        assert hand.send(f"{at}/{number}/answer", **fields).status_code == 303, kept.item
