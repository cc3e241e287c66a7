"""The choice of one day: what may be asked, and item by item the next best of it. Pure.

Items of a section share what the exam and its weakness make them worth, so within a section they stand by merit, and
only the best of each section are compared at each choice. An item seen before stands by what its merit can be at most
until it comes to the front; only then is it looked at closely, and it stays in front or falls back. What is chosen is
the same as if all had been looked at closely.
"""

import bisect
from collections.abc import Collection, Mapping, Sequence
from datetime import date
from typing import NamedTuple

from webapp.study.aim import Aim
from webapp.study.first_sight import OTHERWISE
from webapp.study.looking_ahead import Outlook, kept, look_ahead, look_ahead_unseen
from webapp.study.memory import State
from webapp.study.merit import merit, most_merit
from webapp.study.opened import RESTS_ABOVE, RESTS_ABOVE_AT_LAST, Gate, days_to_go, days_to_wait, in_last_days
from webapp.study.worth import Offer, Section, exam_worth, has_floor, more_for_weak

RESTS = "known well enough for now"
ASKED = "answered today"
NOT_READ = "its lesson is not read yet"
CLOSED = "its module opens later"
NO_TIME = "no time is left for it today"

IN_A_ROW = 2
Ranked = tuple[float, int, Offer, State | None, Outlook | None]
"""Merit, place in the course counted backwards, the item, what is remembered of it, and its outlook. Of the same merit,
the earlier item is the greater. Without an outlook the merit is only what it can be at most."""

Head = tuple[float, int, Offer, list[Ranked]]
"""Gain with the sign turned, place in the course, the item, and the list it is the last of. The least comes next."""


class Choice(NamedTuple):
    """The item to ask next; its recall now, None if it is new; what exam and weakness of its section make it worth."""

    offer: Offer
    recall: float | None
    exam: float
    weak: float


class _Pool:
    """What may be asked of a section, seen and unseen, the best at the end; and its mean recall on the exam's day."""

    __slots__ = ("count", "exam", "floor", "heads", "seen", "sum", "unseen", "worth")

    def __init__(self, section: Section, worth: Mapping[Section, float]) -> None:
        self.exam, self.floor = exam_worth(worth, section), has_floor(worth, section)
        self.sum, self.count, self.worth = 0.0, 0, 0.0
        self.seen: list[Ranked] = []
        self.unseen: list[Ranked] = []
        self.heads: list[Head] = []

    def weak(self) -> float:
        """What is added to the worth of its items because the section is weak."""
        return more_for_weak(self.sum / self.count) if self.floor else 0.0

    def head(self, ranked: list[Ranked]) -> Head:
        """The best of one of its lists, to stand among the heads."""
        best, back, offer, _, _ = ranked[-1]
        return -best * self.worth, -back, offer, ranked


