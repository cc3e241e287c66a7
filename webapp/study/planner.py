"""What to study today: a pure function. The same inputs give the same plan; no clock and no chance inside.

Each item that may be asked has a merit: how much recall on the day of the exam an answer today adds for a second of
study, alone or with a second answer tomorrow. That times what the exam and the weak sections make it worth is its gain.
The highest gain is asked first, until the minutes are used. No third item in a row is of one module while another
module has something to ask.
"""

import bisect
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from webapp.study.first_sight import OTHERWISE, PRIOR
from webapp.study.memory import Outlook, State, kept, look_ahead, look_ahead_unseen
from webapp.study.opened import (
    RESTS_ABOVE,
    RESTS_ABOVE_AT_LAST,
    Gate,
    days_to_go,
    days_to_wait,
    in_last_days,
)
from webapp.study.rotation import Rotation, minutes_of
from webapp.study.worth import Offer, Section, exam_worth, has_floor, more_for_weak, seconds_of

FADING = "fading"
WEAK = "weak module"
NEW = "new"
NEW_AND_WORTH = "new, and worth much in the exam"
LAST_DAYS = "last days"

RESTS = "known well enough for now"
ASKED = "answered today"
NOT_READ = "its lesson is not read yet"
CLOSED = "its module opens later"
NO_TIME = "no time is left for it today"

NEW_COUNTS = 0.8
"""What an unseen item counts beside its gain: it is less sure than what is known of one that was answered."""
IN_A_ROW = 2
WEAK_SHOWS = 0.25
"""The share of its worth in the exam that a weak section must add before it is the reason told."""


@dataclass(frozen=True, slots=True)
class Aim:
    """What a hand studies for, and when: the exam's day, if any, what it weighs, the rotation, and first sights.

    `worth` is by section as `worth.worth_of_sections` gives it; empty, all weigh the same. `first` is the chance by
    kind that an unseen item is answered right.
    """

    rotation: Rotation
    exam: date | None = None
    worth: Mapping[Section, float] = field(default_factory=dict)
    first: Mapping[str, float] = field(default_factory=lambda: PRIOR)


@dataclass(frozen=True, slots=True)
class Pick:
    """An item that the plan asks for today. `recall` is the chance of recall now, None for a new item."""

    item: str
    seconds: float
    reason: str
    recall: float | None


@dataclass(frozen=True, slots=True)
class Plan:
    """The picks in the order to ask them, and why each other item is not among them."""

    picks: list[Pick]
    left_out: dict[str, str]


def plan_today(
    offers: Sequence[Offer],
    memory: Mapping[str, State],
    lessons_read: Collection[str],
    aim: Aim,
    today: date,
    minutes: float | None = None,
    seconds_spent: float = 0,
    asked: Collection[str] = (),
) -> Plan:
    """The plan of today, made from what was known this morning.

    `offers` come in course order, each item once; `memory` is keyed by item id; `lessons_read` are lesson ids. Without
    `minutes` they are the rotation's for today. `seconds_spent` is what the hand has already studied today. The last
    pick may run over the minutes, no other. Items `asked` today keep their place in the order and take no time of it:
    with the memory of the morning, what is left of a plan is the same whatever was answered.
    """
    left = (minutes_of(aim.rotation, today) if minutes is None else minutes) * 60 - seconds_spent
    sitting = _Sitting(aim, today)
    left_out = sitting.survey(offers, memory, lessons_read)
    picks = []
    while left > 0 and (pick := sitting.next_pick()):
        if pick.item in asked:
            left_out[pick.item] = ASKED
            continue
        picks.append(pick)
        left -= pick.seconds
    return Plan(picks, left_out | sitting.not_reached())


class _Queue:
    """Items of one section, all unseen or none: (merit, place, offer, outlook), the best at the end."""

    __slots__ = ("at", "items", "section", "unseen")

    def __init__(self, section: Section, unseen: bool) -> None:
        self.section, self.unseen, self.items = section, unseen, []


