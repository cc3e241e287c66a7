"""Every numeric item solved once more, from the numbers as the question shows them and from definitions alone.

Each solver takes the shown numbers by the given's name and the system, and gives the answer in the asked unit.
"""

from math import sqrt

from tests.bank.solved_conversions import CONVERSIONS
from tests.bank.solved_on_the_floor import ON_THE_FLOOR

G = 9.80665
POUND = 0.45359237
POUND_FORCE = POUND * G
FOOT = 0.3048
G_FEET = G / FOOT

SOLVED = {
    "units.hook-load-in-kn": {
        "us": lambda hook_load: hook_load * 1_000 * POUND_FORCE / 1_000,
        "metric": lambda hook_load: hook_load / POUND_FORCE,
    },
    "units.rating-in-tonnes": {
        "us": lambda rating: rating * 2_000 * POUND / 1_000,
        "metric": lambda rating: rating * 1_000 / POUND / 2_000,
    },
    "units.indicator-in-klbf": {
        "us": lambda reading: reading * 10 / POUND_FORCE,
        "metric": lambda reading: reading * POUND_FORCE / 10,
    },
    "units.rating-in-kn": {
        "us": lambda rating: rating * 2_000 * POUND_FORCE / 1_000,
        "metric": lambda rating: rating * 2_000 * POUND_FORCE / 1_000,
    },
    "units.string-under-block": {
        "us": lambda hook_load, travelling_weight: hook_load - travelling_weight / 1_000,
        "metric": lambda hook_load, travelling_weight: hook_load - travelling_weight * G / 1_000,
    },
    "safety.drop-energy": {
        "us": lambda mass, height: mass * height,
        "metric": lambda mass, height: mass * G * height,
    },
    "safety.impact-speed": {
        "us": lambda height: sqrt(2 * G_FEET * height),
        "metric": lambda height: sqrt(2 * G * height),
    },
    "safety.fall-time": {
        "us": lambda height: sqrt(2 * height / G_FEET),
        "metric": lambda height: sqrt(2 * height / G),
    },
    "safety.height-for-forty-joules": {
        "us": lambda energy, mass: energy / mass,
        "metric": lambda energy, mass: energy / (mass * G),
    },
}
SOLVED |= CONVERSIONS | ON_THE_FLOOR
