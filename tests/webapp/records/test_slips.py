"""Set-up addresses and slips: what works, for whom, how often and how long."""

import re
import sqlite3
from datetime import timedelta

import pytest

from tests.webapp.crews import START, a_coordinator, a_crew, a_hand
from webapp import codes
from webapp.records import setup_addresses, slips

HOUR, DAY = timedelta(hours=1), timedelta(days=1)


@pytest.fixture
def crew(store):
    return a_crew(store)


@pytest.fixture
def slip(store, crew):
    """A slip for two hands and ten days."""
    return slips.make(store, crew.id, a_coordinator(store).id, START, START + 10 * DAY, most_uses=2)


def test_an_address_is_open_for_forty_eight_hours(store):
    until = setup_addresses.make(store, "a", START)
    assert until == START + 48 * HOUR
    assert setup_addresses.state(store, "a", until - timedelta(microseconds=1)) == "open"
    assert setup_addresses.state(store, "a", until) == "ended"
    assert setup_addresses.state(store, "b", START) is None


def test_an_address_works_once(store):
    ines, marek = a_hand(store, "Ines Okoro"), a_hand(store, "Marek Osei-Lund")
    setup_addresses.make(store, "a", START)
    assert setup_addresses.use(store, "a", ines.id, START + HOUR)
    assert not setup_addresses.use(store, "a", marek.id, START + HOUR)
    assert setup_addresses.state(store, "a", START + HOUR) == "used"
    assert store.db.execute("select used_by from setup_addresses").fetchall() == [(ines.id,)]


def test_an_address_that_ended_or_never_was_is_not_used(store):
    ines = a_hand(store, "Ines Okoro")
    setup_addresses.make(store, "a", START)
    assert not setup_addresses.use(store, "a", ines.id, START + 48 * HOUR)
    assert not setup_addresses.use(store, "b", ines.id, START)
    assert store.db.execute("select used_by from setup_addresses").fetchall() == [(None,)]


def test_a_new_address_ends_those_before_and_leaves_the_used_ones(store):
    ines = a_hand(store, "Ines Okoro")
    setup_addresses.make(store, "a", START)
    setup_addresses.use(store, "a", ines.id, START)
    setup_addresses.make(store, "b", START + HOUR)
    setup_addresses.make(store, "c", START + 2 * HOUR)
    at = START + 3 * HOUR
    assert [setup_addresses.state(store, each, at) for each in "abc"] == ["used", "ended", "open"]


def test_a_code_is_twelve_plain_letters_and_the_same_each_time(store, slip):
    code = slips.code_of(store, slip.id)
    assert re.fullmatch(r"[2-9A-HJKMNP-TV-Z]{4}(-[2-9A-HJKMNP-TV-Z]{4}){2}", code)
    assert code == slips.code_of(store, slip.id) != slips.code_of(store, "another id")


def test_another_house_has_other_codes():
    assert codes.slip_code(b"one key", "a slip") != codes.slip_code(b"another key", "a slip")


def test_the_code_is_not_kept(store, slip):
    """Neither with its groups nor without; what is kept is its hash."""
    kept = store.db.execute("select * from slips").fetchone()
    code = slips.code_of(store, slip.id)
    assert not {code, codes.bare(code)} & set(kept)
    assert codes.hashed(code) in kept


@pytest.mark.parametrize("change", [str.lower, codes.bare, lambda code: f" {code.replace('-', ' – ')} "])
def test_a_slip_is_found_however_its_code_is_typed(store, slip, change):
    assert slips.by_code(store, change(slips.code_of(store, slip.id))) == slip
    assert slips.by_code(store, "ABCD-EFGH-JKMN") is None


def test_a_slip_is_used_up_by_so_many_people(store, slip):
    people = [a_hand(store, name).id for name in ("Ines", "Marek", "Joao")]
    assert [slips.use(store, slip, each, START) for each in people] == [True, True, False]
    assert slips.by_code(store, slips.code_of(store, slip.id)).state(START) == "used"


def test_one_person_uses_a_slip_once(store, slip):
    ines = a_hand(store, "Ines Okoro").id
    assert [slips.use(store, slip, ines, START) for _ in range(2)] == [True, False]
    assert slips.by_code(store, slips.code_of(store, slip.id)).uses == 1


def test_a_slip_ends_on_its_day_or_when_it_is_revoked(store, slip, crew):
    ines = a_hand(store, "Ines Okoro").id
    assert slip.state(slip.until - timedelta(seconds=1)) == "open"
    assert not slips.use(store, slip, ines, slip.until)
    slips.revoke(store, slip.id, START + HOUR)
    assert not slips.use(store, slip, ines, START + HOUR)
    [kept] = slips.of_crew(store, crew.id)
    assert (kept.state(START + HOUR), kept.revoked_at, kept.uses) == ("revoked", START + HOUR, 0)


def test_slips_are_revoked_for_a_crew_or_for_one_of_its_people(store, slip, crew):
    by, ines = a_coordinator(store).id, a_hand(store, "Ines Okoro").id
    own = slips.make(store, crew.id, by, START + HOUR, START + DAY, person=ines)
    assert [each.id for each in slips.of_crew(store, crew.id)] == [own.id, slip.id]
    slips.revoke_all(store, crew.id, START + 2 * HOUR, ines)
    assert [each.state(START + 2 * HOUR) for each in slips.of_crew(store, crew.id)] == ["revoked", "open"]
    slips.revoke_all(store, crew.id, START + 3 * HOUR)
    kept = [each.revoked_at for each in slips.of_crew(store, crew.id)]
    assert kept == [START + 2 * HOUR, START + 3 * HOUR]


@pytest.mark.parametrize("most_uses", [0, 201])
def test_a_slip_is_for_one_to_two_hundred(store, crew, most_uses):
    with pytest.raises(sqlite3.IntegrityError):
        slips.make(store, crew.id, a_coordinator(store).id, START, START + DAY, most_uses=most_uses)
