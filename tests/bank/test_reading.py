"""What a hand types and what is read. The table of texts stands in typed_texts.py."""

import pytest

from question_bank.reading import AnswerError, read_quantity
from tests.bank.typed_texts import ASKED, TABLE


def reading(text, asked, comma):
    """(value, unit), or the outcome of a text that is not counted."""
    register_name = "ratio" if asked == "" else None
    try:
        read = read_quantity(text, asked, comma, register_name)
    except AnswerError as error:
        return error.outcome
    return read.value, read.unit


@pytest.mark.parametrize("text, asked, point, comma", TABLE, ids=[repr(row[0]) for row in TABLE])
def test_a_text_is_read_as_the_hand_writes_it(text, asked, point, comma):
    """The hand's own mark decides; what fits only the other mark is asked back; the rest is refused, never guessed."""
    for writes_comma, expected in ((False, point), (True, comma)):
        found = reading(text, asked, writes_comma)
        if isinstance(expected, tuple):
            assert isinstance(found, tuple), f"comma={writes_comma}: {found}"
            assert found[0] == pytest.approx(expected[0], rel=1e-12) and found[1] == expected[1]
        else:
            assert found == expected, f"comma={writes_comma}"


def test_the_table_is_long_and_holds_each_text_once():
    """A row written twice could hide one that was meant to be another text."""
    assert len({(row[0], row[1]) for row in TABLE}) == len(TABLE) >= 60


@pytest.mark.parametrize("asked", ["lbf", "kg"])
def test_a_bare_ton_is_asked_back_with_both_tons_named(asked):
    with pytest.raises(AnswerError, match=r"[Ww]hich ton.*\bst\b.*2000 lb.*\bt\b.*1000 kg") as caught:
        read_quantity("500 ton", asked)
    assert caught.value.outcome == ASKED


@pytest.mark.parametrize(
    "text, asked, words",
    [
        ("5 J", "lbf", ["an energy", "J", "a load"]),
        ("5 m", "lbf", ["a length", "m", "a load"]),
        ("5 psi", "ft", ["a pressure", "psi", "a length"]),
        ("5 furlongs", "ft", ["furlongs"]),
        ("٤٤", "ft", ["digits 0 to 9"]),
        ("5 5 lbf", "lbf", ["5 lbf", "one number"]),
        ("5 klbf (22 kN)", "lbf", ["(22 kN)", "one number"]),
        ("5 m3/x", "gal/min", ["“m3/x” is not a unit", "a flow"]),
        ("5 m3/h", "lbf", ["a flow", "m3/h", "a load"]),
        ("5 psig", "psi", ["“psig”", "write psi"]),
        ("315k", "lbf", ["thousand", "klbf or kN"]),
        ("", "lbf", ["Nothing"]),
    ],
)
def test_a_refusal_says_what_was_understood(text, asked, words):
    with pytest.raises(AnswerError) as caught:
        read_quantity(text, asked)
    for word in words:
        assert word in caught.value.message


@pytest.mark.parametrize("text, comma, meant", [("44,6", False, "44.6 lbf"), ("44.6", True, "44,6 lbf")])
def test_a_text_that_fits_the_other_mark_is_asked_back_in_the_hands_own(text, comma, meant):
    with pytest.raises(AnswerError) as caught:
        read_quantity(text, "lbf", comma)
    assert f"Did you mean {meant}?" in caught.value.message


@pytest.mark.parametrize(
    "text, comma, shown",
    [
        ("44,600", False, "44,600 lbf"),
        ("44 600", True, "44\u202f600 lbf"),
        ("44,6", True, "44,6 lbf"),
        ("−3", False, "−3 lbf"),
        ("1.2e6 N", False, "1,200,000 N"),
        ("½", False, "0.5 lbf"),
    ],
)
def test_what_was_read_is_shown_as_the_hand_writes(text, comma, shown):
    assert read_quantity(text, "lbf", comma).shown(comma) == shown
