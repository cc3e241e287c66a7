"""How far who is asking has read: lesson by lesson, to the part."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from course import Lesson
from webapp.at_hand import course, me, store
from webapp.my_tests import lessons_passed
from webapp.records import excuses, lessons_read


@dataclass(frozen=True)
class Reading:
    """One lesson and when which of its parts were read: {slug: moment}.

    `passed_on` is the day on which a test of its module was passed: then nobody is asked to read it.
    """

    lesson: Lesson
    read: Mapping[str, datetime]
    passed_on: date | None = None

    @property
    def parts_read(self) -> int:
        return sum(part.slug in self.read for part in self.lesson.parts)

    @property
    def parts(self) -> int:
        return len(self.lesson.parts)

    @property
    def state(self) -> str:
        """'none', 'some' or 'all' of the parts are read."""
        return "none" if not self.parts_read else "all" if self.parts_read == self.parts else "some"

    @property
    def is_done(self) -> bool:
        """Whether it is read to its end, or passed by test."""
        return self.state == "all" or self.passed_on is not None

    @property
    def next_part(self) -> str | None:
        """The slug of the first part that is not read, or None."""
        return next((part.slug for part in self.lesson.parts if part.slug not in self.read), None)

    @property
    def minutes_left(self) -> int:
        """The lesson's minutes for the parts not read, each part counted alike."""
        return round(self.lesson.minutes * (self.parts - self.parts_read) / self.parts)


def readings() -> list[Reading]:
    """All lessons in study order, with what was read of them."""
    read = lessons_read.parts_read(store(), me().id)
    passed = lessons_passed()
    return [Reading(lesson, read.get(lesson.id, {}), passed.get(lesson.id)) for lesson in course().lessons]


def read_on() -> Reading | None:
    """The first lesson that is neither read to its end nor passed by test: where to read on. None when all are.

    Modules that the hand is excused from, or that something else stands for, come after all others.
    """
    left = [each for each in readings() if not each.is_done]
    excused = {each.module for each in excuses.running(store(), [me().id])}
    return next((each for each in left if each.lesson.module not in excused), next(iter(left), None))
