"""A coordinator's first week, from the set-up address to the log: four people, each in a browser of their own.

The coordinator sits at a desk; hands and observer hold phones. The clock is turned, nothing waits for it.
"""

import re

import pytest
from playwright.sync_api import Page, expect

from tests.bank.rigs import SEVEN
from tests.browser.coordinator import PASSWORD, Coordinator
from tests.browser.hand import Hand
from tests.browser.house_by_clock import HouseByClock
from tests.browser.test_tests import PLACE, TestTaker

pytestmark = pytest.mark.browser

HEAD = "name,sign in as,job,units,decimal mark,exam date,paper\n"
TWELVE = [
    "Hettie Quarles,,driller,us,point,,\n",
    *(f"Floorhand {number},,floorhand,us,point,,\n" for number in range(2, 13)),
]
TWO_AMISS = [*TWELVE[:4], "Floorhand 5,,floorhand,imperial,point,,\n", *TWELVE[5:10], "Floorhand 11,,,us,point,,\n"]
TWO_AMISS += TWELVE[11:]
SEVENS, TWELVES = "Quillwater 7, Crew A", "Quillwater 12, Crew B"
HOISTING, KELLY, UNITS = "6", "2", "1"
"""Modules by their number: hoisting machinery, the kelly rig, units and plates."""


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    """The house of this file: nobody is in it yet, and its clock stands."""
    house = HouseByClock(tmp_path_factory.mktemp("house") / "records.sqlite").start()
    yield house
    house.stop()


def test_the_first_week_of_a_coordinator(open_page, served):
    lead, hand, driller = Coordinator(open_page(1280)), Hand(open_page(390), served.store), open_page(390)
    lead.opens_the_house(served.told, "Rosalind Achterberg")
    lead.makes("Quillwater 7", "Kelly and rotary table", "Crew A")
    lead.makes("Quillwater 12", "Top drive", "Crew B")
    first_slip = _brings_in_twelve(lead)
    _joins_by_slip(hand.page, lead.makes_slip(SEVENS))
    _signs_in_first(driller, first_slip)

    served.clock.forward(days=1)
    lead.names_observer(SEVENS, "Hettie Quarles", "7 Drilling line")
    _fills_in_the_sheet(lead)
    _checks_the_sheet(driller)
    _assigns_what_can_not_all_be_met(lead)

    served.clock.forward(days=1)
    _is_asked_with_the_numbers_of_the_rig(hand)
    _passes_the_test_of(KELLY, hand)
    _sees_the_table_change(lead)

    served.clock.forward(days=1)
    for task in ("S-7.4", "S-7.1"):
        _signs(driller, "Joao Wexley", task)
    _finds_who_was_observed_on_slip_and_cut(lead)
    _withdraws(lead, "Joao Wexley", "S-7.1")

    served.clock.forward(days=1)
    _moves_to_the_other_rig(lead)
    served.clock.forward(days=10)  # Monday after next: the hitch of crew A ended yesterday
    _sees_who_is_late(lead)
    _reads_the_week_in_the_log(lead)


def _brings_in_twelve(lead: Coordinator) -> str:
    """A file with two bad lines: they are told by line, mended in the page, and all twelve are taken. A slip's code."""
    page = lead.page
    lead.goes_to(SEVENS, "People")
    page.get_by_role("link", name="Add by a file").click()
    page.get_by_label("Or paste its lines").fill(HEAD + "".join(TWO_AMISS))
    lead.press("Look at it first")
    assert page.locator(".faults tbody th").all_inner_texts() == ["6", "12"]
    lines = page.get_by_label("Mend them here")
    lines.fill(lines.input_value().replace("imperial", "us").replace("Floorhand 11,,,", "Floorhand 11,,floorhand,"))
    lead.press("Look at it again")
    lead.press("Add 12 people and print their slips")
    assert page.locator(".slip").count() == 12
    return page.locator(".slip", has_text="Hettie Quarles").locator(".slip-code").inner_text()


