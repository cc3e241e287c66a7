"""The server is killed in a burst of answers: what a page confirmed is there, and nothing is there twice."""

import functools
import hashlib
import http.client
import random
import secrets
import threading
import time
from datetime import UTC, datetime

from question_bank import load_bank
from tests.webapp.serving import Browser, Served
from webapp.records import memory, people, questions, sessions
from webapp.records.connection import Store

KILLS = 20
HANDS = 4
ITEM = "units.rating-in-kn"


def test_every_confirmed_answer_survives_20_kills(tmp_path):
    store = Store(tmp_path / "records.sqlite")
    store.migrate()
    hands = [_hand(store, f"Hand {at}") for at in range(HANDS)]
    moments = random.Random(8060)
    confirmed: set[str] = set()
    for _ in range(KILLS):
        open_questions = {cookie: _draw(store, person, 60) for person, cookie in hands}
        server = Served(store.path).start()
        confirmed |= _burst(server, open_questions, moments.uniform(0.05, 0.9))

    kept = [row[0] for row in store.db.execute("select id from attempts")]
    assert len(confirmed) > KILLS, "the burst must have confirmed answers, or this test shows nothing"
    assert confirmed <= set(kept)
    assert len(kept) == len(set(kept))
    assert store.db.execute("pragma integrity_check").fetchone() == ("ok",)
    before = _memory_bits(store)
    memory.rebuild(store)
    assert _memory_bits(store) == before
    print(f"{KILLS} kills, {len(confirmed)} answers confirmed, {len(kept)} kept")


def _hand(store: Store, name: str) -> tuple[str, str]:
    now = datetime.now(UTC)
    person = people.join(store, name, "h", "c", system="us", comma=False, minutes=20, now=now)
    cookie = secrets.token_urlsafe(32)
    sessions.open_session(store, hashlib.sha256(cookie.encode()).hexdigest(), person.id, now)
    return person.id, cookie


def _draw(store: Store, person: str, how_many: int) -> list[tuple[str, str]]:
    """Questions of that person with a right answer to each."""
    item = load_bank_once()[ITEM]
    drawn = [item.draw(seed, "us") for seed in range(how_many)]
    now = datetime.now(UTC)
    return [(questions.keep(store, each, person, "today", now, text=item.text), each.key_text) for each in drawn]


def _burst(server: Served, open_questions: dict[str, list[tuple[str, str]]], seconds: float) -> set[str]:
    """All hands answer at once until the server is killed; the answers that a page confirmed."""
    confirmed: set[str] = set()
    ready = threading.Barrier(len(open_questions) + 1)
    hands = [
        threading.Thread(target=_answer_all, args=(server.port, cookie, mine, ready, confirmed))
        for cookie, mine in open_questions.items()
    ]
    for each in hands:
        each.start()
    ready.wait()
    time.sleep(seconds)
    server.kill()
    for each in hands:
        each.join()
    return confirmed


def _answer_all(port: int, cookie: str, mine: list, ready: threading.Barrier, confirmed: set[str]) -> None:
    """Answer these (question id, key) pairs one after the other, noting each that a page confirmed."""
    browser = Browser(port, cookie)
    token = browser.token(f"/questions/{mine[0][0]}")
    ready.wait()
    for question_id, key in mine:
        try:
            status, _ = browser.post(f"/questions/{question_id}/answer", token=token, free=key)
        except (OSError, http.client.HTTPException):
            return
        if status == 303:
            confirmed.add(question_id)


def _memory_bits(store: Store) -> list[tuple]:
    rows = store.db.execute("select * from memory order by person, item").fetchall()
    return [tuple(value.hex() if isinstance(value, float) else value for value in row) for row in rows]


@functools.cache
def load_bank_once():
    """The bank, read once for the whole test."""
    return load_bank()
