"""Expressions of item files: what the white list lets through, and a refusal for everything else."""

import pytest

from question_bank.formulas import all_formulas
from question_bank.steps import MOST_DEPTH, ExpressionError, compile_expression, in_words
from question_bank.units import register

LOAD, LENGTH, PLAIN = register("load").dimension, register("length").dimension, (0.0, 0.0, 0.0)
NAMES = {"pull": LOAD, "weight": LOAD, "arm": LENGTH, "lines": PLAIN}
RULES = {name: each.rule() for name, each in all_formulas().items()}
VALUES = {"pull": 10.0, "weight": 4.0, "arm": 2.0, "lines": 8.0}


def compiled(text, literals=False):
    return compile_expression(text, NAMES, RULES, literals)


@pytest.mark.parametrize("text, value, dimension", [
    ("pull", 10, LOAD),
    ("pull + weight", 14, LOAD),
    ("pull - weight", 6, LOAD),
    ("-pull", -10, LOAD),
    ("pull * arm", 20, (1, 2, -2)),
    ("pull / lines", 1.25, LOAD),
    ("arm ** 4", 16, (0, 4, 0)),
    ("pull * arm / (lines + lines)", 1.25, (1, 2, -2)),
    ("pull - (weight - pull)", 16, LOAD),
    ("pull / (weight / pull)", 25, LOAD),
    ("string_under_block(pull, weight)", 6, LOAD),
    (" pull ", 10, LOAD),
])  # fmt: skip
def test_plain_arithmetic_and_formulas_are_let_through(text, value, dimension):
    found = compiled(text)
    assert found.evaluate(VALUES) == value
    assert found.dimension == dimension


def test_a_known_wrong_way_may_use_plain_numbers():
    assert compiled("pull * 2 / 1.25", literals=True).evaluate(VALUES) == 16


REFUSED = [
    # text, what the message must name
    ("pull + arm", ["pull", "arm", "differ in dimension"]),
    ("pull - lines", ["pull", "lines", "plain number"]),
    ("pull + pull * arm", ["differ in dimension"]),
    ("string_under_block(pull, arm)", ["string_under_block", "place 2", "arm"]),
    ("rope_song(pull)", ["no formula", "rope_song"]),
    ("string_under_block(pull)", ["string_under_block", "takes 2", "given 1"]),
    ("string_under_block(pull, weight, pull)", ["takes 2", "given 3"]),
    ("drift", ["'drift'", "no given"]),
    ("pull * drift", ["'drift'"]),
    ("__import__", ["'__import__'"]),
    ("__import__('os')", ["'__import__'", "no formula"]),
    ("().__class__", ["().__class__", "not allowed"]),
    ("pull.__class__", ["pull.__class__", "not allowed"]),
    ("pull.real", ["pull.real", "not allowed"]),
    ("(pull).hex()", ["not allowed"]),
    ("pull[0]", ["pull[0]", "not allowed"]),
    ("9**9**9", ["9", "not allowed"]),
    ("pull ** 9 ** 9", ["not allowed"]),
    ("arm ** 5", ["power 5", "1 to 4"]),
    ("arm ** 0", ["power 0"]),
    ("arm ** 2.0", ["power 2.0"]),
    ("arm ** True", ["power True"]),
    ("arm ** -1", ["not allowed"]),
    ("arm ** lines", ["not allowed"]),
    ("pull * 2", ["bare number 2", "givens"]),
    ("pull * 2.5", ["bare number 2.5"]),
    ("'pull'", ["'pull'", "not allowed"]),
    ("f'{pull}'", ["not allowed"]),
    ("b'pull'", ["not allowed"]),
    ("True", ["True", "not allowed"]),
    ("None", ["None", "not allowed"]),
    ("...", ["not allowed"]),
    ("2j", ["not allowed"]),
    ("[pull for pull in lines]", ["not allowed"]),
    ("{pull}", ["not allowed"]),
    ("(pull, weight)", ["not allowed"]),
    ("lambda: pull", ["lambda", "not allowed"]),
    ("(pull := weight)", ["not allowed"]),
    ("pull if lines else weight", ["not allowed"]),
    ("pull < weight", ["not allowed"]),
    ("pull and weight", ["not allowed"]),
    ("not pull", ["not allowed"]),
    ("+pull", ["not allowed"]),
    ("~pull", ["not allowed"]),
    ("pull // weight", ["not allowed"]),
    ("pull % weight", ["not allowed"]),
    ("pull @ weight", ["not allowed"]),
    ("pull << 2", ["not allowed"]),
    ("string_under_block(pull, travelling_weight=weight)", ["not allowed"]),
    ("string_under_block(*pull, weight)", ["*pull", "not allowed"]),
    ("string_under_block(**pull)", ["not allowed"]),
    ("string_under_block", ["'string_under_block'"]),
    ("string_under_block(pull, weight)(pull)", ["not allowed"]),
    ("await pull", ["not allowed"]),
    ("yield pull", ["can't be read"]),
    ("pull; weight", ["can't be read"]),
    ("pull = weight", ["can't be read"]),
    ("import os", ["can't be read"]),
    ("", ["can't be read"]),
    ("pull +", ["can't be read"]),
    ("pull\x00", ["can't be read"]),
    ("(" * 300 + "pull" + ")" * 300, ["can't be read"]),
    ("-" * 1_900 + "pull", []),
    ("+".join(["pull"] * 110), ["parts", "200"]),
    ("+".join(["pull"] * 5_000), ["signs long", "2000"]),
    ("-" * MOST_DEPTH + "pull", ["nested more than 12"]),
    ("(" * 13 + "pull" + "+pull)" * 13, ["nested more than 12"]),
]


@pytest.mark.parametrize("text, words", REFUSED, ids=[row[0][:40] or "nothing" for row in REFUSED])
def test_everything_else_is_refused_with_its_reason(text, words):
    with pytest.raises(ExpressionError) as caught:
        compiled(text)
    assert all(word in str(caught.value) for word in words), caught.value
    assert len(str(caught.value)) < 300


@pytest.mark.parametrize(
    "text", ["pull + 5", "pull ** 5", "9 ** 9 ** 9 * pull", "'5' * pull", "pull * 10j", "pull * True"]
)
def test_plain_numbers_in_a_known_wrong_way_open_nothing_else(text):
    with pytest.raises(ExpressionError):
        compiled(text, literals=True)


def test_a_number_too_large_for_a_float_is_refused():
    with pytest.raises(ExpressionError):
        compiled("pull * 1" + "0" * 400, literals=True)


def test_twelve_deep_is_still_let_through():
    assert compiled("-" * (MOST_DEPTH - 1) + "pull").evaluate(VALUES) == -10


@pytest.mark.parametrize("text", ["pull / (weight - weight)", "pull * (arm / (lines - lines))"])
def test_a_sum_without_an_answer_says_so(text):
    with pytest.raises(ExpressionError, match="has no answer for these numbers"):
        compiled(text).evaluate(VALUES)


def test_a_root_of_a_negative_number_says_so():
    with pytest.raises(ExpressionError, match="has no answer"):
        compiled("fall_time(arm)").evaluate({"arm": -1.0})


def test_the_code_reaches_nothing_but_its_names():
    assert compiled("string_under_block(pull, weight)").scope.keys() == {"__builtins__", "string_under_block"}
    assert compiled("pull").scope["__builtins__"] == {}


@pytest.mark.parametrize("dimension, words", [((1, 1, -2), "mass^1 length^1 time^-2"), ((0, 0, 0), "a plain number")])
def test_a_dimension_is_said_in_words(dimension, words):
    assert in_words(dimension) == words
