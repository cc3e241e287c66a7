"""A hand of a crew who told a rotation of their own: it decides for them wherever days on do, and it is said."""

from datetime import date, timedelta

import pytest

from tests.bench.query_plans import statements_of
from tests.webapp.crews import START, a_crew, a_member, a_rig
from tests.webapp.page_browser import words_of
from tests.webapp.test_crews_matrix import ROSALIND, assigned, crew_coordinator, row_of
from webapp.records import assignments, crews, exams, rotations

NIGHTS = date(2026, 5, 9)
"""Day 68 from START: on nights by the crew's rotation."""


@pytest.fixture
def crew(house):
    return a_crew(house)


def other_half(house, person):
    """A rotation of their own that is on while the crew is off, from two weeks before the crew's, days all through."""
    rotations.set_own(house, person.id, 14, 14, date(2026, 2, 16), None)


def test_exam_and_today_go_by_the_hands_own_rotation_and_say_so(hands, house, crew):
    ines, marek = (a_member(house, crew, name).person for name in ("Ines Okoro", "Marek Osei"))
    other_half(house, ines)
    by = crew_coordinator(house, crew)
    for person in (ines, marek):
        exams.set_day(house, person.id, "a", NIGHTS, by, START)
    rosalind = hands(ROSALIND)
    matrix = rosalind.get(f"/crews/{crew.id}")
    assert "off the rig by their own rotation" in row_of(matrix, "Ines Okoro")["exam"]
    assert "paper A, on nights" in row_of(matrix, "Marek Osei")["exam"]
    words = words_of(rosalind.get(f"/people/{ines.id}").text)
    assert "today off the rig, by their own rotation" in words
    assert "9 May is off the rig by their own rotation. The nearest days on day tour: 26 Apr or 11 May." in words
    words = words_of(rosalind.get(f"/people/{marek.id}").text)
    assert "today on the rig" in words and "own rotation" not in words
    assert "when you are off the rig by your own rotation" in words_of(hands("Ines Okoro").get("/today").text)


def test_what_is_due_by_hitch_is_due_at_the_end_of_the_hands_own(hands, house, crew):
    """Assigned to the crew, and to the hand alone; a hand of the crew's rotation keeps the crew's day."""
    ines = a_member(house, crew).person
    a_member(house, crew, "Marek Osei")
    other_half(house, ines)
    assigned(house, "units", crew, due_by="hitch", due_day=START.date())
    assignments.add(house, assignments.new(
        "kelly", "person", ines.id, rig_type=None, due_by="hitch", due_day=START.date(), pass_mark=80, must_pass=True,
        made_by=crew_coordinator(house, crew), made_at=START,
    ))  # fmt: skip
    rosalind = hands(ROSALIND)
    page = rosalind.get(f"/crews/{crew.id}")
    assert row_of(page, "Ines Okoro")[1].startswith("not begun by 29 Mar")
    assert row_of(page, "Ines Okoro")[2].startswith("not begun by 29 Mar")
    assert row_of(page, "Marek Osei")[1].startswith("not begun by 15 Mar")
    words = words_of(rosalind.get(f"/people/{ines.id}").text)
    assert "29 Mar end of hitch, by their own rotation" in words
    assert "29 Mar by your own rotation" in words_of(hands("Ines Okoro").get("/today").text)


def test_the_pace_goes_by_the_hands_own_days_and_minutes(hands, house, crew):
    """No study on days off: who is off until the 15th can't do it by then, who is on can."""
    ines, marek = (a_member(house, crew, name).person for name in ("Ines Okoro", "Marek Osei"))
    other_half(house, ines)
    with house.writing() as db:
        db.execute("update people set minutes = 60, minutes_off = 0")
    assigned(house, "units", crew)
    page = hands(ROSALIND).get(f"/crews/{crew.id}")
    assert row_of(page, "Ines Okoro")[1].startswith("not begun by 15 Mar won’t make it")
    assert row_of(page, "Marek Osei")[1] == "not begun by 15 Mar"
    for day in range(14):
        rotations.set_day(house, marek.id, START.date() + timedelta(day), 0)
    assert "won’t make it" in row_of(hands(ROSALIND).get(f"/crews/{crew.id}"), "Marek Osei")[1]


def test_the_same_minutes_every_day_tell_nothing_of_the_rig(house, crew):
    """A hand of a crew who goes by no rotation is on the rig with the crew, and studies as long on days off."""
    member = a_member(house, crew)
    rotations.set_own(house, member.person.id, 1, 0, START.date(), None)
    held = rotations.of_members(house, [member])[member.person.id]
    assert (held.is_own, held.rotation.days_on, held.rotation.nights_from) == (False, 14, 8)
    assert held.rotation.minutes_off == held.rotation.minutes_on == member.person.minutes


def test_the_matrix_reads_rotations_with_one_query_for_any_number(app, hands, house, crew):
    other = a_crew(house, a_rig(house, "Quillwater 12"), "Crew B")
    rosalind = hands(ROSALIND)

    def asked():
        with statements_of(app.extensions["pinandbox"]["store"].db.conn) as seen:
            rosalind.get("/crews/all")
        return [sum(f"from {table}" in each for each in seen) for table in ("rotations", "day_minutes")]

    other_half(house, a_member(house, crew, "Ines Okoro").person)
    assert asked() == [1, 1]
    for number, name in enumerate(("Marek Osei", "Abel Quist", "Joao Wexley")):
        other_half(house, a_member(house, (crew, other)[number % 2], name).person)
    assert asked() == [1, 1]
    assert {id: each.is_own for id, each in rotations.of_members(house, crews.members(house, [crew.id])).items()}
