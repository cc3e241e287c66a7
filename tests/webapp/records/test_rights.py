"""Coordinators of the house, and rights in a crew."""

import sqlite3
from datetime import timedelta

import pytest

from tests.webapp.crews import START, UNTIL, a_coordinator, a_crew, a_hand, an_observer
from webapp.records import rights

DAY = timedelta(days=1)


def test_a_house_has_no_coordinator_until_one_is_made(store):
    ines = a_hand(store, "Ines Okoro")
    assert not rights.any_coordinator(store) and not rights.is_coordinator(store, ines.id)
    rights.make_coordinator(store, ines.id, None, START)
    assert rights.any_coordinator(store) and rights.is_coordinator(store, ines.id)
    assert not rights.is_coordinator(store, a_hand(store, "Marek Osei-Lund").id)


def test_making_a_coordinator_twice_is_one_coordinator(store):
    rosalind = a_coordinator(store)
    rights.make_coordinator(store, rosalind.id, rosalind.id, START + DAY)
    assert store.db.execute("select count(*) from coordinators").fetchone() == (1,)


def test_an_observers_right_comes_back_with_tasks_and_last_day(store):
    crew = a_crew(store)
    teodor = an_observer(store, crew, tasks=("S-2.4", "S-7.4"))
    [right] = rights.of_person(store, teodor.id, "observer")
    assert (right.person, right.crew, right.kind) == (teodor, crew.id, "observer")
    assert (right.tasks, right.until, right.given_at, right.ended_at) == (("S-2.4", "S-7.4"), UNTIL, START, None)
    assert rights.in_crew(store, crew.id, "observer") == [right]
    assert rights.of_person(store, teodor.id, "coordinator") == []


def test_a_right_holds_up_to_its_last_day_and_until_it_is_ended(store):
    teodor = an_observer(store, a_crew(store))
    [right] = rights.of_person(store, teodor.id, "observer")
    assert right.holds_on(UNTIL) and not right.holds_on(UNTIL + DAY)
    rights.end(store, right.id, START + DAY)
    rights.end(store, right.id, START + 2 * DAY)
    [ended] = rights.of_person(store, teodor.id, "observer")
    assert ended.ended_at == START + DAY and not ended.holds_on(START.date())


def test_a_coordinators_right_has_no_last_day(store):
    crew = a_crew(store)
    [right] = rights.in_crew(store, crew.id, "coordinator")
    assert (right.tasks, right.until) == ((), None)
    assert right.holds_on(UNTIL + 3650 * DAY)


@pytest.mark.parametrize("kind, until", [("observer", None), ("coordinator", UNTIL), ("boss", None)])
def test_a_right_that_can_not_be_is_refused(store, kind, until):
    crew, ines = a_crew(store), a_hand(store, "Ines Okoro")
    with pytest.raises(sqlite3.IntegrityError):
        rights.give(store, ines.id, crew.id, kind, ines.id, START, ("S-2.4",), until)
    assert [each.person.name for each in rights.in_crew(store, crew.id, kind)] == (
        ["Rosalind Achterberg"] if kind == "coordinator" else []
    )
