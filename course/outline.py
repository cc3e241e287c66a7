"""Modules and lessons: what there is, in which order it is studied, and what it needs first.

A course folder holds tasks.toml and modules/, and that holds study-order.toml and one folder a module, such as
10-safety with its module.toml, its words.toml and its lessons, such as 01-dropped-objects.md.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from course.errors import CourseError
from course.fields import Fields
from course.glossary import Glossary, load_glossary
from course.lesson_files import LessonFile, PartText, read_lesson_file
from course.tasks import Task, load_tasks

HERE = Path(__file__).parent
NUMBERED = re.compile(r"(\d\d)-([a-z0-9-]+)")


@dataclass(frozen=True)
class Lesson:
    """One lesson. `parts` are as written; reading_room.read_lesson makes the page. `module` is the module's id."""

    id: str
    number: str
    title: str
    minutes: int
    module: str
    terms: tuple[str, ...]
    cautions: tuple[str, ...]
    figure: str
    sources: tuple[str, ...]
    parts: tuple[PartText, ...]
    path: Path = field(repr=False)
    glossary: Glossary = field(repr=False, compare=False)


@dataclass(frozen=True)
class Module:
    """One module. `needs` are ids of modules or lessons that come before it; `minutes` is the sum of its lessons.

    `pass_mark` is the least share of a module test that passes, in percent, where an assignment says no other.
    `refreshers` has the months after which each lesson is to be shown again: {lesson id: months}.
    """

    id: str
    number: int
    title: str
    needs: tuple[str, ...]
    lessons: tuple[Lesson, ...]
    pass_mark: int
    refreshers: Mapping[str, int]

    @property
    def minutes(self) -> int:
        return sum(each.minutes for each in self.lessons)


@dataclass(frozen=True)
class Course:
    """The whole course: modules in the order of their numbers, lessons in the order in which a hand studies them.

    `tasks` are the hands-on tasks by id, in the order of their numbers.
    """

    modules: tuple[Module, ...]
    lessons: tuple[Lesson, ...]
    glossary: Glossary
    tasks: Mapping[str, Task]

    def lesson(self, id: str) -> Lesson:
        """The lesson with that id, such as 'units/force-mass-weight'. Raises KeyError."""
        return _with_id(self.lessons, id)

    def module(self, id: str) -> Module:
        """The module with that id, such as 'units'. Raises KeyError."""
        return _with_id(self.modules, id)


def _with_id(things: tuple, id: str):
    for each in things:
        if each.id == id:
            return each
    raise KeyError(id)


def load_course(folder: Path = HERE) -> Course:
    """Read the course folder. Raises CourseError, which names the file and the line."""
    glossary = load_glossary(folder)
    places = sorted(each for each in (folder / "modules").iterdir() if each.is_dir() and NUMBERED.fullmatch(each.name))
    modules = tuple(_module(place, glossary) for place in places)
    by_id = {lesson.id: lesson for module in modules for lesson in module.lessons}
    lessons = _in_study_order(folder / "modules" / "study-order.toml", by_id)
    _check_needs(places, modules, lessons)
    _check_terms(glossary, by_id)
    return Course(modules, lessons, glossary, load_tasks(folder, {each.id: each.number for each in modules}))


def _module(place: Path, glossary: Glossary) -> Module:
    number, id = NUMBERED.fullmatch(place.name).groups()
    path = place / "module.toml"
    if not path.is_file():
        raise CourseError(path, 1, "this module has no module.toml. Give it one with a title and its needs.")
    fields = Fields(path, path.read_text(encoding="utf-8"))
    fields.only({"title", "needs", "pass_mark", "refresh_months", "refresh_sooner"})
    files = sorted(each for each in place.glob("*.md"))
    lessons = tuple(_lesson(each, int(number), id, glossary) for each in files)
    title, needs = fields.text("title"), fields.texts("needs")
    refreshers = _refreshers(fields, lessons)
    pass_mark = fields.whole("pass_mark", 50, 100, "percent")
    return Module(id, int(number), title, needs, lessons, pass_mark, refreshers)


