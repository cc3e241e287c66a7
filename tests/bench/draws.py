"""What a draw costs, beside functions that somebody wrote out by hand for the same items with the same seeding.

    python -m tests.bench.draws

Each hand-written function seeds `random.Random`, picks the same givens on the same grids, works the steps and four
known wrong ways on plain floats, and tests that they stand apart, as the bank's compiled draw does. First both must
give the same numbers on 500 seeds; then they are timed in turn, by processor time, and the best of 15 rounds stands.
The last line sweeps the whole bank: every item, both systems, questions with all their texts.
"""

import math
import random
import sys
import time
from collections.abc import Callable

from question_bank import Bank, load_bank
from question_bank.item_fields import SYSTEMS
from question_bank.picking import Picker

BAR = 1.3
SEEDS = 3_000
ROUNDS = 15
SWEPT_SEEDS = 20

HP = 550 * 0.3048 * 0.45359237 * 9.80665
FT_LBF = 0.3048 * 0.45359237 * 9.80665
RPM = 1 / 60
INCH = 0.0254
Drawn = tuple[float, tuple[float, ...], bool]


def motors_to_hook(seed: int) -> Drawn:
    """loads.motors-to-hook in US units."""
    part = random.Random(seed).random
    motors = (2.0, 3.0)[int(part() * 2)]
    motor_power = (500 + 50 * int(part() * 21)) * HP
    drive_efficiency = (0.85, 0.86, 0.87, 0.88)[int(part() * 4)]
    efficiency = (0.755, 0.782, 0.811, 0.842)[int(part() * 4)]
    all_motors = motors * motor_power
    at_drum = all_motors * drive_efficiency
    at_hook = at_drum * efficiency
    slips = (at_drum, all_motors * efficiency, at_hook / motors, all_motors / drive_efficiency / efficiency)
    return at_hook, slips, apart(at_hook, *slips)


def block_speed_in_gear(seed: int) -> Drawn:
    """loads.block-speed-in-gear in US units."""
    part = random.Random(seed).random
    motor_speed = (600 + 20 * int(part() * 26)) * RPM
    gear_ratio = (5.0, 6.0, 7.0, 8.0, 9.0, 10.0)[int(part() * 6)]
    layer = (26 + int(part() * 13)) * INCH
    lines = (8.0, 10.0, 12.0)[int(part() * 3)]
    drum_speed = motor_speed / gear_ratio
    fast_line = math.pi * layer * drum_speed
    block_speed = fast_line / lines
    slips = (fast_line, block_speed / 2, block_speed / 3.14159, block_speed * gear_ratio * gear_ratio)
    return block_speed, slips, apart(block_speed, *slips)


def rotary_input(seed: int) -> Drawn:
    """loads.rotary-input in US units."""
    part = random.Random(seed).random
    torque = (5_000 + 500 * int(part() * 71)) * FT_LBF
    turning = (60 + 5 * int(part() * 29)) * RPM
    efficiency = (0.86, 0.88, 0.9, 0.92, 0.94)[int(part() * 5)]
    at_string = 2 * math.pi * torque * turning
    motor = at_string / efficiency
    slips = (at_string, at_string * efficiency, motor / 6.28319, motor * 5252.1 / 9549.3)
    return motor, slips, apart(motor, *slips)


def apart(key: float, one: float, two: float, three: float, four: float) -> bool:
    """Whether four slips lie four times 1 % from the answer and twice 1 % from each other."""
    width = 0.01 * abs(key)
    far, off = 4 * width, 2 * width
    return (
        abs(one - key) >= far
        and abs(two - key) >= far
        and abs(three - key) >= far
        and abs(four - key) >= far
        and abs(one - two) >= off
        and abs(one - three) >= off
        and abs(one - four) >= off
        and abs(two - three) >= off
        and abs(two - four) >= off
        and abs(three - four) >= off
    )


BY_HAND: dict[str, Callable[[int], Drawn]] = {
    "loads.motors-to-hook": motors_to_hook,
    "loads.block-speed-in-gear": block_speed_in_gear,
    "loads.rotary-input": rotary_input,
}


def of_the_bank(bank: Bank, name: str) -> Callable[[int], tuple]:
    """The same draw by the bank: its seed in, its compiled function's row out."""
    function, none_fixed = bank[name].drawing("us").function, {}
    return lambda seed: function(Picker(seed).part, none_fixed)


def disagreement(bank: Bank, name: str) -> str | None:
    """The first seed of 500 whose numbers differ, in words; None where all agree to 1e-12."""
    drawn = of_the_bank(bank, name)
    for seed in range(500):
        key, slips, _ = BY_HAND[name](seed)
        _, values, own_slips, _ = drawn(seed)
        for by_hand, own in zip((key, *slips), (values[-1], *own_slips), strict=True):
            if not math.isclose(by_hand, own, rel_tol=1e-12):
                return f"{name}, seed {seed}: by hand {by_hand!r}, the bank {own!r}"
    return None


def microseconds(draw: Callable[[int], object]) -> float:
    """Processor time of one draw in this round: what else the machine does is not counted."""
    start = time.process_time()
    for seed in range(SEEDS):
        draw(seed)
    return (time.process_time() - start) / SEEDS * 1e6


def ratio(bank: Bank, name: str) -> tuple[float, float]:
    """Microseconds by hand and by the bank, timed in turn."""
    drawn = of_the_bank(bank, name)
    rounds = [(microseconds(BY_HAND[name]), microseconds(drawn)) for _ in range(ROUNDS)]
    return min(each for each, _ in rounds), min(each for _, each in rounds)


def sweep(bank: Bank) -> tuple[int, float]:
    """How many questions were drawn with all their texts, and how many of them in a second."""
    start = time.perf_counter()
    count = 0
    for item in bank.values():
        for system in SYSTEMS:
            for seed in range(SWEPT_SEEDS):
                item.draw(seed, system)
                count += 1
    return count, count / (time.perf_counter() - start)


def main() -> int:
    """Print the ratios. 1 where one is above the bar or two numbers disagree."""
    bank, amiss = load_bank(), False
    for name in BY_HAND:
        problem = disagreement(bank, name)
        if problem:
            print(problem)
            return 1
        by_hand, own = ratio(bank, name)
        amiss |= own > BAR * by_hand
        print(f"{name:28} by hand {by_hand:5.2f} µs   the bank {own:5.2f} µs   ratio {own / by_hand:.2f}")
    count, rate = sweep(bank)
    print(f"{count:,} questions of {len(bank)} items with their texts: {rate:,.0f} in a second")
    print(f"Bar: {BAR} times what is written by hand. {'Not met.' if amiss else 'Met.'}")
    return int(amiss)


if __name__ == "__main__":
    sys.exit(main())
