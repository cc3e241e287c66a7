"""The rule of the plan in the plainest way: at each choice every item is looked at closely, and the best one is taken.

Slow, and with nothing put aside from one choice to the next but what the rule itself keeps: which items were asked, the
module asked last, and the mean recall of each section.
"""

from collections.abc import Collection, Mapping, Sequence
from datetime import date

from webapp.study.aim import Aim
from webapp.study.first_sight import OTHERWISE
from webapp.study.looking_ahead import Outlook, kept, look_ahead, look_ahead_unseen
from webapp.study.memory import State
from webapp.study.merit import merit
from webapp.study.opened import OPENS_AT, RESTS_ABOVE, RESTS_ABOVE_AT_LAST, days_to_go, days_to_wait, in_last_days
from webapp.study.worth import Offer, Section, exam_worth, has_floor, more_for_weak


class PlainSitting:
    """One day's choice, made afresh for each item."""

    def __init__(
        self, offers: Sequence[Offer], memory: Mapping[str, State], read: Collection[str], aim: Aim, today: date
    ) -> None:
        self.offers, self.memory, self.read, self.aim, self.today = offers, memory, read, aim, today
        self.days = days_to_go(aim.exam, today)
        self.asked: list[Offer] = []
        self.recalls: dict[Section, float] = {}
        for offer in offers:
            self.recalls[offer.section] = self.recalls.get(offer.section, 0.0) + self.on_the_day(offer)

    def order(self, most: int) -> list[str]:
        """The items in the order they are asked, so many at most."""
        while len(self.asked) < most and (best := self.best()):
            self.asked.append(best)
            outlook = self.outlook(best)
            self.recalls[best.section] += outlook.after_one - outlook.as_it_is
        return [each.item for each in self.asked]

    def best(self) -> Offer | None:
        """The item of the greatest gain; of the same gain the first in the course; no third of a module running."""
        may = [each for each in self.offers if each not in self.asked and self.may_be_asked(each)]
        last = [each.section.module for each in self.asked[-2:]]
        others = [each for each in may if last.count(each.section.module) < 2]
        return max(others or may, key=self.gain, default=None)

    def gain(self, offer: Offer) -> float:
        """What an answer adds on the exam's day for a second, by what the exam and a weak section make it worth."""
        worth, section = self.aim.worth, offer.section
        weight = exam_worth(worth, section)
        if has_floor(worth, section):
            count = sum(each.section == section for each in self.offers)
            weight += more_for_weak(self.recalls[section] / count)
        return merit(self.outlook(offer), offer.seconds, offer.item not in self.memory) * weight

    def outlook(self, offer: Offer) -> Outlook:
        """What the item's recall looks like ahead."""
        state, kind = self.memory.get(offer.item), offer.section.kind
        if state is None:
            return look_ahead_unseen(kind, self.aim.first.get(kind, OTHERWISE), self.days)
        return look_ahead(state.days_to_ninety, state.toughness, (self.today - state.last_day).days, self.days)

    def on_the_day(self, offer: Offer) -> float:
        """Recall on the exam's day as things stand."""
        state = self.memory.get(offer.item)
        if state is None:
            return self.aim.first.get(offer.section.kind, OTHERWISE)
        return kept(state.days_to_ninety, max((self.today - state.last_day).days + self.days, 0))

    def may_be_asked(self, offer: Offer) -> bool:
        """Whether it has faded; or, if it is new, whether its lesson has been read and its module has opened."""
        state = self.memory.get(offer.item)
        if state is None:
            return offer.lesson in self.read and self.is_open(offer.section.module)
        elapsed = (self.today - state.last_day).days
        wait = days_to_wait(self.aim.rotation, self.today, self.days)
        rests_above = RESTS_ABOVE_AT_LAST if in_last_days(self.aim.exam, self.today) else RESTS_ABOVE
        return elapsed > 0 and kept(state.days_to_ninety, elapsed + wait) <= rests_above

    def is_open(self, module: str) -> bool:
        """Whether enough of each module before it has been seen, with what is asked today."""
        modules = list(dict.fromkeys(each.section.module for each in self.offers))
        for before in modules[: modules.index(module)]:
            seen = [each for each in self.of(before) if each.item in self.memory or each in self.asked]
            there = [each for each in self.of(before) if each.item in self.memory or each.lesson in self.read]
            if len(seen) < OPENS_AT * len(there):
                return False
        return True

    def of(self, module: str) -> list[Offer]:
        """The items of a module."""
        return [each for each in self.offers if each.section.module == module]
