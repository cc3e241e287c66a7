"""The one list of unit spellings: each leads back to its own unit, whatever its case."""

import pytest

from question_bank.reading import AnswerError, read_quantity
from question_bank.units import registers

SPELLINGS = [
    (register.name, unit.symbol, spelling)
    for register in registers().values()
    for unit in register.units.values()
    for spelling in (unit.symbol, *unit.also)
    if spelling
]
CASES = (str, str.upper, str.lower, str.title, str.swapcase)


def bare(spelling):
    """A spelling as a hurried hand types it: no case, spaces, points, dots, dashes or raised figures."""
    plain = spelling.casefold().replace("²", "2").replace("³", "3")
    return "".join(each for each in plain if each not in " .·*^-")


@pytest.mark.parametrize("register_name, symbol, spelling", SPELLINGS)
def test_a_spelling_reads_back_to_its_own_unit_whatever_its_case(register_name, symbol, spelling):
    for case in CASES:
        if case(spelling) == "T":
            continue  # asked back: see the test below
        for gap in (" ", ""):
            read = read_quantity(f"7{gap}{case(spelling)}", symbol, register_name=register_name)
            assert (read.value, read.unit, read.register) == (7, symbol, register_name), case(spelling)


@pytest.mark.parametrize("register_name, asked", [("load", "kN"), ("load", "t"), ("mass", "t")])
def test_a_capital_t_is_asked_back(register_name, asked):
    """The one spelling whose case decides: a tool plate's T may be the short ton, a tenth less than the tonne."""
    with pytest.raises(AnswerError, match="Which ton") as caught:
        read_quantity("500 T", asked, register_name=register_name)
    assert caught.value.outcome == "ask-back"
    assert read_quantity("500 t", asked, register_name=register_name).unit == "t"


def test_no_two_units_of_a_register_share_a_spelling():
    """Case decides nothing: without case, each spelling still names one unit."""
    owner = {}
    for register_name, symbol, spelling in SPELLINGS:
        first = owner.setdefault((register_name, bare(spelling)), symbol)
        assert first == symbol, f"{spelling!r} is {first} and {symbol} in {register_name}"


def test_a_bare_ton_is_no_spelling():
    assert [row for row in SPELLINGS if bare(row[2]) in ("ton", "tons", "kton", "tonf")] == []


@pytest.mark.parametrize(
    "text, asked, unit",
    [
        ("5 KN", "lbf", "kN"),
        ("5 kdan", "kN", "kdaN"),
        ("5 ft lb", "N·m", "ft·lbf"),
        ("5 ft.lbf", "N·m", "ft·lbf"),
        ("5 ft*lbf", "N·m", "ft·lbf"),
        ("5 n-m", "ft·lbf", "N·m"),
        ("5 m^3", "bbl", "m³"),
        ("5 kg/m3", "lb/gal", "kg/m³"),
        ("5 FPM", "m/s", "ft/min"),
    ],
)
def test_joining_dots_and_dashes_may_be_left_out_or_swapped(text, asked, unit):
    assert read_quantity(text, asked).unit == unit


@pytest.mark.parametrize("symbol", ["lb", "kg", "t", "st", "lt"])
def test_a_unit_with_two_meanings_takes_the_asked_register(symbol):
    assert read_quantity(f"5 {symbol}", "kN").register == "load"
    assert read_quantity(f"5 {symbol}", "kg", register_name="mass").register == "mass"


def test_a_spelling_of_another_register_is_not_taken():
    with pytest.raises(AnswerError) as caught:
        read_quantity("5 kgf", "kg", register_name="mass")
    assert caught.value.outcome == "other-dimension"
