"""The bench: a plain converter. A training aid; nothing that is typed here is kept."""

from dataclasses import dataclass

from flask import Blueprint, render_template, request

from question_bank.numbers import in_comma
from question_bank.numbers import show as printed
from question_bank.reading import AnswerError, Quantity, read_quantity
from question_bank.units import Register, Unit, register, registers
from webapp.access import open_to_all
from webapp.at_hand import comma, system

views = Blueprint("bench", __name__)

FIGURES = 5
CAUTIONS = {
    "load": "C-10",
    "mass": "C-10",
    "weight-per-length": "C-10",
    "torque": "C-03",
    "energy": "C-06",
    "pressure": "C-12",
}
OTHERWISE = "C-01"
WORDS = {"us": "US units", "metric": "Metric units", None: "Other units"}


@dataclass(frozen=True)
class Row:
    """One unit and the quantity in it, as printed. `given` marks the unit that was typed."""

    unit: Unit
    number: str
    given: bool


@dataclass(frozen=True)
class Converted:
    """What was typed, read as one sort of quantity, in all its units: two columns of tables, the hand's own first."""

    register: Register
    read_as: str
    columns: list[list[tuple[str, list[Row]]]]


@views.get("/bench")
@open_to_all
def show() -> str:
    """The converter. `value` and `unit` in the address keep the numbers, so that the page can be passed on."""
    value, unit = request.args.get("value", ""), request.args.get("unit", "")
    writes_comma = {"comma": True, "point": False}.get(request.args.get("writes", ""), comma())
    found, problem = _converted(value, unit, writes_comma) if "value" in request.args else ([], None)
    return render_template(
        "bench.html",
        value=value,
        unit=unit,
        writes_comma=writes_comma,
        found=found,
        problem=problem,
        other_way=_other_way(value, found, writes_comma),
        cautions=list(dict.fromkeys(CAUTIONS.get(each.register.name, OTHERWISE) for each in found)),
        all=registers(),
    )


def _other_way(value: str, found: list[Converted], writes_comma: bool) -> str | None:
    """The text read with the other decimal mark, where three digits may be thousands: '44.600' for 44,600."""
    if not found:
        return None
    try:
        own, other = (
            read_quantity(value, "", mark, found[0].register.name) for mark in (writes_comma, not writes_comma)
        )
    except AnswerError:
        return None
    return other.shown(writes_comma) if other.value > own.value else None


def _converted(value: str, unit: str, writes_comma: bool) -> tuple[list[Converted], str | None]:
    """Every reading of the text, or the sentence that says why there is none."""
    sort, _, symbol = unit.partition("/")
    known = sort in registers() and symbol in register(sort).units
    try:
        read = [read_quantity(value, symbol, writes_comma, sort)] if known else _all_readings(value, writes_comma)
    except AnswerError as error:
        return [], error.message
    return [_in_all_units(each, writes_comma) for each in read], None


def _all_readings(value: str, writes_comma: bool) -> list[Quantity]:
    """The text as each sort of quantity that its unit belongs to: lb is a load and a mass. Raises AnswerError."""
    read, refused = [], []
    for sort in registers():
        try:
            read.append(read_quantity(value, "", writes_comma, sort))
        except AnswerError as error:
            refused.append(error)
    if any(each.unit == "" for each in read):
        raise AnswerError("unreadable", f"“{value.strip()}” has no unit. Write one after the number, or choose one.")
    if not read:
        raise _most_telling(refused, value)
    return read


def _most_telling(refused: list[AnswerError], value: str) -> AnswerError:
    """What to say when no sort of quantity could read the text: what all say, or that the unit is not known."""
    asked_back = [each for each in refused if each.outcome == "ask-back"]
    if asked_back or len({each.message for each in refused}) == 1:
        return (asked_back or refused)[0]
    return AnswerError("unreadable", f"The unit in “{value.strip()}” is not one of ours. Choose one from the list.")


def _in_all_units(read: Quantity, writes_comma: bool) -> Converted:
    sort = register(read.register)
    own, other = ("us", "metric") if system() == "us" else ("metric", "us")

    def table(of: str | None) -> list[tuple[str, list[Row]]]:
        rows = [_row(each, read, writes_comma) for each in sort.units.values() if each.system == of]
        return [(WORDS[of], rows)] if rows else []

    return Converted(sort, read.shown(writes_comma), [table(own) + table(None), table(other)])


def _row(unit: Unit, read: Quantity, writes_comma: bool) -> Row:
    number = printed(read.base / unit.factor, FIGURES)
    return Row(unit, in_comma(number) if writes_comma else number, unit.symbol == read.unit)
