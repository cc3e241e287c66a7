"""Which ten conversions a drill asks."""

import pytest

from question_bank.conversions import HOW_MANY, table, ten

DRILLS = range(300)


@pytest.fixture(scope="module")
def drills(bank):
    return [ten(bank, seed) for seed in DRILLS]


def shown_units(bank, item_id, system):
    """The two units as a drawn question shows them."""
    question = bank[item_id].draw(1, system)
    return frozenset({question.unit, question.givens[0][1].split(" ", 1)[1]})


def test_the_table_holds_pure_conversions_of_one_given(bank):
    rows = table(bank)
    assert len(rows) >= 20
    for item in rows:
        assert len(item.givens) == 1 and item.draw(1).conversion
    assert "units.string-under-block" not in {item.id for item in rows}


def test_a_drill_has_ten_and_no_two_between_the_same_units(bank, drills):
    for drill in drills:
        assert len(drill) == HOW_MANY == len({item for item, _ in drill})
        assert len({shown_units(bank, *way) for way in drill}) == HOW_MANY


def test_six_of_ten_at_least_are_ratings_and_loads_and_never_all(bank, drills):
    for drill in drills:
        assert 6 <= sum(bank[item].register == "load" for item, _ in drill) < HOW_MANY


def test_every_conversion_comes_both_ways_sooner_or_later(bank, drills):
    ways = {way for drill in drills for way in drill}
    assert ways == {(item.id, system) for item in table(bank) for system in ("us", "metric")}


def test_a_drill_is_the_same_for_the_same_seed_and_another_for_another(bank, drills):
    assert ten(bank, 5) == drills[5]
    assert len({tuple(drill) for drill in drills}) == len(drills)
