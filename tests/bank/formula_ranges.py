"""Values within a formula's range, for tests that hold for all of them."""

import pytest
from hypothesis import strategies as st

from question_bank.formulas import formula

LINES = st.sampled_from([4.0, 6.0, 8.0, 10.0, 12.0, 14.0])
SHEAVE = st.floats(1.01, 1.1)
LOAD = st.floats(50_000, 5_000_000)
"""In newtons."""


def within(name, *arguments):
    """Values of a formula's arguments within its range, in base units; all of them where none are named."""
    ranges = {each: st.floats(*formula(name).holds_in_base(each)) for each in arguments or formula(name).takes}
    return st.fixed_dictionaries(ranges)


def near(value):
    return pytest.approx(value, rel=1e-9)
