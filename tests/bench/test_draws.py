"""The functions that the bench times draws against give the bank's own numbers. The timing itself is run by hand."""

import pytest

from question_bank import load_bank
from tests.bench.draws import BY_HAND, disagreement


@pytest.mark.parametrize("name", BY_HAND)
def test_what_is_written_by_hand_gives_the_numbers_of_the_bank(name):
    assert disagreement(load_bank(), name) is None
