"""What a practice paper came to, shown from its rows: the mark and why, by module and kind, and each question."""

from collections import Counter
from dataclasses import dataclass

from flask import render_template

from course import Module
from webapp.at_hand import course
from webapp.my_sittings import MySitting, Place
from webapp.study.marking import RIGHT, needed

KIND_WORDS = {
    "choice": "Choose one",
    "numeric": "Sums",
    "order": "Steps in order",
    "match": "Pairs",
    "part": "Parts of a figure",
    "gauge": "Dials",
    "estimate": "Estimates",
    "find-the-wrong-line": "Find the wrong line",
}


@dataclass(frozen=True)
class Row:
    """One module: how many were right of how many, and how many had to be."""

    module: Module
    right: int
    asked: int
    needed: int

    @property
    def is_low(self) -> bool:
        """Whether too few were right."""
        return self.right < self.needed


def paper_result(mine: MySitting, name: str, unread: dict[str, str]) -> str:
    """The page of a paper that is handed in. `unread` says why a draft could not be counted, by question."""
    mark = mine.mark
    lessons = {each.id: each for each in course().lessons}
    return render_template(
        "papers/result.html",
        mine=mine,
        name=name,
        mark=mark,
        letter=mine.sitting.kind.removeprefix("paper-"),
        rows=_by_module(mine),
        kinds=_by_kind(mine),
        missed=[each for each in mine.places if each.kept.item in mark.missed],
        study=[(lessons[lesson], asked - right) for lesson, right, asked in mark.lost if lesson in lessons],
        slips=_slips(mine),
        seconds=_seconds(mine),
        unread=unread,
    )


def _by_module(mine: MySitting) -> list[Row]:
    counts = {module: (right, asked) for module, right, asked in mine.mark.modules}
    return [
        Row(module, *counts[module.id], needed(mine.mark.least, counts[module.id][1]))
        for module in course().modules
        if module.id in counts
    ]


def _by_kind(mine: MySitting) -> list[tuple[str, int, int]]:
    asked = Counter(each.kept.question.kind for each in mine.places)
    right = Counter(each.kept.question.kind for each in mine.places if each.outcome == RIGHT)
    return [(words, right[kind], asked[kind]) for kind, words in KIND_WORDS.items() if asked[kind]]


def _slips(mine: MySitting) -> set[str]:
    """The questions whose number is wrong, and shows the right method."""
    return {each.kept.id for each in mine.places if each.attempt and each.outcome != RIGHT and _is_slip(each)}


def _is_slip(at: Place) -> bool:
    question = at.kept.question
    return question.kind == "numeric" and question.method_right(at.draft.given["given"], at.draft.given["comma"])


def _seconds(mine: MySitting) -> float:
    """With a clock, from the beginning to handing in; without one, what the answers took."""
    if mine.sitting.deadline:
        return (mine.sitting.handed_in_at - mine.sitting.started_at).total_seconds()
    return sum(each.attempt.seconds or 0.0 for each in mine.places if each.attempt)
