"""The coordinator gives the right to sign: to whom, which tasks, until when; and ends it."""

import pytest

from tests.webapp.crews import START, a_crew, a_hand, a_member, a_rig, an_observer
from tests.webapp.page_browser import words_of
from webapp.records import log, people, rights, sign_offs

GOOD = {"person": "Teodor Quist", "tasks": ["S-2.3", "S-4.1"], "until": "2026-06-01"}


@pytest.fixture
def crew(house):
    return a_crew(house)


@pytest.fixture
def coordinator(house, crew, hands):
    """Rosalind's browser."""
    a_hand(house, "Teodor Quist")
    return hands("Rosalind Achterberg")


def given(house, crew):
    return rights.in_crew(house, crew.id, "observer")


def test_a_right_is_given_with_its_tasks_and_last_day(coordinator, house, crew):
    page = words_of(coordinator.follow(coordinator.send(f"/crews/{crew.id}/observers", **GOOD)).text)
    assert "The right is given." in page and "Teodor Quist 2 tasks" in page and "1 Jun" in page
    [right] = given(house, crew)
    assert (right.person.name, right.tasks, str(right.until)) == ("Teodor Quist", ("S-2.3", "S-4.1"), "2026-06-01")
    [line] = log.of_crews(house, [crew.id], 5)
    assert (line.what, line.detail) == ("observer named", "Teodor Quist may sign S-2.3, S-4.1 until 1 June 2026.")


def test_who_is_not_signed_as_done_is_asked_about_once(coordinator, house, crew):
    """A member of the crew who was seen on one of the two; what is sent back is that very sentence."""
    address = f"/crews/{crew.id}/observers"
    teodor = a_member(house, crew, "Teodor Quist").person
    for number in range(2):
        sign_offs.sign(
            house, f"019c0000-0000-7000-8000-00000000000{number}", hand=teodor, task="S-2.3", title="A task",
            crew=crew.id, rig=crew.rig.id, observer=a_hand(house, "Hettie Quarles"), result="alone",
            observed_on=START.date(), note="", now=START,
        )  # fmt: skip
    asked = coordinator.send(address, **GOOD)
    sentence = "Teodor Quist is not signed as done on S-4.1. Give the right all the same?"
    assert asked.status_code == 422 and sentence in words_of(asked.text) and given(house, crew) == []
    changed = coordinator.send(address, **GOOD | {"tasks": ["S-2.3", "S-4.2"], "sure": sentence})
    assert changed.status_code == 422 and "done on S-4.2." in words_of(changed.text)
    coordinator.send(address, **GOOD | {"sure": sentence})
    assert len(given(house, crew)) == 1
    assert log.of_crews(house, [crew.id], 1)[0].detail.endswith("Teodor Quist is not signed as done on S-4.1.")
    assert coordinator.send(address, **GOOD | {"tasks": ["S-2.3"]}).status_code == 303, "Nothing speaks against this."


def test_of_another_crews_hand_nothing_is_told(coordinator, house, crew):
    other = a_crew(house, a_rig(house, "Quillwater 12", "top-drive"), coordinator="Tilda Marsh")
    a_member(house, other, "Teodor Quist")
    assert coordinator.send(f"/crews/{crew.id}/observers", **GOOD).status_code == 303
    assert "not signed" not in log.of_crews(house, [crew.id], 1)[0].detail


def test_who_has_not_signed_in_yet_is_asked_about(coordinator, house, crew):
    a_member(house, crew, "Teodor Quist")
    people.set_password(house, people.by_name(house, "Teodor Quist").id, "")
    page = words_of(coordinator.send(f"/crews/{crew.id}/observers", **GOOD).text)
    assert "Teodor Quist has not signed in here yet. Teodor Quist is not signed as done on S-2.3, S-4.1." in page


