"""Making connections: tong pull and torque, how high the joint may stand, how many connections, and the depth book."""

import math

from question_bank.equations import printed
from question_bank.formulas.formula import (
    Count,
    Length,
    Load,
    SectionModulus,
    Speed,
    Stress,
    Time,
    Torque,
    Turns,
    registered,
)  # fmt: skip
from question_bank.rounding import rounded_up, whole_part

LEVER = "mechanics; torque values are stated for a square pull (API RP 7G, not seen in the original)"
HEIGHT = "mechanics; 0.059 and 0.042 on a handbook page based on API RP 7G 7.9, seen, with no factor in them"
ARITHMETIC = "arithmetic (derived here)"


@registered(
    symbols="T F L a",
    us=printed("{line_pull} × {tong_arm} × sine({angle})", "ft·lbf", line_pull="lbf", tong_arm="ft", angle="°"),
    metric=printed("{line_pull} × {tong_arm} × sine({angle})", "kN·m", line_pull="kN", tong_arm="m", angle="°"),
    holds={"line_pull": (500, 30_000, "lbf"), "tong_arm": (2.5, 6, "ft"), "angle": (45, 135, "°")},
    source=LEVER,
)
def tong_torque(line_pull: Load, tong_arm: Length, angle: Turns) -> Torque:
    """Torque that a tong puts on the joint. `angle` is between arm and line: square is 90°, and all else gives less.

    Takes a load, a length (pipe centre to line) and an angle in turns; gives a torque. Holds for a steady pull. Leaves
    out friction of the dope and the weight of the tong. Source: mechanics; API RP 7G.
    """
    return line_pull * tong_arm * math.sin(2 * math.pi * angle)


@registered(
    symbols="T F L",
    us=printed("{line_pull} × {tong_arm}", "ft·lbf", line_pull="lbf", tong_arm="ft"),
    metric=printed("{line_pull} × {tong_arm}", "kN·m", line_pull="kN", tong_arm="m"),
    holds={"line_pull": (500, 60_000, "lbf"), "tong_arm": (1.5, 6, "ft")},
    source=LEVER,
)
def square_tong_torque(line_pull: Load, tong_arm: Length) -> Torque:
    """Torque that a tong puts on the joint when the line pulls square to the arm.

    Takes a load and a length (pipe centre to line); gives a torque. Holds at 90° only. Leaves out all that a line out
    of square loses. Source: mechanics; API RP 7G.
    """
    return line_pull * tong_arm


@registered(
    symbols="F T L a",
    us=printed("{torque} / ({tong_arm} × sine({angle}))", "lbf", torque="ft·lbf", tong_arm="ft", angle="°"),
    metric=printed("{torque} / ({tong_arm} × sine({angle}))", "kN", torque="kN·m", tong_arm="m", angle="°"),
    holds={"torque": (2_000, 80_000, "ft·lbf"), "tong_arm": (2.5, 6, "ft"), "angle": (45, 135, "°")},
    source=LEVER,
)
def tong_line_pull(torque: Torque, tong_arm: Length, angle: Turns) -> Load:
    """Line pull that a make-up torque needs with the line at `angle` to the arm.

    Takes a torque, a length and an angle in turns; gives a load. Holds for a steady pull. Leaves out friction of the
    dope; snub line and jerk line must stand more than this. Source: mechanics; API RP 7G.
    """
    return torque / (tong_arm * math.sin(2 * math.pi * angle))


@registered(
    symbols="F T L",
    us=printed("{torque} / {tong_arm}", "lbf", torque="ft·lbf", tong_arm="ft"),
    metric=printed("{torque} / {tong_arm}", "kN", torque="kN·m", tong_arm="m"),
    holds={"torque": (2_000, 80_000, "ft·lbf"), "tong_arm": (2.5, 6, "ft")},
    source=LEVER,
)
def square_line_pull(torque: Torque, tong_arm: Length) -> Load:
    """Line pull that a make-up torque needs when the line is square to the arm.

    Takes a torque and a length; gives a load. Holds at 90° only. Leaves out all that a line out of square loses.
    Source: mechanics; API RP 7G.
    """
    return torque / tong_arm


