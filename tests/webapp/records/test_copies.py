"""Backup and restore of whole files."""

import random
import sqlite3
import subprocess
import sys
import threading

import pytest

from tests.webapp.records.samples import attempt, join, record_all
from webapp.records import attempts, copies, people
from webapp.records.connection import Store
from webapp.records.errors import RecordsError


@pytest.fixture
def kept(store, person):
    """A closed records file with one person and two attempts."""
    record_all(store, [attempt(store, person.id, days=days) for days in (0, 3)])
    store.close()
    return store.path


def attempts_in(path) -> list[str]:
    with sqlite3.connect(path) as conn:
        found = [id_ for (id_,) in conn.execute("select id from attempts order by id")]
    conn.close()
    return found


def files_in(folder) -> set[str]:
    return {each.name for each in folder.iterdir()}


def test_a_backup_restores_on_another_machine(kept, tmp_path):
    """Round trip: the restored file holds the same attempts and takes new ones."""
    before = attempts_in(kept)
    assert copies.backup(kept, tmp_path / "backup.sqlite") == copies.Contents(people=1, attempts=2)
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    contents, aside = copies.restore(tmp_path / "backup.sqlite", elsewhere / "records.sqlite")
    assert (contents.attempts, aside) == (2, None)
    assert attempts_in(elsewhere / "records.sqlite") == before
    assert files_in(elsewhere) == {"records.sqlite"}
    store = Store(elsewhere / "records.sqlite")
    assert store.migrate() == []
    record_all(store, [attempt(store, people.by_name(store, "Marek Osei-Lund").id, days=5)])
    store.close()


def test_the_file_before_is_put_aside_and_never_lost(kept, tmp_path):
    """Each restore keeps what was there under the next number, with every answer in it."""
    copies.backup(kept, tmp_path / "backup.sqlite")
    for number in (1, 2):
        store = Store(kept)
        record_all(store, [attempt(store, people.by_name(store, "Marek Osei-Lund").id, days=9)])
        store.close()
        before = attempts_in(kept)
        _, aside = copies.restore(tmp_path / "backup.sqlite", kept)
        assert aside.name == f"records.sqlite.before-restore-{number}"
        assert attempts_in(aside) == before
        assert len(before) == 3
        assert len(attempts_in(kept)) == 2


def test_answers_still_in_the_log_go_aside_with_the_file(kept, tmp_path, pytestconfig):
    """A server that was killed leaves answers in the write-ahead log; putting aside brings them along."""
    copies.backup(kept, tmp_path / "backup.sqlite")
    code = (
        "import os, sys\n"
        "from tests.webapp.records.samples import attempt, record_all\n"
        "from webapp.records import people\n"
        "from webapp.records.connection import Store\n"
        "store = Store(sys.argv[1])\n"
        "record_all(store, [attempt(store, people.by_name(store, 'Marek Osei-Lund').id, days=9)])\n"
        "os._exit(9)\n"
    )
    command = [sys.executable, "-c", code, str(kept)]
    assert subprocess.run(command, check=False, cwd=pytestconfig.rootpath).returncode == 9
    assert kept.with_name("records.sqlite-wal").stat().st_size > 0
    _, aside = copies.restore(tmp_path / "backup.sqlite", kept)
    assert len(attempts_in(aside)) == 3
    assert len(attempts_in(kept)) == 2


def test_a_backup_of_a_file_in_use_holds_what_was_confirmed_before(store, person, tmp_path):
    """Taken while a thread records: sound, and with every attempt confirmed before it began."""
    stop, confirmed = threading.Event(), []

    def work():
        while not stop.is_set():
            made = attempt(store, person.id)
            attempts.record(store, made)
            confirmed.append(made.id)
        store.close()

    writer = threading.Thread(target=work)
    writer.start()
    try:
        for number in range(5):
            while len(confirmed) < 5 * (number + 1):
                pass
            before = list(confirmed)
            target = tmp_path / f"backup-{number}.sqlite"
            copies.backup(store.path, target)
            assert set(before) <= set(attempts_in(target))
    finally:
        stop.set()
        writer.join()


def test_a_file_in_use_is_not_replaced(store, person, tmp_path, pytestconfig):
    """While another process has it open, even idle, restore refuses and leaves all as it was."""
    copies.backup(store.path, tmp_path / "backup.sqlite")
    store.close()
    code = (
        "import sys\nfrom webapp.records.connection import Store\n"
        "store = Store(sys.argv[1])\nstore.migrate()\nprint('open', flush=True)\nsys.stdin.read()\n"
    )
    command = [sys.executable, "-c", code, str(store.path)]
    pipe = subprocess.PIPE
    with subprocess.Popen(command, stdin=pipe, stdout=pipe, cwd=pytestconfig.rootpath) as process:
        assert process.stdout.readline() == b"open\n"
        with pytest.raises(RecordsError, match=r"is in use .*Stop the server"):
            copies.restore(tmp_path / "backup.sqlite", store.path)
        assert not any("before-restore" in name or "part" in name for name in files_in(tmp_path))
        process.stdin.close()
    assert copies.restore(tmp_path / "backup.sqlite", store.path)[1] is not None


