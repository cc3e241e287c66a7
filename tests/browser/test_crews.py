"""A coordinator's first day in Chromium, each hand in a browser of their own; and axe-core against each page of it."""

import re
from datetime import UTC, datetime, timedelta

import pytest

from tests.browser.test_axe import faults
from tests.webapp.crews import a_crew, a_hand, a_member, a_rig
from webapp import codes
from webapp.records import crews, people, setup_addresses, slips
from webapp.records.connection import Store

pytestmark = pytest.mark.browser

PASSWORD = "kelly spins at dawn"
OF_A_CREW = ("about", "people", "slips", "log")
HEAD = "name,sign in as,job,units,decimal mark,exam date,paper\n"
TWELVE = [f"Hand {number},,floorhand,metric,comma,,\n" for number in range(1, 13)]
TWO_AMISS = [*TWELVE[:4], "Hand 5,,floorhand,imperial,comma,,\n", *TWELVE[5:10], "Hand 11,,,us,point,,\n", TWELVE[11]]


def test_the_house_is_opened_and_manned(open_page, served):
    """Set-up address, rig, crew, a slip used by somebody else, a file of twelve with two bad lines, a first sign-in."""
    page = open_page(1280)
    page.goto(re.search(r"/set-up/\S+", "".join(served.told()))[0])
    page.get_by_label("Name").fill("Rosalind Achterberg")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Become a coordinator").click()
    page.get_by_role("link", name="I have written it down").click()
    page.get_by_role("link", name="New rig").click()
    page.get_by_label("Name of the rig").fill("Quillwater 7")
    page.get_by_label("Kelly and rotary table").check()
    page.get_by_role("button", name="Make the rig").click()
    page.get_by_label("Name of the crew").fill("Crew A")
    page.get_by_role("button", name="Make the crew").click()
    page.get_by_role("link", name="Slips", exact=True).click()
    page.get_by_role("button", name="Make a slip").click()
    _joins_by_slip(open_page(390), page.locator(".slip-code").first.inner_text())
    page.goto("/crews")
    page.get_by_role("link", name="1 in Quillwater 7, Crew A").click()
    page.get_by_role("link", name="Add by a file").click()
    page.get_by_label("Or paste its lines").fill(HEAD + "".join(TWO_AMISS))
    page.get_by_role("button", name="Look at it first").click()
    assert page.locator(".faults tbody th").all_inner_texts() == ["6", "12"]
    page.get_by_label("Mend them here").fill(HEAD + "".join(TWELVE))
    page.get_by_role("button", name="Look at it again").click()
    page.get_by_role("button", name="Add 12 people").click()
    assert page.locator(".slip").count() == 12
    _signs_in_first(open_page(390, scripts=False), page.locator(".slip", has_text="Hand 7").first)
    page.goto("/crews")
    assert page.get_by_role("link", name="11 not signed in yet").is_visible()


def _joins_by_slip(page, code: str) -> None:
    page.goto("/")
    page.get_by_role("link", name="I have a slip").click()
    page.get_by_label("Code on the slip").fill(code.lower())
    page.get_by_role("button", name="Go on").click()
    assert page.get_by_text("will see, from today on").is_visible()
    page.get_by_label("Name").fill("Joao Wexley")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_label("Job").fill("floorhand")
    page.get_by_role("button", name="Join the crew").click()
    page.get_by_role("link", name="I have written it down").click()
    page.goto("/settings/crew")
    assert page.get_by_text("Quillwater 7, Crew A").first.is_visible()


def _signs_in_first(page, slip) -> None:
    page.goto("/slip/" + slip.locator(".slip-code").inner_text())
    page.get_by_label("Password that you choose").fill(PASSWORD)
    page.get_by_role("button", name="Begin").click()
    page.goto("/today")
    assert page.get_by_role("heading", name="Today").is_visible()


