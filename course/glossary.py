"""The words of the trade that lessons explain. Each module has its own in words.toml, beside its lessons."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from course.errors import CourseError
from course.fields import Fields
from question_bank.quantities_in_text import fill

FILES = "modules/*/words.toml"


@dataclass(frozen=True)
class Term:
    """One word, what it means (quantities still in their notation) and the id of the lesson that teaches it."""

    term: str
    meaning: str
    lesson: str
    path: Path = field(repr=False, compare=False)

    @property
    def slug(self) -> str:
        """The word as part of an address: 'short ton' is short-ton."""
        return re.sub(r"[^a-z0-9]+", "-", self.term.lower()).strip("-")

    def meaning_in(self, system: str, comma: bool = False) -> str:
        """The meaning as plain text, its quantities shown for that system ('us' or 'metric')."""
        return fill(self.meaning, system, comma)


class Glossary(Mapping[str, Term]):
    """All terms by word, in alphabetical order."""

    def __init__(self, terms: Iterator[Term]) -> None:
        ordered = sorted(terms, key=lambda each: each.term.casefold())
        self._terms = {each.term: each for each in ordered}

    def __getitem__(self, word: str) -> Term:
        return self._terms[word]

    def __iter__(self) -> Iterator[str]:
        return iter(self._terms)

    def __len__(self) -> int:
        return len(self._terms)


def load_glossary(folder: Path) -> Glossary:
    """The words of all modules of a course. Raises CourseError at the line of a term that lacks something."""
    found: dict[str, Term] = {}
    for path in sorted(folder.glob(FILES)):
        table = Fields(path, path.read_text(encoding="utf-8"))
        for word, row in table.values.items():
            if word in found:
                raise table.fault(word, f"{word!r} stands in {found[word].path.parent.name} too. Keep one of them.")
            found[word] = _term(table, word, row)
    if not found:
        raise CourseError(folder, 1, f"there are no words. Each module has its own in {FILES}.")
    return Glossary(iter(found.values()))


def _term(table: Fields, word: str, row: object) -> Term:
    if not isinstance(row, dict) or set(row) != {"meaning", "lesson"}:
        raise table.fault(word, f"{word!r} needs just these two: meaning and lesson.")
    if not all(isinstance(each, str) and each.strip() for each in row.values()):
        raise table.fault(word, f"the meaning and the lesson of {word!r} must be texts in quotes, and not empty.")
    try:
        fill(row["meaning"], "us")
    except ValueError as error:
        raise table.fault(word, f"the meaning of {word!r} can't be shown. {error}") from None
    return Term(word, row["meaning"], row["lesson"], table.path)
