"""What the invented hands read and answered day by day, through the same functions as real ones."""

import random
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo

from course import Course
from question_bank import Bank, Verdict
from webapp.demo.answering import answer
from webapp.demo.scenario import Hand
from webapp.records import attempts, lessons_read, memory, questions
from webapp.records.attempts import Attempt
from webapp.records.connection import Store
from webapp.records.people import Person
from webapp.records.questions import Kept
from webapp.study.aim import Aim
from webapp.study.days import study_day
from webapp.study.planner import plan_today
from webapp.study.rotation import every_day
from webapp.study.worth import Offer, Section

READS_AT = time(11)
NOON = time(12)


@dataclass(frozen=True)
class Stage:
    """What everything in the demo is made with."""

    store: Store
    bank: Bank
    course: Course
    first: date
    zone: tzinfo

    def at(self, day: int, hour: time = NOON) -> datetime:
        """That time of a day of the demo."""
        return datetime.combine(self.first + timedelta(day), hour, self.zone)


def live(stage: Stage, crew: dict[str, tuple[Hand, Person]], days: int, away: int) -> None:
    """Let every hand read and study from their first day on; nobody does on the last `away` days of `days`.

    Each hand has a chance of their own, so that a change in one leaves the others as they were.
    """
    for key, (hand, person) in crew.items():
        chance = random.Random(f"demo {key}")
        for day in range(hand.joins, days - away):
            _read(stage, hand, person, day, days - away)
            if day == hand.joins or chance.random() < hand.studies / 10:
                _study(stage, hand, person, day, chance)


def _read(stage: Stage, hand: Hand, person: Person, day: int, days: int) -> None:
    """The lessons of that day: the first on the day of joining, the others evenly over the days."""
    span = max(days - hand.joins, 1)
    before, after = (hand.reads * (day - hand.joins + step + 1) // span for step in (-1, 0))
    if day == hand.joins:
        before, after = 0, max(after, 1 if hand.reads else 0)
    else:
        before = max(before, 1)
    for lesson in stage.course.lessons[before:after]:
        for part in lesson.parts:
            lessons_read.mark_part(stage.store, person.id, lesson.id, part.slug, stage.at(day, READS_AT))


def _study(stage: Stage, hand: Hand, person: Person, day: int, chance: random.Random) -> None:
    """One sitting: today's plan, each item drawn, answered and recorded."""
    if not hand.minutes:
        return
    read = set(lessons_read.parts_read(stage.store, person.id))
    at = stage.at(day) + timedelta(hours=chance.uniform(4, 9))
    today = stage.first + timedelta(day)
    offers = [
        Offer(item.id, lesson.id, Section(lesson.module, item.kind), float(item.usual_seconds))
        for lesson in stage.course.lessons
        for item in stage.bank.of_lesson(lesson.id)
    ]
    known, aim = memory.of_person(stage.store, person.id), Aim(every_day(hand.minutes))
    for pick in plan_today(offers, known, read, aim, today).picks:
        at = _one_answer(stage, hand, person, pick.item, at, chance)


def _one_answer(
    stage: Stage, hand: Hand, person: Person, item_id: str, at: datetime, chance: random.Random
) -> datetime:
    """One item drawn, answered and recorded; when the hand is ready for the next."""
    item = stage.bank[item_id]
    question = item.draw(chance.randrange(2**31), person.system)
    question_id = questions.keep(stage.store, question, person.id, "today", at, text=item.text)
    seconds = round(item.usual_seconds * chance.uniform(0.5, 1.8), 1)
    at += timedelta(seconds=seconds)
    written, verdict = answer(question, hand, chance)
    kept = questions.get(stage.store, question_id)
    attempts.record(stage.store, attempt_of(stage, kept, written, verdict, seconds, at))
    return at + timedelta(seconds=chance.uniform(5, 40))


def attempt_of(stage: Stage, kept: Kept, written: str, verdict: Verdict, seconds: float, at: datetime) -> Attempt:
    """The attempt of somebody who wrote that at that moment."""
    return Attempt(
        id=kept.id,
        person=kept.person,
        item=kept.item,
        kind=kept.question.kind,
        typed=written,
        read_as=verdict.read_as,
        outcome=verdict.outcome,
        mistake=verdict.mistake,
        hint=False,
        seconds=seconds,
        answered_at=at,
        received_at=at,
        study_day=study_day(at, stage.zone),
        usual_seconds=float(stage.bank[kept.item].usual_seconds),
    )
