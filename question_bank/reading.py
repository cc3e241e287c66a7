"""What a hand typed, read as a quantity: a written grammar of our own, bounded before anything is computed.

    answer   = number [unit] | feet-and-inches
    number   = [sign] (whole [mark digits] | mark digits) [exponent] | [sign] [whole (" " | "-")] digits "/" digits
    whole    = digits | digits in groups of three, parted by spaces or by the mark the hand does not use for decimals
    exponent = "e" [sign] digits | ("x" | "*" | "×") "10^" [sign] digits
    feet-and-inches = digits ("'" | ft) [inches ('"' | in)] | inches '"'

A group of thousands never begins with a nought: 0,841 is no whole number.

`comma` says how the hand writes twelve and a half: False for 12.5, True for 12,5. That mark decides. A text that can
only be read the other way is asked back, never guessed. Nothing typed is ever evaluated, and none of it reaches pint.
"""

import functools
import re
from dataclasses import dataclass, field
from fractions import Fraction

from question_bank.numbers import in_comma, show, show_places
from question_bank.units import Unit, register, register_of, registers

LONGEST = 64
LARGEST, SMALLEST = Fraction(10**15), Fraction(1, 10**12)

SAME_SIGN = str.maketrans(
    {
        "−": "-", "–": "-", "—": "-", "×": "x", "’": "'", "‘": "'", "′": "'", "”": '"', "“": '"', "″": '"',
        "\u00a0": " ", "\u2009": " ", "\u202f": " ", "\t": " ", "⁄": "/", "⋅": "·", "∙": "·",
        "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅓": " 1/3", "⅔": " 2/3",
        "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8",
    }
)  # fmt: skip
SUPERSCRIPTS = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", "0123456789-")
POWER_OF_UNIT = re.compile("(?<=[A-Za-z])[²³⁴]")
TEN_TO_THE = re.compile("10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]{1,4})")

EXPONENT = r"(?:[eE]([+-]?\d{1,3})(?![\d.,])| ?[xX*] ?10 ?\^ ?([+-]?\d{1,3})(?![\d.,]))?"
FRACTION = re.compile(r"([+-]?) ?(?:(\d{1,9})(?: ?- ?| ))?(\d{1,4}) ?/ ?(\d{1,4})(?![\d.,/])")
INCHES = r"(\d{1,2}(?:[.,]\d{1,6})?|(?:\d{1,2}[ -])?\d{1,3}/\d{1,3})"
FEET_AND_INCHES = re.compile(
    rf"""([+-]?)[ ]?(\d{{1,6}})[ ]?
    (?: (?: '[ ]?-?[ ]? | (?:ft\.?|feet|foot)(?:[ ]?-[ ]?|[ ]) ) {INCHES} [ ]?(?:"|in\.?|inch|inches)?
      | (?:ft\.?|feet|foot) {INCHES} [ ]?(?:"|in\.?|inch|inches) )""",
    re.IGNORECASE | re.VERBOSE,
)
MARKS_IN_WORDS = {"'": "ft", '"': "in"}
NOT_NOUGHT = re.compile(r"[^1-9eExX]*[1-9]")
JOINERS = re.compile(r"[ .·*^-]+")
CAPITAL_T = "T"
"""The one spelling whose case decides: many write T for the short ton of their own rig, so it is asked back."""
WHICH_TON = "Which ton? Write st (short ton, 2000 lb) or t (tonne, 1000 kg)."
THOUSAND_OF_WHAT = "“{unit}” is a thousand, but of what? Write klbf or kN, or the whole number and its unit."
OTHER_DIMENSION = "You gave {given} ({unit}). What is asked here is {asked}."
SAID_OTHERWISE = {
    "psig": "“psig” is pressure over the air around you, as a gauge shows it. Here that is psi: write psi.",
    "spm": "“spm” counts the strokes of a pump. The course has no unit for it. For turning, write rpm.",
}
"""Units that are common on a rig and not ours, and what to write."""
NO_UNIT = re.compile(r"[^#%°A-Za-zµ]|.*[ (]\d")
"""No unit at all, but more numbers or signs. Digits inside a word are none of these: m3/h is an unknown unit."""


