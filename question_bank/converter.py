"""The converter: what was typed, read as each sort of quantity that its unit belongs to, and said in all its units.

Everything is exact until it is printed: the number as typed, and pint's factors, are fractions.
"""

from dataclasses import dataclass
from fractions import Fraction

from question_bank.numbers import in_comma, show_exact
from question_bank.reading import AnswerError, Quantity, read_quantity
from question_bank.units import Register, Unit, register, registers

FIGURES = 5
FIGURES_AS_GIVEN = 15
"""The number that was typed is shown with all its figures. A third has no last one, so there is an end."""
ODD_BELOW, ODD_FROM = Fraction(1, 1000), 10**7
"""Numbers outside these are set apart."""
CAUTIONS = {
    "load": "C-10",
    "mass": "C-10",
    "weight-per-length": "C-10",
    "torque": "C-03",
    "energy": "C-06",
    "pressure": "C-12",
    "line-work": "C-11",
    "line-work-per-length": "C-11",
}
"""The caution that fits a sort of quantity. A length or a time alone hurts nobody and has none."""


@dataclass(frozen=True)
class Row:
    """One unit and the quantity in it, as printed. `given` marks the unit that was typed.

    `is_odd` marks a number that nobody would write in that unit: a pipe in miles.
    """

    unit: Unit
    number: str
    given: bool
    is_odd: bool = False


@dataclass(frozen=True)
class Converted:
    """What was typed, as one sort of quantity: in all its units, by their system ('us', 'metric' or None)."""

    register: Register
    unit: str
    read_as: str
    rows: tuple[Row, ...]

    def of_system(self, system: str | None) -> list[Row]:
        """The rows of the units of one system."""
        return [each for each in self.rows if each.unit.system == system]

    @property
    def caution(self) -> str | None:
        """The id of the caution that fits, or None."""
        return CAUTIONS.get(self.register.name)


def converted(text: str, chosen: str, comma: bool) -> list[Converted]:
    """Every reading of a text. `chosen` is 'load/kN', or '' where the unit is typed. Raises AnswerError."""
    return [in_all_units(each, comma) for each in readings(text, chosen, comma)]


def readings(text: str, chosen: str, comma: bool) -> list[Quantity]:
    """The text read as the chosen sort of quantity, or as each that its own unit belongs to. Raises AnswerError."""
    sort, _, symbol = chosen.partition("/")
    if sort not in registers() or symbol not in register(sort).units:
        return _every_sort(text, comma)
    try:
        return [read_quantity(text, symbol, comma, sort)]
    except AnswerError as error:
        if error.outcome != "other-dimension":
            raise
        raise AnswerError("other-dimension", f"{error.message} You chose {symbol} from the list.") from None


def unit_overruled(typed: str, chosen: str) -> str | None:
    """A sentence where a unit was both typed and chosen and they differ: which of the two is taken."""
    if not chosen or typed == chosen:
        return None
    return f"You typed {typed} and chose {chosen}. {typed} is taken: what you type decides."


def in_all_units(read: Quantity, comma: bool) -> Converted:
    """The quantity in every unit of its register."""
    sort = register(read.register)
    base = read.exact * sort.unit(read.unit).exact
    rows = []
    for unit in sort.units.values():
        given = unit.symbol == read.unit
        number = show_exact(base / unit.exact, FIGURES_AS_GIVEN if given else FIGURES)
        odd = not given and base != 0 and not ODD_BELOW <= abs(base / unit.exact) < ODD_FROM
        rows.append(Row(unit, in_comma(number) if comma else number, given, odd))
    return Converted(sort, read.unit, read.shown(comma), tuple(rows))


def _every_sort(text: str, comma: bool) -> list[Quantity]:
    read, refused = [], []
    for sort in registers():
        try:
            read.append(read_quantity(text, "", comma, sort))
        except AnswerError as error:
            refused.append(error)
    if any(each.unit == "" for each in read):
        raise AnswerError("unreadable", f"“{text.strip()}” has no unit. Write one after the number, or choose one.")
    if not read:
        raise _most_telling(refused, text)
    return _of_one_meaning(read, text)


def _of_one_meaning(read: list[Quantity], text: str) -> list[Quantity]:
    """lb is a load and a mass, and both are shown. kN and kn are as different as night and day: case decides.

    Raises AnswerError where the same spelling stands for different things and its case tells nothing.
    """
    apart = {(each.unit, register(each.register).dimension) for each in read}
    if len({unit for unit, _ in apart}) < 2 or len({dimension for _, dimension in apart}) < 2:
        return read
    exact = [each for each in read if text.rstrip().endswith(each.unit)]
    if exact:
        return exact
    titles = {each.unit: register(each.register).title for each in reversed(read)}
    meant = " or ".join(f"{unit} ({title})" for unit, title in reversed(titles.items()))
    raise AnswerError("ask-back", f"The unit in “{text.strip()}” can be {meant}. Write which.")


def _most_telling(refused: list[AnswerError], text: str) -> AnswerError:
    """What to say when no sort of quantity could read the text: what all say, or that the unit is not known."""
    asked_back = [each for each in refused if each.outcome == "ask-back"]
    if asked_back or len({each.message for each in refused}) == 1:
        return (asked_back or refused)[0]
    return AnswerError("unreadable", f"The unit in “{text.strip()}” is not one of ours. Choose one from the list.")