def _refreshers(fields: Fields, lessons: tuple[Lesson, ...]) -> dict[str, int]:
    """{lesson id: months}: `refresh_months` for all, and what `refresh_sooner` says for some, by their short names."""
    usual = fields.whole("refresh_months", 1, 60, "months")
    sooner = fields.values.get("refresh_sooner", {})
    names = {each.id.split("/")[1] for each in lessons}
    if not isinstance(sooner, dict) or not all(type(each) is int and 1 <= each < usual for each in sooner.values()):
        raise fields.fault("refresh_sooner", f"'refresh_sooner' must be like {{ slips = 6 }}, with less than {usual}.")
    for name in sooner.keys() - names:
        raise fields.fault("refresh_sooner", f"{name!r} is not a lesson of this module. Mend its spelling.")
    return {each.id: sooner.get(each.id.split("/")[1], usual) for each in lessons}


def _lesson(path: Path, module_number: int, module: str, glossary: Glossary) -> Lesson:
    named = NUMBERED.fullmatch(path.stem)
    if not named:
        raise CourseError(path, 1, "a lesson's file is named like 01-dropped-objects.md. Rename it.")
    read = read_lesson_file(path)
    number = f"{module_number}.{int(named[1])}"
    if read.number != number:
        raise read.front.fault("number", f"the number is {read.number!r}, but by its place this is lesson {number}.")
    _check_front(read, glossary)
    return Lesson(
        f"{module}/{named[2]}", number, read.title, read.minutes, module, read.terms, read.cautions, read.figure,
        read.sources, read.parts, path, glossary,
    )  # fmt: skip


def _check_front(read: LessonFile, glossary: Glossary) -> None:
    for word in read.terms:
        if word not in glossary:
            raise read.front.fault("terms", f"{word!r} is not in the glossary. Add it there, or mend its spelling.")


def _in_study_order(path: Path, by_id: Mapping[str, Lesson]) -> tuple[Lesson, ...]:
    """Every lesson once, as study-order.toml lists them."""
    if not path.is_file():
        raise CourseError(path, 1, "the study order is missing. List the ids of all lessons in it.")
    fields = Fields(path, path.read_text(encoding="utf-8"))
    fields.only({"lessons"})
    ids = fields.texts("lessons")
    for id in ids:
        if id not in by_id:
            raise fields.fault("lessons", f"{id!r} is not a lesson. Lessons are {', '.join(by_id)}.")
    for id in by_id:
        if id not in ids:
            raise fields.fault("lessons", f"the lesson {id!r} has no place in the study order. Add it.")
    return tuple(by_id[id] for id in ids)


def _check_needs(places: list[Path], modules: tuple[Module, ...], lessons: tuple[Lesson, ...]) -> None:
    """Each need is there, and is studied before the first lesson of the module that needs it."""
    for place, module in zip(places, modules, strict=True):
        mine = [at for at, lesson in enumerate(lessons) if lesson.module == module.id]
        path = place / "module.toml"
        fields = Fields(path, path.read_text(encoding="utf-8"))
        for need in module.needs:
            found = [at for at, lesson in enumerate(lessons) if need in (lesson.id, lesson.module)]
            if need == module.id or not found:
                raise fields.fault("needs", f"{need!r} is not another module or a lesson of this course.")
            if mine and found and max(found) > mine[0]:
                raise fields.fault("needs", f"{need!r} is needed first, but the study order puts it later.")


def _check_terms(glossary: Glossary, by_id: Mapping[str, Lesson]) -> None:
    """Each term is taught by a lesson that is there and that lists it."""
    for term in glossary.values():
        lesson = by_id.get(term.lesson)
        if lesson is None or term.term not in lesson.terms:
            fields = Fields(term.path, term.path.read_text(encoding="utf-8"))
            raise fields.fault(term.term, f"the lesson {term.lesson!r} is not there or does not list {term.term!r}.")
