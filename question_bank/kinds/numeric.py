"""A number and its unit: drawn, worked out, graded within one tolerance, with the known wrong ways by name."""

from dataclasses import dataclass
from typing import Any

from question_bank.kinds.slip import OTHER_UNIT, ROUNDED_PAST, TENS, Slip, slips_of_any_conversion
from question_bank.question import Question
from question_bank.reading import AnswerError, Quantity, read_quantity
from question_bank.tolerance import CLOSE, FROM_KEY, TRADE_FACTORS
from question_bank.units import register, split_quantity
from question_bank.verdict import Verdict
from question_bank.working import Line

TIGHTEN = "You are near. The answer is wanted {wanted}: keep every figure to the end and round once."
PAST = {
    "down": "That is a little more than it comes to. A rating, or the room there is, is rounded down, never up.",
    "up": "That is a little less than it comes to. A load, or a strength that is needed, is rounded up, never down.",
}
"""What to tell of a right sum rounded to the unsafe side."""
FAR = 10.0
"""A reading is far from the answer where it is more than so many times as large, or less than that part of it."""
LOOK = "Follow the working line by line, and find where yours leaves it."


@dataclass(frozen=True, kw_only=True)
class NumericQuestion(Question):
    """`value` and `band` are in `unit`; `half_width` is relative to a value where `relative` is set.

    `side` is 'either', or 'down' or 'up' where the band ends at the value: what lies past it is never right.
    Of a `conversion` only the asked unit is taken: copying the given with its own unit is no answer.
    """

    kind = "numeric"
    is_typed = True
    has_numbers = True

    register: str
    unit: str
    units: list[str]
    value: float
    half_width: float
    relative: bool
    wanted: str
    key_text: str
    key_both: str
    conversion: bool
    givens: list[list[str]]
    working: list[Line]
    mistakes: list[Slip]
    side: str = "either"

    @property
    def band(self) -> tuple[float, float]:
        """Lowest and highest value that counts as right, in `unit`."""
        below, above = self._reach(1)
        return self.value - below, self.value + above

    def grade(self, answer: Any, comma: bool = False) -> Verdict:
        """`answer` is the text as typed; `comma` is how the hand writes twelve and a half."""
        text = str(answer)
        read = self._read(text, comma)
        if isinstance(read, Verdict):
            return read
        verdict = self._judge(read, comma)
        if verdict.outcome == "wrong":
            return self._asked_back(text, read, comma) or verdict
        return verdict

    def not_read(self, answer: Any, comma: bool = False) -> Verdict | None:
        """As of any question."""
        read = self._read(str(answer), comma)
        return read if isinstance(read, Verdict) else None

    def _read(self, text: str, comma: bool) -> Quantity | Verdict:
        """The quantity, or why there is none: not readable, or a conversion answered in another unit."""
        try:
            read = read_quantity(text, self.unit, comma, self.register)
        except AnswerError as error:
            return Verdict(error.outcome, error.message)
        if self.conversion and read.unit != self.unit:
            message = (
                f"You wrote {read.shown(comma)}. The question asks for it in {self.unit}: work it out and write that."
            )
            return Verdict("ask-back", message, read_as=read.shown(comma))
        return read

    def _judge(self, read: Quantity, comma: bool) -> Verdict:
        value = self._in_unit(read)
        read_as = read.shown(comma)
        if self._in_band(value, 1):
            return Verdict("right", self.tell("right"), read_as=read_as)
        for slip in self.mistakes:
            if self._within(value, slip.value, 1):
                return Verdict("wrong", self.tell("wrong", slip.name), slip.name, read_as)
        if read.unit != self.unit and self._in_band(read.value, 1):
            return Verdict("wrong", self.tell("wrong", OTHER_UNIT), OTHER_UNIT, read_as)
        for slip in self._slips_of_any():
            if self._within(value, slip.value, 1):
                return Verdict("wrong", slip.tell, slip.name, read_as)
        if self.side != "either" and self._within(value, self.value, 1):
            return Verdict("close", self.tell("close", ROUNDED_PAST), ROUNDED_PAST, read_as)
        outcome = "close" if self.relative and self._in_band(value, CLOSE) else "wrong"
        return Verdict(outcome, self.tell(outcome), read_as=read_as)

    def method_right(self, answer: Any, comma: bool = False) -> bool:
        """Whether an answer that is not right shows the right method with a slip in the number.

        It does where it is near, stands beside the wrong unit, is rounded to the unsafe side, or has its decimal mark
        some places off. Of a pure conversion the factor is the method: there a lost ten is no mere slip.
        """
        read = self._read(str(answer), comma)
        if isinstance(read, Verdict):
            return False
        verdict = self._judge(read, comma)
        if verdict.outcome != "wrong":
            return verdict.outcome == "close"
        if verdict.mistake == OTHER_UNIT:
            return True
        value = self._in_unit(read)
        return not self.conversion and any(self._within(value, self.value * 10.0**power, 1) for power in TENS)

    def slip(self, name: str | None) -> Slip | None:
        """The known wrong way of that name, or None."""
        return next((each for each in (*self.mistakes, *self._slips_of_any()) if each.name == name), None)

    def _slips_of_any(self) -> list[Slip]:
        """The wrong ways that need no word in the item, where they stand as far from the key as the item's own."""
        if not self.conversion or not self.value:
            return []
        given = float(split_quantity(self.givens[0][1])[0].replace(",", "").replace("−", "-"))
        room = FROM_KEY * self._width(self.value)
        own = {each.name for each in self.mistakes}  # the item's own word on a wrong way goes before the one for any
        return [
            each
            for each in slips_of_any_conversion(given, self.value)
            if each.name not in own and abs(each.value - self.value) >= room
        ]

    def tell(self, outcome: str, mistake: str | None = None) -> str:
        """What to tell the hand of a counted outcome: what a mistake misleads to, what to tighten, where to look."""
        slip = self.slip(mistake)
        if slip is not None:
            return slip.tell
        if mistake == OTHER_UNIT:
            fits = f"fits {self.unit}" if self.unit else "fits as a plain number"
            return f"Your number {fits}, but you wrote another unit beside it. Read the unit twice."
        if mistake == ROUNDED_PAST:
            return PAST[self.side]
        return {"right": "", "close": TIGHTEN.format(wanted=self.wanted), "wrong": LOOK}[outcome]

    def _asked_back(self, text: str, read: Quantity, comma: bool) -> Verdict | None:
        """Not a slip in the sum but in the decimal mark: asked back where the other reading would be right or close."""
        try:
            other = read_quantity(text, self.unit, not comma, self.register)
        except AnswerError:
            return None
        if self._judge(other, comma).outcome not in ("right", "close"):
            return None
        return _which(read, other, comma)

    def doubt(self, answer: Any, comma: bool = False) -> Verdict | None:
        """Ask back a number that is far from the answer as its mark says, and not far as the other mark would.

        Asked of right and wrong answers alike, it gives nothing away: for a drill, and for a test before it is graded.
        """
        try:
            read, other = (read_quantity(str(answer), self.unit, mark, self.register) for mark in (comma, not comma))
        except AnswerError:
            return None
        is_doubtful = self._is_far(read) and not self._is_far(other)
        return _which(read, other, comma) if is_doubtful else None

    def _is_far(self, read: Quantity) -> bool:
        times = self._in_unit(read) / self.value if self.value else 0.0
        return not 1 / FAR <= times <= FAR

    def _in_unit(self, read: Quantity) -> float:
        return read.base / register(self.register).unit(self.unit).factor

    def _in_band(self, value: float, widths: float) -> bool:
        below, above = self._reach(widths)
        slack = abs(self.value) * 1e-9
        return self.value - below * (1 + 1e-9) - slack <= value <= self.value + above * (1 + 1e-9) + slack

    def _reach(self, widths: float) -> tuple[float, float]:
        """How far the band goes below and above the value. One-sided, it leaves room for the trade's short factors."""
        width, past = self._width(self.value) * widths, abs(self.value) * TRADE_FACTORS
        return (past if self.side == "up" else width, past if self.side == "down" else width)

    def _within(self, value: float, centre: float, widths: float) -> bool:
        return abs(value - centre) <= self._width(centre) * widths * (1 + 1e-9) + abs(centre) * 1e-9

    def _width(self, centre: float) -> float:
        return abs(centre) * self.half_width if self.relative else self.half_width

    @classmethod
    def _rebuilt(cls, values: dict[str, Any]) -> dict[str, Any]:
        return {
            **values,
            "working": [Line(**row) for row in values["working"]],
            "mistakes": [Slip(**row) for row in values["mistakes"]],
        }


def _which(read: Quantity, other: Quantity, comma: bool) -> Verdict:
    """Two readings of one text, asked back."""
    message = f"Read as {read.shown(comma)}. Did you mean {other.shown(comma)}? Write it so, and send it again."
    return Verdict("ask-back", message, read_as=read.shown(comma))
