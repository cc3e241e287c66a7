"""The server is killed while a paper is sat: it goes on with every answer and mark that was confirmed."""

import hashlib
import http.client
import re
import secrets
import threading
import time
from datetime import UTC, datetime

from tests.webapp.serving import Browser, Served, wait_until
from tests.webapp.sittings import right_fields
from webapp.records import attempts, come_back_to, people, questions, sessions, sittings
from webapp.records.connection import Store

KILLS = 4
EACH = 15
"""Answers sent before each kill: sixty questions, four kills."""


def test_a_paper_outlives_the_server(tmp_path):
    store = Store(tmp_path / "records.sqlite")
    store.migrate()
    person, cookie = _hand(store)
    server = Served(store.path).start()
    browser = Browser(server.port, cookie)
    assert browser.post("/papers/a/begin", token=browser.token("/papers/a"))[0] == 303
    (sitting,) = sittings.open_of(store, person)
    kept_open = sitting.deadline
    drawn = questions.of_drill(store, sitting.id)
    confirmed: set[str] = set()
    for kill in range(KILLS):
        confirmed |= _answer_until_killed(
            server, cookie, sitting.id, drawn[kill * EACH : (kill + 1) * EACH], kill * EACH
        )
        assert confirmed <= set(sittings.drafts_of(store, sitting.id))
        server = Served(store.path).start()
        status, page = Browser(server.port, cookie).get("/papers")
        assert status == 200 and re.search(r"You have paper A open, \d\d minutes left", page)
    assert KILLS < len(confirmed) < KILLS * EACH, "some are confirmed before each kill, and some are not"
    assert sittings.get(store, sitting.id).deadline == kept_open, "the clock runs on and is not set anew"
    assert drawn[1].id in come_back_to.of_sitting(store, sitting.id)
    browser = Browser(server.port, cookie)
    assert browser.post(f"/sittings/{sitting.id}/hand-in", token=browser.token("/settings"))[0] == 303
    status, page = browser.get(f"/sittings/{sitting.id}")
    server.stop()
    found, kept = sittings.get(store, sitting.id), sittings.drafts_of(store, sitting.id)
    assert found.result["right"] == len(kept) >= len(confirmed)
    assert {id for id in kept if attempts.get(store, id)} == set(kept)
    assert status == 200 and f"{len(kept)} of 60 right" in page
    print(f"{KILLS} kills, {len(confirmed)} answers confirmed, {len(kept)} kept")


def _hand(store: Store) -> tuple[str, str]:
    now = datetime.now(UTC)
    person = people.join(store, "Ines Okoro", "h", "c", system="us", comma=False, minutes=20, now=now)
    cookie = secrets.token_urlsafe(32)
    sessions.open_session(store, hashlib.sha256(cookie.encode()).hexdigest(), person.id, now)
    return person.id, cookie


def _answer_until_killed(server: Served, cookie: str, sitting: str, drawn: list, before: int) -> set[str]:
    """Send these answers, half of them as the page does by itself; those that a page confirmed before the kill."""
    browser, confirmed, ready = Browser(server.port, cookie), set(), threading.Barrier(2)
    token = browser.token("/settings")

    def sit():
        ready.wait()
        try:
            for number, kept in enumerate(drawn, start=before + 1):
                fields = {name.replace("__", "-"): value for name, value in right_fields(kept.question).items()}
                mark = {"come-back": "yes"} if number == 2 else {}
                way, status = ("draft", 204) if number % 2 else ("answer", 303)
                if browser.post(f"/sittings/{sitting}/{number}/{way}", token=token, **fields, **mark)[0] == status:
                    confirmed.add(kept.id)
        except (OSError, http.client.HTTPException):
            return

    hand = threading.Thread(target=sit)
    hand.start()
    ready.wait()
    wait_until(lambda: len(confirmed) >= EACH // 2)
    time.sleep(0.004)
    server.kill()
    hand.join()
    return set(confirmed)
