"""One answer's journey through the house: an item is drawn and kept as a row; an answer is graded and kept.

item --draw--> question (a row) --page--> text typed --grade--> verdict --> attempt (appended) --> memory
"""

import secrets
from collections.abc import Callable
from datetime import datetime
from typing import Any

from question_bank import Item, Question, Verdict
from webapp.at_hand import bank, me, now, store, zone
from webapp.my_rig_sheet import drawn_with_my_sheet
from webapp.records import answers, attempts, hints, questions
from webapp.records.answers import UncountedAnswer
from webapp.records.attempts import Attempt
from webapp.records.questions import Kept
from webapp.study.days import study_day

LONGEST_SITTING = 600.0
"""Seconds. A question left open longer says nothing of how long the answer took."""


SUITING_DRAWS = 50
"""After so many draws of which none suits, the last one is asked."""


def ask(
    item_id: str,
    place: str,
    lesson: str | None = None,
    drill: str | None = None,
    system: str | None = None,
    suits: Callable[[Question], bool] = lambda question: True,
) -> str:
    """Draw an item for who is asking, in their system, and keep it; the new question's id. Raises KeyError.

    `suits` says which draws may be asked here. Every second draw that could have the numbers of the hand's rig sheet
    has them.
    """
    person = me()
    item = bank()[item_id]
    system = system or (person.system if person else "us")
    of_rig = drawn_with_my_sheet(item, place, system)
    question, sheet = of_rig or (_drawn(item, system, suits), None)
    return questions.keep(
        store(), question, person and person.id, place, now(),
        drill=drill, lesson=lesson, text=item.text, rig_sheet=sheet,
    )  # fmt: skip


def _drawn(item: Item, system: str, suits: Callable[[Question], bool]) -> Question:
    for _ in range(SUITING_DRAWS):
        question = item.draw(secrets.randbelow(2**31), system)
        if suits(question):
            break
    return question


def answer(kept: Kept, given: Any, written: str) -> Verdict:
    """Grade an answer in the hand's own decimal mark. A counted one is appended as an attempt, once."""
    person = me()
    verdict = kept.question.grade(given, comma=person.comma)
    if verdict.counted:
        at = now()
        attempts.record(store(), attempt_of(kept, verdict, written, at, seconds_between(_began(kept), at)))
    return verdict


def answer_uncounted(kept: Kept, given: Any, written: str, comma: bool) -> Verdict:
    """Grade an answer in a lesson or a drill: it is kept so that it can be shown, and never counted."""
    verdict = kept.question.grade(given, comma=comma)
    if verdict.counted:
        kept_answer = UncountedAnswer(kept.id, written, verdict.read_as, verdict.outcome, verdict.mistake, now())
        answers.keep_first(store(), kept_answer)
    return verdict


def attempt_of(kept: Kept, verdict: Verdict, written: str, at: datetime, seconds: float | None) -> Attempt:
    """The attempt that a graded answer makes: given at that moment, after so many seconds."""
    item = bank().get(kept.item)
    return Attempt(
        id=kept.id,
        person=kept.person,
        item=kept.item,
        kind=kept.question.kind,
        typed=written,
        read_as=verdict.read_as,
        outcome=verdict.outcome,
        mistake=verdict.mistake,
        hint=hints.was_shown(store(), kept.id),
        seconds=seconds,
        answered_at=at,
        received_at=at,
        study_day=study_day(at, zone()),
        usual_seconds=item and float(item.usual_seconds),
    )


def _began(kept: Kept) -> datetime:
    """When the hand could begin. Parts of a case are drawn together: a later one begins when the one before is done."""
    before = attempts.latest_of_drill(store(), kept.drill) if kept.place == "case" else None
    return max(kept.drawn_at, before or kept.drawn_at)


def seconds_between(began: datetime, at: datetime) -> float | None:
    """Seconds from the beginning to the answer; None where the question lay open too long to mean anything."""
    seconds = (at - began).total_seconds()
    return round(seconds, 1) if 0 <= seconds <= LONGEST_SITTING else None
