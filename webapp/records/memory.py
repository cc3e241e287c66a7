"""What each person remembers of each item: rows derived from attempts minus decisions, and never believed over them."""

from collections.abc import Callable, Iterable, Iterator
from datetime import date
from itertools import groupby

from sqlite_utils import Database

from webapp.records import house
from webapp.records.connection import Store
from webapp.study.memory import MODEL, Answer, State, back_on, fold, foretold

MODEL_NAME = "memory-model"
FOLDED = "person, item, study_day, outcome, kind, hint, seconds, usual_seconds"


def of_person(store: Store, person_id: str) -> dict[str, State]:
    """What the person remembers, by item id."""
    rows = store.db.execute(
        "select item, days_to_ninety, toughness, last_day from memory where person = ?", [person_id]
    )
    return {item: State(days, toughness, date.fromisoformat(last)) for item, days, toughness, last in rows}


def before_day(store: Store, person_id: str, day: date) -> dict[str, State]:
    """What the person remembered, by item id, before anything was answered on that day."""
    known = of_person(store, person_id)
    rows = store.db.execute(
        f"select {FOLDED} from counted where person = ? and study_day < ? and item in"
        " (select item from memory where person = ? and last_day >= ?) order by item, answered_at, id",
        [person_id, day.isoformat(), person_id, day.isoformat()],
    )
    earlier = {pair[1]: fold(_answer(row) for row in of_pair) for pair, of_pair in groupby(rows, lambda row: row[:2])}
    return {item: state for item, state in known.items() if state.last_day < day} | earlier


def record_of(store: Store, person_id: str, latest: int) -> list[tuple[float, bool]]:
    """(chance foretold, right) of the answers to items seen before, oldest first: what corrects readiness.

    They are those to the items that the person's `latest` counted answers were given to, so that somebody with years
    of answers is as quickly read as anybody.
    """
    rows = store.db.execute(
        f"select {FOLDED} from counted where person = :person and item in (select item from counted"
        " where person = :person order by answered_at desc, id desc limit :latest) order by item, answered_at, id",
        {"person": person_id, "latest": latest},
    )
    told = [
        each
        for _, of_item in groupby(rows, key=lambda row: row[1])
        for each in foretold(_answer(row) for row in of_item)
    ]
    return [(chance, right) for _, chance, right in sorted(told, key=lambda each: each[0])]


def replay(db: Database, person_id: str, item: str) -> None:
    """Compute the row of one pair again from all its counted attempts. Call it in the transaction that touched them.

    The whole pair is folded each time: an answer that arrives late takes its place in the order, wherever that is.
    """
    rows = db.execute(
        f"select {FOLDED} from counted where person = ? and item = ? order by answered_at, id", [person_id, item]
    )
    db.execute("delete from memory where person = ? and item = ?", [person_id, item])
    _insert(db, _folded(rows))


def pairs(store: Store) -> int:
    """How many (person, item) pairs have a counted attempt: the rows that a rebuild makes."""
    return store.db.execute("select count(*) from (select distinct person, item from counted)").fetchone()[0]


def rebuild(store: Store, progress: Callable[[int, int], None] | None = None) -> int:
    """Compute every row again, in one transaction; the number of rows.

    `progress` is told (pairs done, pairs in all).
    """
    with store.writing() as db:
        number = pairs(store)
        db.execute("delete from memory")
        rows = db.execute(f"select {FOLDED} from counted order by person, item, answered_at, id")
        _insert(db, _told(_folded(rows), number, progress))
        house.write(store, MODEL_NAME, MODEL)
    return number


def is_stale(store: Store) -> bool:
    """Whether the rows were computed by another release of the library, or by another rule, than is in use now."""
    return house.read(store, MODEL_NAME) != MODEL


def _folded(rows: Iterable[tuple]) -> Iterator[tuple]:
    """Rows of the memory table from rows of FOLDED that come pair by pair, each pair in the order of its fold."""
    for (person_id, item), of_pair in groupby(rows, key=lambda row: row[:2]):
        state = fold(_answer(row) for row in of_pair)
        yield (
            person_id, item, state.days_to_ninety, state.toughness,
            state.last_day.isoformat(), back_on(state).isoformat(),
        )  # fmt: skip


def _answer(row: tuple) -> tuple[date, Answer]:
    _, _, study_day, outcome, kind, hint, seconds, usual_seconds = row
    return date.fromisoformat(study_day), Answer(outcome, kind, bool(hint), seconds, usual_seconds)


def _insert(db: Database, rows: Iterable[tuple]) -> None:
    db.conn.executemany(
        "insert into memory (person, item, days_to_ninety, toughness, last_day, back_on) values (?, ?, ?, ?, ?, ?)",
        rows,
    )


def _told(rows: Iterable[tuple], number: int, progress: Callable[[int, int], None] | None) -> Iterator[tuple]:
    for done, row in enumerate(rows, start=1):
        if progress:
            progress(done, number)
        yield row
