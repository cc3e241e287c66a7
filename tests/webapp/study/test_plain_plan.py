"""What the plan leaves out of its looking changes nothing: item for item it is the plan of the plain rule."""

from datetime import timedelta
from random import Random

import pytest
from hypothesis import given, settings

from tests.webapp.study.plain_plan import PlainSitting
from tests.webapp.study.situations import TODAY, situations
from webapp.study.aim import Aim
from webapp.study.memory import State
from webapp.study.planner import plan_today
from webapp.study.rotation import Rotation, every_day
from webapp.study.worth import Offer, Section

KINDS = ("numeric", "choice", "card", "match")
STRENGTHS = ((0.001, 0.03), (0.1, 2), (1, 60), (30, 3000))
ALL_DAY = 24 * 60


@settings(max_examples=150, deadline=None)
@given(situations())
def test_small_plans_are_those_of_the_plain_rule(situation):
    plan = situation.plan(minutes=ALL_DAY)
    plain = PlainSitting(situation.offers, situation.memory, situation.read, situation.aim, TODAY)
    assert [pick.item for pick in plan.picks] == plain.order(len(situation.offers))


@pytest.mark.parametrize("seed", range(60))
def test_larger_plans_are_those_of_the_plain_rule(seed):
    """Sixty to 120 items; in every other course many items are exactly alike, so that ties are many."""
    chance, alike = Random(seed), seed % 2 == 1
    items, modules = chance.randint(60, 120), chance.randint(1, 8)
    offers = [
        Offer(
            f"item-{number}",
            f"module-{number * modules // items}/{chance.randint(1, 2)}",
            Section(f"module-{number * modules // items}", chance.choice(KINDS)),
            60.0 if alike else chance.choice((20.0, 35.0, 60.0, 90.0)),
        )
        for number in range(items)
    ]
    few = [state_of(chance, seed) for _ in range(3)]
    share = chance.choice((0.3, 0.7, 1.0))
    memory = {
        each.item: chance.choice(few) if alike else state_of(chance, seed) for each in offers if chance.random() < share
    }
    read = {each.lesson for each in offers if chance.random() < 0.6}
    worth = {each.section: chance.choice((0.5, 1.0, 3.0)) for each in offers if seed % 3 and chance.random() < 0.5}
    exam = chance.choice((40, 90) if seed % 4 == 0 else (None, 1, 4, 12, 40, 90))
    rotation = chance.choice((every_day(15), Rotation(14, 14, TODAY - timedelta(chance.randint(0, 27)), 15, 0)))
    aim = Aim(rotation, exam and TODAY + timedelta(exam), worth)
    plan = plan_today(offers, memory, read, aim, TODAY, minutes=45)
    assert [pick.item for pick in plan.picks] == PlainSitting(offers, memory, read, aim, TODAY).order(len(plan.picks))


def state_of(chance: Random, seed: int) -> State:
    """How well an item is remembered: weakly or strongly, by the seed. Of the weakest, two answers may beat one."""
    return State(chance.uniform(*STRENGTHS[seed % 4]), chance.uniform(1, 10), TODAY - timedelta(chance.randint(0, 120)))
