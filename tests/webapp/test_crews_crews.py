"""Rigs and crews: made, shown with their day of the rotation, changed, closed; and who coordinates them."""

import re
from datetime import timedelta
from html import unescape

import pytest

from tests.webapp.crews import START, a_coordinator, a_crew, a_hand, a_member, a_rig, an_observer
from tests.webapp.page_browser import words_of
from webapp.records import assignments, crews, exams, log, rights, sign_offs, slips

ROTATION = {"days_on": "14", "days_off": "14", "first_day": "2026-03-02", "nights_from": "8"}


@pytest.fixture
def rosalind(house, hands):
    """The browser of a coordinator of the house who has no crew yet."""
    a_coordinator(house)
    return hands("Rosalind Achterberg")


def whats(house, crew_id: str) -> list[str]:
    """The log's words about a crew, oldest first."""
    return [each.what for each in reversed(log.of_crews(house, [crew_id], 50))]


def beside(page, field: str) -> str:
    """The sentence beside a field."""
    return words_of(re.search(rf'id="f-{field}-problem">(.*?)</p>', page.text, re.DOTALL)[1])


def test_a_rig_then_a_crew_for_it(rosalind, house):
    made = rosalind.send("/rigs/new", name="Quillwater 7", rig_type="kelly")
    page = rosalind.follow(made)
    rig = crews.rigs(house)[0]
    assert made.location == f"/crews/new?rig={rig.id}"
    assert re.search(rf'value="{rig.id}" selected>Quillwater 7, kelly', page.text)
    made = rosalind.send("/crews/new", rig=rig.id, name="Crew A", **ROTATION)
    page = rosalind.follow(made)
    assert "The crew is made, and you coordinate it." in words_of(page.text)
    [crew] = crews.crews_with_right(house, a_hand(house, "Rosalind Achterberg").id, "coordinator", START.date())
    assert (crew.full_name, crew.days_on, crew.nights_from) == ("Quillwater 7, Crew A", 14, 8)
    assert whats(house, crew.id) == ["crew made"]


@pytest.mark.parametrize(
    ("changes", "field", "sentence"),
    [
        pytest.param({"rig": "gone"}, "rig", "Choose the rig.", id="no rig"),
        pytest.param({"name": " "}, "name", "Write the name of the crew", id="no name"),
        pytest.param({"name": "x" * 41}, "name", "at most 40 letters", id="long name"),
        pytest.param({"name": "Crew a"}, "name", "has a crew called", id="taken"),
        pytest.param({"days_on": "0"}, "days_on", "from 1 to 120", id="no days on"),
        pytest.param({"days_on": "two"}, "days_on", "from 1 to 120", id="days in words"),
        pytest.param({"days_off": "121"}, "days_off", "from 0 to 120", id="long off"),
        pytest.param({"first_day": "2 March"}, "first_day", "year-month-day", id="day in words"),
        pytest.param({"first_day": "2062-03-02"}, "first_day", "Look at the year", id="slip in the year"),
        pytest.param({"nights_from": "15"}, "nights_from", "A hitch has 14 days", id="nights after the hitch"),
        pytest.param({"nights_from": "0"}, "nights_from", "from 1 to 120", id="nights from day nought"),
    ],
)
def test_what_is_amiss_with_a_new_crew_is_told(rosalind, house, changes, field, sentence):
    """What was typed stays, and no crew is made."""
    rig = a_rig(house)
    a_crew(house, rig)
    page = rosalind.send("/crews/new", **{"rig": rig.id, "name": "Crew B", **ROTATION} | changes)
    assert page.status_code == 422
    assert sentence in beside(page, field)
    assert 'value="2026-03-02"' in page.text or "first_day" in changes
    assert house.db.execute("select count(*) from crews").fetchone() == (1,)


@pytest.mark.parametrize(
    "fields", [{"name": "QUILLWATER 7", "rig_type": "kelly"}, {"name": "Two", "rig_type": "spinner"}, {}]
)
def test_what_is_amiss_with_a_new_rig_is_told(rosalind, house, fields):
    a_rig(house)
    page = rosalind.send("/rigs/new", **fields)
    assert page.status_code == 422 and 'class="problem"' in page.text
    assert len(crews.rigs(house)) == 1


@pytest.mark.parametrize(
    ("days", "words"),
    [
        pytest.param(0, "On the rig day 1 of 14, to 15 Mar", id="first day"),
        pytest.param(7, "On the rig day 8 of 14, nights, to 15 Mar", id="first night"),
        pytest.param(13, "On the rig day 14 of 14, nights, to 15 Mar", id="last day"),
        pytest.param(14, "Off next hitch ends 12 Apr", id="off"),
        pytest.param(28, "On the rig day 1 of 14, to 12 Apr", id="next hitch"),
    ],
)
def test_the_list_says_who_is_on_the_rig_today(hands, house, clock, days, words):
    a_member(house, a_crew(house))
    clock.forward(days=days)
    page = words_of(hands("Rosalind Achterberg").get("/crews").text)
    assert f"Quillwater 7, Crew A kelly 1 in Quillwater 7, Crew A {words} nothing" in page


