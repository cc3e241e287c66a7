"""Where the constants of the printed equations come from, in words for the formula sheet.

A test works each one out again from what is said here. Numbers that only turn units into one another, or belong to the
form of an equation, are PLAIN and not listed.
"""

import re

PLAIN = frozenset(
    ("0.5", "1", "2", "4", "10", "12", "32", "60", "100", "144", "400", "1,000", "10,000", "60,000", "1,000,000")
)
"""Small whole numbers, powers of ten, minutes, inches: a reader sees what they do."""
NUMBER = re.compile(r"(?<![\w{^.,])\d[\d,]*(?:\.\d+)?")

COMES_FROM = {
    "9.80665": "standard gravity, m/s²; a tonne weighs 9.80665 kN",
    "32.174": "standard gravity, ft/s²",
    "33,000": "ft·lbf a minute in one hp",
    "550": "ft·lbf a second in one hp",
    "5,252": "33,000 / (2 × π)",
    "9,549": "60,000 / (2 × π): W in a kW, seconds in a minute",
    "10,560,000": "2,000 lb in a short ton × 5,280 ft in a mile",
    "21,120,000": "2 × 10,560,000",
    "2,640,000": "10,560,000 / 4",
    "2,000,000": "2 × 1,000,000, kg·m in a t·km",
    "9,806.65": "kN·m in a t·km: 9.80665 × 1,000",
    "65.5": "steel, lb/gal",
    "7,850": "steel, kg/m³",
    "7.85": "steel, kg in a litre",
    "2,751": "steel 65.5 lb/gal × 42 gal in a bbl",
    "3.412": "steel, psi/ft, as a field worksheet has it",
    "77.18": "3.412 psi/ft in kPa/m: × 22.62",
    "1,029.4": "9,702 in³ in a bbl × 4 / (12 × π)",
    "1,273.24": "4,000 / π: mm² into L/m",
    "0.052": "12 / 231, rounded: in in a ft, in³ in a gal",
    "0.009807": "standard gravity / 1,000",
    "735,294": "30,000,000 psi, stiffness of steel / (12 × 3.4 lb/ft for each in²)",
    "26.37": "206,843 MPa, the same stiffness, / 7,843 kg/m³, the same steel",
    "2,500": "30,000,000 psi / 12,000",
    "0.2068": "30,000,000 psi in MPa / 1,000,000",
    "2.67": "3.4 lb/ft for each in² × π / 4",
    "0.00616": "steel 7,843 kg/m³ × π / 4,000,000",
    "0.096167": "0.577, shear yield as a share, × 2 / 12",
    "11.54": "0.577 × 2 × 10, cm⁴ and MPa into N·m",
    "22.918": "144 / (2 × π)",
    "15.915": "100 / (2 × π)",
    "0.05893": "0.7071 / 12",
    "0.7071": "1 / √2: the lines pull at 90°",
    "0.04167": "0.5 / 12: the lines pull one way",
    "1.732": "√3: a rope lies in the valley of two",
    "0.2618": "π / 12",
    "19.25": "231 / 12: in³ in a gal, in in a ft",
    "0.0031416": "π / 1,000",
    "0.00338": "0.04427 × 0.0763 lb/ft³ of air",
    "0.6115": "half of 1.223 kg/m³ of air, the same air",
    "0.04427": "half of (1.688 ft/s in a knot)² / 32.174",
    "1.85": "lb/ft of 1 in rope with a steel core, from rope tables",
    "0.004267": "1.85 lb/ft in kg/m for 1 mm",
    "0.9": "galvanised wire is a tenth weaker, from a handbook",
    "7.25": "longest lay in diameters, from a handbook",
    "1.5": "half as much again for impact, from an old rule",
    "3,000": "hours at 100 rpm that a thrust rating is stated for",
    "6": "slips taper 1 in 6 to the pipe",
    "0.305": "1 ft in m, to spare",
}
"""Number as printed -> where it comes from."""


def constants_in(text: str) -> list[str]:
    """The numbers of a printed equation that need a word, in its order."""
    plain = re.sub(r"\{\w+\}", "", text)
    return [each for each in dict.fromkeys(NUMBER.findall(plain)) if each not in PLAIN]