def test_a_damaged_file_can_be_restored_over_and_is_kept(kept, tmp_path):
    """Junk in the place of the records goes aside as it is, its log too, and the restored file stands alone."""
    copies.backup(kept, tmp_path / "backup.sqlite")
    kept.write_bytes(b"junk" * 2000)
    kept.with_name("records.sqlite-wal").write_bytes(b"log")
    _, aside = copies.restore(tmp_path / "backup.sqlite", kept)
    assert aside.read_bytes() == b"junk" * 2000
    assert aside.with_name(aside.name + "-wal").read_bytes() == b"log"
    assert files_in(tmp_path) == {"backup.sqlite", "records.sqlite", aside.name, aside.name + "-wal"}
    assert len(attempts_in(kept)) == 2


def test_a_backup_is_never_written_over(kept, tmp_path):
    target = tmp_path / "backup.sqlite"
    target.write_text("mine")
    with pytest.raises(RecordsError, match="never written over"):
        copies.backup(kept, target)
    assert target.read_text() == "mine"


def spoil(path):
    """Overwrite pages in the middle of the file."""
    raw = bytearray(path.read_bytes())
    chance = random.Random(3)
    for _ in range(3000):
        raw[chance.randrange(8192, len(raw))] ^= 0xFF
    path.write_bytes(raw)


def cut(path):
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2 // 4096 * 4096])


def from_tomorrow(path):
    with sqlite3.connect(path) as conn:
        conn.execute(
            "insert into _sqlite_migrations (migration_set, name, applied_at) values ('pinandbox', 'm0999_new', '')"
        )
    conn.close()


def orphan(path):
    with sqlite3.connect(path) as conn:
        conn.execute("delete from people")
    conn.close()


def out_of_range(path):
    with sqlite3.connect(path) as conn:
        conn.execute("pragma ignore_check_constraints = on")
        conn.execute("update people set system = 'furlongs'")
    conn.close()


def stranger(path):
    path.unlink()
    with sqlite3.connect(path) as conn:
        conn.execute("create table people (a)")
    conn.close()


@pytest.mark.parametrize(
    ("harm", "message"),
    [
        pytest.param(lambda path: path.unlink(), "There is no file", id="missing"),
        pytest.param(lambda path: path.write_text("name,score\n" * 500), "not a sound SQLite file", id="a spreadsheet"),
        pytest.param(lambda path: path.write_bytes(b""), "not a records file of Pin & Box", id="empty"),
        pytest.param(stranger, "not a records file of Pin & Box", id="another program's"),
        pytest.param(from_tomorrow, "newer version of Pin & Box", id="newer"),
        pytest.param(spoil, "damaged|not a sound", id="spoilt"),
        pytest.param(cut, "damaged|not a sound", id="cut short"),
        pytest.param(out_of_range, "is damaged: CHECK constraint failed", id="values out of range"),
        pytest.param(orphan, "refers to nothing", id="rows that refer to nothing"),
    ],
)
def test_a_bad_backup_is_refused_and_nothing_is_touched(kept, tmp_path, harm, message):
    """The message names the backup; the records file, and the folder, are as before."""
    backup = tmp_path / "backup.sqlite"
    copies.backup(kept, backup)
    harm(backup)
    before, files = attempts_in(kept), files_in(tmp_path)
    with pytest.raises(RecordsError, match=message) as caught:
        copies.restore(backup, kept)
    assert "backup.sqlite" in str(caught.value)
    assert ".part" not in str(caught.value)
    assert attempts_in(kept) == before
    assert files_in(tmp_path) == files


def test_the_records_file_is_no_backup_of_itself(kept):
    with pytest.raises(RecordsError, match="is the records file itself"):
        copies.restore(kept, kept)
    assert len(attempts_in(kept)) == 2


def test_a_backup_that_cannot_be_written_says_where(kept, tmp_path):
    with pytest.raises(RecordsError, match=r"can't be written to .*nowhere"):
        copies.backup(kept, tmp_path / "nowhere" / "backup.sqlite")


def test_a_backup_has_no_file_beside_it(kept, tmp_path):
    """One file to carry away: nothing of it is in a log."""
    folder = tmp_path / "stick"
    folder.mkdir()
    copies.backup(kept, folder / "backup.sqlite")
    assert files_in(folder) == {"backup.sqlite"}
    # The file's own head says that it needs no log: it can be read from a stick that can't be written to.
    assert (folder / "backup.sqlite").read_bytes()[18:20] == b"\x01\x01"


def test_nobody_is_needed_in_a_backup(store, tmp_path):
    store.close()
    assert copies.backup(store.path, tmp_path / "backup.sqlite") == copies.Contents(people=0, attempts=0)
    assert join(Store(tmp_path / "backup.sqlite"), "First").name == "First"
