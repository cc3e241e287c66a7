"""An item: one thing that can be asked. Kinds add what is theirs and draw a question of their own."""

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, ClassVar

from question_bank.cautions import caution
from question_bank.errors import BankError
from question_bank.item_fields import Fields
from question_bank.quantities_in_text import fill
from question_bank.question import Question

COMMON = ("kind", "title", "lesson", "stem", "why", "hint", "caution", "must_pass", "source")


@dataclass(frozen=True)
class ItemText:
    """One item as its file has it: the file's name, the id, the TOML text and the table read from it."""

    file: str
    id: str
    text: str
    table: Mapping[str, Any]


class Item:
    """What every kind has. Its version is the hash of its text."""

    kind: ClassVar[str]
    usual_seconds: ClassVar[int]
    """How long a hand usually takes, for planning minutes (our estimate until attempts tell better)."""
    own_fields: ClassVar[tuple[str, ...]] = ()

    def __init__(self, source: ItemText):
        self.id = source.id
        self.file = source.file
        self.text = source.text
        fields = Fields(source.file, source.id, source.table)
        fields.only(*COMMON, *self.own_fields)
        self.fields = fields
        self.title = fields.needed("title")
        self.lesson = fields.needed("lesson")
        self.stem = self._stem(fields)
        self.why = fields.text("why")
        self.hint = fields.text("hint")
        self.caution = fields.text("caution")
        self.must_pass = fields.flag("must_pass")
        self.source = fields.needed("source")
        if self.caution is not None:
            self._check_caution()
        self.read(fields)

    @cached_property
    def text_hash(self) -> str:
        """The item's version: 16 hex digits of the SHA-256 of its text."""
        return hashlib.sha256(self.text.encode("utf-8")).hexdigest()[:16]

    def read(self, fields: Fields) -> None:
        """Read what is this kind's own. Raises BankError."""
        raise NotImplementedError

    def draw(self, seed: int, system: str = "us", fixed: Mapping[str, Any] | None = None) -> Question:
        """The question of that seed in 'us' or 'metric' units. `fixed` fixes givens of numeric items."""
        raise NotImplementedError

    def in_common(self, seed: int, system: str, stem: str | None = None) -> dict[str, Any]:
        """The fields that every question of this item has; `stem` where the kind has filled it itself."""
        return {
            "item": self.id,
            "item_hash": self.text_hash,
            "seed": seed,
            "system": system,
            "title": self.title,
            "stem": self.filled(stem or self.stem, system),
            "why": self.why and self.filled(self.why, system),
            "hint": self.hint and self.filled(self.hint, system),
            "caution": self.caution,
        }

    def filled(self, text: str, system: str) -> str:
        """Our own text with its quantities shown in that system. Raises BankError for one that can't be."""
        try:
            return fill(text, system)
        except ValueError as error:
            raise self.fault("text", str(error)) from None

    def fault(self, field: str, problem: str) -> BankError:
        """A BankError for a field of this item."""
        return BankError(self.file, self.id, field, problem)

    def _stem(self, fields: Fields) -> str:
        return fields.needed("stem")

    def _check_caution(self) -> None:
        try:
            caution(self.caution)
        except KeyError:
            raise self.fault("caution", f"there is no caution {self.caution!r}.") from None
