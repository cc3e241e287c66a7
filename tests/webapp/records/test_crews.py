"""Rigs, crews and memberships."""

import sqlite3
from datetime import date, timedelta

import pytest

from tests.webapp.crews import START, UNTIL, a_crew, a_hand, a_member, a_rig, an_observer
from webapp.records import crews, rights
from webapp.records.crews import NameInUse

DAY = timedelta(days=1)


def test_a_rig_comes_back_as_it_was_made(store):
    rig = a_rig(store, "  Quillwater   12 ", "top-drive")
    assert (rig.name, rig.rig_type) == ("Quillwater 12", "top-drive")
    assert crews.rig(store, rig.id) == rig
    assert crews.rig(store, "gone") is None


@pytest.mark.parametrize("name", ["Quillwater 7", "QUILLWATER  7", "quillwater ７"])
def test_two_rigs_have_two_names(store, name):
    a_rig(store)
    with pytest.raises(NameInUse, match="Choose it, or write another name"):
        a_rig(store, name)
    assert store.db.execute("select count(*) from rigs").fetchone() == (1,)


def test_a_rig_of_another_type_is_refused(store):
    with pytest.raises(sqlite3.IntegrityError):
        a_rig(store, rig_type="spinner")


def test_a_crew_comes_back_as_it_was_made(store):
    crew = a_crew(store, name=" Crew   A")
    assert (crew.name, crew.full_name) == ("Crew A", "Quillwater 7, Crew A")
    assert (crew.days_on, crew.days_off, crew.first_day, crew.nights_from) == (14, 14, date(2026, 3, 2), 8)
    assert crews.crew(store, crew.id) == crew
    assert crews.crew(store, "gone") is None


def test_crews_of_one_rig_have_their_own_names(store):
    """Two rigs may have a Crew A each."""
    rig = a_rig(store)
    a_crew(store, rig)
    with pytest.raises(NameInUse, match="Quillwater 7 has a crew called crew a already"):
        a_crew(store, rig, "crew a")
    assert a_crew(store, a_rig(store, "Quillwater 12", "top-drive")).name == "Crew A"


def test_a_rotation_is_set_anew(store):
    crew = a_crew(store)
    crews.change_rotation(store, crew.id, 21, 7, date(2026, 4, 1), None)
    changed = crews.crew(store, crew.id)
    assert (changed.days_on, changed.days_off, changed.first_day, changed.nights_from) == (
        21,
        7,
        date(2026, 4, 1),
        None,
    )


@pytest.mark.parametrize("wrong", [(0, 14, 1), (121, 14, 1), (14, -1, 1), (14, 121, 1), (14, 14, 15), (14, 14, 0)])
def test_a_rotation_that_can_not_be_is_refused(store, wrong):
    crew = a_crew(store)
    days_on, days_off, nights_from = wrong
    with pytest.raises(sqlite3.IntegrityError):
        crews.change_rotation(store, crew.id, days_on, days_off, date(2026, 4, 1), nights_from)
    assert crews.crew(store, crew.id) == crew


def test_a_member_is_seen_from_joining_unless_they_share_more(store):
    crew = a_crew(store)
    ines = a_member(store, crew)
    assert (ines.joined_at, ines.sees_from, ines.left_at, ines.left_why) == (START, START, None, None)
    assert (ines.person.name, ines.job, ines.crew) == ("Ines Okoro", "floorhand", crew)
    earlier = START - 30 * DAY
    assert a_member(store, crew, "Marek Osei-Lund", sees_from=earlier).sees_from == earlier
    crews.share_from(store, ines.id, earlier)
    assert crews.membership_now(store, ines.person.id).sees_from == earlier


def test_somebody_is_in_one_crew_at_a_time(store):
    rig = a_rig(store)
    first, second = a_crew(store, rig), a_crew(store, rig, "Crew B")
    ines = a_member(store, first)
    with pytest.raises(sqlite3.IntegrityError):
        crews.join(store, ines.person, second.id, "floorhand", START)
    crews.leave(store, ines.id, "Goes to Crew B", START + DAY)
    crews.join(store, ines.person, second.id, "floorhand", START + DAY)
    assert crews.membership_now(store, ines.person.id).crew == second
    assert [each.crew.name for each in crews.memberships_of(store, ines.person.id)] == ["Crew B", "Crew A"]


def test_leaving_keeps_when_and_why_and_counts_once(store):
    ines = a_member(store, a_crew(store))
    crews.leave(store, ines.id, "Contract ended", START + DAY)
    crews.leave(store, ines.id, "Said twice", START + 2 * DAY)
    [kept] = crews.left(store, [ines.crew.id])
    assert (kept.left_at, kept.left_why) == (START + DAY, "Contract ended")
    assert crews.membership_now(store, ines.person.id) is None
    assert crews.members(store, [ines.crew.id]) == []


def test_members_are_listed_by_name_for_the_crews_asked_for(store):
    rig = a_rig(store)
    first, second, third = (a_crew(store, rig, f"Crew {letter}") for letter in "ABC")
    for crew, name in [(first, "Marek"), (first, "Ines"), (second, "Joao"), (third, "Wen")]:
        a_member(store, crew, name)
    assert [each.person.name for each in crews.members(store, [first.id])] == ["Ines", "Marek"]
    assert [each.person.name for each in crews.members(store, [first.id, second.id])] == ["Ines", "Joao", "Marek"]
    assert crews.members(store, []) == crews.left(store, []) == []


def test_crews_with_a_right_are_the_open_ones_of_that_person(store):
    rig = a_rig(store)
    first, second = a_crew(store, rig, "Crew B"), a_crew(store, rig, "Crew A")
    other = a_crew(store, a_rig(store, "Quillwater 12", "top-drive"), coordinator="Tilda Marsh")
    rosalind, tilda = a_hand(store, "Rosalind Achterberg"), a_hand(store, "Tilda Marsh")
    assert crews.crews_with_right(store, rosalind.id, "coordinator", START.date()) == [second, first]
    assert crews.crews_with_right(store, tilda.id, "coordinator", START.date()) == [other]
    assert crews.crews_with_right(store, tilda.id, "observer", START.date()) == []


def test_an_observers_crew_is_there_up_to_the_last_day(store):
    crew = a_crew(store)
    teodor = an_observer(store, crew)
    for day, found in [(UNTIL, [crew]), (UNTIL + DAY, [])]:
        assert crews.crews_with_right(store, teodor.id, "observer", day) == found
    rights.end(store, rights.of_person(store, teodor.id, "observer")[0].id, START)
    assert crews.crews_with_right(store, teodor.id, "observer", START.date()) == []


def test_a_closed_crew_is_gone_from_the_list_and_its_name_is_free(store):
    rig = a_rig(store)
    first = a_crew(store, rig)
    crews.close(store, first.id, START + DAY)
    crews.close(store, first.id, START + 2 * DAY)
    assert (crews.crew(store, first.id).closed_at, crews.crew(store, first.id).name) == (START + DAY, "Crew A")
    second = a_crew(store, rig)
    rosalind = a_hand(store, "Rosalind Achterberg")
    assert crews.crews_with_right(store, rosalind.id, "coordinator", START.date()) == [second]