@pytest.fixture(scope="module")
def manned(served):
    """A crew of 120, one of one, an empty one, slips in each state. Addresses by what they show."""
    store = Store(served.data)
    now = datetime.now(UTC)
    rig = a_rig(store, "Quillwater 12", "top-drive")
    many, one, empty = (a_crew(store, rig, f"Crew {letter}", "Tilda Marsh") for letter in "ABC")
    by = a_hand(store, "Tilda Marsh").id
    for number in range(120):
        a_member(store, many, f"Floorhand {number:03}")
    waits = people.join(store, "Sam Hill", "", "", system="us", comma=False, minutes=15, now=now)
    crews.join(store, waits, one.id, "derrickhand", now)
    left = a_member(store, many, "Lev Anders")
    crews.leave(store, left.id, "Contract ended", now)
    open_, first = (
        slips.make(store, one.id, by, now, now + timedelta(days=9), uses, person)
        for uses, person in ((5, None), (1, waits.id))
    )
    slips.revoke(store, slips.make(store, one.id, by, now, now + timedelta(days=9)).id, now)
    setup_addresses.make(store, codes.hashed("ABCD-EFGH-JKMN-PQRS"), now)
    found = {
        "visitor": [
            "/set-up/ABCD-EFGH-JKMN-PQRS", "/set-up/AAAA", "/slip", "/slip/AAAA",
            f"/slip/{slips.code_of(store, open_.id)}", f"/slip/{slips.code_of(store, first.id)}",
        ],
        "coordinator": [
            "/crews", "/rigs/new", "/crews/new", f"/crews/{one.id}/people/{waits.id}/leave", "/settings/crew",
            f"/crews/{one.id}/slips/print", f"/crews/{one.id}/slips/print?slip={open_.id}",
            f"/crews/{one.id}/people/new", f"/crews/{one.id}/people/file", "/today",
            *(f"/crews/{crew.id}/{page}" for crew in (many, one, empty) for page in OF_A_CREW),
        ],
        "file": [f"/crews/{one.id}/people/file"],
    }  # fmt: skip
    store.close()
    return found


@pytest.mark.parametrize(("width", "theme"), [(390, "light"), (1280, "dark")])
def test_axe_is_content_with_the_pages_of_crews(open_page, manned, width, theme):
    page = open_page(width, theme=theme)
    amiss: list[str] = []
    for address in manned["visitor"]:
        page.goto(address)
        amiss += faults(page, address)
    page.goto("/sign-in")
    page.get_by_label("Name").fill("Tilda Marsh")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    for address in manned["coordinator"]:
        page.goto(address)
        amiss += faults(page, address)
        wide = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
        amiss += [f"{address} is {wide} px too wide"] if wide > 0 else []
    amiss += _forms_amiss(page, manned["file"][0])
    assert not amiss, "\n".join(amiss)


def _forms_amiss(page, file_address: str) -> list[str]:
    """Forms that come back, and a file at fault, with two of one name, and without a fault."""
    amiss = []
    for address, button in (("/rigs/new", "Make the rig"), ("/crews/new", "Make the crew")):
        page.goto(address)
        page.get_by_role("button", name=button).click()
        amiss += faults(page, f"{address}, amiss")
    for lines, words in ((TWO_AMISS, "at fault"), ([*TWELVE, "Sam Hill,,driller,us,point,,\n"], "without a fault")):
        page.goto(file_address)
        page.get_by_label("Or paste its lines").fill(HEAD + "".join(lines))
        page.get_by_role("button", name="Look at it first").click()
        amiss += faults(page, f"a file {words}")
    return amiss


def test_slips_are_printed_six_to_a_page(open_page, manned, tmp_path):
    """Thirteen first sign-ins take three pages of A4, and a slip that twelve join by takes two."""
    page = open_page(1280)
    page.goto("/sign-in")
    page.get_by_label("Name").fill("Tilda Marsh")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.goto(manned["file"][0])
    page.get_by_label("Or paste its lines").fill(HEAD + "".join(TWELVE).replace("Hand", "New hand"))
    page.get_by_role("button", name="Look at it first").click()
    page.get_by_role("button", name="Add 12 people").click()
    assert page.locator(".slip").count() == 13
    assert _pages_of(page, tmp_path / "slips.pdf") == 3
    page.get_by_role("link", name="Back to the slips").click()
    page.get_by_label("For how many hands").fill("12")
    page.get_by_role("button", name="Make a slip").click()
    assert page.locator(".slip").count() == 12
    assert _pages_of(page, tmp_path / "many.pdf") == 2


def _pages_of(page, pdf) -> int:
    page.pdf(path=pdf, prefer_css_page_size=True)
    return len(re.findall(rb"/Type\s*/Page\b", pdf.read_bytes()))
