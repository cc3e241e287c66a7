"""The study day."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from webapp.study.days import end_of, study_day


@pytest.mark.parametrize(
    ("moment", "zone", "day"),
    [
        ("2026-03-02T03:59:59+00:00", "UTC", "2026-03-01"),
        ("2026-03-02T04:00:00+00:00", "UTC", "2026-03-02"),
        ("2026-03-02T23:59:59+00:00", "UTC", "2026-03-02"),
        ("2026-03-03T03:30:00+00:00", "UTC", "2026-03-02"),
        ("2026-03-02T09:30:00+00:00", "America/Chicago", "2026-03-01"),
        ("2026-03-02T10:00:00+00:00", "America/Chicago", "2026-03-02"),
        ("2026-03-02T20:00:00+00:00", "Asia/Tokyo", "2026-03-03"),
        ("2026-03-02T18:59:59+00:00", "Asia/Tokyo", "2026-03-02"),
        # The clocks go forward at 02:00 in Houston on 8 March 2026: 04:00 is then 09:00 UTC and not 10:00.
        ("2026-03-08T08:59:59+00:00", "America/Chicago", "2026-03-07"),
        ("2026-03-08T09:00:00+00:00", "America/Chicago", "2026-03-08"),
    ],
)
def test_a_study_day_turns_at_four_local_time(moment, zone, day):
    assert study_day(datetime.fromisoformat(moment), ZoneInfo(zone)) == date.fromisoformat(day)


def test_a_moment_without_a_zone_has_no_study_day():
    with pytest.raises(ValueError, match="no time zone"):
        study_day(datetime(2026, 3, 2, 12), UTC)


@pytest.mark.parametrize("name", ["UTC", "America/Chicago", "Europe/Oslo"])
@pytest.mark.parametrize("day", [date(2026, 3, 7), date(2026, 3, 28), date(2026, 10, 24), date(2026, 12, 31)])
def test_a_study_day_ends_where_the_next_begins(name, day):
    """Summer time begins or ends in the night after some of these."""
    end = end_of(day, ZoneInfo(name))
    assert study_day(end, ZoneInfo(name)) == day + timedelta(1)
    assert study_day(end.astimezone(UTC) - timedelta(microseconds=1), ZoneInfo(name)) == day