def _joins_by_slip(page: Page, code: str) -> None:
    page.goto("/")
    page.get_by_role("link", name="I have a slip").click()
    page.get_by_label("Code on the slip").fill(code)
    page.get_by_role("button", name="Go on").click()
    page.get_by_label("Name").fill("Joao Wexley")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("radio", name=re.compile("^US")).check()
    page.get_by_label("Job").fill("floorhand")
    page.get_by_role("button", name="Join the crew").click()
    page.get_by_role("link", name="I have written it down").click()


def _signs_in_first(page: Page, code: str) -> None:
    page.goto(f"/slip/{code}")
    page.get_by_label("Password that you choose").fill(PASSWORD)
    page.get_by_role("button", name="Begin").click()
    page.get_by_role("link", name="I have written it down").click()


def _fills_in_the_sheet(lead: Coordinator) -> None:
    """The line's strength has a digit too many: it is asked about, mended, and the sheet is kept."""
    page = lead.page
    lead.goes_to(SEVENS, "Rig sheet")
    page.get_by_role("link", name="Fill in the sheet").click()
    lead.fills_in(SEVEN | {"line_strength": "459800 lbf"})
    lead.press("Save the sheet")
    expect(page.get_by_role("alert")).to_contain_text("is far from what a line of 1.25 in usually holds")
    lead.fills_in({"line_strength": SEVEN["line_strength"]})
    lead.press("Save the sheet")
    expect(page.get_by_role("status")).to_contain_text("It counts once somebody else has checked it")


def _checks_the_sheet(driller: Page) -> None:
    driller.goto("/today")
    driller.get_by_role("link", name="Sign-offs", exact=True).click()
    driller.get_by_role("link", name="Rig sheet of Quillwater 7").click()
    driller.get_by_role("button", name="I have checked these numbers").click()
    expect(driller.get_by_text("Checked by Hettie Quarles")).to_be_visible()


def _assigns_what_can_not_all_be_met(lead: Coordinator) -> None:
    """Three modules by the end of the hitch, and for one hand an exam on Friday."""
    lead.assigns(SEVENS, f"{HOISTING} Hoisting machinery", f"{KELLY} Kelly", f"{UNITS} Units")
    lead.opens_hand(SEVENS, "Joao Wexley")
    lead.page.get_by_role("link", name="Exam day").click()
    lead.page.get_by_role("radio", name="A floorhand").check()
    lead.page.get_by_label("Day").fill("2026-03-06")
    lead.press("Set the exam day")
    expect(lead.page.get_by_role("main")).to_contain_text("misses the exam")
    lead.goes_to(SEVENS)
    row = lead.page.get_by_role("row", name="Joao Wexley")
    expect(row.locator("td").first).to_contain_text("misses the exam")
    expect(lead.cell("Joao Wexley", HOISTING)).to_contain_text("not begun")
    expect(lead.cell("Joao Wexley", HOISTING)).to_contain_text("by 15 Mar")


def _is_asked_with_the_numbers_of_the_rig(hand: Hand) -> None:
    """The first draw is the course's, and the second one says whose numbers it has. Both are answered right."""
    hand.is_given("Joao Wexley", "hoisting.fast-line-speed")
    assert hand.page.get_by_text("With the numbers of").count() == 0
    hand.answer_right()
    hand.page.get_by_role("button", name="Same kind, other numbers").click()
    expect(hand.page.locator(".of-rig")).to_contain_text("With the numbers of Quillwater 7, sheet 1")
    assert "10" in hand.question().stem
    hand.answer_right()
    assert hand.verdict() == "Right"


def _passes_the_test_of(module: str, hand: Hand) -> None:
    page, taker = hand.page, TestTaker(hand.page, hand.store)
    page.goto("/tests")
    page.get_by_role("link", name=re.compile(f"^Take it ?: module {module},")).click()
    page.get_by_role("button", name="Begin").click()
    while PLACE.search(page.url):
        taker.answer_right()
    page.get_by_role("button", name="Hand in", exact=True).click()
    assert page.locator("h1").inner_text() == "Passed"


