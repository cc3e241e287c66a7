"""Bearings that turn under load: how many turns they make and how long they last in swivel, top drive and sheaves."""

from question_bank.equations import printed
from question_bank.formulas.formula import Load, Ratio, Time, Turning, Turns, registered


@registered(
    symbols="n N t",
    us=printed("60 × {turning} × {time}", "turns", turning="rpm", time="h"),
    metric=printed("60 × {turning} × {time}", "turns", turning="rpm", time="h"),
    holds={"turning": (10, 300, "rpm"), "time": (1, 5_000, "h")},
    source="arithmetic (derived here)",
)
def turns_made(turning: Turning, time: Time) -> Turns:
    """Turns made in a time at a steady turning speed.

    Takes a turning and a time; gives turns. Holds at steady speed. Leaves out stops. Source: derived here.
    """
    return turning * time


@registered(
    symbols="L C P p N",
    us=printed(
        "1,000,000 / (60 × {turning}) × ({rating} / {load})^{exponent}",
        "h", rating="lbf", load="lbf", exponent="", turning="rpm",
    ),
    metric=printed(
        "1,000,000 / (60 × {turning}) × ({rating} / {load})^{exponent}",
        "h", rating="kN", load="kN", exponent="", turning="rpm",
    ),
    holds={
        "rating": (50_000, 1_000_000, "lbf"), "load": (10_000, 500_000, "lbf"),
        "exponent": (3, 10 / 3, ""), "turning": (40, 1_500, "rpm"),
    },
    source="ISO 281:2007, as a bearing maker's page gives it",
)  # fmt: skip
def bearing_life(rating: Load, load: Load, exponent: Ratio, turning: Turning) -> Time:
    """Hours that nine of ten bearings last, from the rating for one million turns.

    Takes two loads, a ratio (3 for balls, 10/3 for rollers) and a turning; gives a time. Holds in clean oil at steady
    load. Leaves out dirt, heat and shock: noise or play retires a swivel at once. Source: ISO 281:2007.
    """
    return 1_000_000 / turning * (rating / load) ** exponent


@registered(
    symbols="L R W p N",
    us=printed(
        "3,000 × ({rating} / {load})^{exponent} × 100 / {turning}",
        "h", rating="lbf", load="lbf", exponent="", turning="rpm",
    ),
    metric=printed(
        "3,000 × ({rating} / {load})^{exponent} × 100 / {turning}",
        "h", rating="kN", load="kN", exponent="", turning="rpm",
    ),
    holds={
        "rating": (100_000, 1_500_000, "lbf"), "load": (50_000, 1_000_000, "lbf"),
        "exponent": (3, 10 / 3, ""), "turning": (40, 300, "rpm"),
    },
    source="oilfield thrust rating for 3,000 h at 100 rpm, as a bearing maker's page gives it; ISO 281:2007",
)  # fmt: skip
def swivel_bearing_life(rating: Load, load: Load, exponent: Ratio, turning: Turning) -> Time:
    """Hours that nine of ten swivel bearings last, from a thrust rating for 3,000 h at 100 rpm.

    Takes two loads, a ratio (3 for balls, 10/3 for rollers) and a turning; gives a time. Holds in clean oil at steady
    load. Leaves out dirt, heat and shock. Source: a bearing maker's page; ISO 281:2007.
    """
    return 3_000 * 3_600 * (rating / load) ** exponent * (100 / 60) / turning
