"""The table of Ten conversions solved once more: one factor each way, from exact definitions alone (NIST SP 811).

A factor is how many of the asked unit one of the given unit is; where both systems turn about one pair of units, the
second is one over the first.
"""

G = 9.80665
POUND = 0.45359237  # kg
POUND_FORCE = POUND * G  # N
FOOT = 0.3048  # m
INCH = 0.0254  # m
MILE = 1_609.344  # m
GALLON = 231 * INCH**3  # m³, the US gallon
PSI = POUND_FORCE / INCH**2  # Pa

THERE_AND_BACK = {
    "units.weight-on-a-tag": POUND,
    "units.string-in-tonnes": 1_000 / POUND / 1_000,
    "units.winch-pull": 10 / POUND_FORCE,
    "units.limit-on-lifting-gear": 1_000 / POUND,
    "units.torque-in-kn-m": FOOT * POUND_FORCE / 1_000,
    "units.power-in-kw": 550 * FOOT * POUND_FORCE / 1_000,
    "units.mud-in-kg-per-m3": POUND / GALLON,
    "units.mud-in-sg": POUND / GALLON / 1_000,
    "units.hose-pressure": PSI / 1e6,
    "units.standpipe-in-bar": PSI / 1e5,
    "units.pipe-weight-per-metre": POUND / FOOT,
    "units.line-size-in-mm": INCH * 1_000,
    "units.mast-height": FOOT,
    "units.block-speed-in-m-per-s": FOOT / 60,
    "units.line-work-in-t-km": 2_000 * POUND / 1_000 * MILE / 1_000,
    "units.trip-tank-in-m3": 42 * GALLON,
}
EACH_ITS_OWN = {"units.plate-as-indicator-shows": (2_000 / 1_000, G)}

FACTORS = {item: (factor, 1 / factor) for item, factor in THERE_AND_BACK.items()} | EACH_ITS_OWN
CONVERSIONS = {
    item: {
        "us": lambda by=us, **given: by * next(iter(given.values())),
        "metric": lambda by=metric, **given: by * next(iter(given.values())),
    }
    for item, (us, metric) in FACTORS.items()
}
