"""How ready somebody is and will be: the records read, and handed to the pure readiness and forecast."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property

from flask import current_app

from course import Lesson
from webapp.at_hand import course, me, store, today
from webapp.planning import Aims, aim_of, aims_of, offers, seconds_charged
from webapp.records import attempts, memory
from webapp.records.crews import Membership
from webapp.records.people import Person
from webapp.study.aim import Aim
from webapp.study.forecast import Day, Situation, foretell, minutes_needed
from webapp.study.memory import State
from webapp.study.readiness import RECORD, Mark, Readiness, readiness
from webapp.study.rotation import minutes_of
from webapp.study.worth import Section

TOO_EARLY = 30
"""Under so many answers nothing is foretold: it would tell of hands in general and not of this one."""
KEPT = 50
"""Of so many hands the last forecast is kept in the program's own memory."""
KINDS = {
    "choice": "Choice",
    "numeric": "Sums",
    "card": "Cards",
    "part": "Parts of a figure",
    "match": "Pairs",
    "order": "Steps in order",
    "estimate": "Estimates",
    "gauge": "Dials",
    "find-the-wrong-line": "Workings with a wrong line",
}
"""What each kind of question is called in a table."""


@dataclass(frozen=True)
class Share:
    """One row of a table: a module or kind, its mark if nothing more is studied, and if the plan is followed.

    Where nothing of it was answered, its mark is a guess from the hand's first answers elsewhere.
    """

    name: str
    now: float
    ahead: float
    begun: bool


@dataclass(frozen=True)
class Ready:
    """How ready a hand is: `now` if nothing more is studied, `ahead` if the plan is followed to the exam.

    `never_asked` are the items that the plan is not expected to ask before it.
    """

    situation: Situation
    aims: Aims
    now: Readiness
    ahead: Readiness
    days: list[Day]
    never_asked: list[str]

    @property
    def mark(self) -> Mark:
        """The mark foretold for the day of the exam, with its band."""
        return self.days[-1].mark

    @property
    def pass_mark(self) -> float:
        """The share that must be right."""
        return self.aims.blueprint.pass_mark

    @property
    def end(self) -> date:
        """The day of the exam; without one, the end of the 30 days looked ahead."""
        return self.aims.day or self.situation.end

    @cached_property
    def minutes_needed(self) -> float | None:
        """The minutes a day that would reach the pass mark; None if two hours would not."""
        return minutes_needed(self.situation, self.pass_mark)

    @property
    def module_rows(self) -> list[tuple[int | None, Share]]:
        """Number and share of each module that the paper asks."""
        begun = {section.module for section in self._answered}
        return [
            (each.number, self._share(each.title, each.id, self.now.modules, self.ahead.modules, begun))
            for each in course().modules
            if each.id in self.now.modules
        ]

    @property
    def kind_rows(self) -> list[tuple[None, Share]]:
        """The share of each kind that the paper asks; kinds have no number."""
        begun = {section.kind for section in self._answered}
        return [
            (None, self._share(words, kind, self.now.kinds, self.ahead.kinds, begun))
            for kind, words in KINDS.items()
            if kind in self.now.kinds
        ]

    @property
    def _answered(self) -> set[Section]:
        """The sections of which something was answered."""
        return {each.section for each in self.situation.offers if each.item in self.situation.memory}

    @staticmethod
    def _share(name: str, key: str, now: Mapping[str, float], ahead: Mapping[str, float], begun: set[str]) -> Share:
        return Share(name, now[key], ahead[key], key in begun)


@dataclass(frozen=True)
class SeenByCoordinator:
    """What a coordinator may know of a hand's readiness: the mark, or None with the reason: 'early' or 'before'.

    'before': part of what the hand did lies before the day from which the coordinator sees, and would show through.
    `answers` and `right` are counted from that day on.
    """

    mark: Mark | None
    why_not: str | None
    aims: Aims
    answers: int
    right: int


def my_readiness() -> Ready | None:
    """How ready who is asking is and will be; None while it is too early to say."""
    person = me()
    if attempts.studied(store(), person.id).answers < TOO_EARLY:
        return None
    situation, aims = _situation(person), aims_of(person)
    kept = current_app.extensions["pinandbox"].setdefault("foretold", {})
    last = kept.get(person.id)
    # The very same inputs give the very same forecast; nothing else is compared, so nothing can be out of date.
    if last is None or last.situation != situation or last.aims != aims:
        last = _foretold(situation, aims)
        kept[person.id] = last
        while len(kept) > KEPT:
            kept.pop(next(iter(kept)), None)
    return last


def _foretold(situation: Situation, aims: Aims) -> Ready:
    found = foretell(situation)
    eve = found.days[-1].day
    return Ready(
        situation,
        aims,
        _as_things_stand(situation, situation.memory, situation.aim, situation.today),
        _as_things_stand(situation, found.memory, replace(situation.aim, exam=situation.end), eve),
        found.days,
        [each.item for each in situation.offers if each.item not in found.memory],
    )


def _as_things_stand(situation: Situation, known: Mapping[str, State], aim: Aim, day: date) -> Readiness:
    return readiness(situation.offers, known, aim, day, situation.record)


def _situation(person: Person) -> Situation:
    """All that is known of who is asking. Today has the minutes that are left of it; each lesson counts as
    read, since it will be by then if the hand goes on."""
    aim, day = aim_of(person), today()
    left = max(minutes_of(aim.rotation, day) - seconds_charged() / 60, 0.0)
    rotation = replace(aim.rotation, exceptions={**aim.rotation.exceptions, day: left})
    return Situation(
        offers(),
        memory.of_person(store(), person.id),
        {each.id for each in course().lessons},
        replace(aim, rotation=rotation),
        day,
        attempts.studied(store(), person.id).first or day,
        memory.record_of(store(), person.id, RECORD),
    )


def never_asked_by_lesson(ready: Ready) -> list[tuple[Lesson, int]]:
    """(lesson, how many of its items) that the plan is not expected to ask before the exam, in course order."""
    of = {each.item: each.lesson for each in ready.situation.offers}
    counts = Counter(of[item] for item in ready.never_asked)
    return [(each, counts[each.id]) for each in course().lessons if counts[each.id]]


def readiness_for_coordinator(member: Membership) -> SeenByCoordinator:
    """The readiness of a member as things stand, if all that it rests on may be seen."""
    person, aims = member.person, aims_of(member.person)
    seen = [each.outcome for each in attempts.counted(store(), person.id) if each.answered_at >= member.sees_from]
    answers, right = len(seen), seen.count("right")
    if attempts.any_before(store(), person.id, member.sees_from):
        return SeenByCoordinator(None, "before", aims, answers, right)
    if answers < TOO_EARLY:
        return SeenByCoordinator(None, "early", aims, answers, right)
    known, record = memory.of_person(store(), person.id), memory.record_of(store(), person.id, RECORD)
    mark = readiness(offers(), known, aim_of(person), today(), record).mark
    return SeenByCoordinator(mark, None, aims, answers, right)
