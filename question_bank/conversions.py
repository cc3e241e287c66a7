"""Ten conversions: which ones a drill asks. The table is every numeric item that only says a given in another unit."""

from collections.abc import Iterable, Iterator

from question_bank.bank import Bank
from question_bank.item_fields import SYSTEMS
from question_bank.kinds.numeric_item import NumericItem
from question_bank.picking import Picker

HOW_MANY = 10
LOADS = (6, 7, 8)
"""How many of a drill are ratings and loads: that is what an experienced hand is asked for most."""

Way = tuple[NumericItem, str]
"""An item and the system it is drawn in: one of the two ways between its units."""


def table(bank: Bank) -> list[NumericItem]:
    """Every pure conversion of the bank, in the order of its files."""
    return [item for item in bank.values() if item.kind == NumericItem.kind and item.is_conversion]


def ten(bank: Bank, seed: int) -> list[tuple[str, str]]:
    """Ids and systems of the conversions of one drill, in the order they are asked; the same for the same seed.

    Six at least are ratings and loads, and no two go between the same two units, in whichever direction.
    """
    picker = Picker(seed)
    ways = picker.shuffled([(item, system) for item in table(bank) for system in SYSTEMS])
    loads = [way for way in ways if way[0].register == "load"]
    others = [way for way in ways if way[0].register != "load"]
    drawn = _unlike(loads, [], picker.one_of(LOADS))
    drawn = _unlike(others, drawn, HOW_MANY)
    return [(item.id, system) for item, system in picker.shuffled(drawn)]


def units_of(way: Way) -> frozenset[str]:
    """The two units of a conversion."""
    item, system = way
    return frozenset({item.units[system].symbol, *(each.own_unit(system).symbol for each in item.givens.values())})


def _unlike(ways: Iterable[Way], drawn: list[Way], up_to: int) -> list[Way]:
    """`drawn` with ways added to it that are unlike all others, until there are so many."""
    return [*drawn, *_first(_new(ways, drawn), up_to - len(drawn))]


def _new(ways: Iterable[Way], drawn: list[Way]) -> Iterator[Way]:
    items, pairs = {item.id for item, _ in drawn}, {units_of(way) for way in drawn}
    for way in ways:
        if way[0].id not in items and units_of(way) not in pairs:
            items.add(way[0].id)
            pairs.add(units_of(way))
            yield way


def _first(ways: Iterator[Way], how_many: int) -> list[Way]:
    return [way for _, way in zip(range(how_many), ways, strict=False)]