@registered(
    symbols="H Y L Z T",
    us=printed(
        "0.05893 × {yield_strength} × {tong_arm} × {section_modulus} / {torque}",
        "ft", yield_strength="psi", tong_arm="ft", section_modulus="in³", torque="ft·lbf",
    ),
    metric=printed(
        "0.7071 × {yield_strength} × {tong_arm} × {section_modulus} / {torque}",
        "m", yield_strength="MPa", tong_arm="m", section_modulus="cm³", torque="N·m",
    ),
    holds={
        "yield_strength": (75_000, 135_000, "psi"), "tong_arm": (2.5, 6, "ft"),
        "section_modulus": (1, 15, "in³"), "torque": (3_000, 60_000, "ft·lbf"),
    },
    source=HEIGHT,
)  # fmt: skip
def joint_height_tongs_square(
    yield_strength: Stress, tong_arm: Length, section_modulus: SectionModulus, torque: Torque
) -> Length:
    """Greatest height of the joint above the slips with the two tongs at 90°, before the pipe bends for good.

    Takes a stress, a length, a section-modulus (I/C) and a torque; gives a length. Holds at the yield of the pipe
    body. Leaves out any reserve: keep the joint lower, as the procedure says. Source: mechanics, see HEIGHT.
    """
    return yield_strength * tong_arm * section_modulus / (math.sqrt(2) * torque)


@registered(
    symbols="H Y L Z T",
    us=printed(
        "0.04167 × {yield_strength} × {tong_arm} × {section_modulus} / {torque}",
        "ft", yield_strength="psi", tong_arm="ft", section_modulus="in³", torque="ft·lbf",
    ),
    metric=printed(
        "0.5 × {yield_strength} × {tong_arm} × {section_modulus} / {torque}",
        "m", yield_strength="MPa", tong_arm="m", section_modulus="cm³", torque="N·m",
    ),
    holds={
        "yield_strength": (75_000, 135_000, "psi"), "tong_arm": (2.5, 6, "ft"),
        "section_modulus": (1, 15, "in³"), "torque": (3_000, 60_000, "ft·lbf"),
    },
    source=HEIGHT,
)  # fmt: skip
def joint_height_tongs_opposed(
    yield_strength: Stress, tong_arm: Length, section_modulus: SectionModulus, torque: Torque
) -> Length:
    """Greatest height of the joint above the slips with the two tongs at 180°: both lines bend the pipe one way.

    Takes a stress, a length, a section-modulus (I/C) and a torque; gives a length. Holds at the yield of the pipe
    body. Leaves out any reserve: keep the joint lower, as the procedure says. Source: mechanics, see HEIGHT.
    """
    return yield_strength * tong_arm * section_modulus / (2 * torque)


@registered(
    symbols="c I L",
    us=printed("roundup({interval} / {added_length})", "", interval="ft", added_length="ft"),
    metric=printed("roundup({interval} / {added_length})", "", interval="m", added_length="m"),
    holds={"interval": (200, 20_000, "ft"), "added_length": (27, 135, "ft")},
    source=ARITHMETIC,
)
def connections_for(interval: Length, added_length: Length) -> Count:
    """Connections to drill an interval, each adding a single, a double or a stand: the last part of one counts.

    Takes two lengths; gives a count. Holds where kelly or stand starts fully up. Leaves out what is made up already.
    Source: derived here.
    """
    return rounded_up(interval / added_length)


@registered(
    symbols="t c tc",
    us=printed("{times} × {time_each} / 60", "h", times="", time_each="min"),
    metric=printed("{times} × {time_each} / 60", "h", times="", time_each="min"),
    holds={"times": (1, 600, ""), "time_each": (1, 30, "min")},
    source=ARITHMETIC,
)
def time_for_all(times: Count, time_each: Time) -> Time:
    """Time for a number of connections, or of stands on a trip, at an average time each.

    Takes a count and a time; gives a time. Holds for planning; it is no target that hurries anybody. Leaves out what
    goes wrong. Source: derived here.
    """
    return times * time_each


@registered(
    symbols="t I R",
    us=printed("{interval} / {drilling_rate}", "h", interval="ft", drilling_rate="ft/h"),
    metric=printed("{interval} / {drilling_rate}", "h", interval="m", drilling_rate="m/h"),
    holds={"interval": (10, 20_000, "ft"), "drilling_rate": (3, 400, "ft/h")},
    source=ARITHMETIC,
)
def time_on_bottom(interval: Length, drilling_rate: Speed) -> Time:
    """Hours with the bit on bottom to make an interval, or one stand of it.

    Takes a length and a speed; gives a time. Holds at a steady rate. Leaves out connections. Source: derived here.
    """
    return interval / drilling_rate


