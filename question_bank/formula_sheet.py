"""The formula sheet: what the course's sums call, by subject, with symbols and where a constant comes from.

Two parts: what hangs and is hoisted, and what turns, the string and the hole.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from question_bank.equations import PLACE, Printed
from question_bank.formula_constants import COMES_FROM, constants_in
from question_bank.formulas import all_formulas
from question_bank.formulas.formula import Formula
from question_bank.item import Item
from question_bank.kinds.numeric_item import NumericItem

SIDES = (
    {
        "ratings": "Ratings and what hangs",
        "hoisting": "Block and lines",
        "hoisting_speed": "Hoisting speed and power",
        "structures": "Mast and crown",
        "wind_and_guys": "Wind and guys",
        "wire_rope": "Wire rope",
        "drilling_line": "Work of the drilling line",
        "drum": "Drum and wraps",
        "brakes": "Brakes",
    },
    {
        "rotating": "Turning",
        "bearings": "Bearings",
        "connections": "Connections",
        "strings": "The string",
        "pipe_body": "Body of the pipe",
        "pipe_tally": "Tally and racking",
        "hole_fill": "Hole and fill",
        "dropped_objects": "Dropped objects",
        "working_at_height": "Working at height",
    },
)
"""The subjects of each side: a file of question_bank/formulas, and its heading."""
CAUTIONS = {
    "ratings": ("C-10", "C-14"), "hoisting": ("C-10",), "hoisting_speed": ("C-09",), "structures": ("C-10",),
    "wind_and_guys": ("C-13",), "wire_rope": ("C-11",), "drilling_line": ("C-11",), "drum": ("C-11",),
    "brakes": ("C-09", "C-12"), "rotating": ("C-02",), "bearings": ("C-02",), "connections": ("C-03",),
    "strings": ("C-14",), "pipe_body": ("C-04", "C-08"), "pipe_tally": ("C-07",), "hole_fill": ("C-05",),
    "dropped_objects": ("C-06",), "working_at_height": ("C-07",),
}  # fmt: skip
"""What can hurt a hand where a subject's formulas are used: ids of cautions."""
PAPER = """
string_under_block crown_rating_as_hook_load tackle_efficiency static_line_pull fast_line_pull
indicated_hook_load fast_line_speed hook_power derrick_load_static equivalent_derrick_load crown_clearance
design_factor hook_load_for_factor diameter_loss bha_excess round_trip_work drilling_work casing_work
length_of_laps brake_power stopping_distance rotary_power torque_at_power geared_torque reaction_force
tong_torque square_line_pull connections_for time_on_bottom weight_in_air buoyancy_factor string_in_mud
hook_load_with_block pull_allowed margin_of_overpull wall_area tensile_yield slip_squeeze_factor average_joint
steel_displacement bore_capacity fill_for_stands level_drop mud_pressure drop_energy impact_speed fall_clearance
"""
ON_PAPER = frozenset(PAPER.split())
"""The formulas that go on the two sides of paper, with meaning and limits: those that a board asks a hand to work."""
SUBSCRIPT = re.compile(r"([^\W\d_])([a-z0-9]+)")
POWERS = str.maketrans("234", "²³⁴")


@dataclass(frozen=True)
class Letter:
    """A symbol as it is set: 'Ph' is P with a small h below it."""

    letter: str
    below: str = ""


@dataclass(frozen=True)
class Symbol:
    """A symbol, what it stands for, and its unit in both systems."""

    sign: Letter
    stands_for: str
    us: str
    metric: str


@dataclass(frozen=True)
class Entry:
    """One formula of the sheet. An equation is a list of texts and Letters; both are alike where only units differ."""

    title: str
    says: str
    limits: str
    result: Symbol
    us: list[str | Letter]
    metric: list[str | Letter]
    symbols: list[Symbol]
    on_paper: bool

    @property
    def alike(self) -> bool:
        """Whether one equation serves both systems."""
        return self.us == self.metric


@dataclass(frozen=True)
class Subject:
    """The formulas of one subject."""

    title: str
    entries: list[Entry]

    @property
    def on_paper(self) -> bool:
        """Whether any of its formulas goes on paper."""
        return any(each.on_paper for each in self.entries)


@dataclass(frozen=True)
class Sheet:
    """Both sides, the ids of each side's cautions, and where the constants on them come from."""

    sides: list[list[Subject]]
    cautions: list[list[str]]
    constants: dict[str, str]


def used_formulas(items: Iterable[Item]) -> list[Formula]:
    """The formulas that the steps of these items call, in the order of all formulas."""
    sums = (item for item in items if isinstance(item, NumericItem))
    called = {step.formula.name for item in sums for step in item.steps if step.formula}
    return [each for each in all_formulas().values() if each.name in called]


def sheet(formulas: Iterable[Formula]) -> Sheet:
    """The sheet of these formulas."""
    formulas = list(formulas)
    sides, cautions = [], []
    for subjects in SIDES:
        by_file = {file: [entry(each) for each in formulas if _file(each) == file] for file in subjects}
        sides.append([Subject(title, by_file[file]) for file, title in subjects.items() if by_file[file]])
        cautions.append(list(dict.fromkeys(each for file in subjects if by_file[file] for each in CAUTIONS[file])))
    texts = [each.printed(system).text for each in formulas for system in ("us", "metric")]
    used = {number for text in texts for number in constants_in(text)}
    return Sheet(sides, cautions, {number: words for number, words in COMES_FROM.items() if number in used})


def entry(formula: Formula) -> Entry:
    """One formula as the sheet has it."""
    names = {name: letter(sign) for name, sign in formula.symbols.items()}
    symbols = [
        Symbol(
            names[name],
            name.replace("bha_", "BHA_").replace("_", " "),
            formula.us.units[name],
            formula.metric.units[name],
        )
        for name in formula.takes
    ]
    result = Symbol(names["return"], formula.title, formula.us.gives, formula.metric.gives)
    return Entry(
        formula.title,
        formula.says,
        formula.limits,
        result,
        _set(formula.us, names),
        _set(formula.metric, names),
        symbols,
        formula.name in ON_PAPER,
    )


def letter(sign: str) -> Letter:
    """'Ph' is P with h below; 'MOP' and 'ΔP' stand as they are."""
    found = SUBSCRIPT.fullmatch(sign)
    return Letter(found[1], found[2]) if found else Letter(sign)


def _set(equation: Printed, names: dict[str, Letter]) -> list[str | Letter]:
    """The equation in pieces. A power by a numeral is raised; the units beside a constant are left to the symbols."""
    text = re.sub(r"\^([234])(?!\d)", lambda found: found[1].translate(POWERS), equation.text)
    text = re.sub(r"(?<=\d) (?:m/s²|ft/s²)", "", text)
    pieces = PLACE.split(text)
    return [names[piece] if at % 2 else piece for at, piece in enumerate(pieces) if piece]


def _file(formula: Formula) -> str:
    return formula.function.__module__.rpartition(".")[2]
