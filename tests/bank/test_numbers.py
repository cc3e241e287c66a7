"""How numbers are printed, and the same text for a hand who writes 12,5."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from question_bank.numbers import GROUP, digits_in, in_comma, show, show_places
from question_bank.reading import read_quantity


@pytest.mark.parametrize(
    "value, figures, text",
    [
        (44_592.2, 4, "44,590"),
        (44_590, 5, "44,590"),
        (1_272.19, 4, "1,272"),
        (999.96, 4, "1,000"),
        (99_996, 4, "100,000"),
        (12.0, 4, "12"),
        (12.50, 4, "12.5"),
        (0.0178, 4, "0.0178"),
        (0.01776, 3, "0.0178"),
        (0.1, 15, "0.1"),
        (1_234_567, 4, "1,235,000"),
        (-3, 4, "−3"),
        (-44_592.2, 4, "−44,590"),
        (0, 4, "0"),
        (-0.0, 4, "0"),
    ],
)
def test_a_value_is_shown_with_its_figures(value, figures, text):
    assert show(value, figures) == text


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_is_never_printed(value):
    with pytest.raises(ValueError, match="can't be printed"):
        show(value)


@pytest.mark.parametrize(
    "value, places, text",
    [
        (93.456, 2, "93.46"),
        (93.5, 2, "93.5"),
        (93.0, 2, "93"),
        (1_234.5, 0, "1,234"),
        (-0.001, 2, "0"),
        (-0.5, 1, "−0.5"),
    ],
)
def test_a_value_is_shown_with_its_places(value, places, text):
    assert show_places(value, places) == text


@pytest.mark.parametrize(
    "number, figures", [("286", 3), ("0.0178", 3), ("2,000", 4), ("0", 1), ("1.0", 2), ("−44,590", 5)]
)
def test_figures_are_counted_from_the_first_that_is_not_nought(number, figures):
    assert digits_in(number) == figures


@pytest.mark.parametrize(
    "printed, rewritten",
    [
        ("44,590 lbf (198.3 kN)", f"44{GROUP}590 lbf (198,3 kN)"),
        ("1,234,567", f"1{GROUP}234{GROUP}567"),
        ("1,234.5 kN", f"1{GROUP}234,5 kN"),
        ("−0.0178", "−0,0178"),
        ("2 kg × 9.80665 × 25 m", "2 kg × 9,80665 × 25 m"),
        ("286 klbf", "286 klbf"),
        ("Read it, then write 12.5, not 125", "Read it, then write 12,5, not 125"),
        ("It is 0.841.", "It is 0,841."),
        ("Between 1.5 and 2.5.", "Between 1,5 and 2,5."),
        ("It weighs 44,590.", f"It weighs 44{GROUP}590."),
        ("Section 2.3.3.4", "Section 2.3.3.4"),
        ("NIST SP 811, B.8", "NIST SP 811, B.8"),
        ("√(2 × 32.174 × 25 ft)", "√(2 × 32,174 × 25 ft)"),
    ],
)
def test_our_own_text_is_rewritten_for_a_hand_who_writes_12_5(printed, rewritten):
    assert in_comma(printed) == rewritten


@settings(max_examples=500, deadline=None, derandomize=True)
@given(
    st.floats(min_value=-1e12, max_value=1e12).filter(lambda value: value == 0 or abs(value) > 1e-6), st.integers(1, 10)
)
def test_a_printed_number_reads_back_for_both_hands(value, figures):
    """What stands on the page, typed back as it stands, is the number that was printed."""
    text = show(value, figures)
    as_point = read_quantity(text, "N", comma=False).value
    as_comma = read_quantity(in_comma(text), "N", comma=True).value
    assert as_point == as_comma == pytest.approx(value, rel=0.51 * 10 ** (1 - figures), abs=0)
