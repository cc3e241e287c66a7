"""The module tests that the invented hands sat: drawn up, answered and handed in as any other."""

import random
from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime, time, timedelta

from webapp.demo.answering import answer
from webapp.demo.history import Stage, attempt_of
from webapp.demo.scenario import Hand
from webapp.my_sittings import close, drawn_to
from webapp.records import attempts, questions, sittings
from webapp.records.ids import new_id
from webapp.records.people import Person
from webapp.records.sittings import Sitting
from webapp.study.drawing_up import Askable, draw_up

EVENING = time(20)


def sit(
    stage: Stage, crew: Mapping[str, tuple[Hand, Person]], person: str, module: str, day: int, right: float
) -> None:
    """One test of a module on one evening."""
    chance = random.Random(f"test {person} {module} {day}")
    hand, sitter = crew[person]
    hand = replace(hand, right=right)
    start = stage.at(day, EVENING)
    items = draw_up(_askable(stage, module), chance.randrange(2**31))
    id, drawn = new_id(start), {}
    for each in items:
        question = stage.bank[each.item].draw(chance.randrange(2**31), sitter.system)
        drawn[each.item] = questions.keep(
            stage.store, question, sitter.id, "sitting", start, drill=id, text=stage.bank[each.item].text
        )
    mark = stage.course.module(module).pass_mark
    sitting = Sitting(id, sitter.id, "module", module, mark, drawn_to(items, drawn, True), start)
    sittings.start(stage.store, sitting)
    at, outcomes = start, {}
    for question_id in drawn.values():
        at, outcomes[question_id] = _answered(stage, hand, question_id, at, chance)
    close(stage.store, sitting, outcomes, at, "hand")


def _answered(stage: Stage, hand: Hand, question_id: str, at: datetime, chance: random.Random) -> tuple[datetime, str]:
    """One question answered: when, and how it ended."""
    kept = questions.get(stage.store, question_id)
    seconds = round(stage.bank[kept.item].usual_seconds * chance.uniform(0.5, 1.6), 1)
    at += timedelta(seconds=seconds)
    written, verdict = answer(kept.question, hand, chance)
    attempts.record(stage.store, attempt_of(stage, kept, written, verdict, seconds, at))
    return at, verdict.outcome


def _askable(stage: Stage, module: str) -> list[Askable]:
    return [
        Askable(item.id, lesson.id, item.kind, item.must_pass)
        for lesson in stage.course.module(module).lessons
        for item in stage.bank.of_lesson(lesson.id)
    ]
