"""Which wrong numbers show the right method: worked by hand on one item, and what holds of all."""

import pytest

from question_bank import load_bank

BANK = load_bank()


def fast_line():
    """A sum that is no conversion, with known mistakes."""
    return next(
        each
        for item in BANK.values()
        if item.kind == "numeric"
        for each in [item.draw(3, "us")]
        if not each.conversion and each.relative and each.mistakes and each.unit == "lbf" and each.side == "either"
    )


@pytest.mark.parametrize(
    ("times", "shows_it"),
    [(10, True), (0.001, True), (100, True), (1, False), (3.7, False), (31.7, False)],
)
def test_a_decimal_mark_some_places_off_is_a_slip(times, shows_it):
    asked = fast_line()
    assert asked.method_right(f"{asked.value * times:.9g} {asked.unit}") is shows_it


def test_near_is_a_slip_and_what_can_t_be_read_is_none():
    asked = fast_line()
    near = asked.value * (1 + 1.5 * asked.half_width)
    assert asked.grade(f"{near:.9g} {asked.unit}").outcome == "close"
    assert asked.method_right(f"{near:.9g} {asked.unit}")
    assert not asked.method_right("no number") and not asked.method_right("5 ft")


def test_the_right_number_beside_another_unit_is_a_slip():
    asked = fast_line()
    assert asked.method_right(f"{asked.value:.9g} kN")


@pytest.mark.parametrize("system", ["us", "metric"])
def test_a_known_wrong_way_is_a_wrong_method_unless_it_only_moves_the_mark(system):
    """Over the whole bank; and a right answer is never said to be a slip."""
    shown = 0
    for item in BANK.values():
        if item.kind != "numeric":
            continue
        asked = item.draw(7, system)
        assert not asked.method_right(asked.key_text), item.id
        for slip in asked.mistakes:
            given = f"{slip.value:.12g} {asked.unit}"
            if asked.grade(given).mistake != slip.name or not asked.value:
                continue
            times = slip.value / asked.value
            mere = any(abs(times / 10.0**power - 1) < 0.2 for power in (-3, -2, -1, 1, 2, 3))
            if not mere or asked.conversion:
                assert not asked.method_right(given), (item.id, slip.name)
                shown += 1
    assert shown > 100
