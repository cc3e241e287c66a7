"""The day of a hand's exam and its paper. The newest row of a person counts; older ones stay, to be looked up."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime

from webapp.records.connection import Store
from webapp.records.ids import new_id
from webapp.records.moments import as_moment, as_text

PAPERS = ("a", "b")


@dataclass(frozen=True, slots=True)
class Exam:
    """An exam: 'a' for derrickhand, 'b' for assistant driller; the day; and who set it when."""

    person: str
    paper: str
    day: date
    set_by: str
    set_at: datetime


def set_day(store: Store, person_id: str, paper: str, day: date | None, by: str, now: datetime) -> None:
    """Set a person's exam day and paper; a day of None says that there is no exam any more."""
    with store.writing() as db:
        db.execute(
            "insert into exams (id, person, paper, day, set_by, set_at) values (?, ?, ?, ?, ?, ?)",
            [new_id(now), person_id, paper, day and day.isoformat(), by, as_text(now)],
        )


def of_people(store: Store, persons: Collection[str]) -> dict[str, Exam]:
    """The exam of each of these persons who has one, by their id."""
    marks = ", ".join("?" for _ in persons)
    rows = store.db.execute(
        "select person, paper, day, set_by, set_at from exams"
        f" where id in (select max(id) from exams where person in ({marks}) group by person) and day is not null",
        [*persons],
    )
    return {
        person: Exam(person, paper, date.fromisoformat(day), set_by, as_moment(set_at))
        for person, paper, day, set_by, set_at in rows
    }
