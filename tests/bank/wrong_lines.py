"""A sound numeric item of three steps and a working made wrong from it, as text, for tests to spoil."""

from question_bank.bank import read_file, resolved
from question_bank.check import check_item
from question_bank.errors import BankError

SOURCE = """
[margin]
kind = "numeric"
title = "What is left to pull"
lesson = "units/force-mass-weight"
stem = "The table says {table}; {factor} of it is used. The needle shows {reading}, {block} of it the block. What is left, in {asked}?"
asks = "left"
unit = { us = "klbf", metric = "kN" }
tolerance = { relative = 0.01 }
plausible = ["200 kN", "1,600 kN"]
source = "statics"
check = { given = { table = "500 klbf", factor = 0.8, reading = "200 klbf", block = "40 klbf" }, gives = "240 klbf", by = "by hand: 400 − 160" }

[margin.givens]
table = { us = { from = 500, to = 600, step = 10, unit = "klbf" }, metric = { from = 2225, to = 2675, step = 25, unit = "kN" } }
factor = { among = [0.8, 0.9] }
reading = { us = { from = 200, to = 300, step = 10, unit = "klbf" }, metric = { from = 890, to = 1340, step = 10, unit = "kN" } }
block = { us = { from = 40, to = 60, step = 5, unit = "klbf" }, metric = { from = 180, to = 270, step = 10, unit = "kN" } }

[[margin.steps]]
name = "allowed"
find = "pull allowed"
formula = "table * factor"
unit = { us = "klbf", metric = "kN" }

[[margin.steps]]
name = "string"
find = "string"
formula = "reading - block"
unit = { us = "klbf", metric = "kN" }

[[margin.steps]]
name = "left"
find = "what is left"
formula = "allowed - string"

[[margin.mistakes]]
name = "factor-left-out"
formula = "table - string"
tell = "You left the factor out."
gives = "340 klbf"

[[margin.mistakes]]
name = "block-left-in"
formula = "allowed - reading"
tell = "You left the block in."
gives = "200 klbf"
"""  # noqa: E501  an inline table of TOML stands on one line

WRONG = """
[margin-gone-wrong]
kind = "find-the-wrong-line"
title = "Somebody's margin"
lesson = "units/force-mass-weight"
of = "units.margin"
stem = "One line is wrong. Which?"
why = "The factor comes first."
source = "statics"

[[margin-gone-wrong.wrong]]
mistake = "factor-left-out"
step = "allowed"
formula = "table"
tell = "Whoever wrote this forgot the factor."

[[margin-gone-wrong.wrong]]
mistake = "block-left-in"
step = "left"
formula = "allowed - reading"
tell = "Whoever wrote this left the block in."
"""


def wrong_line(*changes, source=SOURCE):
    """The item of that text after (old, new) changes in it or in its source, tied to its source."""
    text = source + WRONG
    for old, new in changes:
        assert text.count(old) >= 1, f"{old!r} is not in the text"
        text = text.replace(old, new, 1)
    return resolved(read_file("units/tried.toml", "units", text))["units.margin-gone-wrong"]


def faults_of_wrong_line(*changes):
    """Its faults: on reading it, else those that the check finds with 20 seeds."""
    try:
        return list(check_item(wrong_line(*changes), 20))
    except BankError as error:
        return [error]