class AnswerError(ValueError):
    """A text that is not counted. `outcome` is 'unreadable', 'other-dimension' or 'ask-back'; str() tells the hand."""

    def __init__(self, outcome: str, message: str):
        super().__init__(message)
        self.outcome = outcome
        self.message = message


@dataclass(frozen=True)
class Quantity:
    """A number with its unit in a register, as it was read; `exact` is the number before a float rounds it."""

    value: float
    unit: str
    register: str
    exact: Fraction = field(default=Fraction(0), compare=False, repr=False)

    @property
    def base(self) -> float:
        """The value in the register's base unit."""
        return self.value * register(self.register).unit(self.unit).factor

    def shown(self, comma: bool = False) -> str:
        """What was read, for the hand to see: '44,600 lbf'."""
        number = show_places(self.value, 4) if abs(self.value) >= 1 else show(self.value, 6)
        text = f"{number} {self.unit}".strip()
        return in_comma(text) if comma else text


def read_quantity(text: str, asked: str, comma: bool = False, register_name: str | None = None) -> Quantity:
    """Read a typed text. A bare number takes the asked unit. Raises AnswerError, and nothing else, for any text."""
    if len(text) > LONGEST:
        raise AnswerError("unreadable", f"That is longer than {LONGEST} signs. Write one number and its unit.")
    register_name = register_name or register_of(asked)
    plain = _plain(text)
    try:
        return _read(plain, asked, comma, register_name)
    except AnswerError as error:
        if error.outcome != "unreadable":
            raise
        _ask_back_if_the_other_mark_reads(plain, asked, comma, register_name)
        raise


def has_no_unit(text: str, comma: bool = False) -> bool:
    """Whether a typed text is a number alone. False for what can't be read; 30' 6 has its unit."""
    try:
        plain = _plain(text[: LONGEST + 1])
        return not FEET_AND_INCHES.fullmatch(plain) and not _leading_number(plain, comma)[1]
    except AnswerError:
        return False


def other_way(text: str, asked: str, comma: bool, register_name: str) -> Quantity | None:
    """The text read with the other decimal mark, where its three digits may be thousands: '44.600' for 44,600."""
    try:
        own, other = (read_quantity(text, asked, mark, register_name) for mark in (comma, not comma))
    except AnswerError:
        return None
    return other if other.value > own.value else None


def _plain(text: str) -> str:
    """The text in one spelling of each sign, or AnswerError for nothing and for digits other than 0 to 9."""
    text = TEN_TO_THE.sub(lambda found: "10^" + found[1].translate(SUPERSCRIPTS), text)
    text = POWER_OF_UNIT.sub(lambda found: found[0].translate(SUPERSCRIPTS), text).translate(SAME_SIGN)
    text = re.sub(" {2,}", " ", text.replace("''", '"')).strip()
    if not text:
        raise AnswerError("unreadable", "Nothing was typed. Write a number and its unit.")
    if any(each.isnumeric() and not each.isascii() for each in text):
        raise AnswerError("unreadable", "Write the number with the digits 0 to 9.")
    return text


def _ask_back_if_the_other_mark_reads(plain: str, asked: str, comma: bool, register_name: str) -> None:
    try:
        other = _read(plain, asked, not comma, register_name)
    except AnswerError:
        return
    ours, typed = ("comma", "point") if comma else ("point", "comma")
    raise AnswerError("ask-back", f"Write decimals with a {ours}, not a {typed}. Did you mean {other.shown(comma)}?")


def _read(plain: str, asked: str, comma: bool, register_name: str) -> Quantity:
    found = FEET_AND_INCHES.fullmatch(plain)
    if found:
        return _in_register(_feet_and_inches(found, comma), "ft", register_name)
    value, rest = _leading_number(plain, comma)
    if abs(value) > LARGEST:
        raise AnswerError("unreadable", "That number is too large to be meant.")
    if abs(value) < SMALLEST and NOT_NOUGHT.match(plain.removesuffix(rest)):
        raise AnswerError("unreadable", "That number is too small to be meant.")
    if not rest:
        return Quantity(float(value), asked, register_name, value)
    return _in_register(value, rest, register_name)


