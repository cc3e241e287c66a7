"""Figures that others have printed, each with its source: what the bank's units and formulas must come to.

To add a row: its id, what it is, how the bank comes to it, the figure as printed, the gap to allow in per cent (wider
where the source rounds), the source, and how the figure is known:

    SEEN    seen on a public page, in the source itself or in a copy that quotes it: counted
    BY_HAND worked out with a pencil from definitions, steps written out in `source`: counted
    MEMORY  remembered, not seen: run like the others, listed apart, not counted
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from question_bank.formulas import formula
from question_bank.units import unit

SEEN, BY_HAND, MEMORY = "seen", "by hand", "from memory"
NIST = "NIST SP 811, Appendix B"
ENERGY_AGENCY = "metric factors table of the US energy agency"
DATA_HANDBOOK = "Drilling Data Handbook page, public copy"
LAPEYROUSE = "Lapeyrouse, wet-pipe example, public copy"
RP_9B = "API RP 9B, 14th edition, Addendum 1 (2020), 2.3.3.4"
WORKSHEET = "anonymous field worksheet of the RP 9B equations"
TON_MILES = "public tutorial after Lapeyrouse, 2nd edition, p. 44"
HANDBOOK = "Lyons, Standard Handbook, Table 4-25"
LENGTHS = "API length ranges, public pages"


@dataclass(frozen=True)
class Row:
    """One printed figure. `allow` is the gap to accept, in per cent of it."""

    id: str
    what: str
    ours: Callable[[], float]
    printed: float
    allow: float
    source: str
    known: str


def turn(number: float, symbol: str, into: str, register: str | None = None) -> Callable[[], float]:
    """A number of one unit in another of the same register, by the bank's factors."""
    return lambda: number * unit(symbol, register).factor / unit(into, register).factor


@dataclass(frozen=True)
class Worked:
    """What one of the bank's formulas gives for these givens, in a unit."""

    name: str
    into: str
    givens: Mapping[str, tuple[float, str]]

    def __call__(self) -> float:
        found = formula(self.name)
        base = {name: number * unit(symbol, found.takes[name]).factor for name, (number, symbol) in self.givens.items()}
        return found(**base) / unit(self.into, found.gives).factor


def worked(name: str, into: str, **givens: tuple[float, str]) -> Worked:
    """worked("fall_time", "s", height=(25, "m")), for a row."""
    return Worked(name, into, givens)


def bore(inches: float) -> float:
    """What a bore holds, in bbl/ft, from its area."""
    return math.pi / 4 * inches**2 * unit("in²").factor / unit("bbl/ft").factor


def horsepower_constant() -> float:
    """Torque in ft·lbf times rpm, over this, is hp."""
    turning = 2 * math.pi * unit("rpm").factor
    return unit("hp").factor / (unit("ft·lbf").factor * turning)