@registered(
    symbols="Re I R tc",
    us=printed(
        "{interval} / ({interval} / {drilling_rate} + {connection_time})",
        "ft/h", interval="ft", drilling_rate="ft/h", connection_time="h",
    ),
    metric=printed(
        "{interval} / ({interval} / {drilling_rate} + {connection_time})",
        "m/h", interval="m", drilling_rate="m/h", connection_time="h",
    ),
    holds={"interval": (100, 20_000, "ft"), "drilling_rate": (5, 300, "ft/h"), "connection_time": (0.1, 60, "h")},
    source=ARITHMETIC,
)  # fmt: skip
def effective_rate(interval: Length, drilling_rate: Speed, connection_time: Time) -> Speed:
    """Rate over drilling and connections together: what the interval really makes per hour.

    Takes a length, a speed (on bottom) and a time (of all its connections); gives a speed. Holds at a steady rate.
    Leaves out trips, surveys and repairs. Source: derived here.
    """
    return interval / (interval / drilling_rate + connection_time)


@registered(
    symbols="D B P K",
    us=printed("{bha} + {drill_pipe} + {kelly}", "ft", bha="ft", drill_pipe="ft", kelly="ft"),
    metric=printed("{bha} + {drill_pipe} + {kelly}", "m", bha="m", drill_pipe="m", kelly="m"),
    holds={"bha": (50, 2_000, "ft"), "drill_pipe": (100, 25_000, "ft"), "kelly": (10, 60, "ft")},
    source="pipe tally from the rotary table down (common practice, no source)",
)
def kelly_down_depth(bha: Length, drill_pipe: Length, kelly: Length) -> Length:
    """Depth of the bit when the kelly, or the stand on a top drive, is drilled down to the rotary table.

    Takes three lengths; gives a length. Holds for depth from the rotary table. Leaves out stretch of the string.
    Source: common practice, no source.
    """
    return bha + drill_pipe + kelly


@registered(
    symbols="d D U",
    us=printed("{kelly_down} − {kelly_up}", "ft", kelly_down="ft", kelly_up="ft"),
    metric=printed("{kelly_down} − {kelly_up}", "m", kelly_down="m", kelly_up="m"),
    holds={"kelly_down": (300, 25_000, "ft"), "kelly_up": (0, 60, "ft")},
    source="pipe tally from the rotary table down (common practice, no source)",
)
def bit_depth(kelly_down: Length, kelly_up: Length) -> Length:
    """Depth of the bit with `kelly_up` of kelly or stand still above the rotary table.

    Takes two lengths; gives a length. Holds for depth from the rotary table. Leaves out stretch of the string.
    Source: common practice, no source.
    """
    return kelly_down - kelly_up


@registered(
    symbols="n L Lm c",
    us=printed(
        "whole(({length_now} − {least_length}) / {cut_length})",
        "", length_now="in", least_length="in", cut_length="in",
    ),
    metric=printed(
        "whole(({length_now} − {least_length}) / {cut_length})",
        "", length_now="mm", least_length="mm", cut_length="mm",
    ),
    holds={"length_now": (15, 40, "in"), "least_length": (8, 14.5, "in"), "cut_length": (0.25, 2, "in")},
    source=ARITHMETIC,
)  # fmt: skip
def recuts_left(length_now: Length, least_length: Length, cut_length: Length) -> Count:
    """How often a saver sub may still be recut before it is shorter than its maker allows. A part of a cut is none.

    Takes three lengths; gives a count. Holds where each recut takes off the same. Leaves out thread damage that needs
    a longer cut. Source: derived here.
    """
    return whole_part((length_now - least_length) / cut_length)


@registered(
    symbols="x L a",
    us=printed("{link_length} × sine({tilt})", "ft", link_length="ft", tilt="°"),
    metric=printed("{link_length} × sine({tilt})", "m", link_length="m", tilt="°"),
    holds={"link_length": (5, 20, "ft"), "tilt": (0, 90, "°")},
    source="geometry (derived here)",
)
def link_reach(link_length: Length, tilt: Turns) -> Length:
    """How far from well centre the lower eyes of the links hang when a link tilt pushes them out.

    Takes a length (eye to eye) and an angle in turns, from plumb; gives a length. Holds for links that hang from ears
    at well centre. Leaves out the elevator below the eyes and the rise that comes with the swing. Source: derived here.
    """
    return link_length * math.sin(2 * math.pi * tilt)
