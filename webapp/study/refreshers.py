"""When a lesson that was passed by test is to be refreshed: pure calendar."""

from calendar import monthrange
from collections.abc import Callable, Iterable, Mapping
from datetime import date


def months_after(day: date, months: int) -> date:
    """The same day of the month so many months on; the last day of that month where it has no such day."""
    years, month = divmod(day.month - 1 + months, 12)
    year, month = day.year + years, month + 1
    return date(year, month, min(day.day, monthrange(year, month)[1]))


def refresh_on(passed: Mapping[str, date], months: Callable[[str], int]) -> dict[str, date]:
    """From which day each lesson passed is to be refreshed. `passed` is the day on which it was passed last."""
    return {lesson: months_after(day, months(lesson)) for lesson, day in passed.items()}


def called_for(
    lessons: Iterable[str], passed: Mapping[str, date], months: Callable[[str], int], today: date
) -> list[str]:
    """The lessons, of these, that a refresher draws from today; in their order. One never passed is not among them."""
    due = refresh_on(passed, months)
    return [lesson for lesson in lessons if lesson in due and due[lesson] <= today]
