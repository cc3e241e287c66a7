"""The cautions that stand beside what can hurt someone: id, title and text, read from cautions.toml."""

import functools
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

TABLE = Path(__file__).with_name("cautions.toml")


@dataclass(frozen=True)
class Caution:
    """One caution. `text` is two or three short sentences."""

    id: str
    title: str
    text: str


@functools.cache
def cautions() -> Mapping[str, Caution]:
    """All cautions by id."""
    table = tomllib.loads(TABLE.read_text(encoding="utf-8"))
    return {name: Caution(name, row["title"], row["text"]) for name, row in table.items()}


def caution(name: str) -> Caution:
    """The caution of that id, such as 'C-06'. Raises KeyError."""
    return cautions()[name]
