"""Rig sheets: versions counted for each rig and each hand, the one that counts, and who has checked it."""

import sqlite3
from datetime import timedelta

import pytest

from tests.webapp.crews import START, a_crew, a_hand, a_member, a_rig
from webapp.records import rig_sheets

LATER = START + timedelta(days=1)


@pytest.fixture
def rig(store):
    return a_rig(store, "Quillwater 12", "top-drive")


@pytest.fixture
def by(store):
    return a_hand(store, "Rosalind Achterberg").id


def keep(store, by, **of):
    values = of.pop("values", {"tool_rating": "350 st"})
    return rig_sheets.keep(store, values, {}, {}, system="us", by=by, now=START, **of)


def test_the_writer_can_not_check_it_and_anybody_else_can(store, rig, by):
    sheet = keep(store, by, rig=rig.id)
    assert not rig_sheets.mark_checked(store, sheet.id, by, LATER)
    assert rig_sheets.get(store, sheet.id).checked_by is None
    assert rig_sheets.mark_checked(store, sheet.id, a_hand(store, "Hettie Quarles").id, LATER)


def test_a_sheet_comes_back_as_it_was_kept(store, rig, by):
    notes, draws = {"tool_rating": "Plate."}, {"units.a": {"hash": "ff", "us": None, "metric": "It can’t."}}
    sheet = rig_sheets.keep(
        store, {"tool_rating": "350 st"}, notes, draws, system="metric", by=by, now=START, rig=rig.id
    )
    assert sheet == rig_sheets.get(store, sheet.id)
    assert (sheet.rig, sheet.rig_name, sheet.person, sheet.version) == (rig.id, "Quillwater 12", None, 1)
    assert (sheet.values, sheet.notes, sheet.draws) == ({"tool_rating": "350 st"}, notes, draws)
    assert (sheet.made_by, sheet.made_at, sheet.checked_by) == ("Rosalind Achterberg", START, None)
    assert rig_sheets.get(store, "none") is None


def test_versions_are_counted_for_each_rig_and_each_hand(store, rig, by):
    ines = a_hand(store, "Ines Okoro").id
    other = a_rig(store, "Quillwater 7")
    assert [keep(store, by, rig=rig.id).version for _ in range(3)] == [1, 2, 3]
    assert keep(store, by, rig=other.id).version == 1
    assert [keep(store, ines, person=ines).version for _ in range(2)] == [1, 2]
    assert [each.version for each in rig_sheets.of_rig(store, rig.id)] == [3, 2, 1]
    assert [each.version for each in rig_sheets.of_person(store, ines)] == [2, 1]


def test_a_sheet_is_of_a_rig_or_of_a_hand(store, rig, by):
    for of in ({}, {"rig": rig.id, "person": by}):
        with pytest.raises(sqlite3.IntegrityError):
            keep(store, by, **of)


def test_a_sheet_is_checked_once_and_by_name(store, rig, by):
    sheet = keep(store, by, rig=rig.id)
    hettie = a_hand(store, "Hettie Quarles").id
    assert rig_sheets.mark_checked(store, sheet.id, hettie, LATER)
    assert not rig_sheets.mark_checked(store, sheet.id, by, LATER + timedelta(days=1))
    kept = rig_sheets.get(store, sheet.id)
    assert (kept.checked_by, kept.checked_at) == ("Hettie Quarles", LATER)


def test_the_rigs_newest_checked_sheet_counts_else_the_hands_own(store, rig, by):
    ines = a_hand(store, "Ines Okoro").id
    assert rig_sheets.that_counts(store, ines, rig.id) is None
    own = keep(store, ines, person=ines, for_rig=rig.id)
    old = keep(store, by, rig=rig.id, values={"travelling_weight": "39250 lb"})
    assert rig_sheets.that_counts(store, ines, rig.id).id == own.id, (
        "A sheet that nobody checked is the rig's for nobody."
    )
    hettie = a_hand(store, "Hettie Quarles").id
    rig_sheets.mark_checked(store, old.id, hettie, LATER)
    assert rig_sheets.that_counts(store, ines, rig.id).id == old.id
    new = keep(store, by, rig=rig.id, values={"travelling_weight": "44500 lb"})
    assert rig_sheets.that_counts(store, ines, rig.id).id == old.id
    rig_sheets.mark_checked(store, new.id, hettie, LATER)
    assert rig_sheets.that_counts(store, ines, rig.id).id == new.id
    assert rig_sheets.that_counts(store, ines, None).id == own.id, "Without a crew there is no rig's sheet."


def test_a_sheet_filled_in_on_another_rig_counts_no_more(store, rig, by):
    ines = a_hand(store, "Ines Okoro").id
    seven = a_rig(store, "Quillwater 7")
    alone = keep(store, ines, person=ines)
    assert rig_sheets.that_counts(store, ines, rig.id).id == alone.id
    there = keep(store, ines, person=ines, for_rig=seven.id)
    assert rig_sheets.that_counts(store, ines, seven.id).id == there.id
    assert rig_sheets.that_counts(store, ines, rig.id).id == alone.id


@pytest.mark.parametrize("checked", [True, False])
def test_a_hands_sheet_taken_over_keeps_who_checked_it(store, rig, by, checked):
    ines = a_hand(store, "Ines Okoro").id
    own = keep(store, ines, person=ines, for_rig=rig.id)
    if checked:
        rig_sheets.mark_checked(store, own.id, by, LATER)
    taken = rig_sheets.take_over(store, rig_sheets.get(store, own.id), rig.id, LATER)
    assert (taken.rig, taken.version, taken.values) == (rig.id, 1, own.values)
    assert taken.checked_by == ("Rosalind Achterberg" if checked else None)


def test_the_newest_sheet_of_each_hand_in_a_crew_is_found(store, rig):
    crew, other = a_crew(store, rig), a_crew(store, rig, "Crew B")
    ines, joao = a_member(store, crew, "Ines Okoro").person.id, a_member(store, crew, "Joao Wexley", sees_from=LATER)
    marek = a_member(store, other, "Marek Osei").person.id
    for person in (ines, ines, joao.person.id, marek):
        keep(store, person, person=person, for_rig=rig.id)
    keep(store, ines, person=ines, for_rig=a_rig(store, "Quillwater 7").id)
    found = rig_sheets.of_hands(store, [crew.id], rig.id)
    assert [(each.person, each.version) for each in found] == [(ines, 2)], "Joao’s is from before he may be seen."
    assert [each.person for each in rig_sheets.of_hands(store, [crew.id, other.id], rig.id)] == [ines, marek]
    assert rig_sheets.of_hands(store, [], rig.id) == []


@pytest.mark.parametrize("of", ["rig", "person"])
def test_the_newest_is_found_by_an_index(store, of):
    order = f"explain query plan {rig_sheets.SHEETS} where rig_sheets.{of} = ? order by version desc limit 1"
    plan = " ".join(row[3] for row in store.db.execute(order, ["x"]))
    assert f"USING INDEX rig_sheets_of_{of}" in plan and "SCAN rig_sheets" not in plan
