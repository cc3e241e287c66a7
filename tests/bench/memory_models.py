"""Ways in which a simulated hand might really remember: none of them is the plan's own but the last.

Each model belongs to one hand. `recall(item, day)` is the chance that the item is known on a day, `answered(item, day,
right)` is told of each answer; a wrong answer is followed by its working, so it teaches as well. Guessing is not here.
`at_first` is the chance that an item is known before it is ever asked; where a model is `all_or_none`, the caller has
drawn from it which items are known (a chance near 1) and which are not (near 0).

The forms are those of the published papers as far as remembered; they were not looked up again. Parameters marked
'chosen' were set by hand, once, by how a single answer fades over 1, 7 and 30 days, before any plan was compared.

- Activation: Pavlik and Anderson 2005, Cognitive Science 29. Each answer leaves a trace that fades as a power of its
  age; the more active the item is when it is answered, the faster the new trace fades. Decay 0.177 and 0.217,
  threshold −0.704, noise 0.255, time between sittings counted at 0.025: from memory, not verified.
- Many scales: in the manner of Staddon, Chelaru and Higa 2002 and of Pashler, Cepeda, Lindsey, Vul and Mozer 2009.
  Traces that fade over days to a year; each takes up what the faster ones have not kept. Parameters chosen.
- Counts in windows: in the manner of Lindsey, Shroyer, Pashler and Mozer 2014. Log odds from ability, difficulty and
  the logarithm of how often the item was seen and known, in windows that fade. Parameters chosen.
- The plan's own model, each item fading slower or faster than the plan thinks. Spread chosen.
"""

import itertools
import math
from collections.abc import Sequence

from webapp.study.looking_ahead import first_if_right, first_if_wrong, if_right, if_wrong, kept

Days = float


def sigmoid(odds: float) -> float:
    """The chance that belongs to log odds."""
    return 1 / (1 + math.exp(-odds)) if odds > -30 else 0.0


class Activation:
    """Power-law traces whose decay depends on how active the item was."""

    name = "activation"
    all_or_none = True
    DECAY, BY_ACTIVITY = 0.177, 0.217
    THRESHOLD, NOISE = -0.704, 0.255
    SECONDS = 86_400 * 0.025
    LEVEL, SPREAD = 1.2, 0.35  # chosen: 0.91, 0.74 and 0.52 after 1, 7 and 30 days for a middling item
    LEARNT, TOLD = 1.0, 0.8  # chosen: a right answer, and reading the working of a wrong one

    def __init__(self, at_first: Sequence[float], ease: Sequence[float], kinds: Sequence[str]) -> None:
        self.level = [self.LEVEL + self.SPREAD * each for each in ease]
        known = [self.THRESHOLD + self.NOISE * math.log(p / (1 - p)) for p in at_first]
        self.before = [math.exp(m - level) for m, level in zip(known, self.level, strict=True)]
        self.traces: list[list[tuple[Days, float, float]]] = [[] for _ in at_first]

    def activity(self, item: int, day: Days) -> float:
        """How active the item is: the logarithm of what its traces add up to."""
        total = self.before[item]
        for when, strength, decay in self.traces[item]:
            total += strength * (max(day - when, 0.002) * self.SECONDS) ** -decay
        return self.level[item] + math.log(total)

    def recall(self, item: int, day: Days) -> float:
        return sigmoid((self.activity(item, day) - self.THRESHOLD) / self.NOISE)

    def answered(self, item: int, day: Days, right: bool) -> None:
        active = min(self.activity(item, day), 2.0) if self.traces[item] else -math.inf
        decay = self.DECAY + self.BY_ACTIVITY * math.exp(active)
        self.traces[item].append((day, self.LEARNT if right else self.TOLD, decay))