def _sees_the_table_change(lead: Coordinator) -> None:
    lead.goes_to(SEVENS)
    expect(lead.cell("Joao Wexley", HOISTING)).to_contain_text("on the way")
    expect(lead.cell("Joao Wexley", KELLY)).to_contain_text("passed")
    expect(lead.cell("Joao Wexley", UNITS)).to_contain_text("not begun")
    expect(lead.cell("Floorhand 7", HOISTING)).to_contain_text("not begun")


def _signs(driller: Page, hand: str, task: str) -> None:
    driller.get_by_role("link", name="Sign-offs", exact=True).click()
    driller.get_by_role("link", name=re.compile(f"^{hand}")).click()
    driller.get_by_role("link", name=re.compile(f"^{task}")).click()
    driller.get_by_role("button", name="Done alone").click()
    expect(driller.get_by_role("status")).to_have_text("It is signed.")


def _finds_who_was_observed_on_slip_and_cut(lead: Coordinator) -> None:
    """In the last 12 months, from Crews: three touches, counted here one by one."""
    lead.goes_to()
    lead.page.get_by_role("link", name="Who was observed on a task").click()
    lead.page.get_by_label("Task").select_option(label="S-7.4 Slip, or slip and cut")
    lead.press("Show")
    assert lead.page.get_by_label("In the last").input_value() == "12"
    row = lead.page.locator(".observed tbody tr")
    expect(row).to_have_count(1)
    expect(row).to_contain_text(re.compile("Joao Wexley.*5.Mar.*done alone.*Hettie Quarles.*Quillwater 7", re.DOTALL))


def _withdraws(lead: Coordinator, hand: str, task: str) -> None:
    """From the hand's page; without a reason it stays."""
    lead.opens_hand(SEVENS, hand)
    lead.page.get_by_role("row", name=task).get_by_role("link", name=re.compile("5.Mar")).click()
    lead.press("Withdraw")
    expect(lead.page.get_by_role("alert")).to_be_visible()
    lead.page.get_by_label("Reason").fill("Signed for the wrong hand.")
    lead.press("Withdraw")
    expect(lead.page.get_by_role("status")).to_contain_text("It is withdrawn.")


def _moves_to_the_other_rig(lead: Coordinator) -> None:
    """What is passed and signed goes with the hand."""
    page = lead.page
    lead.opens_hand(SEVENS, "Joao Wexley")
    page.get_by_role("link", name="Move to another crew").click()
    lead.press("See what changes")
    counts = page.locator("section", has=page.get_by_role("heading", name="What still counts"))
    expect(counts).to_contain_text("All answers, tests and signatures stay.")
    expect(counts.get_by_role("listitem")).to_have_text([re.compile(r"^2 Kelly.*passed")])
    page.get_by_label("Why").fill("Crew B is a hand short.")
    lead.press(f"Move to {TWELVES}")
    lead.goes_to(TWELVES)
    expect(lead.cell("Joao Wexley", KELLY)).to_contain_text("passed")
    lead.goes_to(SEVENS)
    assert page.get_by_role("row", name="Joao Wexley").count() == 0


def _sees_who_is_late(lead: Coordinator) -> None:
    lead.goes_to(SEVENS)
    expect(lead.cell("Floorhand 7", UNITS)).to_contain_text("late")
    expect(lead.cell("Floorhand 7", UNITS)).to_contain_text("since 15 Mar")
    expect(lead.page.locator(".counts")).to_contain_text("Late in something: 12.")


def _reads_the_week_in_the_log(lead: Coordinator) -> None:
    lead.goes_to(SEVENS, "Log")
    words = "Crew made,Joined,Slip made,Observer named,Rig sheet saved,Rig sheet checked,Assigned,Exam day,Signed,"
    words += "Withdrawn,Moved"
    told = lead.page.get_by_role("main").inner_text()
    if (older := lead.page.get_by_role("link", name="Older lines")).count():
        older.click()
        told += lead.page.get_by_role("main").inner_text()
    assert [word for word in words.split(",") if word not in told] == []
    assert "Signed for the wrong hand." in told and "Crew B is a hand short." in told
