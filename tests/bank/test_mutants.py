"""A slip of the pen in an item does not reach a hand: 300 seeded changes, of which 95 % at least must be refused."""

import pytest

from tests.bank.mutants import HOW_MANY, all_changes, picked, refusal, report, survivors

LEAST = 0.95


@pytest.fixture(scope="module")
def changes():
    return picked()


def test_the_changes_are_three_hundred_different_ones(changes):
    """Of more than twenty sorts and of every numeric item; the same each time."""
    assert len({each.text for each in changes}) == len(changes) == HOW_MANY
    assert len({each.sort for each in changes}) > 20
    assert {each.item for each in changes} == {each.item for each in all_changes()}
    assert picked() == changes


def test_at_least_95_per_cent_of_the_changes_are_refused(changes):
    left = survivors(changes)
    assert 1 - len(left) / len(changes) >= LEAST, report(changes, left)


def test_an_item_that_nobody_changed_is_not_refused(bank, changes):
    """Else the share refused would mean nothing."""
    for each in changes[:30]:
        original = bank[each.item].text
        assert refusal(type(each)(each.item, "none", original, "", "")) is None
