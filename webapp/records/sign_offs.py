"""Hands-on tasks signed by an observer. A signature is appended and never changed; decisions say what still counts.

A signature that was withdrawn stays in the record and counts no more. Of two that differ (same hand, task and day,
other observers, other results) neither counts until a coordinator withdraws one or lets both stand.
"""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime

from sqlite_utils import Database

from webapp.records import log
from webapp.records.connection import Store
from webapp.records.ids import new_id
from webapp.records.moments import as_moment, as_text
from webapp.records.people import Person, known_as

RESULTS = {
    "alone": "done alone",
    "prompted": "done with prompts",
    "not-yet": "not yet",
    "not-possible": "not possible on this rig",
}
"""What an observer may sign, each with the words in which it is shown."""
WITHDRAWN = "sign-off-withdrawn"
STAND = "sign-offs-stand"


class SignOffError(ValueError):
    """A signature that can't be taken or changed. The message says why."""


@dataclass(frozen=True, slots=True)
class Decided:
    """Who decided it, when, and why."""

    who: str
    at: datetime
    why: str


@dataclass(frozen=True, slots=True)
class SignOff:
    """One signature: which hand did which task with which result, on which rig, seen by whom on which day.

    `person`, `crew`, `rig` and `observer` are ids; the names tell two of one name apart. `withdrawn` and `stands` are
    None while nobody has decided so.
    """

    id: str
    person: str
    task: str
    crew: str
    rig: str
    observer: str
    result: str
    observed_on: date
    note: str
    signed_at: datetime
    person_name: str
    rig_name: str
    observer_name: str
    withdrawn: Decided | None
    stands: Decided | None

    @property
    def counts(self) -> bool:
        """Whether nobody has withdrawn it."""
        return self.withdrawn is None


# The first withdrawal holds, and the last word that both stand.
SIGN_OFFS = f"""
    select signed.id, signed.person, task, crew, rig, observer, result, observed_on, note, signed_at,
           hand.name, hand.sign_in, seer.name, seer.sign_in, rigs.name,
           gone.who, gone.at, gone.why, kept.who, kept.at, kept.why
    from sign_offs signed
    join people hand on hand.id = signed.person
    join people seer on seer.id = signed.observer
    join rigs on rigs.id = signed.rig
    left join decisions gone on gone.id = (
        select min(id) from decisions where kind = '{WITHDRAWN}' and subject = signed.id)
    left join decisions kept on kept.id = (
        select max(id) from decisions where kind = '{STAND}' and subject = signed.id)
"""
BY_DAY = "order by signed.observed_on desc, signed.id desc"


def sign(
    store: Store,
    sign_off_id: str,
    *,
    hand: Person,
    task: str,
    title: str,
    crew: str,
    rig: str,
    observer: Person,
    result: str,
    observed_on: date,
    note: str,
    now: datetime,
) -> bool:
    """Append a signature under the id that its form was given, and log it; False if that form was sent before.

    `title` is the task's, for the log. Raises SignOffError if the id is another signature's, and
    sqlite3.IntegrityError if somebody signs for themselves.
    """
    with store.writing() as db:
        before = get(store, sign_off_id)
        if before:
            if (before.person, before.task, before.observer) != (hand.id, task, observer.id):
                raise SignOffError("This form was used for another signature. Open the task again and sign it there.")
            return False
        db.execute(
            "insert into sign_offs (id, person, task, crew, rig, observer, result, observed_on, note, signed_at)"
            " values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            [
                sign_off_id, hand.id, task, crew, rig, observer.id, result, observed_on.isoformat(), note,
                as_text(now),
            ],
        )  # fmt: skip
        told = f"{task} {title}, seen on {_in_words(observed_on)}: {RESULTS[result]}." + (f" {note}" if note else "")
        log.note(store, observer.id, "signed", told, now, crew=crew, about=hand.id)
    return True


