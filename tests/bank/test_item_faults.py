"""Faults of an item file: each is refused with a message that names item, field and step."""

import pytest

from question_bank.check_lines import check_line
from question_bank.errors import BankError
from question_bank.working import Line
from tests.bank.items import CARD, CHOICE, COUNTED, ESTIMATE, GAUGE, MATCH, ORDER, SOUND, faults, item


@pytest.mark.parametrize(
    "text",
    [SOUND, ESTIMATE, GAUGE, CHOICE, ORDER, MATCH, CARD],
    ids=["numeric", "estimate", "gauge", "choice", "order", "match", "card"],
)
def test_the_unspoilt_item_has_no_fault(text):
    """Else none of the tests below would show anything."""
    assert faults(text) == []


FORMULA = 'formula = "rating - hook_load"'
STEP = "steps 1 formula"
WHEN_READ = [
    # old, new, the field named, words of the message
    (FORMULA, 'formula = "rating * hook_load"', STEP, ["a load"]),
    (FORMULA, 'formula = "rating - travel"', STEP, ["travel"]),
    (FORMULA, 'formula = "impact_height(rating)"', STEP, ["impact_height"]),
    (FORMULA, 'formula = "fall_time(rating)"', STEP, ["fall_time", "place 1"]),
    (FORMULA, 'formula = "().__class__"', STEP, ["().__class__"]),
    (FORMULA, 'formula = "9**9**9"', STEP, ["not allowed"]),
    (FORMULA, f'formula = "{"+".join(["rating"] * 150)}"', STEP, ["parts"]),
    (FORMULA, f'formula = "{"+".join(["rating"] * 5_000)}"', STEP, ["signs long"]),
    (FORMULA, 'formula = "rating.real"', STEP, ["rating.real"]),
    (FORMULA, "formula = \"rating - 'x'\"", STEP, ["'x'"]),
    (FORMULA, 'formula = "[each for each in rating]"', STEP, ["not allowed"]),
    (FORMULA, 'formula = "(lambda: rating)()"', STEP, ["not allowed"]),
    (FORMULA, 'formula = "string_under_block(rating, travelling_weight=hook_load)"', STEP, ["not allowed"]),
    (FORMULA, f'formula = "{"-" * 14}rating"', STEP, ["nested"]),
    (FORMULA, 'formula = "rating * 2 - hook_load"', STEP, ["bare number 2"]),
    (FORMULA, 'formula = "rating - klbf"', STEP, ["klbf", "givens and earlier steps only"]),
    (FORMULA, 'formula = "rating * rating ** 5 / hook_load ** 5"', STEP, ["power 5"]),
    (FORMULA, 'formula = "-string_under_block(rating, hook_load)"', STEP, ["two steps"]),
    (FORMULA, "formula = 12", STEP, ["text in quotes"]),
    ('formula = "rating + hook_load"', 'formula = "rating * hook_load"', "mistakes 1 formula", ["a load"]),
    ('formula = "rating + hook_load"', 'formula = "rating + drift"', "mistakes 1 formula", ["drift"]),
    ('formula = "rating + hook_load"', f'formula = "rating * 1{"0" * 400}"', "mistakes 1 formula", []),
    ('tell = "You added', 'tel = "You added', "mistakes 1 tel", ["not a field"]),
    ('gives = "800 klbf"', "", "mistakes 1 gives", []),
    ("plausible =", "decimals = 3\nplausible =", "decimals", ["Give three decimals."]),
    ("plausible =", "plausable =", "plausable", ["not a field", "plausible"]),
    ('find = "what is left"', "", "steps 1 find", ["missing"]),
    ('source = "statics"', "", "source", ["missing"]),
    ('source = "statics"', 'source = " "', "source", ["not empty"]),
    ('title = "What is left on the plate"', "", "title", ["missing"]),
    ('stem = "A hook', 'steam = "A hook', "steam", ["not a field"]),
    ('caution = "C-10"', 'caution = "C-99"', "caution", ["C-99"]),
    ('caution = "C-10"', 'caution = "c-10"', "caution", ["c-10"]),
    ('unit = { us = "klbf"', 'unit = { us = "kips"', "unit", ["'kips'"]),
    ('unit = { us = "klbf"', 'unit = { us = "ft"', "unit", ["'kN'"]),
    ('unit = { us = "klbf", metric = "kN" }', 'unit = { us = "klbf" }', "unit", ["both systems"]),
    ('step = 10, unit = "klbf"', 'step = 10, unit = "kipz"', "givens rating us unit", ["'kipz'"]),
    ('step = 25, unit = "kN"', 'step = 25, unit = "m"', "givens rating metric unit", ["one register"]),
    ("step = 10", "step = 7", "givens rating us step", ["whole number of steps"]),
    ("step = 10", "step = nan", "givens rating us step", ["a number"]),
    ("to = 600", "to = inf", "givens rating us to", ["a number"]),
    ("tolerance = { relative = 0.01 }", "tolerance = { relative = nan }", "tolerance relative", []),
    ("step = 10", "step = 0", "givens rating us step", ["whole number"]),
    ("step = 10", "step = -10", "givens rating us step", ["whole number"]),
    ("step = 10", 'step = "10"', "givens rating us step", ["a number"]),
    ("step = 10", "step = true", "givens rating us step", ["a number"]),
    ("from = 500, to = 600", "from = 600, to = 500", "givens rating us step", ["whole number"]),
    ("from = 500, to = 600", "from = 500, top = 600", "givens rating us top", ["not a field"]),
    ("tolerance = { relative = 0.01 }", "tolerance = { relative = 0.2 }", "tolerance relative", ["0.05"]),
    ("tolerance = { relative = 0.01 }", "tolerance = { relative = 0 }", "tolerance relative", ["above 0"]),
    ("tolerance = { relative = 0.01 }", "tolerance = { down = 0.2 }", "tolerance down", ["0.05"]),
    ("tolerance = { relative = 0.01 }", "tolerance = { up = 0 }", "tolerance up", ["above 0"]),
    ("tolerance = { relative = 0.01 }", "tolerance = {}", "tolerance", ["one tolerance"]),
    (
        "tolerance = { relative = 0.01 }",
        'tolerance = { relative = 0.01, absolute = "1 kN" }',
        "tolerance",
        ["one tolerance"],
    ),
    ("tolerance = { relative = 0.01 }", 'tolerance = { absolute = "1 ft" }', "tolerance absolute", ["'ft'"]),
    ("tolerance = { relative = 0.01 }", 'tolerance = { absolute = "one kN" }', "tolerance absolute", []),
    ("tolerance = { relative = 0.01 }", "tolerance = { exact = false }", "tolerance exact", []),
    ('asks = "left"', 'asks = "rating"', "asks", ["'left'"]),
    ('name = "left"', 'name = "rating"', "steps 1 name", ["'rating'"]),
    ('kind = "numeric"', 'kind = "numerical"', "kind", ["'numerical'", "numeric"]),
]


