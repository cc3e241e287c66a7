"""People, drawn questions and attempts to try the records with."""

from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta

from webapp.records import attempts, people, questions
from webapp.records.attempts import Attempt
from webapp.records.connection import Store

START = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


@dataclass(frozen=True)
class Drawn:
    """As much of a drawn question as the records look at."""

    item: str
    item_hash: str = "00112233aabbccdd"

    def body(self) -> dict:
        return {"kind": "numeric", "item": self.item}


def join(store: Store, name: str) -> people.Person:
    """A person with that name and hashes of nothing."""
    return people.join(store, name, "hash", "code", system="us", comma=False, minutes=20, now=START)


def ask(store: Store, person_id: str | None, item: str = "units.rating-in-kn", place: str = "today", **more) -> str:
    """Keep a drawn question of that item; its id."""
    now = more.pop("now", START)
    return questions.keep(store, Drawn(item), person_id, place, now, text="stem = 'How many kN?'", **more)


def attempt(store: Store, person_id: str, item: str = "units.rating-in-kn", days: float = 0, **changes) -> Attempt:
    """An attempt, answered so many days after START, at the question `id` or at a new one; not recorded yet."""
    at = START + timedelta(days=days)
    plain = Attempt(
        id=changes.pop("id", None) or ask(store, person_id, item),
        person=person_id,
        item=item,
        kind="numeric",
        typed="198.3",
        read_as="198.3 kN",
        outcome="right",
        mistake=None,
        hint=False,
        seconds=41.5,
        answered_at=at,
        received_at=at,
        study_day=at.date(),
        usual_seconds=60,
    )
    return replace(plain, **changes)


def record_all(store: Store, these: list[Attempt]) -> None:
    """Record attempts in the order given; each is new."""
    for each in these:
        assert attempts.record(store, each) is True


def memory_rows(store: Store) -> list[tuple]:
    """Every row of the memory table, floats as the bits they are."""
    rows = store.db.execute("select * from memory order by person, item").fetchall()
    return [tuple(value.hex() if isinstance(value, float) else value for value in row) for row in rows]
