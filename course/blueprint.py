"""The blueprints of the written papers: what each asks by module and kind, and what passes it."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from course.fields import Fields
from course.outline import HERE, Course
from question_bank.kinds import ITEMS

FIELDS = {
    "title", "questions", "minutes", "pass_mark", "least_in_a_module", "sheet", "kinds", "modules", "must_pass",
}  # fmt: skip
MOST = 300
"""Questions or minutes that a paper may have: more is a slip of the pen."""
Section = tuple[str, str]
"""A module and a kind: the section of a paper that an item stands in."""
OF_A_RIG_TYPE = ("kelly", "top-drive")
"""Modules that are each of one rig type; they are called as it is."""
OWN_RIG_TENTHS = 7
"""So many tenths of the questions of those modules are of the sitter's own rig type (plan of the course)."""


@dataclass(frozen=True)
class ModuleShare:
    """What a module weighs in a paper, as a share of 1, and how many questions that makes."""

    weight: float
    questions: int


@dataclass(frozen=True)
class KindShare:
    """What a kind weighs in a paper, or several kinds together, as a share of 1."""

    weight: float
    kinds: tuple[str, ...]


@dataclass(frozen=True)
class MustPass:
    """How many questions have to be right whatever the mark; lessons that give one each, lessons that may give more."""

    questions: int
    one_each: tuple[str, ...]
    may: tuple[str, ...]


@dataclass(frozen=True)
class Blueprint:
    """One paper. `pass_mark` and `least_in_a_module` are shares of 1; `sheet`: the formula sheet is open."""

    id: str
    title: str
    questions: int
    minutes: int
    pass_mark: float
    least_in_a_module: float
    sheet: bool
    kinds: tuple[KindShare, ...]
    modules: Mapping[str, ModuleShare]
    must_pass: MustPass


def load_blueprints(course: Course, folder: Path = HERE) -> dict[str, Blueprint]:
    """The blueprints of a course by id, as blueprints.toml lists them. Raises CourseError at a field that is amiss."""
    path = folder / "blueprints.toml"
    file = Fields(path, path.read_text(encoding="utf-8"))
    return {id: _Paper(file, id, course).read() for id in file.values}


def asked_chances(blueprint: Blueprint, items: Mapping[Section, int]) -> dict[Section, float]:
    """How often, on average, a paper asks any one item of each section, 0 to 1. `items` counts the bank's items.

    A module's questions go to its kinds by their weight; a kind that has fewer items than that is asked in full, and
    the rest goes to the module's other kinds. Sections that a paper never asks are 0.
    """
    chances = dict.fromkeys(items, 0.0)
    for module, share in blueprint.modules.items():
        sizes = {kind: count for (of, kind), count in items.items() if of == module}
        for kinds, questions in over_kinds(blueprint, share.weight * blueprint.questions, sizes):
            there = [kind for kind in kinds if sizes.get(kind)]
            chances |= {(module, kind): questions / sum(sizes[each] for each in there) for kind in there}
    return chances


def over_kinds(blueprint: Blueprint, questions: float, sizes: Mapping[str, int]) -> list[tuple[tuple[str, ...], float]]:
    """A module's questions by its kinds: (kinds that share a weight, how many questions). `sizes` counts its items.

    Kinds that it has no items of are left out; none is asked more often than it has items.
    """
    rows = [(row, sum(sizes.get(kind, 0) for kind in row.kinds)) for row in blueprint.kinds]
    rows = [(row, size) for row, size in rows if size]
    filled = _spread(questions, [row.weight for row, _ in rows], [size for _, size in rows])
    return [(row.kinds, number) for (row, _), number in zip(rows, filled, strict=True)]


