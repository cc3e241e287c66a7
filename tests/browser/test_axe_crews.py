"""axe-core finds nothing against any page of crews: with nobody, one hand and 120, as it stands and sent amiss.

The demo's house with its five weeks, and beside it a crew of 120, one of one hand and an empty one. What a file, a slip
and a signature look like in each of their states is in test_crews.py and test_sign_offs.py; here each rule has a turn.
"""

import re
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from course import load_course
from question_bank import load_bank
from tests.browser.house_by_clock import HouseByClock
from tests.browser.test_axe import faults
from tests.browser.test_sign_offs import signed_in
from tests.browser.test_ten import TOO_WIDE
from tests.webapp.conftest import PASSWORD
from tests.webapp.crews import a_crew, a_member, a_rig
from webapp import codes, demo, passwords
from webapp.records import crews, people, setup_addresses, slips
from webapp.records.connection import Store
from webapp.records.crews import Crew

pytestmark = pytest.mark.browser

MOMENT = datetime(2026, 3, 16, 15, 0, tzinfo=UTC)
RULES = re.compile("/(crews|rigs|people|sign-offs|slip|set-up|rig-sheet|settings/crew|record/tasks)")
SET_UP = "ABCD-EFGH-JKMN-PQRS"
LEAD, OBSERVER, HAND = "Rosalind Achterberg", "Hettie Quarles", "Marek Osei-Lund"
OF_A_CREW = ("", "/about", "/people", "/people/new", "/people/file", "/assign", "/tasks", "/tasks?unseen=12",
             "/observers", "/slips", "/slips/print", "/log")  # fmt: skip
OF_MANY = ("", "/people", "/assign", "/tasks?module=top-drive", "/tasks?module=top-drive&unseen=12", "/slips")
OF_A_HAND = ("", "/excuse", "/exam", "/transfer", "/rig-sheet", "/readiness", "/extra-time")
CLEAR = """form => { form.noValidate = true; form.querySelectorAll('input:not([type=hidden]):not([type=checkbox])\
:not([type=radio])').forEach(each => { each.value = '' }) }"""


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    """The demo's house and the crews beside it."""
    path = tmp_path_factory.mktemp("house") / "records.sqlite"
    store = Store(path)
    store.migrate()
    demo.fill(store, load_bank(), load_course(), MOMENT, ZoneInfo("UTC"))
    for name in (LEAD, OBSERVER, HAND):
        people.set_password(store, people.by_name(store, name).id, passwords.hash_password(PASSWORD))
    rig = a_rig(store, "Quillwater 15", "top-drive")
    many, one, _ = (a_crew(store, rig, name, LEAD) for name in ("Many", "One", "None"))
    for number in range(120):
        a_member(store, many, f"Floorhand {number:03}")
    a_member(store, one, "Ines Okoro")
    setup_addresses.make(store, codes.hashed(SET_UP), MOMENT)
    store.close()
    house = HouseByClock(path, MOMENT).start()
    yield house
    house.stop()


@pytest.fixture(scope="module")
def addresses(served):
    """Who opens what: by name of who is signed in, '' for a visitor."""
    store, lead = served.store, people.by_name(served.store, LEAD).id
    mine = {each.full_name: each for each in crews.crews_with_right(store, lead, "coordinator", MOMENT.date())}
    seven, many, one, none = (
        mine[name]
        for name in ("Quillwater 7, crew A", "Quillwater 15, Many", "Quillwater 15, One", "Quillwater 15, None")
    )
    slip = slips.make(store, one.id, lead, MOMENT, MOMENT + timedelta(9)).id
    marek, ines = (people.by_name(store, name).id for name in (HAND, "Ines Okoro"))
    signed = store.db.execute("select id, person from sign_offs where task = 'S-4.1' order by id").fetchall()[-1]
    alone = store.db.execute("select id from sign_offs where task = 'S-2.3' order by id").fetchone()[0]
    moved = next(each for each in crews.left(store, [seven.id]) if each.person.name == "Caspian Ferreira-Holt")
    return {
        "": ["/slip", "/slip/AAAA", f"/slip/{slips.code_of(store, slip)}", f"/set-up/{SET_UP}", "/set-up/AAAA"],
        LEAD: [
            "/crews", "/crews/all", "/crews/all?state=late&days=3", "/crews/log",
            "/crews/new", "/rigs/new", "/settings/crew",
            *(f"/crews/{crew.id}{page}" for crew in (seven, one, none) for page in OF_A_CREW),
            *(f"/crews/{many.id}{page}" for page in OF_MANY),
            *(f"/people/{hand}{page}" for hand in (marek, ines) for page in OF_A_HAND),
            f"/people/{marek}/transfer?crew={one.id}", f"/crews/{one.id}/people/{ines}/leave",
            *(f"/rigs/{rig}/sheet{end}" for rig in (seven.rig.id, many.rig.id) for end in ("", "?edit=yes")),
            "/crews/observed", "/crews/observed?task=S-4.1", f"/crews/signed/{signed[0]}", f"/crews/signed/{alone}",
            f"/crews/{seven.id}/people/left/{moved.id}",
        ],
        OBSERVER: [
            "/sign-offs", f"/sign-offs/{marek}", f"/sign-offs/{marek}/S-4.1", "/sign-offs/mine",
            f"/sign-offs/mine/{_last_of(store, OBSERVER)}", f"/rigs/{seven.rig.id}/sheet",
        ],
        HAND: [
            "/rig-sheet", "/rig-sheet?edit=yes", "/settings/crew", "/settings/crew/leave", "/record/tasks", "/record",
            "/today",
        ],
        "amiss": _forms(seven, one, marek, ines, signed[0], alone),
    }  # fmt: skip


