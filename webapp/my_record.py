"""The record of who is asking, read for a page: item by item, what fades, time by week, papers and tests."""

from collections import Counter
from dataclasses import dataclass
from datetime import date

from course import Lesson, Module
from question_bank import Item
from webapp.at_hand import bank, course, me, store, today
from webapp.records import attempts, memory, sittings
from webapp.records.attempts import Attempt
from webapp.records.sittings import Sitting
from webapp.study.memory import back_on
from webapp.study.so_far import is_fading
from webapp.study.weeks import Week, weeks


@dataclass(frozen=True)
class Line:
    """One item in the record: how often it was answered, how last, and from when it fades."""

    item: Item
    times: int
    last: Attempt | None
    back_on: date | None
    fading: bool


@dataclass(frozen=True)
class Sat:
    """One paper or test that was handed in, and its module; a paper has none."""

    sitting: Sitting
    module: Module | None

    @property
    def is_paper(self) -> bool:
        """Whether it is a practice paper."""
        return self.sitting.module is None


LinesOfLesson = tuple[Lesson, list[Line]]


def lines() -> list[LinesOfLesson]:
    """The items of each lesson."""
    of_item = _lines(attempts.counted(store(), me().id))
    return [(lesson, [of_item[item.id] for item in bank().of_lesson(lesson.id)]) for lesson in course().lessons]


def fading(of_lessons: list[LinesOfLesson]) -> list[LinesOfLesson]:
    """Of those only what is fading today."""
    found = [(lesson, [row for row in rows if row.fading]) for lesson, rows in of_lessons]
    return [(lesson, rows) for lesson, rows in found if rows]


def my_weeks(most: int) -> list[Week]:
    """The time spent answering, by week, the latest first."""
    return weeks(attempts.by_day(store(), me().id), most)


def sat() -> list[Sat]:
    """The papers and tests that were handed in, the latest first."""
    modules = {each.id: each for each in course().modules}
    handed = [each for each in sittings.of_person(store(), me().id) if not each.is_open]
    handed.sort(key=lambda each: each.handed_in_at, reverse=True)
    return [Sat(each, modules.get(each.module)) for each in handed]


def _lines(counted: list[Attempt]) -> dict[str, Line]:
    """A line for each item of the bank, by its id. `counted` comes oldest first."""
    states = memory.of_person(store(), me().id)
    last = {each.item: each for each in counted}
    times = Counter(each.item for each in counted)
    found = {}
    for name, item in bank().items():
        state = states.get(name)
        fades = state is not None and is_fading(state, today())
        found[name] = Line(item, times[name], last.get(name), state and back_on(state), fades)
    return found