def module_questions(blueprint: Blueprint, rig_type: str | None = None) -> dict[str, int]:
    """How many questions each module has. `rig_type` is the sitter's own, one of OF_A_RIG_TYPE, or None if not known.

    Seven tenths of the questions of the modules of one rig type, rounded up, are then of the sitter's own type.
    """
    found = {module: share.questions for module, share in blueprint.modules.items()}
    if rig_type in OF_A_RIG_TYPE:
        together = sum(found[each] for each in OF_A_RIG_TYPE)
        own = -(-OWN_RIG_TENTHS * together // 10)
        found |= {each: own if each == rig_type else together - own for each in OF_A_RIG_TYPE}
    return found


def _spread(questions: float, weights: list[float], sizes: list[int]) -> list[float]:
    """Questions by weight, none with more than its size; what is over goes to those that have room."""
    filled = [0.0] * len(weights)
    open_rows, left = set(range(len(weights))), questions
    while open_rows and left > 1e-9:
        total = sum(weights[row] for row in open_rows)
        given = {row: left * weights[row] / total for row in open_rows}
        left = 0.0
        for row, share in given.items():
            room = sizes[row] - filled[row]
            filled[row] += min(share, room)
            left += max(0.0, share - room)
            if share >= room:
                open_rows.discard(row)
    return filled


class _Paper:
    """One table of blueprints.toml, each field checked as it is taken."""

    def __init__(self, file: Fields, id: str, course: Course) -> None:
        self.file, self.id, self.course = file, id, course
        self.values = file.values[id]

    def read(self) -> Blueprint:
        """The blueprint. Raises CourseError."""
        if not isinstance(self.values, dict) or set(self.values) != FIELDS:
            raise self.fault("", f"a paper has just these fields: {', '.join(sorted(FIELDS))}.")
        if not isinstance(self.values["title"], str) or not self.values["title"].strip():
            raise self.fault("title", "the title must be a text in quotes, and not empty.")
        if type(self.values["sheet"]) is not bool:
            raise self.fault("sheet", "sheet must be true or false.")
        questions = self.whole("questions", self.values, MOST)
        return Blueprint(
            self.id,
            self.values["title"],
            questions,
            self.whole("minutes", self.values, MOST),
            self.whole("pass_mark", self.values, 100) / 100,
            self.whole("least_in_a_module", self.values, 100) / 100,
            self.values["sheet"],
            self.kinds(),
            self.modules(questions),
            self.must_pass(questions),
        )

    def modules(self, questions: int) -> dict[str, ModuleShare]:
        rows, known = self.values["modules"], {each.id for each in self.course.modules}
        if not isinstance(rows, dict) or set(rows) != known:
            raise self.fault("modules", f"modules must have one row for each of {', '.join(sorted(known))}.")
        shares = {}
        for module, row in rows.items():
            self.only(row, {"weight", "questions"}, f"modules.{module}")
            share = ModuleShare(
                self.whole(f"modules.{module}.weight", row, 100) / 100,
                self.whole(f"modules.{module}.questions", row, questions),
            )
            if abs(share.questions - share.weight * questions) > 1:
                raise self.fault("modules", f"{module} has {share.questions} questions, which is not its weight.")
            shares[module] = share
        self.all_of("modules", sum(each.weight for each in shares.values()), 1)
        self.all_of("modules", sum(each.questions for each in shares.values()), questions)
        return shares

    def kinds(self) -> tuple[KindShare, ...]:
        rows, shares = self.values["kinds"], []
        if not isinstance(rows, list):
            raise self.fault("kinds", 'kinds must be a list of { weight = 45, of = ["choice"] }.')
        for row in rows:
            self.only(row, {"weight", "of"}, "kinds")
            shares.append(KindShare(self.whole("kinds.weight", row, 100) / 100, self.texts("kinds.of", row, ITEMS)))
        named = [kind for share in shares for kind in share.kinds]
        if len(set(named)) < len(named):
            raise self.fault("kinds", "a kind stands in two rows of kinds. Keep one of them.")
        self.all_of("kinds", sum(each.weight for each in shares), 1)
        return tuple(shares)

    def must_pass(self, questions: int) -> MustPass:
        row = self.values["must_pass"]
        self.only(row, {"questions", "one_each", "may"}, "must_pass")
        lessons = {each.id: each for each in self.course.lessons}
        found = MustPass(
            self.whole("must_pass.questions", row, questions),
            self.texts("must_pass.one_each", row, lessons),
            self.texts("must_pass.may", row, lessons),
        )
        if len(found.one_each) > found.questions or set(found.one_each) & set(found.may):
            raise self.fault("must_pass", "one_each names more lessons than there are questions, or one of may's.")
        return found

    def only(self, row: Any, fields: set[str], name: str) -> None:
        if not isinstance(row, dict) or set(row) != fields:
            raise self.fault(name, f"{name} must have just these fields: {', '.join(sorted(fields))}.")

    def whole(self, name: str, row: Mapping[str, Any], most: int) -> int:
        value = row[name.rsplit(".", 1)[-1]]
        if type(value) is not int or not 1 <= value <= most:
            raise self.fault(name, f"{name} must be a whole number from 1 to {most}.")
        return value

    def texts(self, name: str, row: Mapping[str, Any], known: Mapping[str, Any]) -> tuple[str, ...]:
        value = row[name.rsplit(".", 1)[-1]]
        if not isinstance(value, list) or len(set(map(str, value))) < len(value):
            raise self.fault(name, f"{name} must be a list of texts, none of them twice.")
        for each in value:
            if each not in known:
                raise self.fault(name, f"{each!r} in {name} is not known. Known are {', '.join(known)}.")
        return tuple(value)

    def all_of(self, name: str, found: float, wanted: float) -> None:
        if abs(found - wanted) > 1e-9:
            raise self.fault(name, f"{name} add up to {found:g} and must add up to {wanted:g}.")

    def fault(self, name: str, problem: str):
        """The error at the paper's table, or at its table of that name."""
        table = f"{self.id}.{name.split('.')[0]}"
        line = self.file.line_of(table)
        return self.file.fault(table if line > 1 else self.id, f"{self.id}: {problem}")
