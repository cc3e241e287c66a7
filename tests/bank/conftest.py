"""The bank, read once for all its tests, and 200 questions of an item, drawn once for all tests of that item."""

import pytest

from question_bank import load_bank

SEEDS = range(200)


@pytest.fixture(scope="session")
def bank():
    """The shipped bank. Nothing in it is changed by a draw or a verdict."""
    return load_bank()


@pytest.fixture(scope="module", params=["us", "metric"])
def system(request):
    """Each system of units in turn."""
    return request.param


@pytest.fixture(scope="module")
def questions(item, system):
    """The questions of 200 seeds. Module-scoped, so that tests are run item by item and only one item's are held."""
    return [item.draw(seed, system) for seed in SEEDS]
