"""What each unit of the table is worth in its register's base unit, by scipy's constants or by definition.

Used by the tests alone. scipy was made by other people from other tables than pint, so that a slip in either shows.
"""

from scipy import constants as c

G = c.g
INCH, MILE = c.inch, c.mile
LB_FT, KG_M = c.lb * G / c.foot, G
FT_LBF = c.foot * c.lbf
TURN = 1.0
BTU = 1055.056
"""The rounded British thermal unit of ISO 31-4, which pint takes. scipy's Btu_IT, 1055.05585262 J, is 1.4e-7 less."""

BY_SCIPY = {
    "load": {
        "lbf": c.lbf, "klbf": 1e3 * c.lbf, "st": c.short_ton * G, "lb": c.lb * G, "lt": c.long_ton * G, "kN": 1e3,
        "N": 1.0, "MN": 1e6, "daN": 10.0, "kdaN": 1e4, "t": c.metric_ton * G, "kg": c.kgf,
    },
    "mass": {"lb": c.lb, "st": c.short_ton, "lt": c.long_ton, "kg": 1.0, "g": c.gram, "t": c.metric_ton},
    "length": {"ft": c.foot, "in": c.inch, "mile": c.mile, "m": 1.0, "mm": 1e-3, "cm": 1e-2, "km": 1e3},
    "area": {"in²": INCH**2, "ft²": c.foot**2, "mm²": 1e-6, "cm²": 1e-4, "m²": 1.0},
    "volume": {
        "bbl": c.bbl, "gal": c.gallon_US, "in³": INCH**3, "ft³": c.foot**3, "L": c.liter, "m³": 1.0, "cm³": 1e-6,
    },
    "capacity": {"bbl/ft": c.bbl / c.foot, "gal/ft": c.gallon_US / c.foot, "L/m": c.liter, "m³/m": 1.0},
    "weight-per-length": {"lb/ft": LB_FT, "kg/m": KG_M, "N/m": 1.0, "kN/m": 1e3},
    "density": {"lb/gal": c.lb / c.gallon_US, "lb/ft³": c.lb / c.foot**3, "kg/m³": 1.0, "SG": 1e3},
    "pressure": {"psi": c.psi, "ksi": 1e3 * c.psi, "bar": c.bar, "kPa": 1e3, "MPa": 1e6, "Pa": 1.0},
    "pressure-per-length": {"psi/ft": c.psi / c.foot, "kPa/m": 1e3, "bar/m": c.bar},
    "torque": {
        "ft·lbf": FT_LBF, "kft·lbf": 1e3 * FT_LBF, "in·lbf": INCH * c.lbf, "N·m": 1.0, "kN·m": 1e3, "daN·m": 10.0,
    },
    "energy": {"ft·lbf": FT_LBF, "Btu": BTU, "J": 1.0, "kJ": 1e3, "MJ": 1e6},
    "line-work": {
        "ton-mile": c.short_ton * G * MILE, "t·km": c.metric_ton * G * 1e3, "MJ": 1e6, "MN·km": 1e9,
    },
    "line-work-per-length": {
        "ton-mile/ft": c.short_ton * G * MILE / c.foot, "t·km/m": c.metric_ton * G * 1e3, "MJ/m": 1e6,
    },
    "power": {"hp": c.hp, "kW": 1e3, "W": 1.0, "MW": 1e6, "metric hp": 75 * c.kgf},
    "speed": {
        "ft/min": c.foot / c.minute, "ft/s": c.foot, "ft/h": c.foot / c.hour, "mph": c.mph, "m/s": 1.0,
        "m/min": 1 / c.minute, "m/h": 1 / c.hour, "km/h": c.kmh, "kn": c.knot,
    },
    "turning": {"rpm": TURN / c.minute, "turns/s": TURN, "rad/s": TURN / (2 * c.pi)},
    "turns": {"turns": TURN, "rad": TURN / (2 * c.pi), "°": c.degree / (2 * c.pi)},
    "flow": {
        "gal/min": c.gallon_US / c.minute, "bbl/min": c.bbl / c.minute, "L/min": c.liter / c.minute,
        "m³/min": 1 / c.minute, "m³/h": 1 / c.hour,
    },
    "time": {"s": 1.0, "min": c.minute, "h": c.hour},
    "acceleration": {"ft/s²": c.foot, "m/s²": 1.0},
    "ratio": {"": 1.0, "%": 0.01},
    "count": {"": 1.0},
    "stress": {"psi": c.psi, "ksi": 1e3 * c.psi, "MPa": 1e6, "GPa": 1e9},
    "section-modulus": {"in³": INCH**3, "cm³": 1e-6, "mm³": 1e-9},
    "second-moment": {"in⁴": INCH**4, "cm⁴": 1e-8, "mm⁴": 1e-12},
}  # fmt: skip

FROM_MEMORY_OF_NIST_SP_811 = [
    # register, unit, worth in the base unit, from memory of Appendix B.8: seven figures, not seen on a NIST page
    ("load", "lbf", 4.448222),
    ("load", "klbf", 4448.222),
    ("load", "st", 8896.443),
    ("load", "kg", 9.80665),
    ("mass", "lb", 0.45359237),
    ("mass", "st", 907.1847),
    ("mass", "lt", 1016.047),
    ("length", "ft", 0.3048),
    ("length", "in", 0.0254),
    ("length", "mile", 1609.344),
    ("volume", "bbl", 0.1589873),
    ("volume", "gal", 0.003785412),
    ("pressure", "psi", 6894.757),
    ("pressure", "bar", 1e5),
    ("torque", "ft·lbf", 1.355818),
    ("torque", "in·lbf", 0.1129848),
    ("energy", "ft·lbf", 1.355818),
    ("energy", "Btu", 1055.056),
    ("power", "hp", 745.6999),
    ("power", "metric hp", 735.4988),
    ("density", "lb/gal", 119.8264),
    ("density", "lb/ft³", 16.01846),
    ("speed", "ft/min", 0.00508),
    ("speed", "mph", 0.44704),
    ("speed", "kn", 0.5144444),
    ("flow", "gal/min", 6.309020e-5),
]
