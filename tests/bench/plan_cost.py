"""What a plan costs, in calls of the scheduling library timed in the same run."""

import time
from collections.abc import Callable, Mapping
from datetime import date, timedelta
from random import Random

from webapp.study.aim import Aim
from webapp.study.memory import Answer, State, after
from webapp.study.planner import plan_today
from webapp.study.rotation import every_day
from webapp.study.worth import Offer, Section

TODAY = date(2026, 3, 2)
ITEMS, ROUNDS = 400, 15
KINDS = ("numeric", "choice", "part", "card", "match", "order")


def the_offers() -> list[Offer]:
    """Four hundred items in ten modules."""
    chance = Random(1)
    return [
        Offer(
            f"item-{number}",
            f"module-{number // 40}/all",
            Section(f"module-{number // 40}", chance.choice(KINDS)),
            chance.choice((20.0, 35.0, 60.0, 90.0)),
        )
        for number in range(ITEMS)
    ]


def mid_course(offers: list[Offer]) -> dict[str, State]:
    """Half of the items seen, known for 1 to 60 days, last asked 1 to 20 days ago."""
    chance = Random(2)
    return {each.item: _state(chance, (1, 60), (1, 20)) for each in offers[: ITEMS // 2]}


def nothing_rests(offers: list[Offer]) -> dict[str, State]:
    """Every item seen, and all of them faded: the plan has to look ahead at each."""
    chance = Random(3)
    return {each.item: _state(chance, (0.1, 2), (5, 40)) for each in offers}


def _state(chance: Random, strength: tuple[float, float], ago: tuple[int, int]) -> State:
    return State(chance.uniform(*strength), chance.uniform(3, 8), TODAY - timedelta(chance.randint(*ago)))


def seconds(call: Callable[[], object], times: int) -> float:
    """Processor time of one call: the best of some rounds."""
    rounds = []
    for _ in range(ROUNDS):
        start = time.process_time()
        for _ in range(times):
            call()
        rounds.append((time.process_time() - start) / times)
    return min(rounds)


def cost_in_calls() -> tuple[float, float]:
    """How many calls of the library a plan costs: in mid-course, and where nothing rests."""
    offers = the_offers()
    state, answer = State(6.5, 5.0, TODAY - timedelta(7)), Answer("right", "numeric")
    one_call = seconds(lambda: after(state, answer, TODAY), 500)
    aim, read = Aim(every_day(15), TODAY + timedelta(40)), {each.lesson for each in offers}

    def plan(memory: Mapping[str, State]) -> float:
        return seconds(lambda: plan_today(offers, memory, read, aim, TODAY), 10)

    return plan(mid_course(offers)) / one_call, plan(nothing_rests(offers)) / one_call
