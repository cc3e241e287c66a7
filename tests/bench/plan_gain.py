"""What the plan gains: recall on the day of the exam, beside other orders of study, in the same minutes.

    python -m tests.bench.plan_gain --learners 200

Each invented hand (seeds 70000 and up) studies once by each order and under each way of remembering; the plan is the
course's own function. The tuned order was tuned for each model on seeds of its own, and the spreads of the bands were
set on others again. Differences are paired by hand, with a 95 % interval from their spread. The exit status is 1 where
a bar is not met.
"""

import argparse
import statistics
import sys
import time
from collections import defaultdict
from dataclasses import dataclass, field
from datetime import date, timedelta

from tests.bench.memory_models import FOREIGN, MODELS
from tests.bench.plan_cost import cost_in_calls
from tests.bench.simulated_hand import FIRST_DAY, Hand, Study, hand_of, the_course
from tests.bench.study_orders import ORDERS, READ, ByDueDate, ThePlan, Tuned, WeightPerSecond
from webapp.study.forecast import Situation, forecast
from webapp.study.readiness import Mark, readiness

FIRST_SEED, TUNING_SEED, TUNING_HANDS = 70_000, 69_000, 20
TUNING = [(below, new) for below in (0.5, 0.6, 0.7, 0.8, 0.9, 0.95) for new in (5, 10, 20, 250)]
GOOD = 0.85
LOOKS_EVERY = 4
LEAST_BESIDE_WEIGHT, LEAST_NUMERIC = -0.01, -0.05
COVERED = (0.85, 0.99)
MOST_CALLS = 150


@dataclass
class Result:
    """What one hand reached by one order: marks, and the minutes after which the mark of the day stood at GOOD."""

    mark: float
    later: float
    numeric: float
    kinds: dict[str, float]
    worst_module: float
    minutes: float
    minutes_to_good: float | None


@dataclass
class Bands:
    """Whether bands held what came, by when they were made; and how far off their middles were."""

    held: dict[str, list[bool]] = field(default_factory=lambda: defaultdict(list))
    off: dict[str, list[float]] = field(default_factory=lambda: defaultdict(list))

    def add(self, name: str, band: Mark, came: float) -> None:
        self.held[name].append(band.low <= came <= band.high)
        self.off[name].append(band.about - came)


def study(hand: Hand, model: type, order_of: type, bands: Bands | None = None) -> Result:
    """One hand's whole course by one order. With `bands`, what was foretold a third of the way is compared."""
    course, order, good, foretold = Study(hand, model), order_of(hand), None, None
    for number in range(hand.days):
        if bands and number == hand.days // 3:
            foretold = look_ahead(hand, order, FIRST_DAY + timedelta(number))
            bands.add("mark now, a third of the way", stands(hand, order, number), course.mark(hand.days))
        course.day(number, order)
        if good is None and number % LOOKS_EVERY == 0 and course.mark(hand.days) >= GOOD:
            good = course.seconds_used / 60
    mark, kinds = course.mark(hand.days), course.marks_by(hand.days, "kind")
    if bands:
        bands.add("forecast, a third of the way", foretold, mark)
        bands.add("mark now, on the eve", stands(hand, order, hand.days - 1), mark)
    return Result(
        mark,
        course.mark(hand.days + 30),
        kinds["numeric"],
        kinds,
        min(course.marks_by(hand.days, "module").values()),
        course.seconds_used / 60,
        good,
    )


def look_ahead(hand: Hand, order: ThePlan, day: date) -> Mark:
    """The mark on the day of the exam, as the course foretells it on that day."""
    situation = Situation(the_course()[0], order.memory, READ, order.aim(), day, FIRST_DAY, order.foretold)
    return forecast(situation)[-1].mark


def stands(hand: Hand, order: ThePlan, number: int) -> Mark:
    """The mark as the course says it stands on that day."""
    day = FIRST_DAY + timedelta(number)
    return readiness(the_course()[0], order.memory, order.aim(), day, order.foretold).mark


def tune(model: type) -> tuple[float, int]:
    """The recall and the new items a day with which the order by due date does best under a model."""
    hands = [hand_of(TUNING_SEED + number) for number in range(TUNING_HANDS)]

    def mean_mark(choice: tuple[float, int]) -> float:
        Tuned.due_below, Tuned.new_a_day = choice
        return statistics.mean(quick_mark(hand, model, Tuned) for hand in hands)

    return max(TUNING, key=mean_mark)


def quick_mark(hand: Hand, model: type, order_of: type) -> float:
    """The mark on the day of the exam and nothing else."""
    course, order = Study(hand, model), order_of(hand)
    for number in range(hand.days):
        course.day(number, order)
    return course.mark(hand.days)


def interval(differences: list[float]) -> tuple[float, float, float]:
    """Mean of paired differences and the ends of its 95 % interval."""
    mean = statistics.mean(differences)
    half = 1.96 * statistics.stdev(differences) / len(differences) ** 0.5
    return mean, mean - half, mean + half


def of_model(model: type, hands: list[Hand], bands: Bands) -> dict[str, list[Result]]:
    """Every order's results under one model, hand by hand."""
    Tuned.due_below, Tuned.new_a_day = tune(model)
    return {
        each.name: [study(hand, model, each, bands if each is ThePlan else None) for hand in hands] for each in ORDERS
    }


