"""The records file: how each thread holds it, what a transaction promises, and who may open it."""

import sqlite3
import threading
from concurrent.futures import ThreadPoolExecutor

import pytest

from tests.webapp.records.samples import START, attempt, join
from webapp.records import attempts, house
from webapp.records.connection import Store
from webapp.records.errors import RecordsError
from webapp.records.migrations import LEVELS


def test_every_committing_thread_waits_for_the_disk(store, person):
    """The connection on which each worker thread commits is in WAL mode with synchronous FULL and foreign keys on."""
    mine = [attempt(store, person.id, item=f"units.item-{number}") for number in range(6)]
    together = threading.Barrier(6, timeout=20)

    def work(each):
        together.wait()
        assert attempts.record(store, each)
        pragmas = [
            store.db.execute(f"pragma {name}").fetchone()[0]
            for name in ("journal_mode", "synchronous", "foreign_keys", "busy_timeout")
        ]
        held = id(store.db.conn), threading.get_ident()
        together.wait()
        return (*held, *pragmas)

    with ThreadPoolExecutor(6) as pool:
        table = list(pool.map(work, mine))
    assert len({connection for connection, *_ in table}) == 6
    assert len({thread for _, thread, *_ in table}) == 6
    assert {tuple(pragmas) for _, _, *pragmas in table} == {("wal", 2, 1, 10_000)}


def test_a_thread_keeps_its_connection(store):
    """Asking again in the same thread gives the same connection; after close() a new one."""
    first = store.db
    assert store.db is first
    store.close()
    assert store.db is not first


def test_an_error_rolls_back_all_of_a_transaction(store):
    with pytest.raises(ZeroDivisionError), store.writing() as db:
        db.execute("insert into house (name, value) values ('a', 'b')")
        raise ZeroDivisionError
    assert house.read(store, "a") is None
    assert not store.db.conn.in_transaction


def test_an_inner_transaction_joins_the_outer(store):
    """What was written inside goes with the outer transaction when that fails."""
    with pytest.raises(ZeroDivisionError), store.writing():
        house.write(store, "a", "b")
        assert store.db.conn.in_transaction
        raise ZeroDivisionError
    assert house.read(store, "a") is None


def test_read_then_write_never_loses_an_update(store):
    """Eight threads that each read a number and write it back one higher, 25 times, reach 200 without an error."""
    house.write(store, "number", "0")

    def work(_):
        for _ in range(25):
            with store.writing():
                house.write(store, "number", str(int(house.read(store, "number")) + 1))

    with ThreadPoolExecutor(8) as pool:
        list(pool.map(work, range(8)))
    assert house.read(store, "number") == "200"


def test_migrating_twice_changes_nothing(store):
    assert store.migrate() == []
    assert store.db.execute("select count(*) from _sqlite_migrations").fetchone() == (len(LEVELS),)


def test_threads_that_migrate_at_once_do_not_collide(tmp_path):
    """Of six stores that migrate one new file at the same moment, one applies the levels and none fails."""
    together = threading.Barrier(6, timeout=20)

    def work(_):
        store = Store(tmp_path / "new.sqlite")
        together.wait()
        return store.migrate()

    with ThreadPoolExecutor(6) as pool:
        applied = sorted(pool.map(work, range(6)), key=len)
    assert applied == [[]] * 5 + [[level.__name__ for level in LEVELS]]


def test_every_table_is_strict(store):
    tables = store.db.execute(
        "select name, strict from pragma_table_list"
        " where type = 'table' and schema = 'main' and name not like 'sqlite%'"
    ).fetchall()
    assert len(tables) == 37
    assert {name for name, strict in tables if not strict} == set()


def test_another_programs_file_is_left_alone(tmp_path):
    """Not a byte of it changes."""
    path = tmp_path / "other.sqlite"
    with sqlite3.connect(path) as conn:
        conn.execute("create table theirs (a)")
    conn.close()
    before = path.read_bytes()
    store = Store(path)
    with pytest.raises(RecordsError, match="not a records file of Pin & Box"):
        store.migrate()
    store.close()
    assert path.read_bytes() == before


def test_a_file_from_a_newer_version_is_refused(store):
    with store.writing() as db:
        db.execute(
            "insert into _sqlite_migrations (migration_set, name, applied_at) values ('pinandbox', 'm9999_later', '')"
        )
    with pytest.raises(RecordsError, match=r"newer version of Pin & Box.*m9999_later"):
        store.migrate()


@pytest.mark.parametrize(
    ("make", "message"),
    [
        pytest.param(lambda path: path.write_bytes(b"a spreadsheet" * 500), "file is not a database", id="not SQLite"),
        pytest.param(lambda path: path.mkdir(), "unable to open", id="a folder"),
    ],
)
def test_a_file_that_cannot_be_opened_says_which_and_why(tmp_path, make, message):
    path = tmp_path / "wrong.sqlite"
    make(path)
    with pytest.raises(RecordsError, match=message) as caught:
        Store(path).migrate()
    assert str(path) in str(caught.value)


def test_the_servers_key_is_one_for_all(store):
    """Two stores on one file have the same key, two files have not, and it has 256 bits."""
    key = house.server_key(store)
    assert house.server_key(Store(store.path)) == key
    assert len(key) == 32
    other = Store(store.path.with_name("other.sqlite"))
    other.migrate()
    assert house.server_key(other) != key


def test_a_file_is_a_demo_only_when_marked(store):
    assert house.is_demo(store) is False
    house.mark_demo(store)
    assert house.is_demo(store) is True


def test_moments_without_a_zone_are_refused(store):
    """A time that nobody knows the zone of is never recorded."""
    with pytest.raises(ValueError, match="no time zone"):
        join_at = START.replace(tzinfo=None)
        attempts.record(store, attempt(store, join(store, "Priya").id, answered_at=join_at))
