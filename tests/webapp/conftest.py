"""The application on a records file of its own, a browser that checks its pages, and hands who study."""

import pytest

from tests.webapp.page_browser import Browser
from webapp import create_app

CHEAP = {"time_cost": 1, "memory_cost": 64, "parallelism": 1}
PASSWORD = "kelly spins at dawn"


@pytest.fixture
def app(tmp_path, clock):
    """The application with a temporary file, a clock to turn, and passwords that cost nothing."""
    app = create_app({"DATABASE": str(tmp_path / "records.sqlite"), "CLOCK": clock, "ARGON2": CHEAP, "TESTING": True})
    app.test_client_class = Browser
    yield app
    app.extensions["pinandbox"]["store"].close()


@pytest.fixture
def client(app) -> Browser:
    """A visitor's browser. Each page that it fetches is checked."""
    return app.test_client()


@pytest.fixture
def house(app):
    """The records of the application."""
    return app.extensions["pinandbox"]["store"]


@pytest.fixture
def hands(app):
    """hands("Ines Okoro", system="metric") is the browser of a hand of that name, joined and signed in."""

    def hand(name: str = "Ines Okoro", *, system: str = "us", comma: bool = False, minutes: int = 15) -> Browser:
        browser = app.test_client()
        writes = "comma" if comma else "point"
        fields = {"name": name, "password": PASSWORD, "system": system, "writes": writes, "minutes": str(minutes)}
        joined = browser.send("/join", **fields)
        if joined.status_code != 303:
            joined = browser.send("/sign-in", name=name, password=PASSWORD)
        browser.follow(joined)
        return browser

    return hand
