"""When a hand is on the rig, and how many minutes each day has for study."""

from datetime import date

from webapp.records import crews
from webapp.records.connection import Store
from webapp.records.people import Person
from webapp.study.rotation import Rotation, every_day

COLUMNS = "days_on, days_off, first_day, nights_from"


def of_person(store: Store, person: Person) -> Rotation:
    """The hand's own rotation, else their crew's, else the same minutes every day; with their single days."""
    found = own(store, person) or _of_crew(store, person)
    if found is None:
        return every_day(person.minutes, single_days(store, person.id))
    days_on, days_off, first_day, nights_from = found
    return Rotation(
        days_on, days_off, first_day, person.minutes, person.minutes_off, nights_from,
        single_days(store, person.id),
    )  # fmt: skip


def own(store: Store, person: Person) -> tuple[int, int, date, int | None] | None:
    """Days on, days off, first day on, and the day of the hitch that nights begin on, as the hand told; or None."""
    row = store.db.execute(f"select {COLUMNS} from rotations where person = ?", [person.id]).fetchone()
    return row and (row[0], row[1], date.fromisoformat(row[2]), row[3])


def set_own(
    store: Store, person_id: str, days_on: int, days_off: int, first_day: date, nights_from: int | None
) -> None:
    """Keep a hand's own rotation in the place of an older one."""
    with store.writing() as db:
        db.execute(
            f"insert or replace into rotations (person, {COLUMNS}) values (?, ?, ?, ?, ?)",
            [person_id, days_on, days_off, first_day.isoformat(), nights_from],
        )


def forget_own(store: Store, person_id: str) -> None:
    """Go by the crew's rotation again, or by none."""
    with store.writing() as db:
        db.execute("delete from rotations where person = ?", [person_id])


def single_days(store: Store, person_id: str) -> dict[date, float]:
    """The minutes of the days that are otherwise than the rotation says, oldest first."""
    rows = store.db.execute("select day, minutes from day_minutes where person = ? order by day", [person_id])
    return {date.fromisoformat(day): float(minutes) for day, minutes in rows}


def set_day(store: Store, person_id: str, day: date, minutes: int) -> None:
    """Say how many minutes one day has, whatever the rotation says."""
    with store.writing() as db:
        db.execute(
            "insert or replace into day_minutes (person, day, minutes) values (?, ?, ?)",
            [person_id, day.isoformat(), minutes],
        )


def forget_day(store: Store, person_id: str, day: date) -> None:
    """Let the rotation decide about that day again."""
    with store.writing() as db:
        db.execute("delete from day_minutes where person = ? and day = ?", [person_id, day.isoformat()])


def _of_crew(store: Store, person: Person) -> tuple[int, int, date, int | None] | None:
    membership = crews.membership_now(store, person.id)
    if membership is None:
        return None
    crew = membership.crew
    return crew.days_on, crew.days_off, crew.first_day, crew.nights_from
