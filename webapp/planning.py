"""The plan of today for who is asking: the records read, and handed to the pure planner."""

import math
from collections.abc import Iterator

from webapp.at_hand import bank, course, me, store, today
from webapp.my_sittings import held_back
from webapp.records import attempts, lessons_read, memory
from webapp.records.attempts import Attempt
from webapp.study.aim import Aim
from webapp.study.first_sight import first_chances
from webapp.study.planner import Pick, Plan, plan_today
from webapp.study.rotation import every_day
from webapp.study.worth import Offer, Section


def my_plan() -> list[Pick]:
    """What is for today, in the order to ask it, within the minutes that are left of today."""
    return _plan(me().minutes, seconds_charged()).picks


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
        my_aim(),
        day,
        minutes,
        seconds_used,
        asked=moved | answered_today(),
    )


def my_aim() -> Aim:
    """What the hand studies for. As long as nobody is asked for exam and rotation: no exam, the same minutes daily."""
    return Aim(every_day(me().minutes), first=first_chances(_first_answers()))


def _first_answers() -> Iterator[tuple[str, bool]]:
    """Kind of each item answered before today, and whether its first counted answer was right."""
    seen, day = set(), today()
    for each in attempts.counted(store(), me().id):
        if each.item not in seen and each.study_day < day:
            seen.add(each.item)
            yield each.kind, each.outcome == "right"


def offers() -> list[Offer]:
    """Every item of the bank in course order, with the seconds it usually takes.

    Items of lessons still to be written come last. They are never new here, since nobody has read their lesson; one
    that a hand has practised comes back when it fades, as the page of its answer has said.
    """
    return [
        Offer(item.id, lesson.id, Section(lesson.module, item.kind), float(item.usual_seconds))
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