def test_a_whole_module_is_a_tick(coordinator, house, crew):
    """The tasks of module 7, by hand from the list of tasks."""
    coordinator.send(f"/crews/{crew.id}/observers", **GOOD | {"tasks": ["drilling-line", "S-7.4", "S-2.3"]})
    assert given(house, crew)[0].tasks == ("S-2.3", "S-7.1", "S-7.2", "S-7.3", "S-7.4")


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        pytest.param({"person": ""}, "Write what the observer types to sign in.", id="nobody"),
        pytest.param({"person": "Lucho"}, "Nobody here signs in like that.", id="not here"),
        pytest.param({"tasks": []}, "Tick one task or more.", id="no task"),
        pytest.param({"tasks": ["S-99.9"]}, "Tick one task or more.", id="no task of ours"),
        pytest.param({"until": "soon"}, "Choose the last day.", id="day in words"),
        pytest.param({"until": "2026-03-01"}, "from today on", id="yesterday"),
        pytest.param({"until": "2028-03-03"}, "at most two years ahead", id="too far"),
    ],
)
def test_what_can_not_be_given_says_why(coordinator, house, crew, fields, sentence):
    sent = coordinator.send(f"/crews/{crew.id}/observers", **GOOD | fields)
    assert sent.status_code == 422 and sentence in words_of(sent.text)
    assert given(house, crew) == []


def test_what_was_ticked_is_kept_when_something_needs_mending(coordinator, crew):
    page = coordinator.send(f"/crews/{crew.id}/observers", **GOOD | {"until": ""}).text
    assert 'value="S-2.3" checked' in page and 'value="S-2.4" checked' not in page
    assert 'value="Teodor Quist"' in page


def test_an_ended_right_is_told_among_the_ended(coordinator, house, crew):
    an_observer(house, crew)
    [right] = given(house, crew)
    page = words_of(coordinator.follow(coordinator.send(f"/crews/{crew.id}/observers/{right.id}/end")).text)
    assert "The right is ended." in page and "Nobody may sign for this crew yet." in page
    assert "Teodor Quist 1 task, ended 2 Mar" in page
    coordinator.send(f"/crews/{crew.id}/observers/{right.id}/end")
    assert [each.what for each in log.of_crews(house, [crew.id], 5)] == ["observer ended"]


def test_a_right_of_another_crew_can_not_be_ended_from_here(coordinator, house, crew):
    other = a_crew(house, a_rig(house, "Quillwater 12", "top-drive"), coordinator="Tilda Marsh")
    an_observer(house, other)
    [right] = given(house, other)
    assert coordinator.send(f"/crews/{crew.id}/observers/{right.id}/end").status_code == 404
    assert coordinator.send(f"/crews/{other.id}/observers/{right.id}/end").status_code == 404
    assert given(house, other)[0].ended_at is None


def test_two_of_one_name_are_told_apart(coordinator, house, crew):
    other = a_hand(house, "Sam Hill 2")
    assert other.sign_in == "Sam Hill 2"
    coordinator.send(f"/crews/{crew.id}/observers", **GOOD | {"person": "sam hill 2"})
    assert given(house, crew)[0].person.id == other.id


def test_only_tasks_that_the_rig_has_are_offered(coordinator, crew):
    page = coordinator.get(f"/crews/{crew.id}/observers").text
    assert 'value="S-2.1"' in page and 'value="S-3.1"' not in page


def test_the_people_of_my_crews_are_suggested_and_nobody_else(coordinator, house, crew):
    a_member(house, crew, "Marek Osei-Lund")
    other = a_crew(house, a_rig(house, "Quillwater 12", "top-drive"), coordinator="Tilda Marsh")
    a_member(house, other, "Lucho Brandvold")
    page = coordinator.get(f"/crews/{crew.id}/observers").text
    assert 'value="Marek Osei-Lund"' in page and "Lucho" not in page


def test_a_right_counts_from_when_it_was_given(coordinator, house, crew, hands):
    ines = a_member(house, crew).person
    teodor = hands("Teodor Quist")
    assert teodor.get(f"/sign-offs/{ines.id}/S-2.3").status_code == 404
    coordinator.send(f"/crews/{crew.id}/observers", **GOOD)
    assert teodor.get(f"/sign-offs/{ines.id}/S-2.3").status_code == 200
    assert given(house, crew)[0].given_at == START
