"""Study days put together by week."""

from dataclasses import dataclass
from datetime import date

from webapp.study.weeks import Week, weeks


@dataclass
class Day:
    day: date
    answers: int
    seconds: float


def test_a_week_goes_from_monday_to_sunday():
    """2 March 2026 is a Monday (by a printed calendar)."""
    days = [
        Day(date(2026, 3, 9), 1, 30), Day(date(2026, 3, 8), 2, 60), Day(date(2026, 3, 2), 3, 90),
        Day(date(2026, 3, 1), 4, 120),
    ]  # fmt: skip
    assert weeks(days, 9) == [
        Week(date(2026, 3, 9), 1, 1, 0.5), Week(date(2026, 3, 2), 2, 5, 2.5), Week(date(2026, 2, 23), 1, 4, 2.0),
    ]  # fmt: skip
    assert len(weeks(days, 2)) == 2
    assert weeks([], 2) == []
