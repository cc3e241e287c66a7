"""The demo: an invented house with two rigs, its people and five weeks of what they did."""

from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, tzinfo
from pathlib import Path
from zoneinfo import ZoneInfo

from course import Course, load_course
from question_bank import Bank, load_bank
from webapp import passwords
from webapp.demo.crews import man
from webapp.demo.history import Stage, live
from webapp.demo.scenario import Hand, read_scenario
from webapp.records import copies, house, memory, people
from webapp.records.connection import Store
from webapp.records.errors import RecordsError
from webapp.records.people import Person
from webapp.study.days import study_day

WEEKS = 5
# Nobody has studied on these last days, so that something has begun to fade by today.
AWAY = 3
SHOWN = ("rosalind", "marek", "sunniva", "teodor", "caspian")
"""Whose sign-ins are printed: the coordinator, learners on both rigs, an observer, and the hand who brushes up."""


@dataclass(frozen=True)
class SignIn:
    """What somebody types to look at the demo as one of its people, and what they are there."""

    name: str
    password: str
    job: str


def refuse_real(path: Path) -> None:
    """Raises RecordsError unless the file is a demo's: nobody's own records are ever made afresh."""
    copies.check(path)
    with closing(Store(path)) as store:
        invented = house.is_demo(store)
    if not invented:
        raise RecordsError(
            f"{path} holds real records and no demo: it stays as it is. Choose another file with --data."
        )


def make_afresh(path: Path, zone: str) -> tuple[Store, list[SignIn]]:
    """A new demo file in the place of an older one, and its sign-ins. Raises RecordsError if that one is in use."""
    copies.remove(path)
    store = Store(path)
    store.migrate()
    memory.rebuild(store)
    return store, fill(store, load_bank(), load_course(), datetime.now(UTC), ZoneInfo(zone))


def fill(store: Store, bank: Bank, course: Course, now: datetime, zone: tzinfo) -> list[SignIn]:
    """Fill a new records file with the invented house and mark it as a demo; the sign-ins to look at it with.

    What happens is the same every time, by days since the first, a Monday; the passwords are random.
    """
    scenario = read_scenario()
    today = study_day(now, zone)
    stage = Stage(store, bank, course, first_day(today), zone)
    signs = {key: SignIn(hand.name, passwords.new_password(), hand.job) for key, hand in scenario.people.items()}
    with store.writing():
        house.mark_demo(store)
        crew = {key: (hand, _joined(stage, hand, signs[key])) for key, hand in scenario.people.items()}
        man(stage, scenario, {key: person for key, (_, person) in crew.items()})
        live(stage, crew, (today - stage.first).days, AWAY)
    return [signs[key] for key in SHOWN]


def first_day(today: date) -> date:
    """The demo's day 0: the Monday five weeks before this week's."""
    return today - timedelta(days=today.weekday(), weeks=WEEKS)


def _joined(stage: Stage, hand: Hand, sign: SignIn) -> Person:
    hashes = passwords.hash_password(sign.password), passwords.hash_recovery_code(passwords.new_recovery_code())
    return people.join(
        stage.store, hand.name, *hashes,
        system=hand.system, comma=hand.comma, minutes=hand.minutes, now=stage.at(hand.joins),
    )  # fmt: skip
