"""What the invented coordinator and observers did: sheets, assignments, exams, signatures, a move from rig to rig."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import time, timedelta
from typing import Any

from question_bank.rig_draws import check_draws
from webapp.demo.history import Stage
from webapp.demo.scenario import Scenario
from webapp.records import assignments, crews, exams, excuses, log, rig_sheets, rights, sign_offs
from webapp.records.crews import Crew
from webapp.records.ids import new_id
from webapp.records.people import Person

OFFICE_HOURS = time(9)
AFTER_TOUR = time(18, 30)
DRAWS_OF_THE_DEMO = 2
"""A demo is to be there in seconds; sheets are tried at length in their own tests."""
LAST_DAY = 120
"""Until when the observers may sign."""


@dataclass(frozen=True)
class Office:
    """The stage, the people and crews by their keys in the scenario, and who coordinates."""

    stage: Stage
    people: Mapping[str, Person]
    crews: Mapping[str, Crew]
    lead: Person


def run(office: Office, scenario: Scenario) -> None:
    """Do all that the scenario says, thing by thing; each line of it has its day."""
    for sheet in scenario.rest["sheets"].values():
        _fill_sheet(office, **sheet)
    for row in scenario.rest["assigned"]:
        _assign(office, **row)
    for row in scenario.rest["excused"]:
        _excuse(office, **row)
    for row in scenario.rest["exams"]:
        _set_exam(office, **row)
    for row in scenario.rest["observers"]:
        _name_observer(office, **row)
    for row in scenario.rest["signed"]:
        _sign(office, **row)
    for row in scenario.rest["moved"]:
        _move(office, row["person"], row["day"], row["from"], row["to"], row["why"])


def _rig(office: Office, key: str) -> Any:
    return next(crew.rig for name, crew in office.crews.items() if name.startswith(key))


def _fill_sheet(office: Office, rig: str, day: int, checked: tuple[str, int], values: Mapping[str, str]) -> None:
    store, at = office.stage.store, office.stage.at(day, OFFICE_HOURS)
    who, checked_on = checked
    draws = check_draws(office.stage.bank.values(), values, DRAWS_OF_THE_DEMO)
    sheet = rig_sheets.keep(store, values, {}, draws, system="us", by=office.lead.id, now=at, rig=_rig(office, rig).id)
    rig_sheets.mark_checked(store, sheet.id, office.people[who].id, office.stage.at(checked_on, AFTER_TOUR))


def _assign(office: Office, modules: list[str], hitch: int, person: str | None = None, rig: str | None = None) -> None:
    to, whom = ("person", office.people[person].id) if person else ("rig", _rig(office, rig).id)
    due, at = office.stage.first + timedelta(hitch), office.stage.at(1, OFFICE_HOURS)
    for module in modules:
        assignment = assignments.new(
            module, to, whom, rig_type=None, due_by="hitch", due_day=due, must_pass=True,
            pass_mark=office.stage.course.module(module).pass_mark, made_by=office.lead.id, made_at=at,
        )  # fmt: skip
        assignments.add(office.stage.store, assignment)


def _excuse(office: Office, person: str, day: int, module: str, instead: str, why: str) -> None:
    at, hand = office.stage.at(day, OFFICE_HOURS), office.people[person]
    excuses.add(office.stage.store, hand.id, office.lead.id, at, why=why, module=module, instead=instead)


def _set_exam(office: Office, person: str, paper: str, day: int) -> None:
    at, on = office.stage.at(3, OFFICE_HOURS), office.stage.first + timedelta(day)
    exams.set_day(office.stage.store, office.people[person].id, paper, on, office.lead.id, at)


def _name_observer(office: Office, person: str, crew: str, modules: list[str]) -> None:
    tasks = tuple(task.id for task in office.stage.course.tasks.values() if task.module in modules)
    rights.give(
        office.stage.store, office.people[person].id, office.crews[crew].id, "observer", office.lead.id,
        office.stage.at(1, OFFICE_HOURS), tasks, office.stage.first + timedelta(LAST_DAY),
    )  # fmt: skip


def _sign(
    office: Office,
    person: str,
    task: str,
    by: str,
    day: int,
    result: str,
    note: str,
    withdrawn: tuple[int, str] | None = None,
) -> None:
    store, hand, at = office.stage.store, office.people[person], office.stage.at(day, AFTER_TOUR)
    crew = crews.membership_now(store, hand.id).crew
    id = new_id(at)
    sign_offs.sign(
        store, id, hand=hand, task=task, title=office.stage.course.tasks[task].title, crew=crew.id, rig=crew.rig.id,
        observer=office.people[by], result=result, observed_on=office.stage.first + timedelta(day), note=note, now=at,
    )  # fmt: skip
    if withdrawn:
        on, why = withdrawn
        sign_offs.withdraw(store, sign_offs.get(store, id), office.lead, why, office.stage.at(on, OFFICE_HOURS))


def _move(office: Office, person: str, day: int, before: str, after: str, why: str) -> None:
    store, hand, at = office.stage.store, office.people[person], office.stage.at(day, OFFICE_HOURS)
    held = crews.membership_now(store, hand.id)
    crews.leave(store, held.id, why, at)
    crews.join(store, hand, office.crews[after].id, held.job, at, held.sees_from)
    told = f"From {office.crews[before].full_name} to {office.crews[after].full_name}: {why}"
    log.note(store, office.lead.id, "moved", told, at, office.crews[after].id, hand.id)
