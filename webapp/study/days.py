"""The study day: the date that an answer is counted on."""

from datetime import date, datetime, time, timedelta, tzinfo

TURNS_AT = timedelta(hours=4)


def study_day(moment: datetime, zone: tzinfo) -> date:
    """The study day of a moment, as seen on a clock in that zone.

    A study day turns at 04:00 local time and not at midnight: a hand who studies past midnight, or comes off a night
    tour, is still in the same day. Raises ValueError if the moment has no zone of its own.
    """
    if moment.tzinfo is None:
        raise ValueError(f"{moment} has no time zone, so its study day can't be known. Pass an aware datetime.")
    return (moment.astimezone(zone) - TURNS_AT).date()


def end_of(day: date, zone: tzinfo) -> datetime:
    """The moment at which a study day ends there: 04:00 of the day after."""
    return datetime.combine(day + timedelta(1), time(), zone) + TURNS_AT