def withdraw(store: Store, signed: SignOff, by: Person, why: str, now: datetime) -> bool:
    """Take a signature back with a reason, and log it; False if it was taken back before. Raises SignOffError."""
    if not why.strip():
        raise SignOffError("Say why it is withdrawn.")
    with store.writing() as db:
        if get(store, signed.id).withdrawn:
            return False
        _decide(db, WITHDRAWN, signed.id, by, why, now)
        told = f"{signed.task} of {_in_words(signed.observed_on)}, signed by {signed.observer_name}. {why.strip()}"
        log.note(store, by.id, "withdrawn", told, now, crew=signed.crew, about=signed.person)
    return True


def keep_one(store: Store, these: Collection[SignOff], kept: str, by: Person, why: str, now: datetime) -> None:
    """Of signatures that differ keep the one of that id: the others are withdrawn with the reason, and it is logged.

    Raises SignOffError.
    """
    with store.writing():
        for each in these:
            if each.id != kept:
                withdraw(store, each, by, why, now)


def let_stand(store: Store, these: Collection[SignOff], by: Person, why: str, now: datetime) -> None:
    """Let signatures that differ all count, with a reason, and log it. Raises SignOffError."""
    if not why.strip():
        raise SignOffError("Say why both stand.")
    with store.writing() as db:
        for each in these:
            _decide(db, STAND, each.id, by, why, now)
        first = next(iter(these))
        names = " and ".join(each.observer_name for each in these)
        told = f"{first.task} of {_in_words(first.observed_on)}: the signatures of {names} both stand. {why.strip()}"
        log.note(store, by.id, "both stand", told, now, crew=first.crew, about=first.person)


def get(store: Store, sign_off_id: str) -> SignOff | None:
    """The signature with that id, or None."""
    row = store.db.execute(f"{SIGN_OFFS} where signed.id = ?", [sign_off_id]).fetchone()
    return row and _sign_off(row)


def of_people(
    store: Store, people: Collection[str], task: str | None = None, since: date | None = None
) -> list[SignOff]:
    """The signatures of these people, the latest day first: of one task only, or seen on that day or later."""
    marks = ", ".join("?" for _ in people)
    rows = store.db.execute(
        f"{SIGN_OFFS} where signed.person in ({marks}) and (? is null or task = ?)"
        f" and (? is null or observed_on >= ?) {BY_DAY}",
        [*people, task, task, since and since.isoformat(), since and since.isoformat()],
    )
    return [_sign_off(row) for row in rows]


def on_rig(store: Store, rig: str, task: str, since: date) -> list[SignOff]:
    """The signatures of one task on one rig, seen on that day or later, the latest day first."""
    rows = store.db.execute(
        f"{SIGN_OFFS} where signed.rig = ? and task = ? and observed_on >= ? {BY_DAY}", [rig, task, since.isoformat()]
    )
    return [_sign_off(row) for row in rows]


def by_observer(store: Store, observer: str, limit: int) -> list[SignOff]:
    """What somebody signed, newest first."""
    rows = store.db.execute(
        f"{SIGN_OFFS} where signed.observer = ? order by signed.signed_at desc, signed.id desc limit ?",
        [observer, limit],
    )
    return [_sign_off(row) for row in rows]


def _decide(db: Database, kind: str, subject: str, by: Person, why: str, now: datetime) -> None:
    db.execute(
        "insert into decisions (id, kind, subject, who, why, at) values (?, ?, ?, ?, ?, ?)",
        [new_id(now), kind, subject, by.known_as, why.strip(), as_text(now)],
    )


def _in_words(day: date) -> str:
    """'2 March 2026', as all lines of the log have it."""
    return f"{day.day} {day:%B %Y}"


def _sign_off(row: tuple) -> SignOff:
    *ids, result, observed_on, note, signed_at = row[:10]
    when = date.fromisoformat(observed_on)
    hand, observer, rig = known_as(*row[10:12]), known_as(*row[12:14]), row[14]
    decided = _decided(*row[15:18]), _decided(*row[18:])
    return SignOff(*ids, result, when, note, as_moment(signed_at), hand, rig, observer, *decided)


def _decided(who: str | None, at: str | None, why: str | None) -> Decided | None:
    return Decided(who, as_moment(at), why) if who else None
