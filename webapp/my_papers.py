"""The practice papers of who is asking: what each asks of the bank as it stands, how it is begun, what it came to."""

import math
import secrets
from collections import Counter
from dataclasses import dataclass
from datetime import datetime, timedelta

from course import Blueprint
from course.blueprint import module_questions, over_kinds
from webapp import my_sittings
from webapp.assigning import PAPERS
from webapp.at_hand import bank, blueprints, course, me, now, store, today
from webapp.my_rig_sheet import my_rig
from webapp.records import crews, exams, extra_time, paper_results, rotations, sittings
from webapp.records.crews import Membership
from webapp.records.extra_time import Grant
from webapp.records.paper_results import KINDS, OnePaper
from webapp.records.sittings import Sitting
from webapp.study.drawing_up import SELF_MARKED, Askable
from webapp.study.paper import Demand, ModuleDemand, draw_paper, module_of
from webapp.study.rotation import on_the_rig

PART_MORE = 4
"""Extra time is one part in so many more (plan of the course: a quarter)."""


@dataclass(frozen=True)
class Paper:
    """One paper as it can be sat now: its letter, blueprint, and what it asks of the bank."""

    letter: str
    blueprint: Blueprint
    items: tuple[Askable, ...]
    demand: Demand

    @property
    def kind(self) -> str:
        """The kind of its sittings."""
        return KINDS[self.letter]

    @property
    def pass_mark(self) -> int:
        """In percent."""
        return round(self.blueprint.pass_mark * 100)

    @property
    def least(self) -> int:
        """The percent that must be right in each module."""
        return round(self.blueprint.least_in_a_module * 100)

    @property
    def minutes_with_extra(self) -> int:
        """A quarter more, up to a whole minute."""
        return math.ceil(self.blueprint.minutes * (1 + 1 / PART_MORE))


@dataclass(frozen=True)
class OpenPaper:
    """A paper that is begun and not handed in. `minutes_left` is rounded down; None where there is all the time."""

    sitting: Sitting
    letter: str
    minutes_left: int | None


def paper(letter: str) -> Paper | None:
    """The paper 'a' or 'b' for who is asking; None for any other letter."""
    if letter not in PAPERS:
        return None
    blueprint, items = blueprints()[PAPERS[letter]], _askable()
    rig = my_rig()
    demand = demand_of(blueprint, items, rig.rig_type if rig else None)
    return Paper(letter, blueprint, items, demand)


def demand_of(blueprint: Blueprint, items: tuple[Askable, ...], rig_type: str | None) -> Demand:
    """What a blueprint asks of these items, for a sitter whose own rig is of that type."""
    sizes = Counter((module_of(each.lesson), each.kind) for each in items)
    modules = {
        module: ModuleDemand(
            questions,
            tuple(over_kinds(blueprint, questions, {kind: n for (of, kind), n in sizes.items() if of == module})),
        )
        for module, questions in module_questions(blueprint, rig_type).items()
    }
    must = blueprint.must_pass
    return Demand(modules, must.questions, must.one_each, must.may)


def open_paper() -> OpenPaper | None:
    """The paper that who is asking has open. One whose time is up is handed in first."""
    my_sittings.close_overdue([me().id])
    letters = {kind: letter for letter, kind in KINDS.items()}
    found = next((each for each in sittings.open_of(store(), me().id) if each.kind in letters), None)
    return found and OpenPaper(found, letters[found.kind], minutes_left(found, now()))


def minutes_left(sitting: Sitting, at: datetime) -> int | None:
    """Whole minutes to the deadline; None where there is none."""
    return None if sitting.deadline is None else max(0, int((sitting.deadline - at).total_seconds() // 60))


def my_results() -> dict[str, OnePaper]:
    """What the papers of who is asking came to. One whose time is up is handed in first."""
    my_sittings.close_overdue([me().id])
    return paper_results.of_person(store(), me().id)


def papers_of(member: Membership) -> dict[str, OnePaper]:
    """What a coordinator sees of a hand's papers. One whose time is up is handed in first."""
    my_sittings.close_overdue([member.person.id])
    return paper_results.of_person(store(), member.person.id, member.sees_from)


def my_exam_paper() -> str | None:
    """The paper of the exam that who is asking goes for, or None."""
    exam = exams.of_people(store(), [me().id]).get(me().id)
    return exam and exam.paper


def my_grant() -> Grant | None:
    """The extra time that a coordinator of the hand's crew has granted, or None."""
    membership = crews.membership_now(store(), me().id)
    return membership and extra_time.granted(store(), me().id, membership.crew.id)


def may_take_extra() -> bool:
    """Whether who is asking decides about extra time themselves: they do who are in no crew."""
    return crews.membership_now(store(), me().id) is None


def on_my_rig() -> bool:
    """Whether who is asking is on the rig today, where they have told a rotation or are in a crew."""
    if rotations.own(store(), me()) is None and crews.membership_now(store(), me().id) is None:
        return False
    return on_the_rig(rotations.of_person(store(), me()), today())


def begin(letter: str, timed: bool, extra: bool, seed: int | None = None) -> str:
    """Begin a paper, or go on with the one that is open; its sitting's id.

    `extra` counts for who is in no crew; a hand of a crew has extra time where it is granted.
    """
    with store().writing():
        standing = open_paper()
        if standing:
            return standing.sitting.id
        found, seed = paper(letter), secrets.randbelow(2**31) if seed is None else seed
        more = extra if may_take_extra() else my_grant() is not None
        minutes = found.minutes_with_extra if more else found.blueprint.minutes
        items = draw_paper(
            found.items, found.demand, seed, me().system, paper_results.items_asked_last(store(), me().id)
        )
        drawn_to = {
            "blueprint": found.blueprint.id, "seed": seed, "questions": found.blueprint.questions,
            "least": found.least, "minutes": minutes if timed else None, "sheet": found.blueprint.sheet,
        }  # fmt: skip
        return my_sittings.begin(
            found.kind, None, items, found.pass_mark,
            deadline=now() + timedelta(minutes=minutes) if timed else None, paper=drawn_to,
        )  # fmt: skip


def _askable() -> tuple[Askable, ...]:
    return tuple(
        Askable(item.id, lesson.id, item.kind, item.must_pass)
        for lesson in course().lessons
        for item in bank().of_lesson(lesson.id)
        if item.kind not in SELF_MARKED
    )
