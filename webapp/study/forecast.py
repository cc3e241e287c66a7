"""What the mark will be on the day of the exam if the plan is followed, and the minutes a day for a wanted mark. Pure.

The plan is followed day by day with what is to be expected instead of chance: each answer moves an item to the mean of
where right and wrong would leave it. Some days will be missed, so only a share of the minutes is counted on.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import exp, log

from webapp.study.aim import Aim
from webapp.study.first_sight import OTHERWISE
from webapp.study.looking_ahead import first_if_right, first_if_wrong, if_right, if_wrong, kept
from webapp.study.memory import State
from webapp.study.opened import days_to_go
from webapp.study.planner import plan_today
from webapp.study.readiness import Mark, banded, exam_recalls, shift_of, shifted, spread_ahead
from webapp.study.rotation import Rotation, days_between, minutes_of, on_the_rig
from webapp.study.worth import Offer, Section, exam_worth, seconds_of

KEPT_ON, KEPT_OFF = 0.85, 0.70
"""The share of the minutes that is really studied, on the rig and off it. From the simulation of the rule."""
FEWEST, MOST, TO_WITHIN = 2.0, 120.0, 0.5
"""Minutes a day between which the wanted ones are sought, and how closely."""


@dataclass(frozen=True, slots=True)
class Day:
    """One day of a forecast: the mark of the exam to expect if study stopped after it."""

    day: date
    mark: Mark


@dataclass(frozen=True, slots=True)
class Situation:
    """All that a forecast starts from. `lessons_read` are those to count as read; `begun` is the first day of study."""

    offers: Sequence[Offer]
    memory: Mapping[str, State]
    lessons_read: Collection[str]
    aim: Aim
    today: date
    begun: date
    record: Sequence[tuple[float, bool]] = ()

    @property
    def end(self) -> date:
        """The day of the exam; without one, the end of the rolling horizon."""
        return self.today + timedelta(days_to_go(self.aim.exam, self.today))


@dataclass(frozen=True, slots=True)
class Foretold:
    """What following the plan to the eve of the exam is expected to bring: the marks, and the memory at its end."""

    days: list[Day]
    memory: Mapping[str, State]


def forecast(situation: Situation) -> list[Day]:
    """The marks day by day, from today to the eve of the exam. The last one is the mark on the day of the exam."""
    return foretell(situation).days


def foretell(situation: Situation) -> Foretold:
    """The marks of `forecast`, with the memory to expect on the eve of the exam."""
    shift, shares = shift_of(situation.record), _shares(situation.offers, situation.aim.worth)
    whole = max((situation.end - min(situation.begun, situation.today)).days, 1)
    found, memory = [], situation.memory
    for day, memory in _followed(situation, shift):
        recalls = exam_recalls(situation.offers, memory, _with_end(situation), day, shift)
        mark = sum(share * recall for share, recall in zip(shares, recalls, strict=True))
        ahead = ((day - situation.today).days + 1) / whole
        found.append(Day(day, banded(mark, spread_ahead(min(ahead, 1.0)))))
    return Foretold(found, memory)


def never_asked(situation: Situation) -> list[str]:
    """The items, in course order, that the plan is not expected to ask even once before the exam.

    They are what the time to come has no room for, and those whose lessons are not among `lessons_read`.
    """
    memory = foretell(situation).memory
    return [offer.item for offer in situation.offers if offer.item not in memory]


def _followed(situation: Situation, shift: float) -> Iterator[tuple[date, dict[str, State]]]:
    """Each day with the memory to expect after its plan; it is one and the same dictionary, which moves on."""
    memory, aim = dict(situation.memory), _with_end(situation)
    for day in days_between(situation.today, situation.end):
        _study(situation, aim, memory, day, shift)
        yield day, memory


def _with_end(situation: Situation) -> Aim:
    """The aim with a day that stands still while the forecast moves on, even without an exam."""
    return replace(situation.aim, exam=situation.end)


def minutes_needed(situation: Situation, target: float) -> float | None:
    """The minutes a day that would bring the mark to the target, to half a minute; None if two hours would not.

    They are for each day that has any minutes now: a day without study stays one.
    """
    if _mark_with(situation, MOST) < target:
        return None
    low, high = FEWEST, MOST
    if _mark_with(situation, low) >= target:
        return low
    while high - low > TO_WITHIN:
        middle = (low + high) / 2
        if _mark_with(situation, middle) >= target:
            high = middle
        else:
            low = middle
    return high


def _mark_with(situation: Situation, minutes: float) -> float:
    rotation = with_minutes(situation.aim.rotation, minutes)
    return forecast(replace(situation, aim=replace(situation.aim, rotation=rotation)))[-1].mark.about


def with_minutes(rotation: Rotation, minutes: float) -> Rotation:
    """The same rotation with so many minutes on each day that has any."""
    return replace(
        rotation,
        minutes_on=minutes if rotation.minutes_on else 0.0,
        minutes_off=minutes if rotation.minutes_off else 0.0,
        exceptions={day: minutes if each else 0.0 for day, each in rotation.exceptions.items()},
    )


def _shares(offers: Sequence[Offer], worth: Mapping[Section, float]) -> list[float]:
    found = [exam_worth(worth, offer.section) if not worth or offer.section in worth else 0.0 for offer in offers]
    total = sum(found) or 1.0
    return [each / total for each in found]


def _study(situation: Situation, aim: Aim, memory: dict[str, State], day: date, shift: float) -> None:
    """Move `memory` to what is to be expected of it after the plan of that day."""
    share = KEPT_ON if on_the_rig(aim.rotation, day) else KEPT_OFF
    left = share * minutes_of(aim.rotation, day) * 60
    if left <= 0:
        return
    kinds = {offer.item: offer.section.kind for offer in situation.offers}
    for pick in plan_today(situation.offers, memory, situation.lessons_read, aim, day, left / 60).picks:
        kind, state = kinds[pick.item], memory.get(pick.item)
        chance = aim.first.get(kind, OTHERWISE) if state is None else shifted(pick.recall, shift)
        memory[pick.item] = _expected(state, kind, chance, day)
        left -= seconds_of(pick.seconds, chance, state is None)
        if left <= 0:
            break


def _expected(state: State | None, kind: str, chance: float, day: date) -> State:
    """The mean of where a right and a wrong answer leave an item: of the logarithm of its days, and its toughness."""
    if state is None:
        right, wrong = first_if_right(kind), first_if_wrong()
    else:
        foretold = kept(state.days_to_ninety, (day - state.last_day).days)
        right = if_right(state.days_to_ninety, state.toughness, foretold)
        wrong = if_wrong(state.days_to_ninety, state.toughness, foretold)
    missed = 1 - chance
    return State(exp(chance * log(right[0]) + missed * log(wrong[0])), chance * right[1] + missed * wrong[1], day)