ROWS = [
    Row("U1.sh", "short ton in kg", turn(1, "st", "kg", "mass"), 907.18474, 1e-5, NIST, MEMORY),
    Row("U1.lg", "long ton in kg", turn(1, "lt", "kg", "mass"), 1016.047, 1e-4, ENERGY_AGENCY, SEEN),
    Row("U1.tl", "tonne in lb", turn(1, "t", "lb", "mass"), 2204.623, 1e-4, NIST, MEMORY),
    Row("U1.ex", "500 short tons in t", turn(500, "st", "t", "mass"), 453.6, 0.01, ENERGY_AGENCY, SEEN),
    Row("U2.lbf", "1 lbf in N", turn(1, "lbf", "N"), 4.448222, 1e-4, NIST, MEMORY),
    Row("U2.kip", "1 klbf in kN", turn(1, "klbf", "kN"), 4.448222, 1e-4, NIST, MEMORY),
    Row("U2.tonf", "weight of a short ton in kN", turn(1, "st", "kN"), 8.896443, 1e-4, NIST, MEMORY),
    Row("U2.tf", "weight of a tonne in kN", turn(1, "t", "kN"), 9.80665, 1e-4, NIST, MEMORY),
    Row("U3.ft", "1 ft in m", turn(1, "ft", "m"), 0.3048, 1e-7, NIST, MEMORY),
    Row("U3.mi", "1 mile in m", turn(1, "mile", "m"), 1609.344, 1e-7, NIST, MEMORY),
    Row("U3.fpm", "1 ft/min in m/s", turn(1, "ft/min", "m/s"), 0.00508, 1e-7, NIST, MEMORY),
    Row("U3.rpm", "1 rpm in rad/s", turn(1, "rpm", "rad/s"), 0.1047198, 1e-4, NIST, MEMORY),
    Row("U4.hp", "1 hp in W", turn(1, "hp", "W"), 745.6999, 1e-4, NIST, MEMORY),
    Row("U4.hpm", "1 metric hp in W", turn(1, "metric hp", "W"), 735.4988, 1e-4, NIST, MEMORY),
    Row("U5.t", "1 ft·lbf in N·m", turn(1, "ft·lbf", "N·m"), 1.355818, 1e-4, NIST, MEMORY),
    Row("U6.psi", "1 psi in kPa", turn(1, "psi", "kPa"), 6.894757, 1e-4, NIST, MEMORY),
    Row("U6.bar", "1 bar in psi", turn(1, "bar", "psi"), 14.50377, 1e-4, "handbooks", MEMORY),
    Row("U7.k", "1 lb/ft in kg/m", turn(1, "lb/ft", "kg/m"), 1.488164, 1e-4, NIST, MEMORY),
    Row("U7.e19.5", "19.5 lb/ft in kg/m", turn(19.5, "lb/ft", "kg/m"), 29.02, 0.03, DATA_HANDBOOK, SEEN),
    Row("U7.e16.6", "16.6 lb/ft in kg/m", turn(16.6, "lb/ft", "kg/m"), 24.70, 0.03, DATA_HANDBOOK, SEEN),
    Row("U7.e25.6", "25.6 lb/ft in kg/m", turn(25.6, "lb/ft", "kg/m"), 38.10, 0.03, DATA_HANDBOOK, SEEN),
    Row("U8.ppg", "1 lb/gal in kg/m³", turn(1, "lb/gal", "kg/m³"), 119.8264, 1e-4, NIST, MEMORY),
    Row("U9.gal", "1 US gallon in L", turn(1, "gal", "L"), 3.785412, 1e-4, ENERGY_AGENCY, SEEN),
    Row("U9.bbl", "1 bbl in L", turn(1, "bbl", "L"), 158.9873, 1e-4, ENERGY_AGENCY, SEEN),
    Row("U9.cap", "bbl/ft of a bore of 4.276 in", lambda: bore(4.276), 0.01776, 0.03, LAPEYROUSE, SEEN),
    Row("U9.con", "bore squared over this is bbl/ft", lambda: 1 / bore(1), 1029.4, 0.01, "Lapeyrouse", MEMORY),
    Row("U10.p1", "400,000 lb in t", turn(400_000, "lb", "t"), 181.4, 0.03, RP_9B, SEEN),
    Row("U10.p2", "192,000 lb in t", turn(192_000, "lb", "t"), 87.1, 0.06, RP_9B, SEEN),
    Row("U10.p3", "49,200 lb in t", turn(49_200, "lb", "t"), 22.3, 0.2, RP_9B, SEEN),
    Row("R1.c", "33,000 over 2π", horsepower_constant, 5252.113, 0.001, "public unit-conversion page", SEEN),
    Row("H12.g0", "0.9 of 103,400 lbf in kN", turn(0.9 * 103_400, "lbf", "kN"), 414, 0.6, HANDBOOK, SEEN),
    Row("H12.g2", "0.9 of 159,800 lbf in kN", turn(0.9 * 159_800, "lbf", "kN"), 640, 0.6, HANDBOOK, SEEN),
    Row("H12.g3", "0.9 of 192,000 lbf in kN", turn(0.9 * 192_000, "lbf", "kN"), 769, 0.6, HANDBOOK, SEEN),
    Row("H12.g5", "0.9 of 264,000 lbf in kN", turn(0.9 * 264_000, "lbf", "kN"), 1060, 0.6, HANDBOOK, SEEN),
    Row("H12.g7", "0.9 of 348,000 lbf in kN", turn(0.9 * 348_000, "lbf", "kN"), 1390, 0.6, HANDBOOK, SEEN),
    Row("L5.ft", "1 ton-mile in ft·lbf", lambda: unit("ton-mile").factor / unit("ft·lbf", "energy").factor,
        10_560_000, 1e-7, TON_MILES, SEEN),
    Row("L5.mj", "1 ton-mile in MJ", turn(1, "ton-mile", "MJ", "line-work"), 14.30, 0.15, WORKSHEET, SEEN),
    Row("L7.mj8", "8 ton-mile/ft in MJ/m", turn(8, "ton-mile/ft", "MJ/m"), 375, 0.25, WORKSHEET, SEEN),
    Row("L7.mj20", "20 ton-mile/ft in MJ/m", turn(20, "ton-mile/ft", "MJ/m"), 938, 0.2, WORKSHEET, SEEN),
    Row("S8.r2", "30 ft in m", turn(30, "ft", "m"), 9.144, 1e-4, LENGTHS, SEEN),
    Row("S8.r1", "18 ft in m", turn(18, "ft", "m"), 5.486, 0.01, LENGTHS, SEEN),
    Row("D1.one-second", "fall of 4.903325 m, in s", worked("fall_time", "s", height=(4.903325, "m")), 1, 1e-7,
        "√(2 × 4.903325 / 9.80665) = √1", BY_HAND),
    Row("D1.two-seconds", "fall of 19.6133 m, in s", worked("fall_time", "s", height=(19.6133, "m")), 2, 1e-7,
        "four times the height of one second", BY_HAND),
    Row("D1.feet", "fall of 64.348 ft, in s", worked("fall_time", "s", height=(64.348, "ft")), 2, 0.001,
        "32.174 ft/s² × 2 s × 2 s / 2 = 64.348 ft", BY_HAND),
    Row("D2.one-second", "landing speed after 4.903325 m, in m/s",
        worked("impact_speed", "m/s", height=(4.903325, "m")), 9.80665, 1e-7, "one second of gravity", BY_HAND),
    Row("D2.feet", "landing speed after 64.348 ft, in ft/s", worked("impact_speed", "ft/s", height=(64.348, "ft")),
        64.348, 0.001, "two seconds of 32.174 ft/s²", BY_HAND),
    Row("D2.mast", "landing speed after 30 m, in m/s", worked("impact_speed", "m/s", height=(30, "m")), 24.257, 0.002,
        "√(2 × 9.80665 × 30) = √588.399; 24.257² = 588.40", BY_HAND),
    Row("D3.one", "1 kg from 1 m, in J", worked("drop_energy", "J", mass=(1, "kg"), height=(1, "m")), 9.80665, 1e-7,
        "1 × 9.80665 × 1", BY_HAND),
    Row("D3.pound", "1 lb from 100 ft, in ft·lbf", worked("drop_energy", "ft·lbf", mass=(1, "lb"), height=(100, "ft")),
        100, 1e-7, "a pound weighs a pound-force", BY_HAND),
    Row("D3.shackle", "2 kg from 25 m, in J", worked("drop_energy", "J", mass=(2, "kg"), height=(25, "m")), 490.3325,
        1e-7, "2 × 25 × 9.80665 = 50 × 9.80665", BY_HAND),
    Row("D4.kilogram", "height for 40 J and 1 kg, in m",
        worked("height_for_energy", "m", energy=(40, "J"), mass=(1, "kg")), 4.0789, 0.002,
        "40 / 9.80665; 4.0789 × 9.80665 = 40.0003", BY_HAND),
    Row("D4.pound", "height for 30 ft·lbf and 2 lb, in ft",
        worked("height_for_energy", "ft", energy=(30, "ft·lbf"), mass=(2, "lb")), 15, 1e-7, "30 / 2", BY_HAND),
    Row("W1.kilogram", "weight of 1,000 kg in kN", worked("weight_of", "kN", mass=(1_000, "kg")), 9.80665, 1e-7,
        "1,000 × 9.80665 / 1,000", BY_HAND),
    Row("W1.pound", "weight of 1 lb in lbf", worked("weight_of", "lbf", mass=(1, "lb")), 1, 1e-7,
        "the definition of the pound-force", BY_HAND),
    Row("W2.string", "string under 314.91 klbf with 44,500 lb of block, in klbf",
        worked("string_under_block", "klbf", hook_load=(314.91, "klbf"), travelling_weight=(44_500, "lb")), 270.41,
        1e-7, "314.91 − 44.5", BY_HAND),
    Row("W3.650", "mass under a plate of 650 st, in t", worked("hanging_mass", "t", rating=(650, "st")), 589.67, 1e-3,
        "650 × 0.90718474", BY_HAND),
    Row("H4.st", "hook load for 480,000 lbf on the crown with 10 lines, in lbf",
        worked("crown_rating_as_hook_load", "lbf", crown_rating=(480_000, "lbf"), lines=(10, "")), 400_000, 1e-7,
        "university lecture slides, static derrick load", SEEN),
]  # fmt: skip
