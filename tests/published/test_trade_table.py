"""The bank against figures from outside the project, row by row. What was counted is printed at the end of the run."""

import pytest

from tests.published.trade_table import BY_HAND, MEMORY, ROWS, SEEN

WIDEST = 1.0


def the_rows(*known):
    return [pytest.param(row, id=row.id) for row in ROWS if row.known in known]


def agrees(row, printed):
    return abs(row.ours() - printed) <= row.allow / 100 * abs(printed)


@pytest.mark.parametrize("row", the_rows(SEEN, BY_HAND))
def test_a_printed_figure_is_met(row):
    """Seen on a public page, or worked out with a pencil."""
    assert agrees(row, row.printed), f"{row.what}: {row.ours():.8g}, printed {row.printed} ({row.source})"


@pytest.mark.parametrize("row", the_rows(MEMORY))
def test_a_remembered_figure_is_met(row):
    """Run like the others, but listed apart and not counted as verified."""
    assert agrees(row, row.printed), f"{row.what}: {row.ours():.8g}, remembered {row.printed} ({row.source})"


@pytest.mark.parametrize("row", the_rows(SEEN, BY_HAND, MEMORY))
def test_a_row_can_fail(row):
    """A figure that is off by a little more than is allowed is not met; and no row allows more than 1 %."""
    assert 0 < row.allow <= WIDEST
    assert not agrees(row, row.printed * (1 + 2.5 * row.allow / 100))
    assert not agrees(row, row.printed * (1 - 2.5 * row.allow / 100))


def test_each_row_has_an_id_of_its_own_and_a_source():
    assert len({row.id for row in ROWS}) == len(ROWS)
    assert all(row.source and row.what and row.known in (SEEN, BY_HAND, MEMORY) for row in ROWS)
