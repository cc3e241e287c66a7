"""The chance at first sight."""

import pytest

from webapp.study.first_sight import PRIOR, first_chances


def test_before_anything_is_answered_it_is_the_prior():
    assert first_chances([]) == PRIOR


def test_first_answers_move_the_chance_of_their_kind_only():
    """By hand: the prior counts as 8 answers at 0.35, so 2.8 right; six of eight more: (2.8 + 6) / 16 = 0.55."""
    found = first_chances([("numeric", number < 6) for number in range(8)])
    assert found["numeric"] == pytest.approx(0.55)
    assert {kind: each for kind, each in found.items() if kind != "numeric"} == {
        kind: each for kind, each in PRIOR.items() if kind != "numeric"
    }


def test_a_kind_without_a_prior_begins_in_the_middle():
    assert first_chances([("new", True)])["new"] == pytest.approx((8 * 0.4 + 1) / 9)
