"""Items on tripping, masts and hoisting solved once more, from the numbers shown and from definitions alone.

Each solver takes the shown numbers by the given's name and gives the answer in the asked unit of its system.
"""

from math import ceil, cos, floor, pi, radians, sin

G = 9.80665
POUND = 0.45359237
FOOT = 0.3048
INCH = 0.0254
KNOT = 1_852 / 3_600
MILE = 1_609.344
GALLON = 231 * INCH**3
BARREL = 42 * GALLON
SHORT_TON = 2_000 * POUND * G
STEEL = 65.5 * POUND / GALLON
"""kg/m3: the 65.5 lb/gal that the course states; 7,850 kg/m3 is the same within 0.02 %."""


def up(number):
    """The next whole number."""
    return ceil(round(number, 9))


def down(number):
    """The whole number below."""
    return floor(round(number, 9))


def both(solver):
    """One solver for both systems, where the units cancel."""
    return {"us": solver, "metric": solver}


def fill(stands, stand_m, kg_per_m):
    """Cubic metres of steel."""
    return stands * stand_m * kg_per_m / STEEL


def pressure_lost(stands, stand_m, steel_m2, hole_m2, mud_kg_m3):
    """Pascals that the mud loses while nobody fills."""
    fall = stands * stand_m * steel_m2 / (hole_m2 - steel_m2)
    return mud_kg_m3 * G * fall


def push_of_wind(metres_a_second, shape, square_metres):
    """Newtons: 0.00338 lbf for a square foot and a knot squared."""
    constant = 0.00338 * POUND * G / FOOT**2 / KNOT**2
    return constant * metres_a_second**2 * shape * square_metres


def stopping(speed, reaction, slowing):
    """Run at full speed, and then to a stand."""
    return speed * reaction + speed**2 / slowing / 2


def setback_pounds(pipe, pipe_weight, heavy, heavy_weight, collars, collar_weight):
    """The sum of the three, in pounds or kilograms."""
    return pipe * pipe_weight + heavy * heavy_weight + collars * collar_weight


