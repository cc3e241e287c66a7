"""The bank, read once for all its tests."""

import pytest

from question_bank import load_bank


@pytest.fixture(scope="session")
def bank():
    """The shipped bank. Nothing in it is changed by a draw or a verdict."""
    return load_bank()
