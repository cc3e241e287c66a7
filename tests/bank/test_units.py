"""The trade's units: factors against scipy and NIST SP 811, the registers' walls, and both systems side by side."""

import math

import pytest

from question_bank.reading import read_quantity
from question_bank.units import UnitError, both, register, register_of, registers, unit, unit_constants
from tests.bank.factors import BY_SCIPY, FROM_MEMORY_OF_NIST_SP_811

TABLE = [(each.name, symbol) for each in registers().values() for symbol in each.units]


@pytest.mark.parametrize("register_name, symbol", TABLE)
def test_a_factor_is_what_scipy_says(register_name, symbol):
    """Every unit of the table. A new one needs its worth in factors.py, worked out apart from pint."""
    assert symbol in BY_SCIPY.get(register_name, {}), f"{symbol!r} of {register_name} is not in factors.py. Add it."
    assert unit(symbol, register_name).factor == pytest.approx(BY_SCIPY[register_name][symbol], rel=1e-14)


def test_the_check_knows_no_unit_that_the_table_has_lost():
    assert {(name, symbol) for name, row in BY_SCIPY.items() for symbol in row} <= set(TABLE)


@pytest.mark.parametrize("register_name, symbol, worth", FROM_MEMORY_OF_NIST_SP_811)
def test_a_factor_is_what_nist_prints(register_name, symbol, worth):
    """From memory of NIST SP 811, Appendix B.8: equal to seven figures."""
    assert unit(symbol, register_name).factor == pytest.approx(worth, rel=5e-7)


def test_a_barrel_is_42_gallons():
    assert unit("bbl").factor / unit("gal").factor == pytest.approx(42, rel=1e-15)


def test_turns_are_counted():
    """One rpm is one turn in a minute: not 2 pi radians, which would make 120 rpm 12.57 of something a second."""
    assert unit("rpm").factor * 60 == pytest.approx(1, rel=1e-15)
    assert unit("turns/s").factor == 1
    assert unit("rad/s").factor * 2 * math.pi == pytest.approx(1, rel=1e-15)


def test_a_pound_in_load_is_a_weight_and_in_mass_a_mass():
    assert unit("lb", "load").factor == unit("lbf").factor
    assert unit("lb", "mass").factor == 0.45359237
    assert register("load").dimension == (1, 1, -2)
    assert register("mass").dimension == (1, 0, 0)


@pytest.mark.parametrize("symbol", ["lb", "kg", "st", "lt", "t"])
def test_a_mass_unit_in_load_weighs_at_standard_gravity(symbol):
    assert unit(symbol, "load").factor == pytest.approx(unit(symbol, "mass").factor * 9.80665, rel=1e-15)


def test_no_unit_is_a_bare_ton():
    assert [row for row in TABLE if row[1] in ("ton", "tons", "Ton")] == []
    with pytest.raises(UnitError, match="'ton' is not a unit"):
        unit("ton")


@pytest.mark.parametrize(
    "symbol, name", [("lb", "load"), ("ft·lbf", "torque"), ("MJ", "energy"), ("kN", "load"), ("", "ratio")]
)
def test_a_bare_symbol_belongs_to_the_first_register_that_has_it(symbol, name):
    assert register_of(symbol) == name


@pytest.mark.parametrize("register_name, symbol", TABLE)
def test_a_pair_is_a_unit_of_the_same_register_and_of_the_other_system(register_name, symbol):
    one = unit(symbol, register_name)
    if one.pair is None:
        return
    other = unit(one.pair, register_name)
    assert other.system is not None
    if symbol != "metric hp":
        assert other.system != one.system


@pytest.mark.parametrize(
    "look_up, words",
    [
        (lambda: unit("furlong"), ["'furlong'", "units.toml"]),
        (lambda: unit("ft", "load"), ["'ft'", "a load", "'lbf'"]),
        (lambda: register("heat"), ["'heat'", "load"]),
    ],
)
def test_an_unknown_unit_is_named_beside_those_that_are_known(look_up, words):
    with pytest.raises(UnitError) as caught:
        look_up()
    assert all(word in str(caught.value) for word in words)


@pytest.mark.parametrize("name, register_name, symbol", [
    ("klbf", "load", "klbf"), ("ft_lbf", "torque", "ft·lbf"), ("ft_per_s2", "acceleration", "ft/s²"),
    ("t", "load", "t"),
    ("mass_lb", "mass", "lb"), ("mass_kg", "mass", "kg"), ("J", "energy", "J"), ("ton_mile", "line-work", "ton-mile"),
])  # fmt: skip
def test_a_formula_writes_a_unit_by_its_plain_name(name, register_name, symbol):
    factor, dimension = unit_constants()[name]
    assert factor == unit(symbol, register_name).factor
    assert dimension == register(register_name).dimension


@pytest.mark.parametrize("text, us, metric", [
    ("286 klbf", "286 klbf (1,272 kN)", "1,272 kN (286 klbf)"),
    ("1,272 kN", "286 klbf (1,272 kN)", "1,272 kN (286 klbf)"),
    ("500 st", "500 st (453.6 t)", "453.6 t (500 st)"),
    ("40 J", "29.5 ft·lbf (40 J)", "40 J (29.5 ft·lbf)"),
    ("30 ft", "30 ft (9.14 m)", "9.14 m (30 ft)"),
    ("25 m", "82 ft (25 m)", "25 m (82 ft)"),
    ("0.5 kg", "1.1 lb (0.5 kg)", "0.5 kg (1.1 lb)"),
    ("−5 kN", "−1.1 klbf (−5 kN)", "−5 kN (−1.1 klbf)"),
    ("120 rpm", "120 rpm", "120 rpm"),
    ("3 s", "3 s", "3 s"),
])  # fmt: skip
def test_a_quantity_stands_in_both_systems_the_hands_first(text, us, metric):
    """The companion keeps one figure more than the number it stands beside, from two to four."""
    assert both(text, "us") == us
    assert both(text, "metric") == metric


def test_a_named_companion_is_taken_and_an_unknown_one_refused():
    assert both("500 st", "us", companion="kN") == "500 st (4,448 kN)"
    assert both("40 J", "us", register_name="energy") == both("40 J", "us")
    with pytest.raises(UnitError, match="'m' is not a unit of a load"):
        both("500 st", "us", companion="m")


def test_what_nobody_on_a_rig_writes_is_not_offered_but_is_read():
    """Cubic inches for mud, degrees for laps. Common practice, no source."""
    for name, symbol in (("volume", "in³"), ("turns", "°"), ("load", "MN"), ("pressure", "Pa")):
        row = register(name)
        asked = next(iter(row.units))
        assert symbol in row.units and symbol not in row.offered(asked) and row.offered(asked)[0] == asked
        assert row.offered(symbol)[0] == symbol, "one that is asked is always there"
        assert read_quantity(f"5 {symbol}", asked, register_name=name).unit == symbol