ON_THE_FLOOR = {
    "tripping.joints-for-the-section": both(
        lambda start_depth, end_depth, joint_length: up((end_depth - start_depth) / joint_length)
    ),
    "tripping.effective-rate": both(
        lambda stand_length, drilling_rate, connection_time: (
            60 * stand_length / (60 * stand_length / drilling_rate + connection_time)
        )
    ),
    "tripping.hours-from-wrench": both(
        lambda section, joint_length, with_tongs, with_roughneck: (
            up(section / joint_length) * (with_tongs - with_roughneck) / 60
        )
    ),
    "tripping.tong-line-pull": both(lambda torque, tong_arm: torque / tong_arm),
    "tripping.depth-of-the-mousehole": {
        "us": lambda joint_length, box_height: joint_length - box_height / 12,
        "metric": lambda joint_length, box_height: joint_length - box_height / 100,
    },
    "tripping.pull-with-todays-dope": {
        "us": lambda table_torque, dope_factor, tong_arm: 12 * table_torque * dope_factor / tong_arm,
        "metric": lambda table_torque, dope_factor, tong_arm: 100 * table_torque * dope_factor / tong_arm,
    },
    "tripping.torque-out-of-square": both(
        lambda line_pull, tong_arm, angle: line_pull * tong_arm * sin(radians(angle))
    ),
    "tripping.height-in-one-line": {
        "us": lambda yield_strength, pipe_modulus, tong_arm, torque: (
            yield_strength * tong_arm * pipe_modulus / (24 * torque)
        ),
        "metric": lambda yield_strength, pipe_modulus, tong_arm, torque: (
            yield_strength * 1e6 * tong_arm * pipe_modulus * 1e-6 / (2 * torque * 1_000)
        ),
    },
    "tripping.stands-in-the-hole": both(lambda depth, bha, stand_length: (depth - bha) / stand_length),
    "tripping.trip-time": both(lambda stands, time_each, extra_time: (stands * time_each + extra_time) / 60),
    "tripping.stands-to-the-shoe": both(lambda depth, shoe, stand_length: up((depth - shoe) / stand_length)),
    "tripping.fill-for-stands": {
        "us": lambda stands, stand_length, pipe_weight: (
            fill(stands, stand_length * FOOT, pipe_weight * POUND / FOOT) / BARREL
        ),
        "metric": lambda stands, stand_length, pipe_weight: 1_000 * fill(stands, stand_length, pipe_weight),
    },
    "tripping.pressure-lost-unfilled": {
        "us": lambda stands, stand_length, displacement, hole_capacity, mud_weight: (
            pressure_lost(
                stands,
                stand_length * FOOT,
                displacement * BARREL / FOOT,
                hole_capacity * BARREL / FOOT,
                mud_weight * POUND / GALLON,
            )
            / (POUND * G / INCH**2)
        ),
        "metric": lambda stands, stand_length, displacement, hole_capacity, mud_weight: (
            pressure_lost(stands, stand_length, displacement / 1_000, hole_capacity / 1_000, mud_weight) / 1_000
        ),
    },
    "tripping.sheet-so-far": {
        "us": lambda group, each_line, stands_out: stands_out * each_line / group,
        "metric": lambda group, each_line, stands_out: stands_out * each_line / group / 1_000,
    },
    "tripping.short-fill": both(lambda expected, tank_before, tank_now: expected + tank_now - tank_before),
    "masts.guy-line-pull": both(lambda side_load, angle: side_load / cos(radians(angle))),
    "masts.setback-load": {
        "us": setback_pounds,
        "metric": lambda **shown: setback_pounds(**shown) * G / 1_000,
    },
    "masts.rotary-and-setback": both(lambda plate, hanging, racked: plate - hanging - racked),
    "masts.wind-on-the-board": {
        "us": lambda wind, shape, sail_area: (
            push_of_wind(wind * MILE / 3_600, shape, sail_area * FOOT**2) / (POUND * G)
        ),
        "metric": lambda wind, shape, sail_area: push_of_wind(wind / 3.6, shape, sail_area) / 1_000,
    },
    "masts.wind-rises": both(lambda before, now: (now / before) ** 2),
    "masts.fall-clearance": both(lambda **parts: sum(parts.values())),
    "masts.stand-weight": both(lambda joints, joint_length, pipe_weight: joints * joint_length * pipe_weight),
    "masts.board-by-weight": {
        "us": lambda setback_rating, racked, stand_length, pipe_weight: down(
            (setback_rating - racked) / (stand_length * pipe_weight)
        ),
        "metric": lambda setback_rating, racked, stand_length, pipe_weight: down(
            (setback_rating - racked) * 1_000 / (stand_length * pipe_weight * G)
        ),
    },
    "masts.board-by-room": both(lambda sides, fingers, places, stand_length: sides * fingers * places * stand_length),
    "hoisting.fast-line-speed": both(lambda block_speed, lines: block_speed * lines),
    "hoisting.drum-turning": {
        "us": lambda block_speed, lines, barrel, rope, layer: (
            block_speed * lines / (pi * (barrel + (2 * layer - 1) * rope) / 12)
        ),
        "metric": lambda block_speed, lines, barrel, rope, layer: (
            60 * block_speed * lines / (pi * (barrel + (2 * layer - 1) * rope) / 1_000)
        ),
    },
    "hoisting.drum-holds": {
        "us": lambda depth, face, barrel, wound: pi * (barrel + depth) * depth * face / wound**2 / 12,
        "metric": lambda depth, face, barrel, wound: pi * (barrel + depth) * depth * face / wound**2 / 1_000,
    },
    "hoisting.braking-heat": {
        "us": lambda hook_load, speed: hook_load * 1_000 * speed / 33_000,
        "metric": lambda hook_load, speed: hook_load * G * speed,
    },
    "hoisting.lowering-speed-limit": {
        "us": lambda brake_limit, string, travelling_weight: (
            brake_limit * 33_000 / (string * 1_000 + travelling_weight)
        ),
        "metric": lambda brake_limit, string, travelling_weight: (
            brake_limit / (string * G + travelling_weight * G / 1_000)
        ),
    },
    "hoisting.stopping-distance": both(stopping),
    "hoisting.least-tread": both(lambda rope, tread_factor: rope * tread_factor),
    "hoisting.bend-of-the-line": both(lambda outside, groove, rope: (outside - 2 * groove) / rope),
    "hoisting.groove-too-shallow": both(lambda depth_factor, rope, measured: depth_factor * rope - measured),
    "hoisting.fast-sheave-turns": {
        "us": lambda travel, lines, tread, rope: travel * 12 * lines / (pi * (tread + rope)),
        "metric": lambda travel, lines, tread, rope: travel * 1_000 * lines / (pi * (tread + rope)),
    },
    "hoisting.uneven-links": both(lambda hanging, share: hanging * share),
    "hoisting.elevator-used": {
        "us": lambda string, rating: 100 * string / (2 * rating),
        "metric": lambda string, rating: 100 * string * 1_000 / (rating * SHORT_TON),
    },
    "hoisting.worn-links": {
        "us": lambda links, rating, left: 2 * rating * left / links,
        "metric": lambda links, rating, left: rating * SHORT_TON / 1_000 * left / links,
    },
}
