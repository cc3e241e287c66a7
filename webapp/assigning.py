"""What coordinators decide of study: modules assigned, excused, replaced; exam days. Each with its line in the log."""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from course import Module
from webapp.at_hand import blueprints, course, me, now, store
from webapp.records import assignments, crews, exams, excuses, extra_time, log, slips
from webapp.records.assignments import Assignment
from webapp.records.crews import Crew, Membership, Rig
from webapp.records.excuses import Excuse
from webapp.standings import Cell

ANEW = "assigned anew"
PAPERS = {"a": "derrickhand", "b": "assistant-driller"}
"""The blueprint of each paper."""
TYPES = {"kelly": "kelly rigs", "top-drive": "top-drive rigs"}


@dataclass(frozen=True, slots=True)
class Terms:
    """What a module is assigned with. `pass_mark` is None where each module's own stands."""

    rig_type: str | None
    due_by: str
    due_day: date
    pass_mark: int | None
    must_pass: bool


@dataclass(frozen=True, slots=True)
class Aim:
    """Whom modules are assigned to: `to` is 'person', 'crew' or 'rig', `id` theirs, `name` as it is told."""

    to: str
    id: str
    name: str


def assign(crew: Crew, aim: Aim, modules: Collection[Module], terms: Terms) -> None:
    """Assign modules. One that was assigned to the same aim before is ended: the new day and mark stand."""
    new = drafted(aim, modules, terms)
    at = now()
    with store().writing():
        for each in new:
            for older in same_aim(aim, each.module):
                assignments.end(store(), older.id, me().id, ANEW, at)
            assignments.add(store(), each)
        only = f", on {TYPES[terms.rig_type]} only" if terms.rig_type else ""
        detail = f"{_named(modules)} to {aim.name}{only}, {_due(terms.due_by, terms.due_day)}."
        log.note(store(), me().id, "assigned", detail, at, crew.id, aim.id if aim.to == "person" else None)


def drafted(aim: Aim, modules: Iterable[Module], terms: Terms) -> list[Assignment]:
    """The assignments of these modules, not written down."""
    at = now()
    return [
        assignments.new(
            module.id,
            aim.to,
            aim.id,
            rig_type=terms.rig_type,
            due_by=terms.due_by,
            due_day=terms.due_day,
            pass_mark=terms.pass_mark or module.pass_mark,
            must_pass=terms.must_pass,
            made_by=me().id,
            made_at=at,
        )
        for module in modules
    ]


def bring_forward(member: Membership, cells: Collection[Cell], day: date) -> None:
    """Assign to one hand anew, by that day, what is asked of them in these cells. Mark and must-pass items stay."""
    at, aim = now(), Aim("person", member.person.id, member.person.name)
    with store().writing():
        for each in cells:
            for older in same_aim(aim, each.module.id):
                assignments.end(store(), older.id, me().id, ANEW, at)
            new = assignments.new(
                each.module.id,
                aim.to,
                aim.id,
                rig_type=assignments.get(store(), each.asked.assignment).rig_type,
                due_by="date",
                due_day=day,
                pass_mark=each.asked.pass_mark,
                must_pass=each.asked.must_pass,
                made_by=me().id,
                made_at=at,
            )
            assignments.add(store(), new)
        detail = f"{_named(each.module for each in cells)} to {aim.name}, {_due('date', day)}, before the exam."
        log.note(store(), me().id, "assigned", detail, at, member.crew.id, aim.id)


def same_aim(aim: Aim, module: str) -> list[Assignment]:
    """What is assigned now of that module to just that aim."""
    ids = {each: [aim.id] if each == aim.to else [] for each in ("person", "crew", "rig")}
    found = assignments.running(store(), ids["person"], ids["crew"], ids["rig"])
    return [each for each in found if each.module == module]


def end(crew: Crew, those: Sequence[Assignment], aim: str, why: str) -> None:
    """End assignments of one aim for a reason. Those that have ended already stay as they are."""
    at = now()
    with store().writing():
        ended = [each for each in those if assignments.end(store(), each.id, me().id, why, at)]
        if ended:
            detail = f"{_named(course().module(each.module) for each in ended)}, assigned to {aim}: {why}"
            log.note(store(), me().id, "assignment ended", _sentence(detail), at, crew.id, ended[0].person)


