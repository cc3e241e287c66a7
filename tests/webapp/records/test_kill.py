"""An answer that was confirmed is there after the process is killed."""

import random
import subprocess
import sys
import time

from tests.webapp.records.samples import attempt, join, memory_rows
from webapp.records import attempts, copies, memory

KILLS = 20
THREADS = 4


def confirmed_before_kill(root, path, people, seconds: float) -> list[str]:
    """Start the recording process, kill it so long after its first confirmation; the ids it confirmed."""
    command = [sys.executable, "-m", "tests.webapp.records.recording", str(path), *people]
    with subprocess.Popen(command, stdout=subprocess.PIPE, cwd=root) as process:
        first = process.stdout.readline()
        time.sleep(seconds)
        process.kill()
        rest = process.stdout.read()
    return [line.decode() for line in (first + rest).split(b"\n") if len(line) == 36]


def test_every_confirmed_attempt_survives_twenty_kills(store, pytestconfig):
    """Four threads record into one file; the process gets SIGKILL at 20 random moments.

    After each kill every attempt it had confirmed is there, once, a second sending of it says no, the file is sound,
    and the memory that was written with the attempts is bit for bit the one that a rebuild gives.
    """
    people = [join(store, f"Hand {number}").id for number in range(THREADS)]
    chance = random.Random(7)
    confirmed = []
    for _ in range(KILLS):
        latest = confirmed_before_kill(pytestconfig.rootpath, store.path, people, chance.uniform(0, 0.3))
        assert latest
        confirmed += latest
        there = [id_ for (id_,) in store.db.execute("select id from attempts")]
        assert len(there) == len(set(there))
        assert set(confirmed) <= set(there)
        again = attempts.get(store, latest[-1])
        assert attempts.record(store, again) is False
        # A kill falls between the write and its confirmation at most once for each thread.
        assert len(there) <= len(confirmed) + KILLS * THREADS
        copies.check(store.path)
        before = memory_rows(store)
        memory.rebuild(store)
        assert memory_rows(store) == before
    assert len(confirmed) == len(set(confirmed)) > KILLS
    assert attempts.record(store, attempt(store, people[0])) is True
