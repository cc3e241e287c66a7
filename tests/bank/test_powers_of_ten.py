"""About how big: powers of ten, by hand."""

from collections import Counter

import pytest

from question_bank.conversions import table
from question_bank.powers_of_ten import HOW_MANY, is_clear, lowest_offered, offered, power_of, size


@pytest.mark.parametrize("value, power", [
    (1, 0), (9.999, 0), (10, 1), (286, 2), (999.9, 2), (1000, 3), (1272.2, 3), (0.78, -1), (0.1, -1), (0.099, -2),
    (0.0012, -3), (130_000, 5), (-44.6, 1),
])  # fmt: skip
def test_the_power_of_ten_of_the_first_figure(value, power):
    assert power_of(value) == power


def test_nothing_has_no_power_of_ten():
    with pytest.raises(ValueError, match="no power"):
        power_of(0)


@pytest.mark.parametrize("power, unit, text, name", [
    (2, "kN", "100 to 999 kN", "hundreds"),
    (1, "st", "10 to 99 st", "tens"),
    (0, "SG", "1 to 9.9 SG", "ones"),
    (-1, "m/s", "0.1 to 0.99 m/s", "tenths"),
    (-3, "in", "0.001 to 0.0099 in", "thousandths"),
    (4, "lbf", "10,000 to 99,999 lbf", "tens of thousands"),
])  # fmt: skip
def test_a_power_of_ten_in_words(power, unit, text, name):
    assert (size(power, unit).text, size(power, unit).name) == (text, name)


@pytest.mark.parametrize(
    "value, clear", [(99.7, False), (101, False), (106, True), (940, True), (0.97, False), (500, True)]
)
def test_a_value_at_the_end_of_its_power_of_ten_is_no_fair_question(value, clear):
    assert is_clear(value) == clear


def test_the_right_one_is_among_the_four_and_in_any_place():
    places = Counter()
    for seed in range(400):
        powers = [each.power for each in offered(lowest_offered(286.0, seed), "kN")]
        assert len(powers) == HOW_MANY and powers == list(range(powers[0], powers[0] + HOW_MANY))
        places[powers.index(2)] += 1
    assert set(places) == {0, 1, 2, 3} and min(places.values()) > 60


def test_nothing_absurdly_small_is_offered_but_the_right_one_always_is():
    """Of 40 m no thousandths; a value of thousandths has them."""
    for seed in range(100):
        assert lowest_offered(40.0, seed) >= -2
        for value in (0.0071, 0.78, 1.4, 40.0, 130_000.0):
            assert lowest_offered(value, seed) <= power_of(value) < lowest_offered(value, seed) + HOW_MANY


def test_the_place_tells_nothing_about_the_size(bank):
    """Small and large draws of one item have the right answer in every place: the seed that drew them is counted on."""
    item = bank["units.hook-load-in-kn"]
    small = {lowest_offered(q.value, q.seed) - power_of(q.value) for q in draws(item) if q.value < 500}
    large = {lowest_offered(q.value, q.seed) - power_of(q.value) for q in draws(item) if q.value > 2500}
    assert small == large == {0, -1, -2, -3}


def draws(item):
    return [item.draw(seed, "us") for seed in range(400)]


def test_every_conversion_has_draws_whose_size_is_a_fair_question(bank):
    for item in table(bank):
        for system in ("us", "metric"):
            fair = sum(is_clear(item.draw(seed, system).value) for seed in range(60))
            assert fair >= 20, f"{item.id}, {system}"
