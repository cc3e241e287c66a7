"""A driller signs on a phone, a coordinator decides; each page is as axe wants it, and none is too wide."""

import re
from datetime import UTC, datetime, timedelta

import pytest
from playwright.sync_api import expect

from tests.browser.test_axe import faults
from tests.browser.test_ten import TOO_WIDE
from tests.webapp.conftest import PASSWORD
from tests.webapp.crews import a_crew, a_hand, an_observer
from webapp.records import crews, sign_offs
from webapp.records.connection import Store
from webapp.records.ids import new_id

pytestmark = pytest.mark.browser

DAY = timedelta(days=1)
TASKS = ("S-2.3", "S-4.2", "S-5.1")
SMALLEST = 48
"""CSS pixels: what a glove can touch."""


@pytest.fixture(scope="module")
def store(served):
    return Store(served.data)


@pytest.fixture(scope="module")
def crew(store):
    """A crew with two hands and two observers, over the server's own clock; a second one is empty."""
    crew = a_crew(store)
    a_crew(store, crew.rig, "Crew B")
    now = datetime.now(UTC)
    for name in ("Ines Okoro", "Marek Osei-Lund"):
        crews.join(store, a_hand(store, name), crew.id, "floorhand", now - 30 * DAY)
    for name in ("Teodor Quist", "Hettie Quarles"):
        an_observer(store, crew, name, TASKS, (now + 30 * DAY).date())
    return crew


def signed_in(page, name: str):
    """The page of somebody who has just signed in."""
    page.goto("/sign-in")
    page.get_by_label("Name", exact=True).fill(name)
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("main").get_by_role("button", name="Sign in").click()
    page.wait_for_url(re.compile("/today"))
    return page


def sign(store, crew, result: str, observer: str, task: str, back: int = 0, note: str = "") -> str:
    """Sign a task of Ines through the records, so many days ago; the id of the signature."""
    now = datetime.now(UTC)
    id = new_id(now)
    sign_offs.sign(
        store, id, hand=a_hand(store, "Ines Okoro"), task=task, title="A task", crew=crew.id, rig=crew.rig.id,
        observer=a_hand(store, observer), result=result, observed_on=now.date() - back * DAY, note=note, now=now,
    )  # fmt: skip
    return id


@pytest.mark.parametrize(("scripts", "hand"), [(True, "Marek Osei-Lund"), (False, "Ines Okoro")])
def test_a_driller_signs_on_a_phone(open_page, store, crew, scripts, hand):
    """From Today to the three buttons by touch alone, nothing typed. After Back, another touch is asked about."""
    page = signed_in(open_page(390, scripts), "Teodor Quist")
    page.get_by_role("link", name="Tasks that you may sign off").click()
    page.get_by_role("link", name=re.compile(f"^{hand}")).click()
    page.get_by_role("link", name=re.compile("^S-4.2")).click()
    for button in page.locator(".results button").all():
        box = button.bounding_box()
        assert box["height"] >= SMALLEST and box["width"] >= 300
    before = len(sign_offs.by_observer(store, a_hand(store, "Teodor Quist").id, 50))
    page.get_by_role("button", name="Done with prompts").click()
    expect(page.get_by_role("status")).to_have_text("It is signed.")
    page.go_back()
    page.get_by_role("button", name="Not yet").click()
    told = page.get_by_role("alert")
    expect(told).to_contain_text("You have signed this task for today: done with prompts.")
    expect(told).to_be_in_viewport(ratio=1)
    expect(told).to_be_focused()
    made = sign_offs.by_observer(store, a_hand(store, "Teodor Quist").id, 50)
    assert len(made) == before + 1 and made[0].result == "prompted"
    page.get_by_role("button", name="I saw it a second time today").click()
    expect(page.get_by_role("status")).to_have_text("It is signed.")
    if scripts:  # without them the browser asks whether to send the refused form again
        page.go_back()
        expect(page.get_by_role("heading", name="Sign", exact=True)).to_be_visible()


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_a_refusal_is_on_the_first_screen(open_page, crew, scripts):
    page = signed_in(open_page(390, scripts), "Teodor Quist")
    page.goto(f"/sign-offs/{_id_of(page, 'Marek Osei-Lund')}/S-4.2")
    page.get_by_text("Not possible on this rig", exact=True).click()
    page.get_by_role("button", name="Sign: not possible").click()
    expect(page.get_by_role("alert")).to_contain_text("Write what this rig lacks for it.")
    expect(page.get_by_role("alert")).to_be_in_viewport(ratio=1)
    expect(page.get_by_label("What this rig lacks")).to_be_visible()
    page.get_by_label("What this rig lacks").press("Enter")
    expect(page.get_by_role("alert")).to_contain_text("Touch one of the results.")


