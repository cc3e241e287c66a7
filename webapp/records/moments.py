"""Moments as the database keeps them: UTC text of one width, so that the order of the text is the order in time."""

from datetime import UTC, datetime


def as_text(moment: datetime) -> str:
    """'2026-11-25T06:30:00.000000Z'. Raises ValueError for a datetime without a zone."""
    if moment.tzinfo is None:
        raise ValueError(f"{moment} has no time zone, so it can't be recorded. Pass an aware datetime.")
    return moment.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")


def as_moment(text: str) -> datetime:
    """The aware UTC datetime of a recorded text."""
    return datetime.fromisoformat(text)
