"""The server is killed while a test is sat: each draft that a page confirmed is kept, and it is handed in or not."""

import hashlib
import http.client
import random
import secrets
import threading
import time
from datetime import UTC, datetime

from tests.webapp.serving import Browser, Served, wait_until
from tests.webapp.sittings import a_sitting
from webapp.records import attempts, people, questions, sessions, sittings
from webapp.records.connection import Store

KILLS = 8
ITEM = "units.rating-in-kn"


def test_drafts_survive_a_kill_and_handing_in_is_all_or_nothing(tmp_path):
    store = Store(tmp_path / "records.sqlite")
    store.migrate()
    moments = random.Random(711)
    confirmed_in_all, handed, begun = 0, 0, {}
    for kill in range(KILLS):
        person, cookie = _hand(store, f"Hand {kill}")
        sitting, drawn = a_sitting(store, person, [ITEM] * 15, now=datetime.now(UTC))
        begun[sitting] = person, cookie, drawn
        after = 15 if kill % 2 else moments.randrange(1, 15)  # every other kill falls on the handing in
        confirmed = _sit_until_killed(Served(store.path).start(), cookie, sitting, after, moments.uniform(0, 0.02))
        kept = sittings.drafts_of(store, sitting)
        assert {drawn[number - 1] for number in confirmed} <= set(kept)
        made = [id for id in drawn if attempts.get(store, id)]
        assert made == ([id for id in drawn if id in kept] if not sittings.get(store, sitting).is_open else [])
        confirmed_in_all += len(confirmed)
        handed += not sittings.get(store, sitting).is_open
    # How many kills fall before the last draft is the machine's business: a busy one wakes the killer late.
    assert confirmed_in_all > KILLS, "some drafts must be confirmed"
    server = Served(store.path).start()
    for sitting, (_, cookie, _) in begun.items():
        browser = Browser(server.port, cookie)
        assert browser.post(f"/sittings/{sitting}/hand-in", token=browser.token("/tests"))[0] == 303
    server.stop()
    for sitting, (_, _, drawn) in begun.items():
        found, kept = sittings.get(store, sitting), sittings.drafts_of(store, sitting)
        assert found.result["right"] == len(kept) == sum(attempts.get(store, id) is not None for id in drawn)
    print(f"{KILLS} kills, {confirmed_in_all} drafts confirmed, {handed} tests handed in before the kill")


def _hand(store: Store, name: str) -> tuple[str, str]:
    now = datetime.now(UTC)
    person = people.join(store, name, "h", "c", system="us", comma=False, minutes=20, now=now)
    cookie = secrets.token_urlsafe(32)
    sessions.open_session(store, hashlib.sha256(cookie.encode()).hexdigest(), person.id, now)
    return person.id, cookie


def _sit_until_killed(server: Served, cookie: str, sitting: str, after: int, seconds: float) -> list[int]:
    """Answer all fifteen and hand in; the places whose draft a page confirmed before the kill.

    The kill falls so many seconds after that many drafts.
    """
    browser, confirmed, ready = Browser(server.port, cookie), [], threading.Barrier(2)
    token = browser.token("/tests")
    key = questions.of_drill(Store(server.data), sitting)[0].question.key_text

    def sit():
        ready.wait()
        try:
            for number in range(1, 16):
                if browser.post(f"/sittings/{sitting}/{number}/answer", token=token, free=key)[0] == 303:
                    confirmed.append(number)
            browser.post(f"/sittings/{sitting}/hand-in", token=token)
        except (OSError, http.client.HTTPException):
            return

    hand = threading.Thread(target=sit)
    hand.start()
    ready.wait()
    wait_until(lambda: len(confirmed) >= after)
    time.sleep(seconds)
    server.kill()
    hand.join()
    return confirmed