@pytest.mark.parametrize("old, new, field, words", WHEN_READ, ids=[f"{row[2]} {row[1][:30]}" for row in WHEN_READ])
def test_a_fault_of_form_is_refused_when_the_file_is_read(old, new, field, words):
    with pytest.raises(BankError) as caught:
        item(SOUND, (old, new))
    error = caught.value
    assert (error.file, error.item, error.field) == ("units/tried.toml", "units.left-over", field)
    assert all(word in error.problem for word in words), error.problem
    assert str(error).startswith("units/tried.toml, item 'units.left-over', field ")


WHEN_CHECKED = [
    (FORMULA, 'formula = "hook_load - rating"', "check gives", ["200 klbf", "-200 klbf"]),
    ('gives = "200 klbf"', 'gives = "201 klbf"', "check gives", ["201 klbf"]),
    ('gives = "200 klbf"', 'gives = "nan klbf"', "check gives", []),
    ('gives = "200 klbf"', 'gives = "200 kN"', "check gives", ["200 kN"]),
    ('gives = "200 klbf"', 'gives = "200 m"', "check gives", ["'m'"]),
    ('gives = "800 klbf"', 'gives = "nan klbf"', "mistakes 1 gives", []),
    ('gives = "800 klbf"', 'gives = "810 klbf"', "mistakes 1 gives", ["810 klbf"]),
    (', hook_load = "300 klbf" }', " }", "check given", ["hook_load"]),
    ('hook_load = "300 klbf" }', 'hook_load = "300 ft" }', "check given", ["'ft'"]),
    (', by = "by hand: 500 − 300"', "", "check by", ["missing"]),
    ('plausible = ["355 kN"', 'plausible = ["1,112 kN"', "plausible", ["outside"]),
    ('plausible = ["355 kN", "1,425 kN"]', 'plausible = ["1,425 kN", "355 kN"]', "plausible", ["outside"]),
    ('plausible = ["355 kN", "1,425 kN"]', 'plausible = ["355 kN"]', "plausible", ["two quantities"]),
    ("{hook_load}", "{hook-load}", "stem", ["hook"]),
    ("{hook_load}", "{drift}", "stem", []),
    ("{hook_load}", "{hook_load} and {drift}", "stem", ["{drift}"]),
    ("{asked}", "{asked", "stem", []),
    ("and carries {hook_load}", "and carries a load", "stem", []),
    ("What is left, in {asked}?", "What is left?", "stem", []),
    ("from = 500, to = 600", "from = 600, to = 700", "givens rating", ["differ"]),
    ('tell = "You added what', 'tell = "You added {hook_load}, what', "mistakes", []),
]


