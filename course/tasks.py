"""Hands-on tasks: what an observer watches, how often, and when it has to be seen again. Read from tasks.toml."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from course.errors import CourseError
from course.fields import Fields
from question_bank.cautions import cautions
from question_bank.quantities_in_text import fill

FILE = "tasks.toml"
NUMBERED = re.compile(r"S-([1-9]\d?)\.([1-9]\d?)")
PAPERS = ("a", "b")
RIG_TYPES = ("kelly", "top-drive")
MONTHS = (6, 12)
POINTS = (3, 6)
NEEDED = {"module", "title", "points", "times", "cautions", "months"}
MAY_HAVE = NEEDED | {"rig_type", "stop"}


@dataclass(frozen=True)
class Task:
    """One hands-on task. `points` and `stop` may hold quantities in their notation; `says` shows them.

    `times_a` observations are asked for the exam of a derrickhand, and `times_b` on top of them for that of an
    assistant driller. `rig_type` is None for a task of every rig. After `months` it has to be seen again.
    """

    id: str
    module: str
    title: str
    points: tuple[str, ...]
    times_a: int
    times_b: int
    rig_type: str | None
    stop: str | None
    cautions: tuple[str, ...]
    months: int

    def times(self, paper: str | None) -> int:
        """How often it is asked for that exam; without one, as often as the first exam that asks for it does."""
        if paper == "b":
            return self.times_a + self.times_b
        return self.times_a if paper == "a" else self.times_a or self.times_b

    def fits(self, rig_type: str) -> bool:
        """Whether a rig of that type has what the task needs."""
        return self.rig_type in (None, rig_type)

    def says(self, system: str) -> tuple[str, ...]:
        """The points as plain text, their quantities shown for that system ('us' or 'metric')."""
        return tuple(fill(each, system) for each in self.points)


def load_tasks(folder: Path, modules: Mapping[str, int]) -> dict[str, Task]:
    """All tasks by id, in the order of their numbers. `modules` has each module's number by its id.

    Raises CourseError at the line of a task that lacks something or has what it can't have.
    """
    path = folder / FILE
    if not path.is_file():
        raise CourseError(path, 1, "the hands-on tasks are missing. Give the course this file, even an empty one.")
    table = Fields(path, path.read_text(encoding="utf-8"))
    found = {id: _task(table, id, row, modules) for id, row in table.values.items()}
    return {id: found[id] for id in sorted(found, key=_place)}


def _place(id: str) -> tuple[int, int]:
    module, number = NUMBERED.fullmatch(id).groups()
    return int(module), int(number)


def _task(table: Fields, id: str, row: object, modules: Mapping[str, int]) -> Task:
    named = NUMBERED.fullmatch(id)
    if not named or not isinstance(row, dict):
        raise table.fault(id, f'{id!r} is no task. Tasks are tables named like ["S-2.3"].')
    problem = _problem(row, int(named[1]), modules)
    if problem:
        raise table.fault(id, f"the task {id}: {problem}")
    times = row["times"]
    return Task(
        id, row["module"], row["title"], tuple(row["points"]), times.get("a", 0), times.get("b", 0),
        row.get("rig_type"), row.get("stop"), tuple(row["cautions"]), row["months"],
    )  # fmt: skip


def _problem(row: dict, number: int, modules: Mapping[str, int]) -> str | None:
    """The first thing that is wrong with a task's table, as a sentence, or None."""
    if not set(row) >= NEEDED or not set(row) <= MAY_HAVE:
        return f"it needs {', '.join(sorted(NEEDED))}, and may have rig_type and stop. It has {', '.join(sorted(row))}."
    if modules.get(row["module"]) != number:
        return f"the module {row['module']!r} is not there or is not number {number}. Mend one of them."
    texts = row["points"] if isinstance(row["points"], list) else []
    if not POINTS[0] <= len(texts) <= POINTS[1] or len(set(map(str, texts))) < len(texts):
        return f"it needs {POINTS[0]} to {POINTS[1]} points, none of them twice."
    return _text_problem([row["title"], *texts, row.get("stop", "-")]) or _number_problem(row)


def _text_problem(texts: list) -> str | None:
    for text in texts:
        if not isinstance(text, str) or not text.strip():
            return "its title, points and stop must be texts in quotes, and not empty."
        try:
            fill(text, "us")
        except ValueError as error:
            return f"{text!r} can't be shown. {error}"
    return None


def _number_problem(row: dict) -> str | None:
    times, named = row["times"], row["cautions"]
    if (
        not isinstance(times, dict)
        or not times
        or not set(times) <= set(PAPERS)
        or any(type(each) is not int or not 1 <= each <= 9 for each in times.values())
    ):
        return "times must be like { a = 2 } or { a = 1, b = 1 }, from 1 to 9."
    if row.get("rig_type") not in (None, *RIG_TYPES):
        return f"rig_type must be one of {', '.join(RIG_TYPES)}, or be left out."
    if row["months"] not in MONTHS:
        return f"months must be one of {', '.join(map(str, MONTHS))}."
    if not isinstance(named, list) or not named or not set(named) <= set(cautions()):
        return f"cautions must be a list of one or more of {', '.join(cautions())}."
    return None
