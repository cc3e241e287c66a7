"""What an item is worth and what it costs: the exam's weights, the floor under weak sections, and seconds. Pure."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

WEAK_BELOW = 0.70
"""Recall on the day of the exam, as a mean over a section, under which the section is weak and worth more."""
BESIDE = 0.25
"""What an item that no paper asks is worth beside the mean item: it carries the words that the others use."""
LOOKS_ROUND = 1.1
"""Seconds of an answer with the turn of the page, beside the answer alone. From the simulation of the rule."""
READS_WORKING = 0.5
"""What reading the working after a wrong answer takes, as a share of the answer's seconds. An estimate, no source."""
FIRST_SIGHT = 0.3
"""What an item takes longer at first sight, as a share of its seconds. An estimate, no source."""


class Section(NamedTuple):
    """A module and a kind: what the exam weighs, and what a hand can be weak in."""

    module: str
    kind: str


@dataclass(frozen=True, slots=True)
class Offer:
    """An item that could be asked: its lesson, its section, and the seconds that a right answer usually takes."""

    item: str
    lesson: str
    section: Section
    seconds: float


def worth_of_sections(offers: Iterable[Offer], chances: Mapping[Section, float]) -> dict[Section, float]:
    """What an item of each section is worth in the exam; the mean over all the exam asks is 1.

    `chances`: how often a paper asks an item of the section. Sections never asked are left out. Where the exam asks
    nothing of what is offered, all are worth the same, as they are without an exam.
    """
    asked = [offer.section for offer in offers if chances.get(offer.section, 0) > 0]
    if not asked:
        return {}
    mean = sum(chances[section] for section in asked) / len(asked)
    return {section: chances[section] / mean for section in dict.fromkeys(asked)}


def exam_worth(worth: Mapping[Section, float], section: Section) -> float:
    """What an item of that section is worth. `worth` without a row is no exam: all items weigh the same."""
    return worth.get(section, BESIDE) if worth else 1.0


def has_floor(worth: Mapping[Section, float], section: Section) -> bool:
    """Whether the section must not be left weak: the exam asks it, or there is no exam."""
    return not worth or section in worth


def more_for_weak(mean_recall: float) -> float:
    """What is added to the worth of an item of a section with that mean recall on the day of the exam, 0 to 1."""
    return max(0.0, WEAK_BELOW - mean_recall) / WEAK_BELOW


def seconds_of(seconds: float, chance: float, unseen: bool = False) -> float:
    """The seconds that asking is expected to take, where right comes with that chance."""
    first = FIRST_SIGHT if unseen else 0.0
    return seconds * (LOOKS_ROUND + (1 - chance) * READS_WORKING + first)