class _Sitting:
    """The choice of one day: what may be asked, and the next best of it."""

    def __init__(self, aim: Aim, today: date) -> None:
        self.aim, self.today = aim, today
        self.days = days_to_go(aim.exam, today)
        self.wait = days_to_wait(aim.rotation, today, self.days)
        self.is_last = in_last_days(aim.exam, today)
        self.queues: dict[tuple[Section, bool], _Queue] = {}
        self.recalls: dict[Section, list[float]] = {}
        self.heads: list[tuple[float, int, _Queue]] = []
        self.modules: list[str] = []

    def survey(
        self, offers: Sequence[Offer], memory: Mapping[str, State], lessons_read: Collection[str]
    ) -> dict[str, str]:
        """Look at every item once; what is not for today, with the reason."""
        days, wait, today, means, unseen, left_out = self.days, self.wait, self.today, self.recalls, {}, {}
        queues = self.queues
        rests_above = RESTS_ABOVE_AT_LAST if self.is_last else RESTS_ABOVE
        for place, offer in enumerate(offers):
            state = memory.get(offer.item)
            section = offer.section
            if state is None:
                key = section.kind, offer.seconds
                found = unseen.get(key) or unseen.setdefault(key, self._unseen(offer))
                far = found[1].as_it_is
                why = None if offer.lesson in lessons_read else NOT_READ
            else:
                elapsed, strength = (today - state.last_day).days, state.days_to_ninety
                if elapsed <= 0:
                    why, far = ASKED, kept(strength, max(days + elapsed, 0))
                elif kept(strength, elapsed + wait) > rests_above:
                    why, far = RESTS, kept(strength, elapsed + days)
                else:
                    outlook = look_ahead(strength, state.toughness, elapsed, days)
                    why, far, found = None, outlook.as_it_is, (merit(outlook, offer.seconds), outlook)
            recalls = means.get(section) or means.setdefault(section, [0.0, 0])
            recalls[0] += far
            recalls[1] += 1
            if why:
                left_out[offer.item] = why
            else:
                key = section, state is None
                queue = queues.get(key) or queues.setdefault(key, _Queue(*key))
                queue.items.append((found[0], -place, offer, found[1]))
        self.gate = Gate(offers, memory, lessons_read)
        for queue in self.queues.values():
            queue.items.sort()
            self._put(queue)
        return left_out

    def next_pick(self) -> Pick | None:
        """The item with the highest gain that may come next, taken out of its queue; None when nothing is left."""
        at = self._best()
        if at is None:
            return None
        queue = self.heads.pop(at)[2]
        section = queue.section
        _, _, offer, outlook = queue.items.pop()
        pick = Pick(offer.item, offer.seconds, self._reason(queue), None if queue.unseen else outlook.now)
        self.recalls[section][0] += outlook.after_one - outlook.as_it_is
        other = self.queues.get((section, not queue.unseen))
        if other:
            self.heads = [each for each in self.heads if each[2] is not other]
            self._put(other)
        self._put(queue)
        if queue.unseen:
            self.gate.see(section.module)
        self.modules.append(section.module)
        return pick

    def not_reached(self) -> dict[str, str]:
        """The items that might have been asked and were not."""
        return {
            each[2].item: CLOSED if queue.unseen and queue.section.module not in self.gate else NO_TIME
            for queue in self.queues.values()
            for each in queue.items
        }

    def _unseen(self, offer: Offer) -> tuple[float, Outlook]:
        kind = offer.section.kind
        outlook = look_ahead_unseen(kind, self.aim.first.get(kind, OTHERWISE), self.days)
        return merit(outlook, offer.seconds, True), outlook

    def _put(self, queue: _Queue) -> None:
        """Its best item among the heads, which stand by gain; of the same gain, the earlier in the course first."""
        if queue.items:
            best, place, _, _ = queue.items[-1]
            bisect.insort(self.heads, (-best * sum(self._worth(queue.section)), -place, queue))

    def _best(self) -> int | None:
        """The place among the heads of the next item; of a module just asked twice, only if no other has any."""
        row = set(self.modules[-IN_A_ROW:])
        full = row.pop() if len(row) == 1 and len(self.modules) >= IN_A_ROW else None
        otherwise = None
        for at, (_, _, queue) in enumerate(self.heads):
            module = queue.section.module
            if queue.unseen and module not in self.gate:
                continue
            if module != full:
                return at
            if otherwise is None:
                otherwise = at
        return otherwise

    def _worth(self, section: Section) -> tuple[float, float]:
        """What the exam makes an item of the section worth, and what is added because the section is weak."""
        total, count = self.recalls[section]
        more = more_for_weak(total / count) if has_floor(self.aim.worth, section) else 0.0
        return exam_worth(self.aim.worth, section), more

    def _reason(self, queue: _Queue) -> str:
        exam, weak = self._worth(queue.section)
        if queue.unseen:
            return NEW_AND_WORTH if self.aim.worth and exam >= 1 else NEW
        if self.is_last:
            return LAST_DAYS
        return WEAK if weak > WEAK_SHOWS * exam else FADING


def merit(outlook: Outlook, seconds: float, unseen: bool = False) -> float:
    """Recall on the far day that asking adds for a second of study: the better of asking once and asking twice."""
    now, as_it_is, one, two, again = outlook
    once = seconds_of(seconds, now, unseen)
    by_one = (one - as_it_is) / once
    by_two = (two - as_it_is) / (once + seconds_of(seconds, again))
    found = by_one if by_one > by_two else by_two
    return found * NEW_COUNTS if unseen and found > 0 else found
