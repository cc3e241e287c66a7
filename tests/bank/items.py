"""One sound numeric item as text, and one of each other kind, for tests to spoil."""

from question_bank.bank import read_file
from question_bank.check import check_item
from question_bank.errors import BankError

SOUND = """
[left-over]
kind = "numeric"
title = "What is left on the plate"
lesson = "units/force-mass-weight"
stem = "A hook is rated {rating} and carries {hook_load}. What is left, in {asked}?"
asks = "left"
unit = { us = "klbf", metric = "kN" }
tolerance = { relative = 0.01 }
plausible = ["355 kN", "1,425 kN"]
caution = "C-10"
source = "statics"
check = { given = { rating = "500 klbf", hook_load = "300 klbf" }, gives = "200 klbf", by = "by hand: 500 − 300" }

[left-over.givens]
rating = { us = { from = 500, to = 600, step = 10, unit = "klbf" }, metric = { from = 2225, to = 2675, step = 25, unit = "kN" } }
hook_load = { us = { from = 300, to = 400, step = 10, unit = "klbf" }, metric = { from = 1325, to = 1775, step = 25, unit = "kN" } }

[[left-over.steps]]
name = "left"
find = "what is left"
formula = "rating - hook_load"

[[left-over.mistakes]]
name = "added"
formula = "rating + hook_load"
tell = "You added what hangs there already."
gives = "800 klbf"
"""  # noqa: E501  an inline table of TOML stands on one line

COUNTED = """
[legs-on-lines]
kind = "numeric"
title = "Legs on lines"
lesson = "units/force-mass-weight"
stem = "A block hangs on {lines} lines; a string-up like it has {legs} legs. How many are they together?"
asks = "together"
unit = ""
register = "count"
tolerance = { exact = true }
plausible = ["6", "20"]
source = "arithmetic"
check = { given = { lines = 8, legs = 2 }, gives = "10", by = "by hand: 8 + 2" }

[legs-on-lines.givens]
lines = { register = "count", among = [6, 8, 10] }
legs = { register = "count", by = "lines", table = { 6 = 2, 8 = 2, 10 = 4 } }

[[legs-on-lines.steps]]
name = "together"
find = "both together"
formula = "lines + legs"
"""

CHOICE = """
[which-ton]
kind = "choice"
title = "Which ton"
lesson = "units/force-mass-weight"
stem = "A plate says 500 st. Which ton is it?"
options = [
    { text = "The short ton", right = true },
    { text = "The long ton", tell = "That is 2,240 lb." },
    { text = "The tonne", tell = "That is 1,000 kg." },
]
source = "Definitions of the units"
"""

ORDER = """
[make-up]
kind = "order"
title = "Make up a joint"
lesson = "units/force-mass-weight"
stem = "Put the steps in order."
steps = ["Clean", "Dope", "Stab", "Spin", "Torque"]
accept = [[1, 0, 2, 3, 4]]
why = "Dope goes on a clean thread."
source = "Common practice, no source"
"""

MATCH = """
[what-it-is]
kind = "match"
title = "What it is"
lesson = "units/force-mass-weight"
stem = "Match them."
pairs = [["lbf", "a force"], ["kN", "a force"], ["kg", "a mass"], ["ft", "a length"]]
source = "Definitions of the units"
"""

CARD = """
[one-ton]
kind = "card"
title = "One ton"
lesson = "units/force-mass-weight"
front = "One short ton in lb?"
back = "{{=2,000 lb}}."
source = "Definitions of the units"
"""

ESTIMATE = """
[roughly]
kind = "estimate"
title = "Roughly in the other unit"
lesson = "units/force-mass-weight"
stem = "The gauge shows {pull}. About what is that in {asked}?"
asks = "other"
unit = { us = "kN", metric = "klbf" }
tolerance = { range = 0.1 }
plausible = ["95 klbf", "410 klbf"]
why = "Four and a half times as many."
source = "definitions"
check = { given = { pull = "100 klbf" }, gives = "444.82 kN", by = "by hand: 100 × 4.448222" }

[roughly.givens]
pull = { us = { from = 100, to = 400, step = 10, unit = "klbf" }, metric = { from = 440, to = 1800, step = 20, unit = "kN" } }

[[roughly.steps]]
name = "other"
find = "pull"
formula = "pull"

[roughly.quick]
formula = { us = "pull / klbf * 4.5 * kN", metric = "pull / kN / 4.5 * klbf" }
gives = { us = "450 kN", metric = "98.849 klbf" }

[[roughly.mistakes]]
name = "number-copied"
formula = { us = "pull * kN / klbf", metric = "pull * klbf / kN" }
tell = "You kept the number."
gives = { us = "100 kN", metric = "444.82 klbf" }

[[roughly.mistakes]]
name = "wrong-way-round"
formula = { us = "pull * kN ** 2 / klbf ** 2", metric = "pull * klbf ** 2 / kN ** 2" }
tell = "You went the wrong way round."
gives = { us = "22.481 kN", metric = "1978.6 klbf" }
"""  # noqa: E501

GAUGE = """
[dial]
kind = "gauge"
title = "A dial"
lesson = "units/force-mass-weight"
stem = "What does the gauge show?"
word = "weight"
source = "arithmetic"

[[dial.dials]]
systems = ["us"]
unit = "klbf"
from = 0
to = 400
mark = 10
numbered = 50
reads = { from = 105, to = 385 }
taken_for = [1, 5]
check = { reading = "285 klbf", after = 250, before = 300, marks = 3.5, way = 0.7125, by = "by hand: 250 + 3.5 × 10" }

[[dial.dials]]
systems = ["metric"]
unit = "kN"
from = 0
to = 1800
mark = 50
numbered = 200
reads = { from = 475, to = 1725 }
taken_for = [10]
check = { reading = "1,125 kN", after = 1000, before = 1200, marks = 2.5, way = 0.625, by = "by hand: 1,000 + 125" }
"""


def item(text=SOUND, *changes):
    """The item of a text after (old, new) changes, each of which must be there to be made."""
    for old, new in changes:
        assert text.count(old) >= 1, f"{old!r} is not in the text"
        text = text.replace(old, new, 1)
    (found,) = read_file("units/tried.toml", "units", text)
    return found


def faults(text, *changes, seeds=20):
    """The faults of the item of that text: on reading it, else those that the check finds with so many seeds."""
    try:
        return list(check_item(item(text, *changes), seeds))
    except BankError as error:
        return [error]
