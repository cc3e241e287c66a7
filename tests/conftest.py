"""What every wing's tests may use: a clock that stands until a test turns it."""

from datetime import UTC, datetime, timedelta

import pytest


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
