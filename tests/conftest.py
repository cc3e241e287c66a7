"""What every wing's tests may use: a clock that stands until a test turns it, and one Chromium for the whole run.

Where CI is set, a missing browser fails the tests that need it; elsewhere they are skipped.
"""

import os
import shutil
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import settings

ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]

# A busy machine is no fault of a sum: what must be fast is measured against a floor in its own test.
settings.register_profile("house", deadline=None)
settings.load_profile("house")


class Clock:
    """A clock for the app's CLOCK. It stands at one moment; `forward` turns it."""

    def __init__(self, moment: datetime):
        self.moment = moment

    def __call__(self) -> datetime:
        return self.moment

    def forward(self, **by: float) -> None:
        """Turn it on by timedelta's own words: forward(days=1, minutes=5)."""
        self.moment += timedelta(**by)


@pytest.fixture
def clock() -> Clock:
    """Monday 2 March 2026, 09:00 UTC."""
    return Clock(datetime(2026, 3, 2, 9, 0, tzinfo=UTC))


@pytest.fixture(scope="session")
def chromium():
    """One Chromium for the whole run."""
    from playwright.sync_api import sync_playwright

    path = shutil.which("chromium")
    if path is None:
        message = "There is no chromium on the path. Install Debian's chromium for the browser tests."
        if os.environ.get("CI"):
            pytest.fail(message)
        pytest.skip(message)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=ARGUMENTS)
        yield browser
        browser.close()