@pytest.mark.parametrize(
    "old, new, field, words", WHEN_CHECKED, ids=[f"{row[2]} {row[1][:30]}" for row in WHEN_CHECKED]
)
def test_a_fault_in_the_sums_is_found_by_the_check(old, new, field, words):
    found = faults(SOUND, (old, new))
    assert found, "the check found nothing"
    error = found[0]
    assert (error.item, error.field.split()[0]) == ("units.left-over", field.split()[0])
    assert all(word in error.problem for word in words), error.problem


GRID = 'us = { from = 500, to = 600, step = 10, unit = "klbf" }'
VALUES = 'us = { values = [500, 520, 600], unit = "klbf" }'


def test_a_given_may_list_the_values_that_makers_stamp():
    assert faults(SOUND, (GRID, VALUES)) == []
    stamped = {item(SOUND, (GRID, VALUES)).draw(seed).givens[0][1].split(" klbf")[0] for seed in range(60)}
    assert stamped == {"500", "520", "600"}


@pytest.mark.parametrize(
    "new, field, words",
    [
        (VALUES.replace("520", "620"), "givens rating us values", ["larger than the one before"]),
        (VALUES.replace("520", "500"), "givens rating us values", ["larger than the one before"]),
        (VALUES.replace("500, 520, 600", "500"), "givens rating us values", ["two values or more"]),
        (VALUES.replace("500, 520, 600", ""), "givens rating us values", ["list of numbers"]),
        (VALUES.replace("520", "nan"), "givens rating us values", ["list of numbers"]),
        (VALUES.replace("520", "'520'"), "givens rating us values", ["list of numbers"]),
        (VALUES.replace("unit", "step = 10, unit"), "givens rating us step", ["not a field"]),
        (VALUES.replace("klbf", "m"), "givens rating metric unit", ["one register"]),
        (VALUES.replace("600]", "700]"), "givens rating", ["differ"]),
    ],
)
def test_a_list_that_cannot_be_drawn_from_is_refused(new, field, words):
    error = faults(SOUND, (GRID, new))[0]
    assert (error.item, error.field) == ("units.left-over", field)
    assert all(word in error.problem for word in words), error.problem


AMONG = "among = [6, 8, 10]"
TABLE = "table = { 6 = 2, 8 = 2, 10 = 4 }"


@pytest.mark.parametrize(
    "old, new",
    [
        (AMONG, "among = []"),
        (AMONG, "among = 8"),
        (AMONG, 'among = "681"'),
        (AMONG, "among = [6, 8, 12]"),
        (AMONG, 'among = [6, 8, "ten"]'),
        (AMONG, "among = [6, 8, [10]]"),
        (AMONG, "among = [6, 8, nan]"),
        (TABLE, "table = { 6 = 2, 8 = 2 }"),
        (TABLE, "table = { 6 = 2, 8 = 2, 10 = 'four' }"),
        (TABLE, "table = 2"),
        ('by = "lines"', 'by = "line"'),
        ('by = "lines"', "by = 1"),
        ('register = "count", among', 'register = "counts", among'),
    ],
)
def test_a_given_that_cannot_be_picked_is_a_fault_of_its_item(old, new):
    """The message says which item and which given; the check does not fall over."""
    assert faults(COUNTED) == []
    found = faults(COUNTED, (old, new))
    assert found and all(each.item == "units.legs-on-lines" for each in found)


def test_a_given_looked_up_by_another_follows_it():
    for seed in range(30):
        question = item(COUNTED).draw(seed)
        (_, lines), (_, legs) = question.givens
        assert legs == {"6": "2", "8": "2", "10": "4"}[lines] and question.value == int(lines) + int(legs)


def test_mistakes_that_cannot_be_told_from_the_answer_are_refused():
    """The wrong way leads to within four tolerances of the answer, whatever is drawn."""
    near = item(
        SOUND,
        ('formula = "rating + hook_load"', 'formula = "(rating - hook_load) * 1.03"'),
        ('gives = "800 klbf"', 'gives = "206 klbf"'),
    )
    with pytest.raises(BankError, match=r"50 tries.*keeps the mistakes apart") as caught:
        near.draw(1, "us")
    assert caught.value.field == "mistakes"


