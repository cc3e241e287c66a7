"""A drawn dial to be read: the picture is kept in the question, so an old one is shown as it was."""

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from question_bank.gauge import Dial, drawn, half, plain
from question_bank.item import Item
from question_bank.item_fields import SYSTEMS, Fields
from question_bank.kinds.dial_fields import DialRow, read_dials
from question_bank.kinds.numeric import NumericQuestion, Slip
from question_bank.kinds.numeric_fields import Mistake
from question_bank.numbers import show
from question_bank.picking import Picker
from question_bank.tolerance import FROM_EACH_OTHER, FROM_KEY
from question_bank.units import Unit, register
from question_bank.working import Line

WANTED = "to within half a small space"
BACKWARDS = "counted-back-from-the-next-number"
TEN_TIMES, A_TENTH = "ten-times-too-much", "a-tenth-of-it"
TELLS = {
    BACKWARDS: "You counted back from the wrong number. The scale runs clockwise: count on from the number passed.",
    TEN_TIMES: "You wrote ten times what the needle shows. Read the numbers on both sides of the needle once more.",
    A_TENTH: "You wrote a tenth of what the needle shows. Read the numbers on both sides of the needle once more.",
}


def mark_taken_for(worth: str) -> str:
    """The name of the mistake of taking a small space for another worth: 'space-taken-for-10'."""
    return f"space-taken-for-{worth}"


@dataclass(frozen=True, kw_only=True)
class GaugeQuestion(NumericQuestion):
    """`dial` is the picture, a whole <svg> element. Right is what lies within half a small space of the needle."""

    kind = "gauge"

    dial: str


class GaugeItem(Item):
    """One or more dials for each system; a reading is drawn on half a small space, never on a number."""

    kind = "gauge"
    usual_seconds = 30
    own_fields = ("register", "word", "dials")

    def read(self, fields: Fields) -> None:
        self.dials = read_dials(fields)
        self.register = self.dials[0].unit.register
        worths = dict.fromkeys(worth for each in self.dials for worth in each.taken_for)
        tells = {
            mark_taken_for(worth): f"You took each small space for {worth} of the unit." for worth in worths
        } | TELLS
        self.mistakes = tuple(
            Mistake(name, _title(name), {}, dict.fromkeys(SYSTEMS, tell), {}) for name, tell in tells.items()
        )

    def draw(self, seed: int, system: str = "us", fixed: Any = None) -> GaugeQuestion:
        picker = Picker(seed)
        row = picker.one_of([each for each in self.dials if system in each.systems])
        return self._question(seed, system, row, picker.one_of(row.readings))

    def _question(self, seed: int, system: str, row: DialRow, reading: Decimal) -> GaugeQuestion:
        dial, unit = row.dial, row.unit
        key = f"{show(float(reading), 12)} {unit.symbol}"
        return GaugeQuestion(
            **self.in_common(seed, system),
            register=self.register,
            unit=unit.symbol,
            units=register(self.register).offered(unit.symbol),
            value=float(reading),
            half_width=float(dial.mark / 2),
            relative=False,
            wanted=WANTED,
            key_text=key,
            key_both=_both(key, reading, unit),
            conversion=False,
            givens=[],
            working=_working(dial, reading, key),
            mistakes=_apart(_slips(row, reading), reading, dial),
            dial=drawn(dial, reading, f"dial-{self.id.replace('.', '-')}-{seed}"),
        )


def _both(key: str, reading: Decimal, unit: Unit) -> str:
    if unit.pair is None:
        return key
    other = register(unit.register).unit(unit.pair)
    return f"{key} ({show(float(reading) * unit.factor / other.factor, 4)} {other.symbol})"


def _working(dial: Dial, reading: Decimal, key: str) -> list[Line]:
    passed, unit = dial.passed(reading), dial.unit
    number, upto, space = (f"{show(float(each), 12)} {unit}" for each in (passed, passed + dial.numbered, dial.mark))
    return [
        Line(
            "one small space",
            "space = (next number − number passed) / small spaces between them",
            f"({upto} − {number}) / {dial.spaces}",
            space,
        ),
        Line(
            "reading",
            "reading = number passed + spaces past it × one space",
            f"{number} + {plain(dial.past(reading))} × {space}",
            key,
        ),
    ]


def _slips(row: DialRow, reading: Decimal) -> list[Slip]:
    """Where the known wrong ways of reading this needle lead."""
    dial = row.dial
    passed, past = dial.passed(reading), dial.past(reading)
    upto = passed + dial.numbered
    found = [
        (
            mark_taken_for(worth),
            passed + past * Decimal(worth),
            f"You took each small space for {worth} {dial.unit}. From {plain(passed)} to {plain(upto)} there are "
            f"{dial.spaces} spaces, so one is {plain(dial.mark)} {dial.unit}.",
        )
        for worth in row.taken_for
    ]
    found.append(
        (
            BACKWARDS,
            upto - past * dial.mark,
            f"You counted {half(past)} back from {plain(upto)}. The scale runs clockwise and the needle has passed "
            f"{plain(passed)}: count on from there.",
        )
    )
    found += [(TEN_TIMES, reading * 10, TELLS[TEN_TIMES]), (A_TENTH, reading / 10, TELLS[A_TENTH])]
    return [Slip(name, _title(name), float(value), tell) for name, value, tell in found]


def _apart(slips: list[Slip], reading: Decimal, dial: Dial) -> list[Slip]:
    """The slips that can be told from a right reading, and from one another, on this draw."""
    width = float(dial.mark / 2)
    kept: list[Slip] = []
    for each in slips:
        if abs(each.value - float(reading)) >= FROM_KEY * width and all(
            abs(each.value - other.value) >= FROM_EACH_OTHER * width for other in kept
        ):
            kept.append(each)
    return kept


def _title(name: str) -> str:
    return name.replace("-", " ").capitalize()