@pytest.mark.parametrize("page", ["/crews", "/today"])
def test_what_waits_in_each_crew_stands_there_and_leads_to_it(hands, house, clock, page):
    """Two observers who differ; one late; one whose exam can't be met; one who has not signed in."""
    crew, by = a_crew(house), a_hand(house, "Rosalind Achterberg").id
    quiet = a_crew(house, crew.rig, "Crew B")
    ines, marek, abel = (a_member(house, crew, name).person for name in ("Ines Okoro", "Marek Osei", "Abel Quist"))
    with house.writing() as db:
        db.execute("update people set password_hash = '' where id = ?", [abel.id])
    late = assignments.new(
        "units", "person", ines.id, rig_type=None, due_by="date", due_day=START.date(), pass_mark=80, must_pass=True,
        made_by=by, made_at=START,
    )  # fmt: skip
    assignments.add(house, late)
    clock.forward(days=1)
    exams.set_day(house, marek.id, "a", START.date() + timedelta(3), by, START)
    for observer, result in (("Teodor Quist", "alone"), ("Hettie Quarles", "not-yet")):
        sign_offs.sign(
            house, f"01-{observer}", hand=ines, task="S-2.4", title="Slips", crew=crew.id, rig=crew.rig.id,
            observer=an_observer(house, crew, observer), result=result, observed_on=START.date(), note="", now=START,
        )  # fmt: skip
    rosalind = hands("Rosalind Achterberg")
    text = rosalind.get(page).text
    told = re.findall(r'<li><a href="([^"]+)">([^<]+)<span class="unseen"> in Quillwater 7, Crew A', text)
    assert [words for _, words in told] == ["1 decision", "1 misses the exam", "1 late", "1 not signed in yet"]
    leads = {words: words_of(rosalind.get(unescape(each).partition("#")[0]).text) for each, words in told}
    assert "Waits for a decision" in leads["1 decision"] and "Not signed in yet" in leads["1 not signed in yet"]
    assert "1 of 3 people fit" in leads["1 late"] and "1 of 3 people fit" in leads["1 misses the exam"]
    assert ("Crew B" in words_of(text)) is (page == "/crews") and quiet.full_name == "Quillwater 7, Crew B"


def test_a_coordinator_of_crews_in_which_nothing_waits_is_told_so(hands, house):
    a_member(house, a_crew(house))
    assert "Nothing waits in your crews." in words_of(hands("Rosalind Achterberg").get("/today").text)


def test_the_list_has_my_crews_and_no_others(rosalind, house):
    a_crew(house)
    a_crew(house, a_rig(house, "Quillwater 12", "top-drive"), "Crew B", coordinator="Tilda Marsh")
    page = words_of(rosalind.get("/crews").text)
    assert "Crew A" in page and "Crew B" not in page and "Quillwater 12" not in page


def test_a_rotation_is_changed_and_written_down(rosalind, house):
    crew = a_crew(house)
    page = rosalind.get(f"/crews/{crew.id}/about").text
    assert re.search(r'name="days_on"[^>]*\n?\s*value="14"', page)
    changed = {"days_on": "21", "days_off": "21", "first_day": "2026-03-09", "nights_from": ""}
    assert rosalind.send(f"/crews/{crew.id}/rotation", **changed).status_code == 303
    new = crews.crew(house, crew.id)
    assert (new.days_on, new.days_off, new.first_day.isoformat(), new.nights_from) == (21, 21, "2026-03-09", None)
    [line] = log.of_crews(house, [crew.id], 5)
    assert line.detail == (
        "It was 14 days on, 14 off, from 2 March 2026, nights from day 8."
        " It is 21 days on, 21 off, from 9 March 2026, days only."
    )


def test_another_coordinator_is_named_and_sees_the_crew(rosalind, house, hands):
    """For this crew alone: they make no crews."""
    crew = a_crew(house)
    tilda = hands("Tilda Marsh")
    assert tilda.get(f"/crews/{crew.id}/about").status_code == 404
    assert rosalind.send(f"/crews/{crew.id}/coordinators", sign_in="tilda  marsh").status_code == 303
    assert tilda.get(f"/crews/{crew.id}/about").status_code == 200
    assert tilda.get("/crews/new").status_code == 404
    assert whats(house, crew.id) == ["coordinator named"]