def another_mistake(name, formula, gives):
    """A second known wrong way for the sound item."""
    return f'\n[[left-over.mistakes]]\nname = "{name}"\nformula = "{formula}"\ntell = "No."\ngives = "{gives} klbf"\n'


def test_two_mistakes_with_one_value_are_refused():
    with pytest.raises(BankError, match="apart"):
        item(SOUND + another_mistake("twice", "hook_load + rating", 800)).draw(1, "us")


def test_two_mistakes_of_one_name_are_refused():
    with pytest.raises(BankError, match="one name"):
        item(SOUND + another_mistake("added", "hook_load", 300))


OTHER_KINDS = [
    (
        CHOICE,
        'text = "The long ton", tell = "That is 2,240 lb."',
        'text = "The long ton", right = true',
        "options",
        ["one right"],
    ),
    (CHOICE, ", right = true", ', tell = "No."', "options", ["one right", "0"]),
    (CHOICE, ', tell = "That is 2,240 lb."', "", "options 2 tell", ["misleads"]),
    (CHOICE, "The long ton", "The short ton", "options", ["same text"]),
    (CHOICE, "right = true", 'right = "yes"', "options 1 right", ["true or false"]),
    (ORDER, '"Dope", ', "", "accept", ["each place"]),
    (ORDER, '"Dope"', '"Clean"', "steps", ["different"]),
    (ORDER, "[1, 0, 2, 3, 4]", "[1, 0, 2, 3]", "accept", ["each place"]),
    (ORDER, "[[1, 0, 2, 3, 4]]", "[1, 0]", "accept", []),
    (ORDER, "[[1, 0, 2, 3, 4]]", '"any"', "accept", []),
    (MATCH, '["lbf", "a force"]', '["lbf"]', "pairs", ["pairs like"]),
    (MATCH, '["kN", "a force"]', '["lbf", "a force"]', "pairs", ["twice"]),
    (CARD, "back =", "bak =", "bak", ["not a field"]),
    (CARD, 'front = "One short ton in lb?"', "", "front", ["missing"]),
]


@pytest.mark.parametrize(
    "text, old, new, field, words", OTHER_KINDS, ids=[f"{row[3]} {row[2][:24]}" for row in OTHER_KINDS]
)
def test_a_fault_in_an_item_in_words_is_refused(text, old, new, field, words):
    with pytest.raises(BankError) as caught:
        item(text, (old, new))
    assert caught.value.field == field
    assert all(word in caught.value.problem for word in words)


@pytest.mark.parametrize("text, old, new", [
    (CHOICE, "A plate says 500 st.", "A plate says {{500}}."),
    (CHOICE, "That is 2,240 lb.", "That is {{2,240 pints}}."),
    (CARD, "{{=2,000 lb}}", "{{=2,000 lbz}}"),
    (CARD, "{{=2,000 lb}}", "{{=2,000 lb"),
    (CARD, "{{=2,000 lb}}", "{rating}"),
    (CHOICE, "The long ton", "The {long} ton"),
    (MATCH, "a mass", "{{1 kilogram}}"),
])  # fmt: skip
def test_a_quantity_that_cannot_be_shown_is_a_fault_of_its_item(text, old, new):
    """The check says which item; it does not fall over."""
    found = faults(text, (old, new))
    assert found and all(isinstance(each, BankError) for each in found)


@pytest.mark.parametrize("unit", ['{ us = "kN", metric = "kN" }', '{ us = "klbf", metric = "st" }'])
def test_who_reads_one_system_is_not_asked_for_a_unit_of_the_other(unit):
    """Only a conversion asks for it."""
    found = faults(SOUND, ('unit = { us = "klbf", metric = "kN" }', f"unit = {unit}"))
    assert found and found[0].field == "steps left" and "such a hand reads" in found[0].problem


@pytest.mark.parametrize("result, right", [("0.0002 mile", False), ("12,000,000 lbf", False), ("0.35 bbl", True)])
def test_a_line_in_a_unit_that_nobody_would_write_is_refused(result, right):
    """A bore in miles is a slip in the unit."""
    line = Line("what is found", "it", result, result)
    if right:
        check_line(item(SOUND), line, 0.01, True, "seed 1")
        return
    with pytest.raises(BankError, match="nobody writes"):
        check_line(item(SOUND), line, 0.01, True, "seed 1")
