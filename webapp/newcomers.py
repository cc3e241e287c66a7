"""People whom a coordinator puts into a crew: looked at beside who is here already, then added all or none."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from difflib import get_close_matches

from webapp.allowed import coordinating
from webapp.at_hand import me, now, store
from webapp.people_file import JOBS, Fault, Line
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
    same_name: str | None
    odd_job: str | None

    @property
    def remarks(self) -> list[str]:
        """All of it."""
        return [each for each in (self.same_name, self.odd_job) if each]


def looked_at(lines: Sequence[Line]) -> tuple[list[Entry], list[Fault]]:
    """What each will sign in as, where the line leaves it open; and the faults, where one is taken."""
    faults, taken = [], {}
    for line in lines:
        if line.sign_in:
            key = name_key(line.sign_in)
            if key in taken:
                faults.append(Fault(line.number, f"Line {taken[key]} signs in as {line.sign_in} already."))
            elif people.by_name(store(), line.sign_in):
                faults.append(Fault(line.number, f"Somebody here signs in as {line.sign_in}. Write another."))
            taken.setdefault(key, line.number)
    names = Counter(name_key(each.name) for each in lines)
    there = people.of_names(store(), names)
    jobs = _jobs_here(lines)
    entries = []
    for line in lines:
        sign_in = line.sign_in or people.free_sign_in(store(), line.name, taken)
        taken.setdefault(name_key(sign_in), line.number)
        key = name_key(line.name)
        same = _same_name(line.name, sign_in, there.get(key, []), names[key])
        entries.append(Entry(replace(line, sign_in=sign_in), same, _odd_job(line.job, jobs)))
    return entries, faults


def _same_name(name: str, sign_in: str, there: Sequence[Person], in_file: int) -> str | None:
    """Who else has the name, whatever they sign in as; None where nobody has."""
    if there:
        same = " If this is the same hand, take the line out and give them a slip for the crew."
        return f"There is {_told(there[0])}. This one will sign in as {sign_in}.{same}"
    if in_file > 1:
        return (
            f"{'Two' if in_file == 2 else in_file} in this file are called {name}. This one will sign in as {sign_in}."
        )
    return None


def _jobs_here(lines: Sequence[Line]) -> Counter[str]:
    """How many have each job: the usual ones, those of my crews, and those of the lines."""
    members = crews.members(store(), [each.id for each in coordinating()])
    return Counter([*JOBS, *JOBS, *(each.job for each in members), *(each.job for each in lines)])


def _odd_job(job: str, jobs: Counter[str]) -> str | None:
    """A job that nobody else has, with one that is spelt nearly so. It may be right."""
    if jobs[job] > 1:
        return None
    near = get_close_matches(job.casefold(), [each for each in jobs if each != job], 1)
    meant = f" Did you mean {near[0]}?" if near else " Is it spelt right?"
    return f"Nobody else here is a {job}.{meant}"


def _told(person: Person) -> str:
    """Somebody of that name, with what tells them apart if who is asking may know."""
    membership = crews.membership_now(store(), person.id)
    if membership and membership.crew.id in {each.id for each in coordinating()}:
        return f"a {person.name} already: {membership.job}, {membership.crew.full_name}"
    if name_key(person.name) == name_key(person.sign_in):
        return f"somebody here already who signs in as {person.sign_in}"
    return f"somebody called {person.name} here already"


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
