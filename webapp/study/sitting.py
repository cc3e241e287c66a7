"""The choice of one day: what may be asked, and item by item the next best of it. Pure.

Items of a section share what the exam and its weakness make them worth, so within a section they stand by merit, and
only the best of each section are compared at each choice. Where a second answer could be worth more than the first, an
item stands by what its merit can be at most until it comes to the front; only then is it looked at closely, and it
stays in front or falls back. What is chosen is the same as if all had been looked at closely.
"""

import bisect
from collections.abc import Collection, Mapping, Sequence
from datetime import date
from typing import NamedTuple

from webapp.study.aim import Aim
from webapp.study.first_sight import OTHERWISE
from webapp.study.looking_ahead import Outlook, kept, look_ahead, look_ahead_unseen
from webapp.study.memory import State
from webapp.study.merit import merit, merit_at_most
from webapp.study.opened import RESTS_ABOVE, RESTS_ABOVE_AT_LAST, Gate, days_to_go, days_to_wait, in_last_days
from webapp.study.worth import Offer, Section, exam_worth, has_floor, more_for_weak

RESTS = "known well enough for now"
ASKED = "answered today"
NOT_READ = "its lesson is not read yet"
CLOSED = "its module opens later"
NO_TIME = "no time is left for it today"

Ranked = tuple[float, int, Offer, float | None, float, State | None]
"""Merit, place in the course counted backwards, the item, its recall now (None if it is new) and what an answer adds to
its recall on the exam's day. Of the same merit, the earlier item is the greater. With a state at the end the merit is
only what it can be at most, and that state has still to be looked at closely."""

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

    __slots__ = ("count", "exam", "floor", "heads", "not_read", "seen", "sum", "unseen", "weak", "were_seen")

    def __init__(self, section: Section, worth: Mapping[Section, float]) -> None:
        self.exam, self.floor = exam_worth(worth, section), has_floor(worth, section)
        self.sum, self.count, self.were_seen, self.not_read = 0.0, 0, 0, 0
        self.seen: list[Ranked] = []
        self.unseen: list[Ranked] = []
        self.heads: list[Head] = []
        self.weak = 0.0

    def add_unseen(self, place: int, offer: Offer, worth: float, outlook: Outlook, is_read: bool) -> bool:
        """Count an item never asked; it may be asked if its lesson has been read, which is what comes back."""
        self.sum += outlook.as_it_is
        if is_read:
            self.unseen.append((worth, -place, offer, None, outlook.after_one - outlook.as_it_is, None))
        else:
            self.not_read += 1
        return is_read

    def rank(self) -> None:
        """Put its lists in order when all items of the day have been looked at."""
        self.count = self.were_seen + self.not_read + len(self.unseen)
        self.seen.sort()
        self.unseen.sort()
        self.weigh()

    def weigh(self) -> None:
        """Its heads anew, by what its items are worth now that its mean recall has moved."""
        self.weak = more_for_weak(self.sum / self.count) if self.floor else 0.0
        self.heads = [self.head(ranked) for ranked in (self.seen, self.unseen) if ranked]

    def head(self, ranked: list[Ranked]) -> Head:
        """The best of one of its lists, to stand among the heads."""
        best, back, offer, _, _, _ = ranked[-1]
        return -best * (self.exam + self.weak), -back, offer, ranked


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
        self._last: str | None = None
        self._full: str | None = None
        self._survey(offers, memory, lessons_read, aim, today)
        self._gate = self._gate_of_today()
        for pool in self._pools.values():
            pool.rank()
        self._heads = sorted(head for pool in self._pools.values() for head in pool.heads)

    def next_choice(self) -> Choice | None:
        """The item with the highest gain that may come next; None when nothing is left."""
        at = self._best()
        if at is None:
            return None
        pool, ranked = self._pools[self._heads[at][2].section], self._heads[at][3]
        _, _, offer, recall, adds, _ = ranked.pop()
        choice = Choice(offer, recall, pool.exam, pool.weak)
        for head in pool.heads:
            del self._heads[bisect.bisect_left(self._heads, head)]
        pool.sum += adds
        pool.weigh()
        for head in pool.heads:
            bisect.insort(self._heads, head)
        module = offer.section.module
        if recall is None:
            self._gate.see(module)
        self._full = module if module == self._last else None
        self._last = module
        return choice

    def left_out(self) -> dict[str, str]:
        """Why each item that was not chosen is not for today."""
        found = dict(self._not_today)
        for section, pool in self._pools.items():
            found |= {each[2].item: NO_TIME for each in pool.seen}
            why = NO_TIME if section.module in self._gate else CLOSED
            found |= {each[2].item: why for each in pool.unseen}
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
        days, wait, pools = self._days, self._wait, self._pools
        rests_above = RESTS_ABOVE_AT_LAST if self.is_last else RESTS_ABOVE
        first_sights = _FirstSights(aim, days)
        for place, offer in enumerate(offers):
            pool = pools.get(offer.section)
            if pool is None:
                pool = pools[offer.section] = _Pool(offer.section, aim.worth)
            state = memory.get(offer.item)
            if state is None:
                if not pool.add_unseen(place, offer, *first_sights.of(offer), offer.lesson in lessons_read):
                    self._not_today[offer.item] = NOT_READ
                continue
            pool.were_seen += 1
            elapsed, strength = (today - state.last_day).days, state.days_to_ninety
            if elapsed <= 0:
                self._not_today[offer.item] = ASKED
                pool.sum += kept(strength, max(elapsed + days, 0))
                continue
            now, far = kept(strength, elapsed), kept(strength, elapsed + days)
            pool.sum += far
            if (kept(strength, elapsed + wait) if wait else now) > rests_above:
                self._not_today[offer.item] = RESTS
            else:
                most, adds, doubt = merit_at_most(strength, state.toughness, now, far, days, offer.seconds)
                pool.seen.append((most, -place, offer, now, adds, state if doubt else None))

    def _gate_of_today(self) -> Gate:
        """The gate, from what the survey has counted: an item not seen counts if its lesson has been read."""
        there, seen = {}, {}
        for section, pool in self._pools.items():
            module = section.module
            there[module] = there.get(module, 0) + pool.were_seen + len(pool.unseen)
            seen[module] = seen.get(module, 0) + pool.were_seen
        return Gate(there, seen)

    def _best(self) -> int | None:
        """The place among the heads of the next item. What comes to the front is looked at closely before it counts."""
        while (at := self._front()) is not None and self._heads[at][3][-1][5] is not None:
            self._look_closely(at)
        return at

    def _front(self) -> int | None:
        """The place of the first head that may come next; of a module asked twice running, only if no other may."""
        otherwise = None
        for at, (_, _, offer, ranked) in enumerate(self._heads):
            module = offer.section.module
            if ranked[-1][3] is None and module not in self._gate:
                continue
            if module != self._full:
                return at
            if otherwise is None:
                otherwise = at
        return otherwise

    def _look_closely(self, at: int) -> None:
        """Give the item of that head, seen before, its own merit, and put it where it belongs by that."""
        _, _, offer, ranked = self._heads.pop(at)
        _, back, _, now, adds, state = ranked.pop()
        outlook = look_ahead(state.days_to_ninety, state.toughness, (self._today - state.last_day).days, self._days)
        bisect.insort(ranked, (merit(outlook, offer.seconds), back, offer, now, adds, None))
        pool = self._pools[offer.section]
        pool.heads[0] = pool.head(ranked)
        bisect.insort(self._heads, pool.heads[0])


class _FirstSights:
    """Merit and outlook of items never asked: those of a kind and of the same seconds have the same."""

    def __init__(self, aim: Aim, days: int) -> None:
        self._first, self._days = aim.first, days
        self._known: dict[tuple[str, float], tuple[float, Outlook]] = {}

    def of(self, offer: Offer) -> tuple[float, Outlook]:
        """Merit and outlook of that item."""
        kind = offer.section.kind
        found = self._known.get((kind, offer.seconds))
        if found is None:
            outlook = look_ahead_unseen(kind, self._first.get(kind, OTHERWISE), self._days)
            found = self._known[kind, offer.seconds] = merit(outlook, offer.seconds, True), outlook
        return found
