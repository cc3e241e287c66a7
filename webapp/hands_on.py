"""Hands-on tasks of a hand or a crew: the records read, and handed to the pure rule of where a task stands."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from course import Module, Task
from webapp.at_hand import course, me, store, today, zone
from webapp.records import crews, exams, excuses, sign_offs
from webapp.records.crews import Membership, Rig
from webapp.records.excuses import Excuse
from webapp.records.sign_offs import SignOff
from webapp.study.tasks import NOT_POSSIBLE, WORDS, Standing, since, standing, waiting

NO_BREAK = "\N{NO-BREAK SPACE}"
Marks = dict[str, dict[str, "HandsOn"]]
"""By the hand's id and the task's."""


@dataclass(frozen=True)
class HandsOn:
    """One task for one hand: where it stands, its signatures with the latest day first, and what excuses from it."""

    task: Task
    standing: Standing
    signed: tuple[SignOff, ...]
    excuse: Excuse | None
    paper: str | None
    """Of the hand's exam, which says what is asked for; None where no exam is set."""

    @property
    def state(self) -> str:
        """A key of study.tasks.WORDS."""
        return self.standing.state

    def watched_since(self, first: date) -> bool:
        """Whether somebody watched it on that day or later, whatever came of it."""
        return any(each.observed_on >= first for each in self.watched)

    @property
    def watched(self) -> list[SignOff]:
        """The signatures that tell of something seen: not withdrawn, and it was possible."""
        return [each for each in self.signed if each.counts and each.result != NOT_POSSIBLE]


def of_hand(person: str, rig: Rig | None) -> list[HandsOn]:
    """Every task for one hand, who is on that rig now, or on none."""
    return list(_of({person: rig})[person].values())


def mine() -> tuple[Membership | None, list[HandsOn]]:
    """The crew in which who is asking is now, and every task for them.

    No task for who was never in a crew. Who left one keeps the list: what was signed is theirs.
    """
    member = crews.membership_now(store(), me().id)
    if not crews.memberships_of(store(), me().id):
        return None, []
    return member, of_hand(me().id, member.crew.rig if member else None)


def of_members(members: Iterable[Membership]) -> Marks:
    """Every task for each of these hands."""
    return _of({each.person.id: each.crew.rig for each in members})


def _of(rigs: dict[str, Rig | None]) -> Marks:
    people = list(rigs)
    signed: dict[tuple[str, str], list[SignOff]] = defaultdict(list)
    for each in sign_offs.of_people(store(), people):
        signed[each.person, each.task].append(each)
    excused = {(each.person, each.task): each for each in excuses.running(store(), people) if each.task}
    papers = {person: exam.paper for person, exam in exams.of_people(store(), people).items()}
    return {
        person: {
            task.id: _one(task, rig, papers.get(person), signed[person, task.id], excused.get((person, task.id)))
            for task in course().tasks.values()
        }
        for person, rig in rigs.items()
    }


def _one(task: Task, rig: Rig | None, paper: str | None, signed: list[SignOff], excuse: Excuse | None) -> HandsOn:
    found = standing(
        signed,
        needed=task.times(paper),
        months=task.months,
        fits=rig is None or task.fits(rig.rig_type),
        rig=rig and rig.id,
        excuse=excuse and excuse.kind,
        today=today(),
    )
    return HandsOn(task, found, tuple(signed), excuse, paper)


def counts(tasks: Iterable[HandsOn]) -> Counter[str]:
    """How many tasks are in each state."""
    return Counter(each.state for each in tasks)


def by_module(tasks: Sequence[HandsOn]) -> list[tuple[Module, list[HandsOn]]]:
    """The tasks under their modules, in order; what the hand's exam does not ask for is there only where signed."""
    shown = [each for each in tasks if each.state != "not-asked" or each.signed]
    modules = [(module, [each for each in shown if each.task.module == module.id]) for module in course().modules]
    return [(module, those) for module, those in modules if those]


def waiting_groups(marks: Marks) -> list[list[SignOff]]:
    """The groups of signatures that wait for a decision, over all these hands."""
    return waiting(each for tasks in marks.values() for one in tasks.values() for each in one.signed)


def not_possible(marks: Marks) -> list[SignOff]:
    """For each hand and task that can't be done on the rig: the signature that says so last, with its reason."""
    those = [one for tasks in marks.values() for one in tasks.values() if one.state == NOT_POSSIBLE]
    return [next(each for each in one.signed if each.counts and each.result == NOT_POSSIBLE) for one in those]


def first_day_of(months: int) -> date:
    """The first day of the last so many months."""
    return since(today(), months)


def title(task: str) -> str:
    """The title of a task; of one that the course no longer has, nothing but its id is known."""
    found = course().tasks.get(task)
    return found.title if found else "(no longer in the course)"


def full_day(when: date | datetime) -> str:
    """'2 Mar 2026': evidence is read years later, so the year stands in it always."""
    if isinstance(when, datetime):
        when = when.astimezone(zone()).date()
    return f"{when.day} {when:%b %Y}".replace(" ", NO_BREAK)


IN_TEMPLATES = {
    "full_day": full_day,
    "task_title": title,
    "task_words": WORDS,
    "task_counts": counts,
    "tasks_by_module": by_module,
    "result_words": sign_offs.RESULTS,
}
"""What every template has of hands-on tasks."""
