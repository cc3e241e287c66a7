"""A house with many people and many attempts, in the real schema, filled by bulk: for timing and for query plans.

    python -m tests.bench.big_house FILE [PEOPLE] [ATTEMPTS]

Attempts are spread over people, items and two years by a fixed seed. What is made up: a question's body is short, and
rows of memory get a day to come back on by chance in place of the model's, since a million folds take long. Triggers
that keep tables append-only are put aside while the rows go in, and come back after it.
"""

import json
import random
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from course import Course, load_course
from question_bank import Bank, load_bank
from webapp.records import assignments, crews, exams, excuses, people, rights
from webapp.records.connection import Store
from webapp.records.crews import Crew
from webapp.records.ids import new_id
from webapp.records.moments import as_text
from webapp.records.people import Person

SEED = 20_260_302
START = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
DAYS = 700
CREW_OF = 10
CREWS_A_RIG = 4
JOBS = ("floorhand", "derrickhand", "assistant driller", "driller", "motorhand")
HASH = "00112233aabbccdd"


@dataclass(frozen=True)
class BigHouse:
    """The coordinator of all crews, the crews, and the hands."""

    coordinator: Person
    crews: list[Crew]
    hands: list[Person]


def fill(store: Store, number: int, attempts: int, password_hash: str = "hash") -> BigHouse:
    """Fill a migrated records file with so many people and attempts."""
    chance = random.Random(SEED)
    bank, course = load_bank(), load_course()
    with store.writing() as db:
        triggers = _put_aside_triggers(db)
        house = _people(store, number, chance, password_hash)
        db.execute("insert into item_texts (hash, toml) values (?, '')", [HASH])
        _attempts(db, house, list(bank.values()), attempts, chance)
        _memory(db, chance)
        _read(db, house, course, chance)
        _tests(db, house, bank, course, chance)
        _asked(store, house, course, chance)
        for trigger in triggers:
            db.execute(trigger)
    return house


def _put_aside_triggers(db) -> list[str]:
    rows = db.execute("select name, sql from sqlite_master where type = 'trigger'").fetchall()
    for name, _ in rows:
        db.execute(f"drop trigger {name}")
    return [sql for _, sql in rows]


def _people(store: Store, number: int, chance: random.Random, password_hash: str) -> BigHouse:
    long_ago = START - timedelta(DAYS)
    plain = {"system": "us", "comma": False, "minutes": 15, "now": long_ago}
    coordinator = people.join(store, "Rosalind Achterberg", password_hash, "code", **plain)
    rights.make_coordinator(store, coordinator.id, None, long_ago)
    made, hands = [], []
    for first in range(0, number, CREW_OF):
        place = first // CREW_OF
        if place % CREWS_A_RIG == 0:
            rig_type = chance.choice(crews.RIG_TYPES)
            rig = crews.add_rig(store, f"Quillwater {place // CREWS_A_RIG + 1}", rig_type, coordinator.id, long_ago)
        crew = crews.add_crew(
            store, rig, f"Crew {'ABCD'[place % CREWS_A_RIG]}", days_on=14, days_off=14,
            first_day=START.date() - timedelta(14 * (place % 2)), nights_from=8, by=coordinator.id, now=long_ago,
        )  # fmt: skip
        rights.give(store, coordinator.id, crew.id, "coordinator", coordinator.id, long_ago)
        made.append(crew)
        for each in range(first, min(first + CREW_OF, number)):
            hand = people.join(store, f"Hand {each + 1:03}", password_hash, "code", **plain)
            crews.join(store, hand, crew.id, chance.choice(JOBS), long_ago)
            hands.append(hand)
    return BigHouse(coordinator, made, hands)


def _attempts(db, house: BigHouse, items: list, number: int, chance: random.Random) -> None:
    """Questions and the attempts at them, oldest first."""
    ids = [str(each) for each in _ids(number)]
    rows = [
        (chance.choice(house.hands).id, chance.choice(items), START - timedelta(DAYS * (1 - (at + 1) / number)))
        for at in range(number)
    ]
    body = json.dumps({"kind": "numeric"})
    db.conn.executemany(
        "insert into questions (id, person, item, item_hash, place, body, drawn_at) values (?, ?, ?, ?, 'today', ?, ?)",
        ((id, hand, item.id, HASH, body, as_text(at)) for id, (hand, item, at) in zip(ids, rows, strict=True)),
    )
    db.conn.executemany(
        "insert into attempts (id, person, item, kind, typed, read_as, outcome, mistake, hint, seconds, usual_seconds,"
        " answered_at, received_at, study_day) values (?, ?, ?, ?, '186', '186 klbf', ?, ?, 0, ?, ?, ?, ?, ?)",
        (_attempt(id, *row, chance) for id, row in zip(ids, rows, strict=True)),
    )


