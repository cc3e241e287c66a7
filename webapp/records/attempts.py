"""Attempts: counted answers, appended and never changed. An attempt's id is the id of its question."""

from dataclasses import astuple, dataclass, fields
from datetime import UTC, date, datetime

from webapp.records import memory
from webapp.records.connection import Store
from webapp.records.moments import as_moment, as_text


@dataclass(frozen=True, slots=True)
class Attempt:
    """One counted answer.

    `outcome` is right, close or wrong; `typed` is the answer as it was given and `read_as` what was understood.
    `seconds` is None where nobody measured; `usual_seconds` is what the item usually takes, as it stood on the day, so
    that a later change of the item does not change what this answer meant. `answered_at` is claimed by the browser,
    `received_at` is the server's own.
    """

    id: str
    person: str
    item: str
    kind: str
    typed: str
    read_as: str
    outcome: str
    mistake: str | None
    hint: bool
    seconds: float | None
    answered_at: datetime
    received_at: datetime
    study_day: date
    usual_seconds: float | None = None


@dataclass(frozen=True, slots=True)
class MistakeCount:
    """How often a person made one known mistake of one item."""

    item: str
    mistake: str
    count: int


COLUMNS = ", ".join(field.name for field in fields(Attempt))
PLACES = ", ".join("?" for _ in fields(Attempt))


def record(store: Store, attempt: Attempt) -> bool:
    """Append an attempt and bring the memory of its pair up to date, in one transaction.

    True the first time. A second sending of the same question's answer gives False and changes nothing, whatever it
    says. Raises sqlite3.IntegrityError if the question was drawn for somebody else or the values are out of range.
    """
    with store.writing() as db:
        added = db.execute(
            f"insert into attempts ({COLUMNS}) values ({PLACES}) on conflict (id) do nothing", _row(attempt)
        ).rowcount
        if added:
            memory.replay(db, attempt.person, attempt.item)
    return bool(added)


def get(store: Store, attempt_id: str) -> Attempt | None:
    """The attempt at that question as it was recorded, or None."""
    row = store.db.execute(f"select {COLUMNS} from attempts where id = ?", [attempt_id]).fetchone()
    return row and _attempt(row)


EVER = datetime(1900, 1, 1, tzinfo=UTC)
"""Before anything was answered."""


@dataclass(frozen=True, slots=True)
class Day:
    """What somebody answered on one study day. An answer that nobody could time counts what it usually takes."""

    day: date
    answers: int
    seconds: float


@dataclass(frozen=True, slots=True)
class Studied:
    """How many answers count, and the first and the last study day of them; None where there is none."""

    answers: int
    first: date | None
    last: date | None


def of_person(
    store: Store, person_id: str, limit: int, before: str | None = None, since: datetime = EVER
) -> list[Attempt]:
    """A person's attempts as they were recorded, newest first; `before` is the id of the last one already shown."""
    if before is None:
        where, values = "person = ? and answered_at >= ?", [person_id, as_text(since)]
    else:
        where = "person = ? and (answered_at, id) < (select answered_at, id from attempts where id = ?)"
        values = [person_id, before]
    rows = store.db.execute(
        f"select {COLUMNS} from attempts where {where} order by answered_at desc, id desc limit ?", [*values, limit]
    )
    return [_attempt(row) for row in rows]


def latest_of_drill(store: Store, drill: str) -> datetime | None:
    """When a question of that drill was answered last, or None."""
    row = store.db.execute(
        "select max(answered_at) from attempts join questions on questions.id = attempts.id where drill = ?", [drill]
    ).fetchone()
    return as_moment(row[0]) if row[0] else None


def counted(store: Store, person_id: str) -> list[Attempt]:
    """A person's attempts minus decisions, oldest first: what marks are folded from."""
    rows = store.db.execute(f"select {COLUMNS} from counted where person = ? order by answered_at, id", [person_id])
    return [_attempt(row) for row in rows]


def first_answers(store: Store, person_id: str, before_day: date) -> list[tuple[str, bool]]:
    """Of each item whose first counted answer was before that day: its kind, and whether that answer was right."""
    rows = store.db.execute(
        "select kind, outcome = 'right' from (select kind, outcome, study_day,"
        " row_number() over (partition by item order by answered_at, id) as place from counted where person = ?)"
        " where place = 1 and study_day < ?",
        [person_id, before_day.isoformat()],
    )
    return [(kind, bool(right)) for kind, right in rows]


def studied(store: Store, person_id: str) -> Studied:
    """How much a person has answered that counts, and when first and last."""
    row = store.db.execute(
        "select count(*), min(study_day), max(study_day) from counted where person = ?", [person_id]
    ).fetchone()
    return Studied(row[0], *(day and date.fromisoformat(day) for day in row[1:]))


def any_before(store: Store, person_id: str, moment: datetime) -> bool:
    """Whether a person answered anything before that moment."""
    return bool(
        store.db.execute(
            "select exists (select 1 from attempts where person = ? and answered_at < ?)", [person_id, as_text(moment)]
        ).fetchone()[0]
    )


def mistakes_of(store: Store, person_id: str, since: datetime = EVER) -> list[MistakeCount]:
    """The known mistakes a person made in counted attempts, the commonest first."""
    rows = store.db.execute(
        "select item, mistake, count(*) as times from counted where person = ? and answered_at >= ?"
        " and mistake is not null group by item, mistake order by times desc, item, mistake",
        [person_id, as_text(since)],
    )
    return [MistakeCount(*row) for row in rows]


def by_day(store: Store, person_id: str, since: datetime = EVER) -> list[Day]:
    """The study days on which a person answered, the latest first."""
    rows = store.db.execute(
        "select study_day, count(*), sum(coalesce(seconds, usual_seconds, 0)) from attempts"
        " where person = ? and answered_at >= ? group by study_day order by study_day desc",
        [person_id, as_text(since)],
    )
    return [Day(date.fromisoformat(day), *rest) for day, *rest in rows]


def _row(attempt: Attempt) -> list:
    plain = {bool: int, datetime: as_text, date: date.isoformat}
    return [plain.get(type(value), _same)(value) for value in astuple(attempt)]


def _same(value: object) -> object:
    return value


def _attempt(row: tuple) -> Attempt:
    *plain, hint, seconds, answered_at, received_at, study_day, usual_seconds = row
    times = as_moment(answered_at), as_moment(received_at), date.fromisoformat(study_day)
    return Attempt(*plain, bool(hint), seconds, *times, usual_seconds)