def test_links_on_the_way_are_as_big_as_a_glove(open_page, crew):
    page = signed_in(open_page(390), "Teodor Quist")
    way = page.get_by_role("link", name="Tasks that you may sign off")
    assert way.bounding_box()["height"] >= SMALLEST
    way.click()
    assert page.get_by_role("link", name="What I have signed").bounding_box()["height"] >= SMALLEST
    page.goto(f"/sign-offs/{_id_of(page, 'Ines Okoro')}/S-4.2")
    jump = page.get_by_role("link", name="Jump to the signing")
    assert jump.bounding_box()["height"] >= SMALLEST
    jump.click()
    expect(page.get_by_role("button", name="Done alone")).to_be_in_viewport()


def test_the_other_day_is_asked_for_only_when_it_is_chosen(open_page, crew):
    page = signed_in(open_page(390), "Teodor Quist")
    page.goto(f"/sign-offs/{_id_of(page, 'Ines Okoro')}/S-4.2")
    expect(page.get_by_label("The other day")).to_be_hidden()
    page.get_by_role("radio", name="Another day").check()
    page.get_by_label("The other day").fill((datetime.now(UTC) - 20 * DAY).date().isoformat())
    page.get_by_role("button", name="Done alone").click()
    expect(page.get_by_role("alert")).to_contain_text("more than 14 days ago")
    page.get_by_label("Note").fill("Off the rig until today.")
    page.get_by_role("button", name="Done alone").click()
    expect(page.get_by_role("status")).to_have_text("It is signed.")


def test_a_coordinator_decides_between_two(open_page, store, crew):
    sign(store, crew, "alone", "Teodor Quist", "S-5.1", back=3)
    sign(store, crew, "not-yet", "Hettie Quarles", "S-5.1", back=3, note="Lanyard on the girt.")
    page = signed_in(open_page(1280), "Rosalind Achterberg")
    page.goto(f"/crews/{crew.id}/tasks")
    page.get_by_role("link", name="Ines Okoro").first.click()
    page.get_by_label("Reason").fill("Seen from the floor, and not from the board.")
    page.get_by_role("button", name="Withdraw").click()
    expect(page.get_by_role("status")).to_contain_text("It is withdrawn.")
    page.goto(f"/crews/{crew.id}/tasks")
    expect(page.get_by_role("heading", name="Waits for a decision")).to_have_count(0)


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1280])
def test_axe_is_content_and_nothing_is_too_wide(open_page, store, crew, width, theme):
    """Empty, one, many, amiss: the observer's pages, the coordinator's, the hand's own."""
    one = sign(store, crew, "alone", "Teodor Quist", "S-2.3", back=1, note="A note of some length, about the feet.")
    other = sign(store, crew, "not-possible", "Hettie Quarles", "S-2.3", back=1)
    sign_offs.withdraw(store, sign_offs.get(store, other), a_hand(store, "Hettie Quarles"), "By mistake.", _now())
    page, amiss = open_page(width, theme=theme), []
    empty = next(each for each in _crews_of(store) if each.name == "Crew B")
    ines = a_hand(store, "Ines Okoro").id
    asked = {
        "Teodor Quist": [
            "/sign-offs", "/sign-offs?q=zz", f"/sign-offs/{ines}", f"/sign-offs/{ines}/S-2.3", "/sign-offs/mine",
            f"/sign-offs/mine/{one}", f"/sign-offs/mine/{one}?done=signed",
        ],
        "Rosalind Achterberg": [
            *(f"/crews/{each.id}/{name}" for each in (crew, empty) for name in ("tasks", "observers")),
            f"/crews/{crew.id}/tasks?module=kelly", f"/crews/{crew.id}/tasks?unseen=12", "/crews/observed",
            "/crews/observed?task=S-2.3", "/crews/observed?task=S-7.1", f"/crews/signed/{one}", "/sign-offs/mine",
        ],
        "Ines Okoro": ["/record/tasks", "/record"],
    }  # fmt: skip
    for name, addresses in asked.items():
        page.context.clear_cookies()
        signed_in(page, name)
        for address in addresses:
            page.goto(address)
            amiss += faults(page, f"{name} {address}")
            amiss += [f"{address} is too wide"] if page.evaluate(TOO_WIDE) > 0 else []
        if name == "Teodor Quist":
            page.goto(f"/sign-offs/mine/{one}")
            page.get_by_role("button", name="Withdraw").click()
            amiss += faults(page, "withdrawn without a reason")
        if name == "Rosalind Achterberg":
            page.goto(f"/crews/{crew.id}/observers")
            page.get_by_role("button", name="Give the right").click()
            amiss += faults(page, "a right for nobody")
    assert not amiss, "\n".join(amiss)


def _now() -> datetime:
    return datetime.now(UTC)


def _crews_of(store) -> list[crews.Crew]:
    return crews.crews_with_right(store, a_hand(store, "Rosalind Achterberg").id, "coordinator", _now().date())


def _id_of(page, name: str) -> str:
    page.goto("/sign-offs")
    return page.get_by_role("link", name=re.compile(f"^{name}")).get_attribute("href").rsplit("/", 1)[-1]
