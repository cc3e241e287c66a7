"""One sum of the bench with a hand's own numbers. The address keeps them, so that it is the link to pass on."""

from dataclasses import dataclass

from flask import Blueprint, abort, render_template, request, url_for

from question_bank import AnswerError
from question_bank.converter import unit_overruled
from question_bank.kinds.hold_range import ranges
from question_bank.kinds.looked_up import table_in_words
from question_bank.kinds.numeric_item import NumericItem
from question_bank.kinds.own_numbers import ImpossibleStep, NumbersError, Work, likely_other_way
from question_bank.reading import LONGEST, read_quantity
from question_bank.rig_draws import taken
from question_bank.steps import ExpressionError
from question_bank.units import register, split_quantity
from webapp import at_hand
from webapp.access import open_to_all
from webapp.my_rig_sheet import my_sheet, values_on
from webapp.views.bench import is_sum

views = Blueprint("bench_sums", __name__)
views.before_request(at_hand.take_comma_from_address)

EXAMPLE_SEED = 1
FILLED = "from-sheet"
"""In an address: the numbers of the rig sheet were filled in, and nobody has asked for the sum yet."""
NO_ANSWER = "With these numbers the sum has no answer. Hold each against its range, and read its unit twice."


@dataclass(frozen=True)
class Field:
    """One given as it stands in the form: what was typed, its units, and where the formulas hold."""

    name: str
    label: str
    text: str
    unit: str
    units: list[str]
    holds: str | None
    table: str | None
    problem: str | None
    outside: bool
    overruled: str | None
    other_way: str | None


@views.get("/bench/<module>/<name>")
@open_to_all
def show(module: str, name: str) -> str:
    """The form, and once there are numbers in the address, the sum worked."""
    item = at_hand.bank().get(f"{module}.{name}")
    if item is None or not is_sum(item):
        abort(404)
    typed = {each: _typed(item, each) for each in item.givens}
    work, problems, no_answer = None, {}, None
    filled = _filled(item, typed)
    if any(each in request.args for each in item.givens) and not _waits(item, typed):
        work, problems, no_answer = _worked(item, typed)
    example = item.draw(EXAMPLE_SEED, at_hand.system())
    return render_template(
        "bench/sum.html",
        item=item,
        fields=[_field(item, each, *typed[each], problems.get(each)) for each in item.givens],
        work=work,
        problems=problems,
        no_answer=no_answer,
        limits={step.formula.title: step.formula.limits for step in item.steps if step.formula},
        kept=_kept(module, name, work) if work else None,
        example=example,
        example_address=_address(module, name, _numbers_of(example, item), example="yes"),
        is_example="example" in request.args,
        filled=filled,
        is_filled=FILLED in request.args,
        other="metric" if at_hand.system() == "us" else "us",
    )


def _typed(item: NumericItem, name: str) -> tuple[str, str]:
    """Number and unit: from ?depth=3000&depth-unit=m as the form sends it, or from ?depth=3000+m as a link has it."""
    text, unit = request.args.get(name, "").strip(), request.args.get(f"{name}-unit")
    given = item.givens[name]
    units = register(given.register).units
    if unit in units:
        return text, unit
    for symbol in sorted(filter(None, units), key=len, reverse=True):
        if text.endswith(f" {symbol}"):
            return text.removesuffix(symbol).rstrip(), symbol
    return text, given.own_unit(at_hand.system()).symbol


def _filled(item: NumericItem, typed: dict) -> str | None:
    """The address with the numbers of the hand's rig sheet in their fields, the rest as typed; None without a sheet."""
    sheet = my_sheet()
    numbers = (
        {name: split_quantity(text) for name, text in taken(item, values_on(sheet, at_hand.today())).items()}
        if sheet
        else {}
    )
    if not numbers:
        return None
    others = {name: f"{text} {unit}".strip() for name, (text, unit) in typed.items() if text and name not in numbers}
    module, name = item.id.split(".")
    return _address(module, name, numbers, **others, **{FILLED: "yes"})


def _waits(item: NumericItem, typed: dict) -> bool:
    """Whether the form was only just filled from the sheet, and numbers are missing that no table has."""
    missing = [name for name, (text, _) in typed.items() if not text and item.givens[name].by is None]
    return FILLED in request.args and bool(missing)


def _worked(item: NumericItem, typed: dict) -> tuple[Work | None, dict[str, str], str | None]:
    texts, units = ({name: pair[at] for name, pair in typed.items()} for at in (0, 1))
    try:
        return item.work(texts, at_hand.system(), at_hand.comma(), units), {}, None
    except NumbersError as error:
        return None, dict(error.problems), None
    except ImpossibleStep as error:
        return None, {}, str(error)
    except ExpressionError:
        return None, {}, NO_ANSWER


def _field(item: NumericItem, name: str, text: str, unit: str, problem: str | None) -> Field:
    given = item.givens[name]
    held, outside, overruled, other = ranges(item).get(name), False, None, None
    try:
        read = read_quantity(text, unit, at_hand.comma(), given.register) if text else None
        if read:
            outside = held is not None and not held.has(read.base)
            overruled, unit = unit_overruled(read.unit, unit), read.unit
            other = likely_other_way(item, name, text, unit, at_hand.comma())
    except AnswerError:
        pass  # the problem is told beside the field
    units = register(given.register).units
    told = other and f"Read as {read.shown()}. If you mean {other.shown()}, write it like that."
    return Field(
        name, given.labels[at_hand.system()], text[: LONGEST + 1], unit, list(units), held and held.shown(units[unit]),
        table_in_words(given), problem, outside and not problem, overruled, told,
    )  # fmt: skip


def _kept(module: str, name: str, work: Work) -> str:
    """The address of a worked sum: plain numbers with their units. What was an example stays marked as one."""
    numbers = {
        each.name: (f"{each.drawn.base / each.drawn.unit.factor:.10g}", each.drawn.unit.symbol) for each in work.numbers
    }
    return _address(module, name, numbers, **({"example": "yes"} if "example" in request.args else {}))


def _numbers_of(example, item: NumericItem) -> dict[str, tuple[str, str]]:
    """The example's givens by name: the hand's own of the two systems in '286 klbf (1,272 kN)'."""
    first = [text.partition(" (")[0].partition(" ") for _, text in example.givens]
    return {name: (number.replace(",", ""), unit) for name, (number, _, unit) in zip(item.givens, first, strict=True)}


def _address(module: str, name: str, numbers: dict[str, tuple[str, str]], **more: str) -> str:
    """The address with these numbers, written as this hand writes, which the address says."""
    comma = at_hand.comma()
    texts = {
        given: f"{number.replace('.', ',') if comma else number} {unit}".strip()
        for given, (number, unit) in numbers.items()
    }
    return url_for("bench_sums.show", module=module, name=name, **texts, **more, writes="comma" if comma else "point")
