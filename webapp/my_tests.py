"""The module tests and refreshers of who is asking: which can be taken, when, and what they have passed.

A test of a module is open to anybody at any time, before its lessons are read or after.

Once one is handed in, the next one of that module opens on the next study day: what was just shown as the right answer
proves nothing the same evening.
"""

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from course import Lesson, Module
from webapp import my_sittings
from webapp.assigned import asked_of_me
from webapp.at_hand import bank, course, me, store, today, zone
from webapp.records import sittings
from webapp.records.module_results import MODULE, Handed, ModuleResults, results_of
from webapp.records.sittings import Sitting
from webapp.standings import as_result
from webapp.study.days import study_day
from webapp.study.drawing_up import IN_A_REFRESHER, QUESTIONS, SELF_MARKED, Askable, draw_up
from webapp.study.standing import lesson_refresh_days


@dataclass(frozen=True)
class ModuleTest:
    """One module's test for who is asking. `open` is the sitting to go on with, `results` what was handed in."""

    module: Module
    items: list[Askable]
    open: Sitting | None
    results: ModuleResults | None

    @property
    def last(self) -> Handed | None:
        """The test or refresher that was handed in last."""
        return self.results and self.results.last

    @property
    def passed(self) -> Handed | None:
        """The newest pass of the whole module."""
        return self.results and self.results.passed

    @property
    def opens_on(self) -> date | None:
        """The study day on which the next one opens, where that is not today."""
        if self.last is None or day_of(self.last.at) < today():
            return None
        return day_of(self.last.at) + timedelta(days=1)

    @property
    def refresh_days(self) -> dict[str, date]:
        """From which day each lesson passed is to be shown again; none before the module is passed."""
        passes = [as_result(each) for each in self.results.tests if each.passed] if self.passed else []
        return dict(lesson_refresh_days(passes, self.module.refreshers))

    @property
    def called_for(self) -> list[Lesson]:
        """The lessons that a refresher draws from today."""
        days = self.refresh_days
        return [lesson for lesson in self.module.lessons if days.get(lesson.id, date.max) <= today()]

    def askable(self, kind: str) -> list[Askable]:
        """What a test of that kind could ask: of the whole module, or of the lessons that are called for."""
        lessons = {lesson.id for lesson in self.called_for}
        return [each for each in self.items if kind == MODULE or each.lesson in lessons]

    def how_many(self, kind: str) -> int:
        """How many questions a test of that kind asks."""
        most = QUESTIONS if kind == MODULE else min(QUESTIONS, IN_A_REFRESHER * len(self.called_for))
        return min(most, len(self.askable(kind)))

    def lessons_in(self, kind: str) -> list[Lesson]:
        """The lessons that a test of that kind asks of."""
        asked = {each.lesson for each in self.askable(kind)}
        return [lesson for lesson in self.module.lessons if lesson.id in asked]


def my_tests() -> list[ModuleTest]:
    """The test of every module, in the order of the modules."""
    results, begun = results_of(store(), [me().id]), sittings.open_of(store(), me().id)
    return [
        ModuleTest(
            module,
            _askable(module),
            next((each for each in begun if each.module == module.id), None),
            results.get((me().id, module.id)),
        )
        for module in course().modules
    ]


def my_test(module_id: str) -> ModuleTest | None:
    """The test of the module with that id; None if there is no such module."""
    return next((each for each in my_tests() if each.module.id == module_id), None)


def begin(module_id: str, kind: str, seed: int) -> str | None:
    """Begin a test or refresher, or go on with the one that is open; its id. None where none can be begun today."""
    with store().writing():
        test = my_test(module_id)
        if test.open:
            return test.open.id
        if test.opens_on or not test.askable(kind):
            return None
        items = draw_up(test.askable(kind), seed, _seen(test), test.how_many(kind))
        return my_sittings.begin(kind, module_id, items, *rules(test.module))


def rules(module: Module) -> tuple[int, bool]:
    """The pass mark in percent, and whether must-pass items must be right: as assigned, or else as the course says."""
    asked = asked_of_me(module.id)
    return (asked.pass_mark, asked.must_pass) if asked else (module.pass_mark, True)


def lessons_passed() -> dict[str, date]:
    """The lessons that count as passed by a test of their module, with the day on which they last were."""
    results = results_of(store(), [me().id])
    return {lesson: day_of(at) for each in results.values() for lesson, at in each.lessons_passed.items()}


def day_of(moment: datetime) -> date:
    """The study day of a moment, in the zone of the house."""
    return study_day(moment, zone())


def _askable(module: Module) -> list[Askable]:
    return [
        Askable(item.id, lesson.id, item.kind, item.must_pass)
        for lesson in module.lessons
        for item in bank().of_lesson(lesson.id)
        if item.kind not in SELF_MARKED
    ]


def _seen(test: ModuleTest) -> set[str]:
    """The items of the test or refresher that was handed in last."""
    last = test.last and sittings.get(store(), test.last.sitting)
    return {each["item"] for each in last.body["items"]} if last else set()
