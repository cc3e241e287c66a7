"""The coordinator's side of hands-on tasks: people by tasks, who was observed, who was not, and decisions."""

import re
from datetime import date, timedelta

import pytest

from tests.webapp.crews import START, a_crew, a_hand, a_member, a_rig, an_observer
from tests.webapp.page_browser import words_of
from webapp.records import crews, exams, excuses, log, sign_offs
from webapp.records.ids import new_id

TODAY = START.date()
DAY = timedelta(days=1)


@pytest.fixture
def crew(house):
    return a_crew(house)


@pytest.fixture
def ines(house, crew):
    return a_member(house, crew).person


@pytest.fixture
def teodor(house, crew):
    return an_observer(house, crew)


@pytest.fixture
def coordinator(crew, hands):
    """Rosalind's browser."""
    return hands("Rosalind Achterberg")


def sign(house, crew, hand, observer, result="alone", day=TODAY, task="S-7.4"):
    """Sign a task; the id of the signature."""
    id = new_id(START)
    sign_offs.sign(
        house, id, hand=hand, task=task, title="A task", crew=crew.id, rig=crew.rig.id, observer=observer,
        result=result, observed_on=day, note="", now=START,
    )  # fmt: skip
    return id


def row_of(page: str, name: str) -> str:
    """The words of the table's row that begins with that name."""
    begins = re.compile(rf'<th scope="row"[^>]*>(<a [^>]*>)?{name}')
    [row] = [each for each in page.split("<tr>") if begins.search(each)]
    return words_of("<i " + row.split("</tr>")[0])


def test_a_crew_without_hands_says_so(coordinator, crew):
    assert "Nobody is in this crew yet." in coordinator.get(f"/crews/{crew.id}/tasks").text


def test_each_state_is_a_word_in_the_table(coordinator, house, crew, ines, teodor):
    for result, day, task in [
        ("alone", TODAY, "S-7.1"), ("alone", TODAY - 400 * DAY, "S-7.2"), ("not-possible", TODAY, "S-7.3"),
    ]:  # fmt: skip
        sign(house, crew, ines, teodor, result, day, task)
    row = row_of(coordinator.get(f"/crews/{crew.id}/tasks?module=drilling-line").text, "Ines Okoro")
    assert row.endswith("floorhand 1 of 1 old not possible not seen")


def test_two_of_what_is_asked_twice(coordinator, house, crew, ines, teodor):
    sign(house, crew, ines, teodor, task="S-2.3")
    sign(house, crew, ines, teodor, task="S-2.3", day=TODAY - DAY)
    sign(house, crew, ines, teodor, "prompted", task="S-4.2")
    page = coordinator.get(f"/crews/{crew.id}/tasks?module=kelly").text
    assert "2 of 2" in row_of(page, "Ines Okoro")
    row = row_of(coordinator.get(f"/crews/{crew.id}/tasks?module=tripping").text, "Ines Okoro")
    assert "0 of 2 , prompts" in row


def test_the_exam_says_what_is_asked_and_an_excuse_stands_in_its_place(coordinator, house, crew, ines):
    exams.set_day(house, ines.id, "a", TODAY + 30 * DAY, ines.id, START)
    excuses.add(house, ines.id, ines.id, START, why="No pipe is racked here.", task="S-5.3")
    row = row_of(coordinator.get(f"/crews/{crew.id}/tasks?module=masts").text, "Ines Okoro")
    assert row.endswith("not seen not seen excused not seen not asked")


def test_a_task_of_the_other_rig_type_has_no_column(coordinator, crew, ines):
    page = coordinator.get(f"/crews/{crew.id}/tasks").text
    assert "S-2.1" in page and "S-3.1" not in page


def test_who_was_not_seen_in_the_last_months(coordinator, house, crew, ines, teodor):
    """Marek was seen 200 days ago: within 12 months and not within 6. What is excused is not missed."""
    marek = a_member(house, crew, "Marek Osei-Lund").person
    sign(house, crew, marek, teodor, "not-yet", TODAY - 200 * DAY)
    excuses.add(house, ines.id, ines.id, START, why="Not his job.", task="S-7.1")
    year = words_of(coordinator.get(f"/crews/{crew.id}/tasks?module=drilling-line&unseen=12").text)
    half = words_of(coordinator.get(f"/crews/{crew.id}/tasks?module=drilling-line&unseen=6").text)
    assert "S-7.4 Slip, or slip and cut Ines Okoro never Who" in year
    assert "S-7.4 Slip, or slip and cut Ines Okoro never Marek Osei-Lund last 14 Aug 2025 Who" in half
    assert "S-7.1 Measure the line Marek Osei-Lund never" in year


def test_everybody_observed_on_a_task_in_the_last_twelve_months(coordinator, house, crew, ines, teodor):
    """By hand: 2 March 2025 is just within twelve months of 2 March 2026, and the day before it is not."""
    for name, day in [("Marek Osei-Lund", date(2025, 3, 2)), ("Joao Wexley", date(2025, 3, 1))]:
        sign(house, crew, a_member(house, crew, name).person, teodor, day=day)
    gone = sign(house, crew, ines, teodor)
    sign_offs.withdraw(house, sign_offs.get(house, gone), teodor, "Mixed up.", START)
    page = coordinator.get("/crews/observed?task=S-7.4&months=12").text
    observed, _, not_observed = words_of(page).partition("Not observed in this time")
    assert "Marek Osei-Lund floorhand, Quillwater 7, Crew A 2 Mar 2025 done alone Teodor Quist Quillwater 7" in observed
    assert "Joao Wexley" not in observed and "Ines Okoro" not in observed
    assert "Joao Wexley" in not_observed and "Ines Okoro" in not_observed and "Marek" not in not_observed