class Sitting:
    """One day's choice. `next_choice` gives item after item; `left_out` says why the others are not among them."""

    def __init__(
        self,
        offers: Sequence[Offer],
        memory: Mapping[str, State],
        lessons_read: Collection[str],
        aim: Aim,
        today: date,
    ) -> None:
        self.is_last = in_last_days(aim.exam, today)
        self._today, self._days = today, days_to_go(aim.exam, today)
        self._wait = days_to_wait(aim.rotation, today, self._days)
        self._pools: dict[Section, _Pool] = {}
        self._not_today: dict[str, str] = {}
        self._modules: list[str] = []
        self._survey(offers, memory, lessons_read, aim, today)
        self._gate = Gate(offers, memory, lessons_read)
        self._heads: list[Head] = []
        for pool in self._pools.values():
            for ranked in (pool.seen, pool.unseen):
                ranked.sort()
            self._put(pool)

    def next_choice(self) -> Choice | None:
        """The item with the highest gain that may come next; None when nothing is left."""
        at = self._best()
        if at is None:
            return None
        _, _, offer, ranked = self._heads[at]
        pool, module = self._pools[offer.section], offer.section.module
        outlook, is_new = ranked[-1][4], ranked is pool.unseen
        choice = Choice(offer, None if is_new else outlook.now, pool.exam, pool.weak())
        for head in pool.heads:
            del self._heads[bisect.bisect_left(self._heads, head)]
        ranked.pop()
        pool.sum += outlook.after_one - outlook.as_it_is
        self._put(pool)
        if is_new:
            self._gate.see(module)
        self._modules.append(module)
        return choice

    def left_out(self) -> dict[str, str]:
        """Why each item that was not chosen is not for today."""
        found = dict(self._not_today)
        for section, pool in self._pools.items():
            found |= {offer.item: NO_TIME for _, _, offer, _, _ in pool.seen}
            why = NO_TIME if section.module in self._gate else CLOSED
            found |= {offer.item: why for _, _, offer, _, _ in pool.unseen}
        return found

    def _survey(
        self,
        offers: Sequence[Offer],
        memory: Mapping[str, State],
        lessons_read: Collection[str],
        aim: Aim,
        today: date,
    ) -> None:
        """Look at every item once, and put it in its pool or among those that are not for today."""
        days, wait, pools, first_seen = self._days, self._wait, self._pools, {}
        rests_above = RESTS_ABOVE_AT_LAST if self.is_last else RESTS_ABOVE
        for place, offer in enumerate(offers):
            state, section, why = memory.get(offer.item), offer.section, None
            pool = pools.get(section)
            if pool is None:
                pool = pools[section] = _Pool(section, aim.worth)
            if state is None:
                key = section.kind, offer.seconds
                if key not in first_seen:
                    first_seen[key] = _unseen(offer, aim, days)
                worth, outlook = first_seen[key]
                far = outlook.as_it_is
                if offer.lesson in lessons_read:
                    pool.unseen.append((worth, -place, offer, None, outlook))
                else:
                    why = NOT_READ
            else:
                elapsed, strength = (today - state.last_day).days, state.days_to_ninety
                if elapsed <= 0:
                    why, far = ASKED, kept(strength, max(days + elapsed, 0))
                elif kept(strength, elapsed + wait) > rests_above:
                    why, far = RESTS, kept(strength, elapsed + days)
                else:
                    most, far = most_merit(strength, state.toughness, elapsed, days, offer.seconds)
                    pool.seen.append((most, -place, offer, state, None))
            pool.sum += far
            pool.count += 1
            if why:
                self._not_today[offer.item] = why

    def _put(self, pool: _Pool) -> None:
        """Its best items among the heads, which stand by gain; of the same gain, the earlier in the course first."""
        pool.worth = pool.exam + pool.weak()
        pool.heads = [pool.head(ranked) for ranked in (pool.seen, pool.unseen) if ranked]
        for head in pool.heads:
            bisect.insort(self._heads, head)

    def _best(self) -> int | None:
        """The place among the heads of the next item. What comes to the front is looked at closely before it counts."""
        row = self._modules[-IN_A_ROW:]
        full = row[0] if row.count(row[0] if row else None) == IN_A_ROW else None
        while (at := self._front(full)) is not None and self._heads[at][3][-1][4] is None:
            self._look_closely(at)
        return at

    def _front(self, full: str | None) -> int | None:
        """The place of the first head that may come next; one of the module that is `full` only if no other may."""
        otherwise = None
        for at, (_, _, offer, ranked) in enumerate(self._heads):
            module = offer.section.module
            if module not in self._gate and ranked is self._pools[offer.section].unseen:
                continue
            if module != full:
                return at
            if otherwise is None:
                otherwise = at
        return otherwise

    def _look_closely(self, at: int) -> None:
        """Give the item of that head, seen before, its outlook and its merit, and put it where it belongs by them."""
        _, _, offer, ranked = self._heads.pop(at)
        _, back, _, state, _ = ranked.pop()
        outlook = look_ahead(state.days_to_ninety, state.toughness, (self._today - state.last_day).days, self._days)
        bisect.insort(ranked, (merit(outlook, offer.seconds), back, offer, state, outlook))
        pool = self._pools[offer.section]
        pool.heads[0] = pool.head(ranked)
        bisect.insort(self._heads, pool.heads[0])


def _unseen(offer: Offer, aim: Aim, days: int) -> tuple[float, Outlook]:
    """Merit and outlook of an item never asked: those of its kind and seconds have the same."""
    kind = offer.section.kind
    outlook = look_ahead_unseen(kind, aim.first.get(kind, OTHERWISE), days)
    return merit(outlook, offer.seconds, True), outlook
