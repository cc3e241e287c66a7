"""When a lesson passed by test is to be refreshed; the dates by the calendar on the wall."""

from datetime import date

import pytest

from webapp.study.refreshers import called_for, months_after


@pytest.mark.parametrize(
    ("day", "months", "then"),
    [
        (date(2026, 3, 2), 6, date(2026, 9, 2)),
        (date(2026, 3, 2), 12, date(2027, 3, 2)),
        (date(2026, 8, 31), 6, date(2027, 2, 28)),
        (date(2027, 8, 31), 6, date(2028, 2, 29)),
        (date(2026, 12, 15), 1, date(2027, 1, 15)),
        (date(2028, 2, 29), 12, date(2029, 2, 28)),
    ],
)
def test_months_after(day, months, then):
    assert months_after(day, months) == then


def test_only_lessons_whose_time_is_up_are_called_for():
    passed = {"kelly/slips": date(2026, 3, 2), "kelly/rotary-table": date(2026, 3, 2)}
    months = {"kelly/slips": 6, "kelly/rotary-table": 12, "kelly/swivel-and-hose": 12}.get
    lessons = ["kelly/swivel-and-hose", "kelly/rotary-table", "kelly/slips"]
    assert called_for(lessons, passed, months, date(2026, 9, 1)) == []
    assert called_for(lessons, passed, months, date(2026, 9, 2)) == ["kelly/slips"]
    assert called_for(lessons, passed, months, date(2027, 3, 2)) == ["kelly/rotary-table", "kelly/slips"]