@functools.cache
def _number(comma: bool) -> re.Pattern[str]:
    group, mark = ("[.]", ",") if comma else (",", "[.]")
    whole = rf"[1-9]\d{{0,2}}(?:{group}\d{{3}})+(?![\d/])|[1-9]\d{{0,2}}(?: \d{{3}})+(?![\d/])|\d+"
    return re.compile(rf"([+-]?) ?((?:{whole})(?:{mark}\d*)?|{mark}\d+)(?![\d.,]){EXPONENT}")


def _leading_number(plain: str, comma: bool) -> tuple[Fraction, str]:
    """The number that the text begins with, and the rest of it."""
    found = FRACTION.match(plain)
    if found:
        return _fraction(found), plain[found.end() :].strip()
    found = _number(comma).match(plain)
    if not found:
        raise AnswerError("unreadable", f"“{plain}” does not begin with a number that can be read.")
    sign, digits, power, power_of_ten = found.groups()
    decimal = digits.replace(".", "") if comma else digits.replace(",", "")
    decimal = decimal.replace(" ", "").replace(",", ".")
    value = Fraction(f"{sign}{decimal}e{power or power_of_ten or 0}")
    return value, plain[found.end() :].strip()


def _fraction(found: re.Match[str]) -> Fraction:
    sign, whole, over, under = found.groups()
    if int(under) == 0 or (whole and int(over) >= int(under)):
        raise AnswerError("unreadable", f"“{found[0].strip()}” is not a fraction that can be read.")
    value = int(whole or 0) + Fraction(int(over), int(under))
    return -value if sign == "-" else value


def _feet_and_inches(found: re.Match[str], comma: bool) -> Fraction:
    sign, feet, *inches = found.groups()
    inches = inches[0] or inches[1]
    more, rest = _leading_number(inches, comma)
    if rest or more >= 12:
        raise AnswerError(
            "unreadable", f"“{inches}” inches beside feet can't be read. Inches there run from 0 to under 12."
        )
    value = int(feet) + more / 12
    return -value if sign == "-" else value


def _in_register(value: Fraction, unit_text: str, register_name: str) -> Quantity:
    unit_text = MARKS_IN_WORDS.get(unit_text, unit_text)
    found = spellings().get(_bare(unit_text), {})
    if register_name in found and unit_text != CAPITAL_T:
        return Quantity(float(value), found[register_name].symbol, register_name, value)
    asked = register(register_name).title
    if _bare(unit_text) in ("ton", "tons") or unit_text == CAPITAL_T:
        if register_name not in ("load", "mass"):
            raise AnswerError("other-dimension", OTHER_DIMENSION.format(given="a load", unit=unit_text, asked=asked))
        raise AnswerError("ask-back", WHICH_TON)
    if found:
        given = register(next(iter(found))).title
        raise AnswerError("other-dimension", OTHER_DIMENSION.format(given=given, unit=unit_text, asked=asked))
    if unit_text in ("k", "K"):
        raise AnswerError("ask-back", THOUSAND_OF_WHAT.format(unit=unit_text))
    if told := SAID_OTHERWISE.get(_bare(unit_text)):
        raise AnswerError("unreadable", told)
    if NO_UNIT.match(unit_text):
        raise AnswerError("unreadable", f"After the number comes “{unit_text}”. Write one number and its unit.")
    raise AnswerError("unreadable", f"“{unit_text}” is not a unit that this course knows for {asked}.")


@functools.cache
def spellings() -> dict[str, dict[str, Unit]]:
    """The one list of unit spellings, without case, spaces, points, dots and dashes: spelling -> register -> unit."""
    found: dict[str, dict[str, Unit]] = {}
    for each in registers().values():
        for one in each.units.values():
            for spelling in (one.symbol.translate(SUPERSCRIPTS), *one.also):
                if spelling:
                    found.setdefault(_bare(spelling), {}).setdefault(each.name, one)
    return found


def _bare(spelling: str) -> str:
    return JOINERS.sub("", spelling.translate(SAME_SIGN)).lower()
