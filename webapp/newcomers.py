"""People whom a coordinator puts into a crew: looked at beside who is here already, then added all or none."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from webapp.allowed import coordinating
from webapp.at_hand import me, now, store
from webapp.people_file import Fault, Line
from webapp.records import crews, exams, log, people, slips
from webapp.records.crews import Crew
from webapp.records.people import Person, name_key

NO_PASSWORD = ""
"""No password has this hash: who has it gets in by a slip alone."""
MINUTES = 15


@dataclass(frozen=True)
class Entry:
    """Somebody who may be added: their line with the name that they will sign in as, and what to look at twice."""

    line: Line
    remark: str | None


def looked_at(lines: Sequence[Line]) -> tuple[list[Entry], list[Fault]]:
    """What each will sign in as, where the line leaves it open; and the faults, where one is taken."""
    entries, faults, taken = [], [], {}
    for line in lines:
        if line.sign_in:
            key = name_key(line.sign_in)
            if key in taken:
                faults.append(Fault(line.number, f"Line {taken[key]} signs in as {line.sign_in} already."))
            elif people.by_name(store(), line.sign_in):
                faults.append(Fault(line.number, f"Somebody here signs in as {line.sign_in}. Write another."))
            taken.setdefault(key, line.number)
    for line in lines:
        sign_in = line.sign_in or people.free_sign_in(store(), line.name, taken)
        taken.setdefault(name_key(sign_in), line.number)
        entries.append(Entry(replace(line, sign_in=sign_in), None if line.sign_in else _remark(line, sign_in)))
    return entries, faults


def _remark(line: Line, sign_in: str) -> str | None:
    """Why the name alone does not do, and who has it."""
    if name_key(sign_in) == name_key(line.name):
        return None
    there = people.by_name(store(), line.name)
    who = f"There is {_told(there)}." if there else f"Two in this file are called {line.name}."
    same = " If this is the same hand, take the line out and give them a slip for the crew." if there else ""
    return f"{who} This one will sign in as {sign_in}.{same}"


def _told(person: Person) -> str:
    """Somebody of that name, with what tells them apart if who is asking may know."""
    membership = crews.membership_now(store(), person.id)
    if membership and membership.crew.id in {each.id for each in coordinating()}:
        return f"a {person.name} already: {membership.job}, {membership.crew.full_name}"
    return f"somebody here already who signs in as {person.sign_in}"


def add(crew: Crew, entries: Sequence[Entry], until: datetime, how: str) -> None:
    """Add them all, each with a slip for the first sign-in; or none, where anything is amiss. Raises NameTaken."""
    with store().writing():
        for entry in entries:
            _add(crew, entry.line, until, how)


def _add(crew: Crew, line: Line, until: datetime, how: str) -> None:
    person = people.join(
        store(), line.name, NO_PASSWORD, NO_PASSWORD,
        system=line.system, comma=line.comma, minutes=MINUTES, now=now(), sign_in=line.sign_in,
    )  # fmt: skip
    crews.join(store(), person, crew.id, line.job, now())
    slips.make(store(), crew.id, me().id, now(), until, person=person.id)
    exam = ""
    if line.exam_day:
        exams.set_day(store(), person.id, line.paper, line.exam_day, me().id, now())
        exam = f" Exam {line.paper.upper()} on {line.exam_day.day} {line.exam_day:%B %Y}."
    detail = f"{person.known_as}, {line.job}, is added by a {how}.{exam}"
    log.note(store(), me().id, "added", detail, now(), crew.id, person.id)