def test_observed_goes_by_rig_and_crew_and_never_beyond_my_own(coordinator, house, crew, ines, teodor, hands):
    theirs = a_crew(house, a_rig(house, "Quillwater 12", "top-drive"), coordinator="Tilda Marsh")
    lucho = a_member(house, theirs, "Lucho Brandvold").person
    sign(house, crew, ines, teodor)
    sign(house, theirs, lucho, teodor)
    mine = words_of(coordinator.get("/crews/observed?task=S-7.4").text)
    assert "Ines Okoro" in mine and "Lucho" not in mine and "Quillwater 12" not in mine
    for beyond in (f"rig={theirs.rig.id}", f"crew={theirs.id}"):
        assert coordinator.get(f"/crews/observed?task=S-7.4&{beyond}").status_code == 404
    tilda = hands("Tilda Marsh")
    assert "Lucho" in tilda.get(f"/crews/observed?task=S-7.4&rig={theirs.rig.id}").text
    assert tilda.get(f"/crews/observed?task=S-7.4&crew={crew.id}").status_code == 404


def test_observed_without_a_task_asks_for_one(coordinator, crew):
    for address in ("/crews/observed", "/crews/observed?task=S-99.9&months=7"):
        assert "Not observed" not in coordinator.get(address).text


def test_a_transfer_keeps_what_was_signed(coordinator, house, crew, ines, teodor, clock):
    sign(house, crew, ines, teodor)
    other = a_crew(house, a_rig(house, "Quillwater 12", "top-drive"), coordinator="Tilda Marsh")
    crews.leave(house, crews.membership_now(house, ines.id).id, "transfer", clock())
    crews.join(house, ines, other.id, "floorhand", clock())
    assert "Ines Okoro" not in coordinator.get("/crews/observed?task=S-7.4").text


def test_the_new_coordinator_sees_what_was_signed_before_a_transfer(hands, house, crew, ines, teodor, clock):
    signed = sign(house, crew, ines, teodor)
    other = a_crew(house, a_rig(house, "Quillwater 12", "top-drive"), coordinator="Tilda Marsh")
    tilda = hands("Tilda Marsh")
    assert tilda.get(f"/crews/signed/{signed}").status_code == 404
    crews.leave(house, crews.membership_now(house, ines.id).id, "transfer", clock())
    crews.join(house, ines, other.id, "floorhand", clock())
    assert "Quillwater 7" in tilda.get("/crews/observed?task=S-7.4").text
    assert tilda.get(f"/crews/signed/{signed}").status_code == 200


def test_two_that_differ_wait_and_both_may_stand(coordinator, house, crew, ines, teodor):
    signed = sign(house, crew, ines, teodor)
    sign(house, crew, ines, a_hand(house, "Hettie Quarles"), "not-yet")
    page = words_of(coordinator.get(f"/crews/{crew.id}/tasks").text)
    assert "Waits for a decision" in page and "Hettie Quarles signed “not yet”" in page
    assert "decide" in row_of(coordinator.get(f"/crews/{crew.id}/tasks").text, "Ines Okoro")
    one = f"/crews/signed/{signed}"
    assert coordinator.send(f"{one}/stand", stand_why="").status_code == 422
    shown = words_of(coordinator.follow(coordinator.send(f"{one}/stand", stand_why="Two tours.")).text)
    assert "Both stand, and both count." in shown and "Two tours." in shown
    assert "Waits for a decision" not in coordinator.get(f"/crews/{crew.id}/tasks").text
    assert [each.what for each in log.of_crews(house, [crew.id], 1)] == ["both stand"]


def test_one_of_two_that_differ_is_withdrawn(coordinator, house, crew, ines, teodor):
    signed = sign(house, crew, ines, teodor)
    sign(house, crew, ines, a_hand(house, "Hettie Quarles"), "not-yet")
    one = f"/crews/signed/{signed}"
    assert coordinator.send(f"{one}/withdraw", why="").status_code == 422
    shown = words_of(coordinator.follow(coordinator.send(f"{one}/withdraw", why="In town that day.")).text)
    assert "It is withdrawn." in shown and "In town that day." in shown
    assert "Waits for a decision" not in coordinator.get(f"/crews/{crew.id}/tasks").text
    kept = sign_offs.get(house, signed)
    assert (kept.withdrawn.who, kept.result) == ("Rosalind Achterberg", "alone")


def test_a_signature_that_does_not_wait_has_no_decision_to_take(coordinator, house, crew, ines, teodor):
    signed = sign(house, crew, ines, teodor)
    assert "Both stand" not in coordinator.get(f"/crews/signed/{signed}").text
    assert coordinator.send(f"/crews/signed/{signed}/stand", stand_why="So.").status_code == 303
    assert sign_offs.get(house, signed).stands is None


def test_a_signature_that_is_not_there(coordinator, crew):
    assert coordinator.get("/crews/signed/nothing").status_code == 404