def test_a_coordinator_of_the_house_names_another(rosalind, house, hands):
    crew = a_crew(house)
    tilda = hands("Tilda Marsh")
    rosalind.send(f"/crews/{crew.id}/coordinators", sign_in="Tilda Marsh", of_the_house="yes")
    assert tilda.get("/crews/new").status_code == 200


def test_who_makes_no_crews_names_nobody_who_does(rosalind, house, hands):
    crew = a_crew(house)
    tilda, wen = hands("Tilda Marsh"), a_hand(house, "Wen Castellane")
    rights.give(house, a_hand(house, "Tilda Marsh").id, crew.id, "coordinator", wen.id, START)
    assert tilda.send(f"/crews/{crew.id}/coordinators", sign_in="Wen Castellane", of_the_house="yes").status_code == 404
    assert not rights.is_coordinator(house, wen.id)
    assert "of_the_house" not in tilda.get(f"/crews/{crew.id}/about").text


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        ("Nobody", "Nobody here signs in with that name."),
        ("", "Nobody here signs in with that name."),
        ("Rosalind Achterberg", "coordinates this crew already."),
    ],
)
def test_who_can_not_be_named_is_told(rosalind, house, name, sentence):
    crew = a_crew(house)
    page = rosalind.send(f"/crews/{crew.id}/coordinators", sign_in=name)
    assert page.status_code == 422 and sentence in beside(page, "sign_in")
    assert len(rights.in_crew(house, crew.id, "coordinator")) == 1


def test_a_crew_keeps_one_coordinator(rosalind, house):
    """The last is not ended; with another one beside, one may end even one's own."""
    crew = a_crew(house)
    [own] = rights.in_crew(house, crew.id, "coordinator")
    page = rosalind.send(f"/crews/{crew.id}/coordinators/end", right=own.id)
    assert page.status_code == 422 and "Name another first." in words_of(page.text)
    a_hand(house, "Tilda Marsh")
    rosalind.send(f"/crews/{crew.id}/coordinators", sign_in="Tilda Marsh")
    assert rosalind.send(f"/crews/{crew.id}/coordinators/end", right=own.id).location == "/crews"
    assert rosalind.get(f"/crews/{crew.id}/about").status_code == 404
    assert whats(house, crew.id) == ["coordinator named", "coordinator ended"]


def test_an_observers_right_is_not_ended_as_a_coordinators(rosalind, house):
    crew = a_crew(house)
    teodor = an_observer(house, crew)
    [right] = rights.of_person(house, teodor.id, "observer")
    assert rosalind.send(f"/crews/{crew.id}/coordinators/end", right=right.id).status_code == 422
    assert rights.of_person(house, teodor.id, "observer")[0].ended_at is None


def test_a_crew_with_people_is_closed_only_when_they_leave(rosalind, house):
    crew = a_crew(house)
    ines = a_member(house, crew)
    slip = slips.make(house, crew.id, ines.person.id, START, START.replace(year=2027))
    page = rosalind.send(f"/crews/{crew.id}/close")
    assert page.status_code == 422 and "Tick that they leave it" in beside(page, "leave")
    assert rosalind.send(f"/crews/{crew.id}/close", leave="yes").location == "/crews"
    assert crews.crew(house, crew.id).closed_at == START
    assert crews.membership_now(house, ines.person.id) is None
    assert slips.of_crew(house, crew.id)[0].state(START) == "revoked", slip
    assert rosalind.get(f"/crews/{crew.id}/about").status_code == 404
    assert "Crew A" not in rosalind.get("/crews").text


def test_each_link_of_a_crew_leads_to_a_page(rosalind, house):
    crew = a_crew(house)
    nav = re.search(r'<nav class="crew-links".*?</nav>', rosalind.get(f"/crews/{crew.id}/about").text, re.DOTALL)[0]
    addresses = re.findall(r'href="([^"]+)"', nav)
    assert {f"/crews/{crew.id}/{page}" for page in ("people", "slips", "log", "about")} <= set(addresses)
    assert {each: rosalind.get(each).status_code for each in addresses} == dict.fromkeys(addresses, 200)


@pytest.mark.parametrize(
    ("name", "word"),
    [("Rosalind Achterberg", "Crews"), ("Teodor Quist", "Sign-offs"), ("Ines Okoro", None)],
)
def test_who_works_with_crews_has_one_more_link(hands, house, name, word):
    """In the bar of every page, and at the head of Today."""
    crew = a_crew(house)
    an_observer(house, crew)
    a_member(house, crew)
    browser = hands(name)
    glossary, today = browser.get("/glossary").text, browser.get("/today").text
    for each in ("Crews", "Sign-offs"):
        assert (f">{each}</a>" in glossary) is (each == word)
    assert ("Your crews" in today) is (word == "Crews")
    assert ("Tasks that you may sign off" in today) is (word == "Sign-offs")
