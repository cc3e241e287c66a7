"""The plan of today for who is asking: the records read, and handed to the pure planner."""

import math

from webapp.at_hand import bank, course, me, store, today
from webapp.records import attempts, lessons_read, memory
from webapp.records.attempts import Attempt
from webapp.study.planner import Offer, Pick, plan_today


def my_plan() -> list[Pick]:
    """What is for today, in the order to ask it, within the minutes that are left of today."""
    return _plan(me().minutes, seconds_charged())


def more_waits() -> bool:
    """Whether something could be studied today, be it beyond the hand's minutes."""
    return bool(_plan(math.inf, 0))


def _plan(minutes: float, seconds_used: float) -> list[Pick]:
    known = memory.of_person(store(), me().id)
    return plan_today(offers(), known, lessons_finished(), minutes, today(), seconds_used)


def offers() -> list[Offer]:
    """Every item of the bank in course order, with the seconds it usually takes.

    Items of lessons still to be written come last. They are never new here, since nobody has read their lesson; one
    that a hand has practised comes back when it fades, as the page of its answer has said.
    """
    return [
        Offer(item.id, lesson.id, float(item.usual_seconds))
        for lesson in (*course().lessons, *course().planned)
        for item in bank().of_lesson(lesson.id)
    ]


def lessons_finished() -> set[str]:
    """Lessons of which the hand has read every part."""
    read = lessons_read.parts_read(store(), me().id)
    return {each.id for each in course().lessons if all(part.slug in read.get(each.id, {}) for part in each.parts)}


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