def print_results(results: dict[str, list[Result]]) -> None:
    """A table: order by order, means over the hands."""
    print(f"  {'':20} {'exam day':>8} {'30 later':>8} {'numeric':>8} {'worst m.':>8} {'minutes':>8}  to 85 %")
    for name, found in results.items():
        values = [statistics.mean(getattr(each, what) for each in found) for what in ("mark", "later", "numeric")]
        values += [statistics.mean(each.worst_module for each in found)]
        good = [each.minutes_to_good for each in found if each.minutes_to_good is not None]
        said = f"{len(good) / len(found):.0%} of hands" + (
            f", median {statistics.median(good):.0f} min" if good else ""
        )
        minutes = statistics.mean(each.minutes for each in found)
        print(f"  {name:20} " + " ".join(f"{each:8.3f}" for each in values) + f" {minutes:8.0f}  {said}")
    print("  by kind: " + ", ".join(results["the plan"][0].kinds))
    for name, found in results.items():
        print(f"  {name:20} " + " ".join(f"{each:.3f}" for each in kind_means(found).values()))


def kind_means(found: list[Result]) -> dict[str, float]:
    """The mean mark of each kind."""
    return {kind: statistics.mean(each.kinds[kind] for each in found) for kind in found[0].kinds}


def print_differences(results: dict[str, list[Result]]) -> dict[str, tuple[float, float, float]]:
    """The plan less each other order, paired by hand."""
    plan, found = results["the plan"], {}
    for name, others in results.items():
        if name == "the plan":
            continue
        found[name] = interval([one.mark - other.mark for one, other in zip(plan, others, strict=True)])
        later = interval([one.later - other.later for one, other in zip(plan, others, strict=True)])
        worse = statistics.mean(one.mark < other.mark for one, other in zip(plan, others, strict=True))
        print(
            f"  plan less {name:20} {found[name][0]:+.3f} [{found[name][1]:+.3f}, {found[name][2]:+.3f}]"
            f"   30 days later {later[0]:+.3f}   worse for {worse:.0%} of hands"
        )
    return found


def print_losses(results: dict[str, list[Result]]) -> float:
    """Kinds of which the plan leaves less than another order does; the numeric difference to the order by due date."""
    plan = kind_means(results["the plan"])
    for name, found in results.items():
        lost = {kind: plan[kind] - mean for kind, mean in kind_means(found).items() if plan[kind] < mean - 0.005}
        if lost:
            print(f"  less than {name}: " + ", ".join(f"{kind} {by:+.3f}" for kind, by in lost.items()))
    pairs = zip(results["the plan"], results[ByDueDate.name], strict=True)
    numeric = interval([one.numeric - other.numeric for one, other in pairs])
    print(f"  numeric items, plan less by due date: {numeric[0]:+.3f} [{numeric[1]:+.3f}, {numeric[2]:+.3f}]")
    return numeric[0]


def judged(bars: list[tuple[str, bool]]) -> int:
    """Print each bar and whether it is met; 1 where one is not."""
    for text, met in bars:
        print(f"{'Met    ' if met else 'NOT MET'} {text}")
    return int(not all(met for _, met in bars))


def bars_of_model(name: str, gains: dict[str, tuple[float, float, float]], numeric: float) -> list[tuple[str, bool]]:
    """The bars that hold under each foreign model: the low end of an interval must not lie under them."""
    due, weighed = gains[ByDueDate.name][1], gains[WeightPerSecond.name][1]
    return [
        (f"{name}: over the order by due date, from {due:+.3f} up", due > 0),
        (f"{name}: beside weight per second, from {weighed:+.3f} up", weighed >= LEAST_BESIDE_WEIGHT),
        (f"{name}: numeric items {numeric:+.3f}", numeric >= LEAST_NUMERIC),
    ]


def bars_of_bands(bands: dict[str, Bands]) -> list[tuple[str, bool]]:
    """How many bands held over the foreign models together, for each time at which they were made."""
    bars = []
    for name in bands[FOREIGN[0].name].held:
        held = [each for model in FOREIGN for each in bands[model.name].held[name]]
        share = statistics.mean(held)
        bars.append((f"{name}: {share:.1%} of {len(held)} held, foreign models", COVERED[0] <= share <= COVERED[1]))
    return bars


def main() -> int:
    """Print everything. 1 where a bar is not met."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--learners", type=int, default=200, help="invented hands under each model (default 200)")
    hands = [hand_of(FIRST_SEED + number) for number in range(parser.parse_args().learners)]
    start, bars, bands = time.perf_counter(), [], {}
    for model in MODELS:
        bands[model.name] = Bands()
        results = of_model(model, hands, bands[model.name])
        print(f"\n{model.name}, {len(hands)} hands (tuned: due below {Tuned.due_below}, {Tuned.new_a_day} new a day)")
        print_results(results)
        gains, numeric = print_differences(results), print_losses(results)
        for name, held in bands[model.name].held.items():
            print(
                f"  {name}: held {statistics.mean(held):.0%}, off {statistics.mean(bands[model.name].off[name]):+.3f}"
            )
        if model in FOREIGN:
            bars += bars_of_model(model.name, gains, numeric)
        sys.stdout.flush()
    calls, worst = cost_in_calls()
    print(f"\nA plan for 400 items costs {calls:.0f} library calls in mid-course, {worst:.0f} where nothing rests.")
    bars += [
        *bars_of_bands(bands),
        (f"a plan for 400 items costs {calls:.0f} calls of the library in mid-course", calls <= MOST_CALLS),
        (f"a plan for 400 items costs {worst:.0f} calls of the library where nothing rests", worst <= MOST_CALLS),
    ]
    print(f"{time.perf_counter() - start:.0f} s\n")
    return judged(bars)


if __name__ == "__main__":
    sys.exit(main())
