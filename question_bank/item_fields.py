"""Fields of one item's table, each checked as it is taken, so that a fault names file, item and field."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from question_bank.errors import BankError

SYSTEMS = ("us", "metric")


class Fields:
    """A table of an item file. `path` is where in the item it stands: '' or 'steps 2'."""

    def __init__(self, file: str, item: str, table: Any, path: str = ""):
        self.file, self.item, self.path = file, item, path
        if not isinstance(table, Mapping):
            raise self.fault("", "this must be a table of fields.")
        self.table = table

    def fault(self, field: str, problem: str) -> BankError:
        """A BankError for that field of this table."""
        return BankError(self.file, self.item, " ".join(filter(None, (self.path, field))), problem)

    def only(self, *known: str) -> None:
        """Raises BankError for a field that is not known: a misspelt one would go unread."""
        for name in self.table:
            if name not in known:
                raise self.fault(name, f"this is not a field here. Fields are {', '.join(known)}.")

    def text(self, field: str, default: str | None = None) -> str | None:
        """A text that is not empty, or the default where the field is missing and a default is given."""
        value = self.table.get(field, default)
        if value is None or (isinstance(value, str) and value.strip()):
            return value
        raise self.fault(field, "this must be a text in quotes, and not empty.")

    def needed(self, field: str) -> str:
        """A text that must be there."""
        if field not in self.table:
            raise self.fault(field, "this field is missing. Add it.")
        return self.text(field)

    def flag(self, field: str) -> bool:
        """true or false; false where missing."""
        value = self.table.get(field, False)
        if not isinstance(value, bool):
            raise self.fault(field, "this must be true or false.")
        return value

    def by_system(self, field: str) -> dict[str, str]:
        """A text for both systems, or a table {us = …, metric = …} of texts, of which one may be missing."""
        value = self.table.get(field)
        if isinstance(value, str):
            return dict.fromkeys(SYSTEMS, value)
        if not isinstance(value, Mapping) or not value or set(value) - set(SYSTEMS):
            raise self.fault(field, 'this must be a text, or { us = "…", metric = "…" }.')
        return {system: str(each) for system, each in value.items()}

    def inner(self, field: str) -> "Fields":
        """A table inside this one."""
        if field not in self.table:
            raise self.fault(field, "this table is missing. Add it.")
        return Fields(self.file, self.item, self.table[field], " ".join(filter(None, (self.path, field))))

    def tables(self, field: str) -> list["Fields"]:
        """A list of tables, perhaps empty, each knowing its place from 1."""
        rows = self.table.get(field, [])
        if not isinstance(rows, list):
            raise self.fault(field, "this must be a list of tables.")
        path = " ".join(filter(None, (self.path, field)))
        return [Fields(self.file, self.item, row, f"{path} {at}") for at, row in enumerate(rows, start=1)]

    def texts(self, field: str) -> list[str]:
        """A list of texts, none empty."""
        rows = self.table.get(field)
        if not isinstance(rows, list) or not rows or any(not isinstance(row, str) or not row.strip() for row in rows):
            raise self.fault(field, "this must be a list of texts.")
        return rows

    def decimal(self, field: str) -> Decimal:
        """A number, exactly as it is written."""
        value = self.table.get(field)
        if not _is_number(value):
            raise self.fault(field, "this must be a number.")
        return Decimal(value)

    def numbers(self, field: str) -> tuple[str, ...]:
        """A list of numbers as they are written, at least one."""
        rows = self.table.get(field)
        if not isinstance(rows, list) or not rows or not all(map(_is_number, rows)):
            raise self.fault(field, "this must be a list of numbers.")
        return tuple(map(str, rows))


def _is_number(value: Any) -> bool:
    """Whether a value of a file is a number that can be worked with: not true, nan or inf."""
    return type(value) in (int, Decimal) and Decimal(value).is_finite()
