"""Rigs, crews and who is in them, made through the records' own functions.

Everybody is named; somebody who is not there yet is made with the password of `conftest.PASSWORD`, so that
`hands(name)` signs them in. Everything happens at START, the moment at which the clock of the tests stands.
"""

import functools
from datetime import UTC, date, datetime

from argon2 import PasswordHasher

from tests.webapp.conftest import CHEAP, PASSWORD
from webapp.records import crews, people, rights
from webapp.records.connection import Store
from webapp.records.crews import Crew, Membership, Rig
from webapp.records.people import Person

START = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
UNTIL = date(2026, 12, 31)


def a_hand(house: Store, name: str, **more) -> Person:
    """The person of that name, made if they are not there. `more` goes to people.join."""
    plain = {"system": "us", "comma": False, "minutes": 15, "now": START}
    return people.by_name(house, name) or people.join(house, name, _password_hash(), "code", **plain | more)


def a_coordinator(house: Store, name: str = "Rosalind Achterberg", crew: Crew | None = None) -> Person:
    """A coordinator of the house, and of that crew."""
    person = a_hand(house, name)
    rights.make_coordinator(house, person.id, None, START)
    if crew:
        rights.give(house, person.id, crew.id, "coordinator", person.id, START)
    return person


def a_rig(house: Store, name: str = "Quillwater 7", rig_type: str = "kelly") -> Rig:
    """A rig with that name, made by a coordinator."""
    return crews.add_rig(house, name, rig_type, a_coordinator(house).id, START)


def a_crew(
    house: Store, rig: Rig | None = None, name: str = "Crew A", coordinator: str = "Rosalind Achterberg"
) -> Crew:
    """A crew of 14 days on and 14 off, on the rig since START, nights from day 8; its coordinator is named."""
    by = a_coordinator(house, coordinator)
    rotation = {"days_on": 14, "days_off": 14, "first_day": START.date(), "nights_from": 8}
    crew = crews.add_crew(house, rig or a_rig(house), name, **rotation, by=by.id, now=START)
    rights.give(house, by.id, crew.id, "coordinator", by.id, START)
    return crew


def a_member(
    house: Store, crew: Crew, name: str = "Ines Okoro", job: str = "floorhand", sees_from: datetime | None = None
) -> Membership:
    """Somebody in that crew, seen by its coordinators from `sees_from` on, which is START unless it is told."""
    person = a_hand(house, name)
    crews.join(house, person, crew.id, job, START, sees_from)
    return crews.membership_now(house, person.id)


def an_observer(
    house: Store, crew: Crew, name: str = "Teodor Quist", tasks: tuple[str, ...] = ("S-2.4",), until: date = UNTIL
) -> Person:
    """Somebody who may sign these tasks for that crew up to that day."""
    person = a_hand(house, name)
    by = rights.in_crew(house, crew.id, "coordinator")[0].person
    rights.give(house, person.id, crew.id, "observer", by.id, START, tasks, until)
    return person


@functools.cache
def _password_hash() -> str:
    return PasswordHasher(**CHEAP).hash(PASSWORD)