def excuse(member: Membership, module: str | None, task: str | None, why: str, instead: str) -> None:
    """Excuse a hand from a module or a task, or replace it."""
    at = now()
    with store().writing():
        excuses.add(store(), member.person.id, me().id, at, why=why, module=module, task=task, instead=instead)
        what = "replaced" if instead else "excused"
        told = f"{name_of(module, task)} by {instead}" if instead else name_of(module, task)
        log.note(store(), me().id, what, _sentence(f"{told}: {why}"), at, member.crew.id, member.person.id)


def end_excuse(member: Membership, excuse: Excuse) -> None:
    """Ask for the module or task again."""
    at = now()
    with store().writing():
        if excuses.end(store(), excuse.id, me().id, at):
            detail = f"{name_of(excuse.module, excuse.task)} is asked for again."
            log.note(store(), me().id, "excuse ended", detail, at, member.crew.id, member.person.id)


def set_exam(member: Membership, paper: str, day: date | None) -> None:
    """Set the exam of a hand, or take it away."""
    at = now()
    with store().writing():
        exams.set_day(store(), member.person.id, paper, day, me().id, at)
        detail = f"Paper {paper.upper()} on {day.day} {day:%B %Y}." if day else "There is no exam day any more."
        log.note(store(), me().id, "exam day", detail, at, member.crew.id, member.person.id)


def grant_extra_time(member: Membership, why: str) -> None:
    """Grant a hand a quarter more time in practice papers, while they are in this crew."""
    at = now()
    with store().writing():
        if extra_time.grant(store(), member.person.id, member.crew.id, why, me().id, at):
            detail = _sentence(f"A quarter more in practice papers: {why}")
            log.note(store(), me().id, "extra time", detail, at, member.crew.id, member.person.id)


def end_extra_time(member: Membership) -> None:
    """No extra time any more, in papers that are begun from now on."""
    at = now()
    with store().writing():
        if extra_time.end(store(), member.person.id, member.crew.id, me().id, at):
            detail = "No extra time in practice papers any more."
            log.note(store(), me().id, "extra time ended", detail, at, member.crew.id, member.person.id)


def move(member: Membership, to: Crew, why: str, again: Collection[Excuse]) -> None:
    """Move a hand to another crew. Its coordinators see what the old crew's saw; assigned days go by its rotation.

    `again` are the excuses that end with it. A slip for the first sign-in goes along: it is the hand's, not a crew's.
    """
    at = now()
    with store().writing():
        for each in again:
            end_excuse(member, each)
        slips.follow(store(), member.person.id, to.id)
        crews.leave(store(), member.id, why, at)
        crews.join(store(), member.person, to.id, member.job, at, member.sees_from)
        detail = f"From {member.crew.full_name} to {to.full_name}: {why}"
        for crew in (member.crew, to):
            log.note(store(), me().id, "moved", _sentence(detail), at, crew.id, member.person.id)


def name_of(module: str | None, task: str | None) -> str:
    """A module as '7 Drilling line', a task as 'S-7.4 and its title'; by its bare id if the course has it no more."""
    if task is not None:
        found = course().tasks.get(task)
        return f"{task} {found.title}" if found else task
    found = next((each for each in course().modules if each.id == module), None)
    return f"{found.number} {found.title}" if found else str(module)


def modules_of_paper(paper: str) -> set[str]:
    """The ids of the modules that paper 'a' or 'b' asks something of."""
    blueprint = blueprints()[PAPERS[paper]]
    return {id for id, share in blueprint.modules.items() if share.questions}


def rigs_wholly_mine(mine: Collection[Crew]) -> list[Rig]:
    """The rigs of which all open crews are among these: only there may a whole rig be assigned something."""
    ids = {each.id for each in mine}
    rigs = {each.rig.id: each.rig for each in mine}
    return [rig for rig in rigs.values() if crews.open_crews_of_rig(store(), rig.id) <= ids]


def _named(modules: Iterable[Module]) -> str:
    names = [name_of(each.id, None) for each in modules]
    return f"{'Module' if len(names) == 1 else 'Modules'} {'; '.join(names)}"


def _due(due_by: str, day: date) -> str:
    return f"by the end of the hitch of {day.day} {day:%B %Y}" if due_by == "hitch" else f"by {day.day} {day:%B %Y}"


def _sentence(text: str) -> str:
    return text if text.endswith((".", "?")) else f"{text}."
