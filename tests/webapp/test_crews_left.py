"""Who has left a crew: what stays for its coordinators, and that nothing from before or after it is shown."""

from datetime import timedelta

import pytest

from tests.webapp.crews import START, a_crew, a_hand, a_member, a_rig, an_observer
from tests.webapp.page_browser import words_of
from webapp.records import assignments, crews, sign_offs
from webapp.records.ids import new_id

DAY = timedelta(days=1)
TERMS = {"rig_type": None, "due_by": "date", "due_day": (START + 60 * DAY).date(), "pass_mark": 80, "must_pass": True}


@pytest.fixture
def crew(house):
    return a_crew(house)


@pytest.fixture
def ines(house, crew):
    """In the crew from START to day 20."""
    member = a_member(house, crew)
    an_observer(house, crew)
    return member


@pytest.fixture
def rosalind(hands, ines):
    return hands("Rosalind Achterberg")


def leaves(house, member, day=20):
    crews.leave(house, member.id, "Contract ended.", START + day * DAY)


def assigned(house, module, to, whom, day):
    by = a_hand(house, "Rosalind Achterberg").id
    assignments.add(house, assignments.new(module, to, whom, **TERMS, made_by=by, made_at=START + day * DAY))


def signed(house, crew, member, task, day):
    at = START + day * DAY
    sign_offs.sign(
        house, new_id(at), hand=member.person, task=task, title="A task", crew=crew.id, rig=crew.rig.id,
        observer=a_hand(house, "Teodor Quist"), result="alone", observed_on=at.date(), note="", now=at,
    )  # fmt: skip


def test_what_was_assigned_and_signed_in_their_time_stays_to_be_read(rosalind, house, crew, ines):
    assigned(house, "kelly", "crew", crew.id, 2)
    assigned(house, "masts", "person", ines.person.id, 3)
    signed(house, crew, ines, "S-2.3", 4)
    leaves(house, ines)
    listed = rosalind.get(f"/crews/{crew.id}/people").text
    address = f"/crews/{crew.id}/people/left/{ines.id}"
    assert address in listed
    page = words_of(rosalind.get(address).text)
    assert "From 2 Mar 2026 To 22 Mar 2026 Why Contract ended." in page
    assert "Kelly" in page and "Masts" in page and "by 1 May 2026, pass mark 80" in page
    assert "done alone S-2.3" in page and "6 Mar 2026, Quillwater 7, seen by Teodor Quist" in page
    assert "<form" not in rosalind.get(address).text.partition("<main")[2], "It is only read."


def test_nothing_from_before_and_after_is_there(rosalind, house, crew, ines):
    other = a_crew(house, a_rig(house, "Heron 3"), coordinator="Tilda Marsh")
    leaves(house, ines)
    crews.join(house, ines.person, other.id, "driller", START + 21 * DAY)
    assigned(house, "kelly", "person", ines.person.id, 22)
    assigned(house, "masts", "crew", crew.id, 23)
    signed(house, other, ines, "S-2.3", 22)
    page = words_of(rosalind.get(f"/crews/{crew.id}/people/left/{ines.id}").text)
    assert "Nothing was assigned, and no test was handed in." in page
    assert "Nothing was signed for them in this crew." in page and "driller" not in page and "Heron" not in page


def test_who_is_in_the_crew_still_and_who_left_another_has_no_such_page(rosalind, hands, house, crew, ines):
    address = f"/crews/{crew.id}/people/left/{ines.id}"
    assert rosalind.get(address).status_code == 404
    leaves(house, ines)
    other = a_crew(house, a_rig(house, "Heron 3"), coordinator="Tilda Marsh")
    tilda = hands("Tilda Marsh")
    assert tilda.get(address).status_code == 404
    assert tilda.get(f"/crews/{other.id}/people/left/{ines.id}").status_code == 404


def test_before_somebody_is_taken_out_their_page_is_offered_to_be_printed(rosalind, crew, ines):
    page = rosalind.get(f"/crews/{crew.id}/people/{ines.person.id}/leave").text
    assert f'href="/people/{ines.person.id}">Print their page first</a>' in page
