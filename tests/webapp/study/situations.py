"""Situations of a hand for the tests of the plan, drawn by hypothesis."""

from dataclasses import dataclass, replace
from datetime import date, timedelta

from hypothesis import strategies as st

from webapp.study.aim import Aim
from webapp.study.memory import State
from webapp.study.planner import Plan, plan_today
from webapp.study.rotation import Rotation
from webapp.study.worth import Offer, Section

TODAY = date(2026, 3, 2)
MODULES = ("safety", "units", "kelly", "loads")
KINDS = ("numeric", "choice", "card")

states = st.builds(
    State,
    days_to_ninety=st.floats(0.1, 400),
    toughness=st.floats(1, 10),
    last_day=st.integers(0, 90).map(lambda days: TODAY - timedelta(days)),
)
rotations = st.builds(
    Rotation,
    days_on=st.integers(7, 28),
    days_off=st.integers(0, 28),
    first_day=st.integers(0, 60).map(lambda days: TODAY - timedelta(days)),
    minutes_on=st.sampled_from([5, 10, 20]),
    minutes_off=st.sampled_from([0, 10, 30]),
)
sections = st.builds(Section, st.sampled_from(MODULES), st.sampled_from(KINDS))
worths = st.just({}) | st.dictionaries(sections, st.floats(0.1, 5), min_size=1)
aims = st.builds(
    Aim, rotations, exam=st.none() | st.integers(1, 90).map(lambda days: TODAY + timedelta(days)), worth=worths
)


def told(recall: float) -> float:
    """What is told of a recall on the exam's day without a record: 0.818731 (e to the −0.2) of its odds."""
    odds = 0.818731 * recall / (1 - recall)
    return odds / (1 + odds)


@dataclass
class Situation:
    """What a plan is made from."""

    offers: list[Offer]
    memory: dict[str, State]
    read: set[str]
    aim: Aim
    minutes: float

    def plan(self, **changes) -> Plan:
        """The plan of today, some fields replaced."""
        now = replace(self, **changes)
        return plan_today(now.offers, now.memory, now.read, now.aim, TODAY, now.minutes)


@st.composite
def situations(draw, most_items: int = 30) -> Situation:
    """Items in course order, some seen, some lessons read (each module has two), an aim and minutes."""
    places = draw(
        st.lists(st.tuples(st.sampled_from(range(len(MODULES))), st.integers(1, 2)), max_size=most_items).map(sorted)
    )
    offers = [
        Offer(
            f"item-{number}",
            f"{MODULES[module]}/{lesson}",
            Section(MODULES[module], draw(st.sampled_from(KINDS))),
            draw(st.sampled_from([20.0, 45.0, 90.0])),
        )
        for number, (module, lesson) in enumerate(places)
    ]
    known = draw(st.sets(st.sampled_from([each.item for each in offers]))) if offers else set()
    lessons = sorted({each.lesson for each in offers})
    read = draw(st.sets(st.sampled_from(lessons))) if lessons else set()
    return Situation(offers, {item: draw(states) for item in sorted(known)}, read, draw(aims), draw(st.integers(0, 20)))