class ManyScales:
    """Traces that fade over scales from hours to a year; slow ones learn what the faster have let go."""

    name = "many scales"
    all_or_none = True
    SCALES = tuple(0.2 * 3**number for number in range(8))
    WEIGHTS = tuple(0.8**number for number in range(8))
    SUMS = tuple(itertools.accumulate(WEIGHTS))
    LEARNT, TOLD = 0.7, 0.55
    MIDDLE, WIDTH = 0.25, 0.1  # chosen: 0.74, 0.37 and 0.20 after 1, 7 and 30 days for a middling item

    def __init__(self, at_first: Sequence[float], ease: Sequence[float], kinds: Sequence[str]) -> None:
        self.shift = [0.5 * each for each in ease]
        self.before = [
            max(0.0, self.MIDDLE + self.WIDTH * (math.log(p / (1 - p)) - shift))
            for p, shift in zip(at_first, self.shift, strict=True)
        ]
        self.traces = [[0.0] * len(self.SCALES) for _ in at_first]
        self.since = [0.0] * len(self.traces)

    def recall(self, item: int, day: Days) -> float:
        age, total = day - self.since[item], 0.0
        for trace, weight, scale in zip(self.traces[item], self.WEIGHTS, self.SCALES, strict=True):
            total += weight * trace * math.exp(-age / scale)
        strength = self.before[item] + total / self.SUMS[-1]
        return sigmoid((strength - self.MIDDLE) / self.WIDTH + self.shift[item])

    def answered(self, item: int, day: Days, right: bool) -> None:
        age, rate = day - self.since[item], self.LEARNT if right else self.TOLD
        faded = [trace * math.exp(-age / scale) for trace, scale in zip(self.traces[item], self.SCALES, strict=True)]
        total, after = 0.0, []
        for trace, weight, so_far in zip(faded, self.WEIGHTS, self.SUMS, strict=True):
            total += weight * trace
            after.append(trace + rate * max(0.0, 1 - total / so_far))
        self.traces[item], self.since[item] = after, day


class Windows:
    """Log odds from counts of answers and of right answers, in windows that fade."""

    name = "windows"
    all_or_none = False
    SCALES = (1.5, 7.0, 30.0, 120.0)
    SEEN, KNOWN = 0.35, 0.45  # chosen: 0.79, 0.65 and 0.53 after 1, 7 and 30 days for an item known to 0.35

    def __init__(self, at_first: Sequence[float], ease: Sequence[float], kinds: Sequence[str]) -> None:
        self.base = [math.log(p / (1 - p)) for p in at_first]
        self.counts = [([0.0] * len(self.SCALES), [0.0] * len(self.SCALES)) for _ in at_first]
        self.since = [0.0] * len(self.base)

    def recall(self, item: int, day: Days) -> float:
        age, odds = day - self.since[item], self.base[item]
        for seen, known, scale in zip(*self.counts[item], self.SCALES, strict=True):
            faded = math.exp(-age / scale)
            odds += self.SEEN * math.log1p(seen * faded) + self.KNOWN * math.log1p(known * faded)
        return sigmoid(odds)

    def answered(self, item: int, day: Days, right: bool) -> None:
        age = day - self.since[item]
        for counts, more in zip(self.counts[item], (1, right), strict=True):
            for at, scale in enumerate(self.SCALES):
                counts[at] = counts[at] * math.exp(-age / scale) + more
        self.since[item] = day


class TheirOwn:
    """The model that the plan believes in, but for how fast each item fades."""

    name = "the plan's own"
    all_or_none = False
    SPREAD = 0.4

    def __init__(self, at_first: Sequence[float], ease: Sequence[float], kinds: Sequence[str]) -> None:
        self.at_first, self.kinds = list(at_first), list(kinds)
        self.slower = [math.exp(self.SPREAD * each) for each in ease]
        self.states: list[tuple[float, float, Days] | None] = [None] * len(self.kinds)

    def recall(self, item: int, day: Days) -> float:
        state = self.states[item]
        if state is None:
            return self.at_first[item]
        return kept(state[0] * self.slower[item], max(day - state[2], 0))

    def answered(self, item: int, day: Days, right: bool) -> None:
        state = self.states[item]
        if state is None:
            after = first_if_right(self.kinds[item]) if right else first_if_wrong()
        elif day - state[2] < 1:
            return
        else:
            after = (if_right if right else if_wrong)(state[0], state[1], self.recall(item, day))
        self.states[item] = (*after, day)


FOREIGN = (Activation, ManyScales, Windows)
MODELS = (*FOREIGN, TheirOwn)
