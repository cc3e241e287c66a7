"""The converter: exact until it is printed, of one meaning, and it says which unit it took."""

from decimal import ROUND_HALF_UP, Context, Decimal
from fractions import Fraction

import pytest

from question_bank.cautions import cautions
from question_bank.converter import CAUTIONS, converted, unit_overruled
from question_bank.numbers import show_exact
from question_bank.reading import AnswerError
from question_bank.units import registers

NUMBERS = ["1", "2.5", "7.25", "12.5", "44,612.37", "100,005", "286", "0.125", "999,995", "0.00037"]
PRECISE = Context(prec=80)


def by_decimal(exact: Fraction) -> Fraction:
    """Rounded to five figures by the standard library's decimals, a half up as on a calculator: common practice."""
    quotient = PRECISE.divide(Decimal(exact.numerator), Decimal(exact.denominator))
    return Fraction(Context(prec=5, rounding=ROUND_HALF_UP).create_decimal(quotient))


def plain(printed: str) -> Fraction:
    return Fraction(printed.replace(",", "").replace("−", "-"))


@pytest.mark.parametrize("name", registers())
@pytest.mark.parametrize("number", NUMBERS)
def test_every_row_is_rounded_once_from_the_exact_value(name, number):
    units = registers()[name].units
    for typed in filter(None, units.values()):
        if not typed.symbol:
            continue
        (read,) = converted(number, f"{name}/{typed.symbol}", False)
        for row in read.rows:
            exact = plain(number) * typed.exact / row.unit.exact
            assert plain(row.number) == (plain(number) if row.given else by_decimal(exact)), (typed.symbol, row)


@pytest.mark.parametrize(
    ("text", "unit", "shown"),
    [
        ("100,005 lbf", "klbf", "100.01"),  # 100.005 by hand: the float lies just below, and a half goes up
        ("1.00005 m", "mm", "1,000.1"),  # 1000.05 by hand
        ("−1.00005 m", "mm", "−1,000.1"),
        ("350 st", "lbf", "700,000"),
        ("1 mile", "ft", "5,280"),
        ("30' 6\"", "in", "366"),
    ],
)
def test_a_half_goes_up(text, unit, shown):
    (read, *_) = converted(text, "", False)
    assert {row.unit.symbol: row.number for row in read.rows}[unit] == shown


@pytest.mark.parametrize(
    ("value", "figures", "shown"),
    [
        ("99999.5", 5, "100,000"),
        ("0.000123455", 5, "0.00012346"),
        ("0", 5, "0"),
        ("-0.5", 3, "−0.5"),
        ("123456", 2, "120,000"),
    ],
)
def test_exact_numbers_are_printed_like_the_others(value, figures, shown):
    assert show_exact(Fraction(value), figures) == shown


@pytest.mark.parametrize(
    ("text", "comma", "shown"),
    [
        ("44,612.37 lb", False, "44,612.37"),
        ("123,456.789 lb", False, "123,456.789"),
        ("1.234.567,5 N", True, "1\u202f234\u202f567,5"),
        ("17-1/2 in", False, "17.5"),
        ("2/3 in", False, "0.666666666666667"),
    ],
)
def test_the_row_that_was_given_keeps_every_figure(text, comma, shown):
    (read, *_) = converted(text, "", comma)
    assert [row.number for row in read.rows if row.given] == [shown]


def test_kilonewtons_are_no_knots():
    """By the SI brochure kN is the kilonewton; kn is a usual sign of the knot. Case alone tells them apart."""
    assert [each.register.name for each in converted("1,400 kN", "", False)] == ["load"]
    assert [each.register.name for each in converted("30 kn", "", False)] == ["speed"]
    with pytest.raises(AnswerError, match=r"kN \(a load\) or kn \(a speed\)") as caught:
        converted("1,400 KN", "", False)
    assert caught.value.outcome == "ask-back"


def test_a_pound_sign_may_be_three_things():
    """Pipe of 19.5 # is lb/ft, mud of 10 # is lb/gal: common practice, no source."""
    with pytest.raises(AnswerError, match=r"lb .*lb/ft .*lb/gal"):
        converted("19.5 #", "", False)
    assert converted("19.5 #", "weight-per-length/kg/m", False)[0].read_as == "19.5 lb/ft"


@pytest.mark.parametrize(
    ("text", "sorts"),
    [("50 lb", ["load", "mass"]), ("50 ft-lb", ["torque", "energy"]), ("50 Nm", ["torque", "energy"])],
)
def test_what_fits_two_sorts_is_shown_as_both(text, sorts):
    assert [each.register.name for each in converted(text, "", False)] == sorts


def test_a_unit_typed_and_another_chosen():
    (read,) = converted("44,600 lb", "load/kN", False)
    assert read.unit == "lb"
    assert unit_overruled(read.unit, "kN") == "You typed lb and chose kN. lb is taken: what you type decides."
    assert unit_overruled("kN", "kN") is None and unit_overruled("kN", "") is None
    with pytest.raises(AnswerError, match=r"You gave a length .*You chose kN"):
        converted("12 ft", "load/kN", False)


def test_a_caution_stands_where_something_can_hurt_and_nowhere_else():
    assert set(CAUTIONS) < set(registers()) and set(CAUTIONS.values()) <= set(cautions())
    assert converted("30 ft", "", False)[0].caution is None
    assert converted("30 min", "", False)[0].caution is None
    assert converted("3,000 psi", "", False)[0].caution == "C-12"
