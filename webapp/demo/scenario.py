"""The invented scenario as its file has it: rigs, crews and people. All days are counted from the demo's first."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

FILE = Path(__file__).with_name("scenario.toml")


@dataclass(frozen=True)
class Hand:
    """An invented person: how they read and write, how much they study, and how they fare.

    `right` is how often an answer is right at first, `slips` how often a wrong number is a known mistake, `studies` on
    how many days of ten they sit down, `reads` how many lessons they have read by the end, `joins` their first day.
    """

    key: str
    name: str
    job: str
    system: str
    minutes: int
    reads: int
    right: float
    slips: float
    studies: int
    crew: str | None = None
    comma: bool = False
    joins: int = 0


@dataclass(frozen=True)
class Scenario:
    """Rigs and crews as tables by key; people by key, in the order of the file; the rest as the file has it."""

    rigs: Mapping[str, Mapping[str, Any]]
    crews: Mapping[str, Mapping[str, Any]]
    people: Mapping[str, Hand]
    rest: Mapping[str, Any]


def read_scenario() -> Scenario:
    """The scenario of scenario.toml."""
    tables = tomllib.loads(FILE.read_text(encoding="utf-8"))
    people = {key: Hand(key, **fields) for key, fields in tables.pop("people").items()}
    return Scenario(tables.pop("rigs"), tables.pop("crews"), people, tables)
