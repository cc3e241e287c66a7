"""What `pinandbox check` looks at beyond single items: that bank and course know each other."""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping

from course import Course, Lesson
from course.reading_room import CautionHere, FigureHere, QuestionHere, read_lesson
from question_bank import Bank, Case
from question_bank.cautions import caution
from question_bank.figures import figure

FEWEST_ITEMS, FEWEST_KINDS = 6, 3
"""What a lesson needs, so that it can be practised more than once without coming back the same."""


def misfits(bank: Bank, cases: Mapping[str, Case], course: Course) -> Iterator[str]:
    """A sentence for each thing that is named and not there: an item's lesson, a case's module, what a lesson shows."""
    lessons = {each.id for each in (*course.lessons, *course.planned)}
    for item in bank.values():
        if item.lesson not in lessons:
            yield f"{item.file}, item {item.id!r}: there is no lesson {item.lesson!r}. Mend the name."
    modules = {each.id for each in course.modules}
    for case in cases.values():
        if case.module not in modules:
            yield f"{case.file}, case {case.id!r}: there is no module {case.module!r}. Mend the name."
    for lesson in course.lessons:
        yield from _missing(lesson, bank)
        kinds = Counter(each.kind for each in bank.of_lesson(lesson.id))
        if kinds.total() < FEWEST_ITEMS or len(kinds) < FEWEST_KINDS:
            yield (
                f"Lesson {lesson.number} has {kinds.total()} items of {len(kinds)} kinds. "
                f"Give it {FEWEST_ITEMS} of {FEWEST_KINDS} kinds at least."
            )


def items_by_lesson(bank: Bank, course: Course) -> Iterator[str]:
    """A line for each lesson, those still to be written last: how many items of which kinds it has."""
    for lesson in (*course.lessons, *course.planned):
        kinds = Counter(each.kind for each in bank.of_lesson(lesson.id))
        listed = ", ".join(f"{number} {kind}" for kind, number in kinds.most_common())
        to_come = "" if lesson.written else " (to be written)"
        yield f"{lesson.number:5} {lesson.title}{to_come}: {kinds.total()} items{' – ' if listed else ''}{listed}"


def _missing(lesson: Lesson, bank: Bank) -> Iterator[str]:
    found: dict[type, Callable] = {
        QuestionHere: lambda block: bank[block.item],
        FigureHere: lambda block: figure(block.id),
        CautionHere: lambda block: caution(block.id),
    }
    for part in read_lesson(lesson, "us"):
        for block in (each for each in part.blocks if type(each) in found):
            try:
                found[type(block)](block)
            except LookupError:
                name = getattr(block, "item", None) or block.id
                yield f"Lesson {lesson.number}, part {part.title!r}: there is no {name!r}. Mend the name, or write it."
