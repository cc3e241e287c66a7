"""The plan of today for who is asking: the records read, and handed to the pure planner."""

import math
from collections import Counter
from dataclasses import dataclass
from datetime import date

from course import Blueprint
from course.blueprint import asked_chances
from webapp.assigning import PAPERS
from webapp.at_hand import bank, blueprints, course, me, store, today
from webapp.my_sittings import held_back
from webapp.reading import readings
from webapp.records import attempts, exams, memory, rotations
from webapp.records.attempts import Attempt
from webapp.records.exams import Exam
from webapp.records.people import Person
from webapp.study.aim import Aim
from webapp.study.first_sight import first_chances
from webapp.study.planner import Pick, Plan, plan_today
from webapp.study.rotation import Rotation, minutes_of
from webapp.study.sitting import CLOSED, NO_TIME, NOT_READ, RESTS
from webapp.study.worth import Offer, Section, worth_of_sections

WITHOUT_EXAM = "a"
"""The paper by whose weights a hand studies who has told no exam day."""
MOST_MINUTES = 240
"""A day's minutes, whatever is added to them."""


@dataclass(frozen=True)
class Aims:
    """What somebody studies for: `exam` is None where no day is told or it is past; the paper is there all the same."""

    exam: Exam | None
    past: Exam | None
    paper: str

    @property
    def day(self) -> date | None:
        """The day of the exam."""
        return self.exam and self.exam.day

    @property
    def blueprint(self) -> Blueprint:
        """What the paper asks, and what passes it."""
        return blueprints()[PAPERS[self.paper]]


def my_plan() -> list[Pick]:
    """What is for today, in the order to ask it, within the minutes that are left of today."""
    return todays_plan().picks


def todays_plan() -> Plan:
    """What is for today within the minutes that are left of it, and why everything else is not."""
    return _plan(minutes_today(), seconds_charged())


def more_waits() -> bool:
    """Whether something could be studied today, be it beyond the hand's minutes."""
    return bool(_plan(math.inf, 0).picks)


def _plan(minutes: float, seconds_used: float) -> Plan:
    """Today's plan, made from what was known this morning: answers of today don't turn its order about."""
    day, person, held = today(), me().id, held_back()
    moved = {item for item, state in memory.of_person(store(), person).items() if state.last_day >= day}
    return plan_today(
        [each for each in offers() if each.item not in held],
        memory.before_day(store(), person, day),
        lessons_finished(),
        aim_of(me()),
        day,
        minutes,
        seconds_used,
        asked=moved | answered_today(),
    )


def aims_of(person: Person) -> Aims:
    """Exam and paper of somebody."""
    told = told_exam(person)
    past = told is not None and told.day < today()
    return Aims(None if past else told, told if past else None, told.paper if told else WITHOUT_EXAM)


def told_exam(person: Person) -> Exam | None:
    """The exam that somebody told, or that was set for them, be it past."""
    return exams.of_people(store(), [person.id]).get(person.id)


def aim_of(person: Person) -> Aim:
    """What somebody studies for: their rotation, the day and weights of their paper, and their first answers so far.

    Without an exam day it is the rolling horizon, by the weights of paper A.
    """
    aims, all_of_it = aims_of(person), offers()
    return Aim(
        rotations.of_person(store(), person),
        aims.day,
        worth_of_sections(all_of_it, asked_chances(aims.blueprint, Counter(each.section for each in all_of_it))),
        first_chances(attempts.first_answers(store(), person.id, today())),
    )


def my_rotation() -> Rotation:
    """When who is asking is on the rig, with the minutes of each day."""
    return rotations.of_person(store(), me())


def minutes_today() -> float:
    """The minutes that today has for study."""
    return minutes_of(my_rotation(), today())


def add_minutes(more: int) -> None:
    """Give today so many more minutes than it has, or than are used up, whichever is more."""
    had = max(minutes_today(), seconds_charged() / 60)
    rotations.set_day(store(), me().id, today(), min(math.ceil(had) + more, MOST_MINUTES))


def offers() -> list[Offer]:
    """Every item of the bank in course order, with the seconds it usually takes."""
    return [
        Offer(item.id, lesson.id, Section(lesson.module, item.kind), float(item.usual_seconds))
        for lesson in course().lessons
        for item in bank().of_lesson(lesson.id)
    ]


def lessons_finished() -> set[str]:
    """Lessons that the hand has read to their end, or passed by a test of their module."""
    return {each.lesson.id for each in readings() if each.is_done}


def left_out(plan: Plan) -> list[tuple[str, int]]:
    """(why, how many items) of what is not for today, in the order to tell it. What was answered is not left out."""
    counts = Counter(plan.left_out.values())
    return [(why, counts[why]) for why in (NO_TIME, RESTS, NOT_READ, CLOSED) if counts[why]]


def seconds_spent() -> float:
    """How long the hand has answered questions today; an answer nobody could time counts what it usually takes."""
    return sum(each.seconds or each.usual_seconds or 0.0 for each in _attempts_today())


def seconds_charged() -> float:
    """How much of today's minutes is used up: each answer takes what it took, and no less than was planned for it.

    Were a quick answer to give its seconds back, the plan would take another item in for it, and what is left for today
    would not go down as the hand answers.
    """
    return sum(max(each.seconds or 0.0, each.usual_seconds or 0.0) for each in _attempts_today())


def _attempts_today() -> list[Attempt]:
    day = today()
    return [each for each in attempts.of_person(store(), me().id, limit=200) if each.study_day == day]


def last_outcomes() -> dict[str, str]:
    """How the hand last answered each item, in counted attempts."""
    return {each.item: each.outcome for each in attempts.counted(store(), me().id)}


def answered_today() -> set[str]:
    """The items that the hand has answered on this study day."""
    return {each.item for each in _attempts_today()}
