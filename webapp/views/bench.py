"""The bench: a converter, and the list of sums to be worked with own numbers. A training aid; nothing typed is kept."""

import re
from dataclasses import dataclass

from flask import Blueprint, render_template, request

from question_bank import AnswerError, Item
from question_bank.converter import Converted, converted, unit_overruled
from question_bank.reading import other_way
from question_bank.units import registers
from webapp import at_hand
from webapp.access import open_to_all

views = Blueprint("bench", __name__)
views.before_request(at_hand.take_comma_from_address)

WORDS = {"us": "US units", "metric": "Metric units", None: "Other units"}
LONGEST_FIND = 40
USED_MOST = (
    ("load", "lbf"), ("load", "klbf"), ("load", "st"), ("load", "kN"), ("load", "t"), ("length", "ft"),
    ("length", "in"), ("length", "m"), ("length", "mm"), ("pressure", "psi"), ("pressure", "bar"), ("torque", "ft·lbf"),
    ("torque", "N·m"), ("power", "hp"), ("power", "kW"),
)  # fmt: skip
"""What a hand converts most: it stands first in a long list."""
TRADES_FIVE = ("load", "torque", "pressure", "length", "power")
"""The sorts of quantity that a rig talks of all day: they come before the others in the list."""


@dataclass(frozen=True)
class Group:
    """The sums of one module. `opened` where a hand looks for one of them."""

    title: str
    sums: list[Item]
    opened: bool


@views.get("/bench")
@open_to_all
def show() -> str:
    """The converter, and the sums. `value`, `unit` and `writes` in the address keep the numbers, to be passed on."""
    value, unit, find = (request.args.get(name, "") for name in ("value", "unit", "find"))
    found, problem = _converted(value, unit) if "value" in request.args else ([], None)
    return render_template(
        "bench/bench.html",
        value=value,
        unit=unit,
        found=[(each, _columns(each)) for each in found],
        problem=problem,
        overruled=unit_overruled(found[0].unit, unit.partition("/")[2]) if found else None,
        other_way=_other_way(value, found),
        cautions=list(dict.fromkeys(each.caution for each in found if each.caution)),
        all={name: registers()[name] for name in dict.fromkeys((*TRADES_FIVE, *registers()))},
        used_most=USED_MOST,
        find=find[:LONGEST_FIND],
        groups=groups(find[:LONGEST_FIND]),
    )


def is_sum(item: Item) -> bool:
    """Whether an item can be worked with own numbers. What only says a unit in another is the converter's."""
    return item.kind == "numeric" and not item.is_conversion


def groups(find: str = "") -> list[Group]:
    """The sums by module in the course's order, those alone that have every word looked for."""
    titles = {module.id: module.title for module in at_hand.course().modules}
    by_module: dict[str, list[Item]] = {name: [] for name in titles}
    words = find.casefold().split()
    for item in at_hand.bank().values():
        if is_sum(item) and all(_bare(word) in _bare(_searched(item)) for word in words):
            by_module.setdefault(item.lesson.partition("/")[0], []).append(item)
    return [
        Group(titles.get(name) or name.replace("-", " ").capitalize(), sums, bool(words))
        for name, sums in by_module.items()
        if sums
    ]


def _searched(item: Item) -> str:
    names = (label for given in item.givens.values() for label in given.labels.values())
    return " ".join([item.title, *names, *(step.find for step in item.steps)]).casefold()


def _bare(text: str) -> str:
    """Without what parts words: who looks for 'tonmile' or 'ton-mile' finds 'ton mile' too."""
    return re.sub(r"[^\w]", "", text)


def _converted(value: str, unit: str) -> tuple[list[Converted], str | None]:
    """Every reading of the text, or the sentence that says why there is none."""
    try:
        return converted(value, unit, at_hand.comma()), None
    except AnswerError as error:
        return [], error.message


def _columns(it: Converted) -> list[list[tuple[str, list]]]:
    """Two columns of tables, the hand's own system first. Numbers that nobody would write are left to another list."""
    own, other = ("us", "metric") if at_hand.system() == "us" else ("metric", "us")
    tables = [
        [(WORDS[system], [each for each in it.of_system(system) if not each.is_odd]) for system in column]
        for column in ((own, None), (other,))
    ]
    return [[(words, rows) for words, rows in column if rows] for column in tables]


def _other_way(value: str, found: list[Converted]) -> str | None:
    """The text read with the other decimal mark, where three digits may be thousands: '44.600' for 44,600."""
    if not found:
        return None
    other = other_way(value, found[0].unit, at_hand.comma(), found[0].register.name)
    return other and other.shown(at_hand.comma())