def _attempt(id: str, hand: str, item, at: datetime, chance: random.Random) -> tuple:
    outcome = chance.choices(("right", "close", "wrong"), (70, 5, 25))[0]
    known = [each.name for each in getattr(item, "mistakes", ())]
    mistake = chance.choice([*known, None]) if outcome == "wrong" else None
    seconds, usual = round(chance.uniform(5, 120), 1), float(item.usual_seconds)
    moment = as_text(at)
    return (id, hand, item.id, item.kind, outcome, mistake, seconds, usual, moment, moment, at.date().isoformat())


def _ids(number: int) -> Iterator[str]:
    for _ in range(number):
        yield new_id()


def _memory(db, chance: random.Random) -> None:
    pairs = db.execute("select person, item, max(study_day) from attempts group by person, item").fetchall()
    db.conn.executemany(
        "insert into memory (person, item, days_to_ninety, toughness, last_day, back_on) values (?, ?, ?, 5.0, ?, ?)",
        ((person, item, days, day, _later(day, days)) for person, item, day in pairs
         for days in [float(chance.randint(1, 200))]),
    )  # fmt: skip


def _later(day: str, days: float) -> str:
    return (date.fromisoformat(day) + timedelta(days)).isoformat()


def _read(db, house: BigHouse, course: Course, chance: random.Random) -> None:
    parts = [(lesson.id, part.slug) for lesson in course.lessons for part in lesson.parts]
    at = as_text(START - timedelta(DAYS // 2))
    db.conn.executemany(
        "insert into parts_read (person, lesson, part, at) values (?, ?, ?, ?)",
        ((hand.id, *part, at) for hand in house.hands for part in parts[: chance.randint(0, len(parts))]),
    )


def _tests(db, house: BigHouse, bank: Bank, course: Course, chance: random.Random) -> None:
    """About two tests for each hand and module."""
    rows = []
    for hand in house.hands:
        for module in course.modules:
            lessons = sorted({item.lesson for item in bank.values() if item.id.startswith(f"{module.id}.")})
            for _ in range(chance.randint(0, 4)):
                at = as_text(START - timedelta(chance.uniform(1, DAYS)))
                percent = chance.randint(40, 100)
                passed = int(percent >= module.pass_mark)
                body = json.dumps({"items": [], "lessons": lessons})
                result = json.dumps({"percent": percent, "missed": [], "right": percent, "asked": 100})
                rows.append((new_id(), hand.id, module.id, module.pass_mark, body, at, at, passed, result))
    db.conn.executemany(
        "insert into sittings (id, person, kind, module, pass_mark, body, started_at, handed_in_at, handed_in_by,"
        " passed, result) values (?, ?, 'module', ?, ?, ?, ?, ?, 'hand', ?, ?)",
        rows,
    )


def _asked(store: Store, house: BigHouse, course: Course, chance: random.Random) -> None:
    """Every module to every crew, some to persons; exam days and excuses for some."""
    by, at = house.coordinator.id, START - timedelta(60)
    plain = {"rig_type": None, "due_by": "date", "must_pass": True, "made_by": by, "made_at": at}
    for crew in house.crews:
        for module in course.modules:
            day = START.date() + timedelta(chance.randint(-30, 90))
            new = assignments.new(module.id, "crew", crew.id, due_day=day, pass_mark=module.pass_mark, **plain)
            assignments.add(store, new)
    for hand in house.hands[::3]:
        exams.set_day(store, hand.id, chance.choice("ab"), START.date() + timedelta(chance.randint(5, 120)), by, at)
    for hand in house.hands[::10]:
        excuses.add(store, hand.id, by, at, module="kelly", why="This rig has no kelly.")


def main() -> None:
    path, number, attempts = Path(sys.argv[1]), *(int(each) for each in [*sys.argv[2:], "300", "1000000"][:2])
    store = Store(path)
    store.migrate()
    fill(store, number, attempts)
    store.close()


if __name__ == "__main__":
    main()