def _last_of(store: Store, observer: str) -> str:
    rows = store.db.execute(
        "select id from sign_offs where observer = ? order by id", [people.by_name(store, observer).id]
    )
    return rows.fetchall()[-1][0]


def _forms(seven: Crew, one: Crew, marek: str, ines: str, differs: str, alone: str) -> list[tuple[str, str]]:
    """The coordinator's forms: the address, and the button that sends it with empty fields."""
    return [
        ("/rigs/new", "Make the rig"), ("/crews/new", "Make the crew"),
        (f"/crews/{seven.id}/assign", "Assign"), (f"/crews/{seven.id}/assign", "End this assignment"),
        (f"/crews/{one.id}/people/new", "Add and print the slip"), (f"/crews/{one.id}/people/file", "Look at it first"),
        (f"/crews/{one.id}/people/{ines}/leave", "Take them out of the crew"),
        (f"/crews/{one.id}/slips", "Make a slip"), (f"/crews/{one.id}/observers", "Give the right"),
        (f"/crews/{one.id}/about", "Change the rotation"), (f"/crews/{one.id}/about", "Name them"),
        (f"/crews/{one.id}/about", "Close One"), (f"/people/{marek}/exam", "Set the exam day"),
        (f"/people/{marek}/excuse", "Write it down"), (f"/people/{marek}/transfer?crew={one.id}", "Move to"),
        (f"/rigs/{one.rig.id}/sheet?edit=yes", "Save the sheet"),
        (f"/crews/signed/{alone}", "Withdraw"), (f"/crews/signed/{differs}", "Both stand"),
    ]  # fmt: skip


def test_every_rule_of_crews_is_opened(served, addresses):
    """A new page of crews has to be written down above, before axe is content with all of them."""
    adapter = served.app.url_map.bind("")
    opened = {
        adapter.match(address.partition("?")[0], "GET", return_rule=True)[0].rule
        for who, those in addresses.items() if who != "amiss" for address in those
    }  # fmt: skip
    rules = {each.rule for each in served.app.url_map.iter_rules() if "GET" in each.methods and RULES.match(each.rule)}
    rules -= {"/crews/<crew_id>/people/file/sample"}  # a file, and no page
    assert rules - opened == set()


@pytest.mark.parametrize(("width", "theme"), [(390, "light"), (1280, "dark")])
@pytest.mark.parametrize("who", ["", LEAD, OBSERVER, HAND])
def test_axe_is_content_with_each_page(open_page, addresses, who, width, theme):
    page, amiss = open_page(width, theme=theme), []
    if who:
        signed_in(page, who)
    for address in addresses[who]:
        shown = page.goto(address)
        assert shown.status == 200 or not who, f"{address}: {shown.status}"
        amiss += faults(page, address)
        amiss += [f"{address} is too wide"] if page.evaluate(TOO_WIDE) > 0 else []
    assert not amiss, "\n".join(amiss)


@pytest.mark.parametrize(("width", "theme"), [(390, "dark"), (1280, "light")])
def test_axe_is_content_with_what_comes_back(open_page, addresses, width, theme):
    page, amiss = signed_in(open_page(width, theme=theme), LEAD), []
    for address, words in addresses["amiss"]:
        page.goto(address)
        page.locator("main details").evaluate_all("all => all.forEach(each => { each.open = true })")
        button = page.get_by_role("main").get_by_role("button", name=re.compile(f"^{words}")).first
        button.locator("xpath=ancestor::form").evaluate(CLEAR)
        button.click()
        assert page.locator(".problem, [role=alert]").count(), f"{address}: {words} is not amiss"
        amiss += faults(page, f"{address}, {words}")
        amiss += [f"{address}, {words}, is too wide"] if page.evaluate(TOO_WIDE) > 0 else []
    assert not amiss, "\n".join(amiss)
