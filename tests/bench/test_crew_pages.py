"""The big house that pages are timed in is a sound one, and its pages go by indexes. The timing is run by hand."""

import pytest

from tests.bench import big_house
from tests.bench.crew_pages import COORDINATOR, GROWING, PASSWORD, signed_in
from tests.bench.query_plans import full_scans, statements_of
from tests.webapp.conftest import CHEAP
from tests.webapp.crews import a_hand
from webapp import create_app

PEOPLE, ATTEMPTS = 24, 1200


@pytest.fixture(scope="module")
def filled(tmp_path_factory):
    path = tmp_path_factory.mktemp("bench") / "records.sqlite"
    app = create_app({"DATABASE": str(path), "CLOCK": lambda: big_house.START, "ARGON2": CHEAP, "TESTING": True})
    store = app.extensions["pinandbox"]["store"]
    house = big_house.fill(store, PEOPLE, ATTEMPTS, _hash(store))
    yield app, store.db.conn, house
    store.close()


def _hash(store) -> str:
    """The hash of the tests' password, as the tests' own people have it."""
    hand = a_hand(store, "Somebody Else")
    return store.db.execute("select password_hash from people where id = ?", [hand.id]).fetchone()[0]


def test_the_rows_are_sound_and_the_triggers_are_back(filled):
    _, conn, house = filled
    assert conn.execute("pragma foreign_key_check").fetchall() == []
    assert conn.execute("select count(*) from attempts").fetchone() == (ATTEMPTS,)
    assert conn.execute("select count(*) from memberships").fetchone() == (PEOPLE,)
    triggers = {name for (name,) in conn.execute("select name from sqlite_master where type = 'trigger'")}
    assert {"attempts_keep_rows", "attempts_keep_text", "decisions_keep_rows"} <= triggers
    assert len(house.crews) == 3


def test_its_pages_show_everybody_and_read_nothing_whole(filled):
    app, conn, house = filled
    browser = signed_in(app, COORDINATOR)
    with statements_of(conn) as seen:
        matrix = browser.get("/crews/all").text
        assert browser.get(f"/people/{house.hands[0].id}").status_code == 200
    assert matrix.count('<th scope="row"') == PEOPLE and PASSWORD not in matrix
    assert len(seen) > 15 and full_scans(conn, seen, GROWING) == []
