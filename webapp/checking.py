"""What `pinandbox check` looks at beyond single items: that bank and course know each other."""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping

from course import Blueprint, Course, Lesson
from course.blueprint import OF_A_RIG_TYPE, module_questions
from course.reading_room import CautionHere, FigureHere, QuestionHere, read_lesson
from question_bank import Bank, Case
from question_bank.cautions import caution
from question_bank.figures import figure
from webapp.study.drawing_up import QUESTIONS, SELF_MARKED

FEWEST_ITEMS, FEWEST_KINDS = 6, 3
"""What a lesson needs, so that it can be practised more than once without coming back the same."""


def misfits(
    bank: Bank, cases: Mapping[str, Case], course: Course, blueprints: Mapping[str, Blueprint]
) -> Iterator[str]:
    """A sentence for each thing that is named and not there: an item's lesson, a case's module, what a lesson
    shows, what a test or a paper asks."""
    lessons = {each.id for each in course.lessons}
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
    yield from _too_few_to_ask(bank, course, blueprints)


def _too_few_to_ask(bank: Bank, course: Course, blueprints: Mapping[str, Blueprint]) -> Iterator[str]:
    """What a module's test or a practice paper asks for and the bank has not, for sitters of each rig type."""
    askable = [item for item in bank.values() if item.kind not in SELF_MARKED]
    there = Counter(item.lesson.partition("/")[0] for item in askable)
    for module in course.modules:
        wanted = {id: _most_asked(blueprint, module.id) for id, blueprint in blueprints.items()}
        for what, number in {"Its test": QUESTIONS, **wanted}.items():
            if there[module.id] < number:
                yield f"Module {module.number} has {there[module.id]} items to ask. {what} asks {number}. Write more."
    must = {item.lesson for item in askable if item.must_pass}
    for blueprint in blueprints.values():
        for lesson in (each for each in blueprint.must_pass.one_each if each not in must):
            yield f"{blueprint.id} asks a must-pass item of the lesson {lesson!r}, and it has none. Write one."


def _most_asked(blueprint: Blueprint, module: str) -> int:
    """How many questions of a module a paper asks at most, whatever the sitter's rig type."""
    return max(module_questions(blueprint, rig_type)[module] for rig_type in (None, *OF_A_RIG_TYPE))


def items_by_lesson(bank: Bank, course: Course) -> Iterator[str]:
    """A line for each lesson: how many items of which kinds it has."""
    for lesson in course.lessons:
        kinds = Counter(each.kind for each in bank.of_lesson(lesson.id))
        listed = ", ".join(f"{number} {kind}" for kind, number in kinds.most_common())
        yield f"{lesson.number:5} {lesson.title}: {kinds.total()} items{' – ' if listed else ''}{listed}"


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
