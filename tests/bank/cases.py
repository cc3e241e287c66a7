"""A case of three items as text, for tests to draw and to spoil."""

from question_bank.bank import Bank, read_file
from question_bank.case_files import read_case
from question_bank.check_cases import check_case
from question_bank.errors import BankError
from tests.bank.items import CARD, CHOICE

ITEMS = """
[buoyancy-of-mud]
kind = "numeric"
title = "Buoyancy of a mud"
lesson = "units/force-mass-weight"
stem = "The mud weighs {mud}. What is the buoyancy factor of steel in it?"
asks = "factor"
unit = ""
register = "ratio"
tolerance = { absolute = "0.002" }
plausible = ["0.7", "0.9"]
source = "Lapeyrouse, 2nd ed."
check = { given = { mud = "12.5 lb/gal" }, gives = "0.8092", by = "by hand: 1 − 12.5 / 65.5" }

[buoyancy-of-mud.givens]
mud = { us = { from = 9, to = 18, step = 0.5, unit = "lb/gal" }, metric = { from = 1080, to = 2150, step = 10, unit = "kg/m³" } }

[[buoyancy-of-mud.steps]]
name = "factor"
find = "buoyancy factor"
formula = "buoyancy_factor(mud)"

[string-in-mud]
kind = "numeric"
title = "A string in mud"
lesson = "units/force-mass-weight"
stem = "In air a string weighs {air_weight}. The buoyancy factor is {buoyancy}. What does it weigh in the mud, in {asked}?"
asks = "string"
unit = { us = "klbf", metric = "kN" }
tolerance = { relative = 0.01 }
plausible = ["400 kN", "1,900 kN"]
caution = "C-10"
source = "Lapeyrouse, 2nd ed."
check = { given = { air_weight = "200 klbf", buoyancy = 0.8 }, gives = "160 klbf", by = "by hand: 200 × 0.8" }

[string-in-mud.givens]
air_weight = { us = { from = 150, to = 450, step = 5, unit = "klbf" }, metric = { from = 660, to = 2000, step = 10, unit = "kN" } }
buoyancy = { register = "ratio", among = [0.7, 0.75, 0.8, 0.85, 0.9] }

[[string-in-mud.steps]]
name = "string"
find = "string in mud"
formula = "string_in_mud(air_weight, buoyancy)"

[[string-in-mud.mistakes]]
name = "not-lightened"
formula = "air_weight"
tell = "You left the mud out. It carries part of the string."
gives = "200 klbf"

[hook-load]
kind = "numeric"
title = "The load on the hook"
lesson = "units/force-mass-weight"
stem = "In the mud the string weighs {string}, and what travels weighs {gear}. What is the hook load, in {asked}?"
asks = "load"
unit = { us = "klbf", metric = "kN" }
tolerance = { relative = 0.01 }
plausible = ["450 kN", "2,200 kN"]
source = "statics"
check = { given = { string = "160 klbf", gear = "40 klbf" }, gives = "200 klbf", by = "by hand: 160 + 40" }

[hook-load.givens]
string = { us = { from = 100, to = 400, step = 5, unit = "klbf" }, metric = { from = 450, to = 1780, step = 10, unit = "kN" } }
gear = { us = { from = 20, to = 50, step = 5, unit = "klbf" }, metric = { from = 90, to = 220, step = 10, unit = "kN" } }

[[hook-load.steps]]
name = "load"
find = "hook load"
formula = "string + gear"
"""  # noqa: E501  an inline table of TOML stands on one line

CASE = """
title = "From air to hook"
module = "units"
story = "A string of {air_weight} in air goes into the mud. Each ton is {{=2,000 lb}}."
source = "Test"

[givens]
air_weight = { label = "string in air", us = { from = 200, to = 400, step = 10, unit = "klbf" }, metric = { from = 900, to = 1800, step = 50, unit = "kN" } }
mud = { label = "mud weight", us = { from = 9, to = 16, step = 0.5, unit = "lb/gal" }, metric = { from = 1080, to = 1900, step = 20, unit = "kg/m³" } }

[[parts]]
item = "units.buoyancy-of-mud"
given = { mud = "mud" }

[[parts]]
item = "units.string-in-mud"
given = { air_weight = "air_weight", buoyancy = "part 1" }

[[parts]]
item = "units.which-ton"

[[parts]]
item = "units.hook-load"
given = { string = "part 2" }
"""  # noqa: E501


def bank(*changes):
    """The bank of these items after (old, new) changes, each of which must be there to be made."""
    return Bank(read_file("units/tried.toml", "units", changed(ITEMS + CHOICE + CARD, *changes)))


def case(*changes, items=()):
    """The case of the text after (old, new) changes, over the bank of the items after theirs."""
    return read_case("cases/tried.toml", "tried", changed(CASE, *changes), bank(*items))


def faults(*changes, items=(), seeds=20):
    """The faults of that case: on reading it, else those that the check finds with so many seeds."""
    try:
        return list(check_case(case(*changes, items=items), seeds))
    except BankError as error:
        return [error]


def changed(text, *changes):
    """The text with each old made new once."""
    for old, new in changes:
        assert text.count(old) >= 1, f"{old!r} is not in the text"
        text = text.replace(old, new, 1)
    return text
