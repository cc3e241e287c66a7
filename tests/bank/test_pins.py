"""A hundred draws pinned for the release: kept questions were drawn from these seeds, and the code must still agree."""

import json

import pytest

from tests.bank.pin_draws import HOW_MANY, PINS, drawn

ROWS = json.loads(PINS.read_text(encoding="utf-8"))


@pytest.mark.parametrize("pin", ROWS, ids=[f"{row['item']} {row['system']} {row['seed']}" for row in ROWS])
def test_a_pinned_draw_has_not_changed(bank, pin):
    """If a release means to change it, renew all pins with: python -m tests.bank.pin_draws"""
    assert drawn(bank, pin["item"], pin["seed"], pin["system"]) == pin


def test_a_hundred_different_draws_are_pinned():
    assert len({(row["item"], row["seed"], row["system"]) for row in ROWS}) == len(ROWS) == HOW_MANY
    assert {row["system"] for row in ROWS} == {"us", "metric"}


def test_a_pin_can_fail(bank):
    """A pin of another seed is not the same draw."""
    pin = next(row for row in ROWS if bank[row["item"]].kind == "numeric")
    assert drawn(bank, pin["item"], pin["seed"] + 1, pin["system"]) != {**pin, "seed": pin["seed"] + 1}
