"""axe-core finds nothing to say against any page, by day and by night, at phone and at desk width."""

from datetime import UTC, datetime, timedelta
from importlib.resources import files

import pytest

from question_bank import load_bank
from tests.browser.hand import Hand
from tests.webapp.records.samples import attempt, record_all
from webapp.records import exams, people, rotations
from webapp.records.connection import Store

pytestmark = pytest.mark.browser

AXE = files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
RUN = "tags => axe.run(document, {runOnly: {type: 'tag', values: tags}})"
VISITOR = [
    "/",
    "/join",
    "/sign-in",
    "/reset",
    "/glossary",
    "/bench",
    "/bench?value=286+lb&unit=load/klbf",
    "/bench?value=286",
    "/bench?find=weight",
    "/bench/units/string-under-block",
    "/bench/units/string-under-block?hook_load=9000+klbf&travelling_weight=40+klbf",
    "/bench/units/string-under-block?hook_load=-5&travelling_weight=",
    "/bench/formulas",
    "/ten",
    "/nowhere",
]
SIGNED_IN = [
    "/today",
    "/lessons",
    "/lessons/safety/dropped-objects",
    "/practice",
    "/record",
    "/record/attempts",
    "/record/forecast",
    "/record/items",
    "/record/sat",
    "/record/whole",
    "/settings",
    "/tests",
    "/tests/kelly/start",
    "/tests/units/start",
    "/papers",
    "/papers/a",
    "/rig-sheet",
    "/rig-sheet?edit=yes",
]


# A bar that stays in view covers part of what is just under it; one scrolls on, so it is no fault of what lies there.
UNSTICK = "document.querySelectorAll('.actions-main, .places').forEach(bar => { bar.style.position = 'static' })"


def faults(page, where: str) -> list[str]:
    """What axe says against the page that is open, a line for each place. Pages keep their own strict policy."""
    page.wait_for_load_state()  # before the style sheet is there, every target looks small
    page.evaluate(UNSTICK)
    page.evaluate(AXE)
    found = page.evaluate(RUN, TAGS)["violations"]
    return [f"{where}: {each['id']} at {node['target']}: {each['help']}" for each in found for node in each["nodes"]]


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1280])
def test_axe_is_content_with_every_page(open_page, served, width, theme):
    page = open_page(width, theme=theme)
    amiss: list[str] = []
    for address in VISITOR:
        page.goto(address)
        amiss += faults(page, address)
    amiss += _forms_with_faults(page)
    hand = Hand(page, Store(served.data))
    hand.join(f"Axe {width} {theme}", "a hat with a brim of steel")
    page.goto("/recovery-code")
    amiss += faults(page, "recovery code, gone")
    for address in SIGNED_IN:
        page.goto(address)
        amiss += faults(page, f"{address}, empty")
    amiss += _every_kind(hand)
    amiss += _dials_and_workings(hand, f"Axe {width} {theme}")
    amiss += _a_test(hand)
    amiss += _a_paper(hand)
    _answers(hand, f"Axe {width} {theme}", 40)
    for address in SIGNED_IN:
        page.goto(address)
        page.evaluate("document.querySelectorAll('main details').forEach(each => each.open = true)")
        amiss += faults(page, f"{address}, used")
        if page.evaluate("document.documentElement.scrollWidth > innerWidth"):
            amiss.append(f"{address}, used: wider than the page")
    assert not amiss, "\n".join(amiss)


def _answers(hand: Hand, name: str, number: int) -> None:
    """So many items answered, and an exam day and a rotation told: enough for a forecast with all its parts."""
    person = people.by_name(hand.store, name).id
    record_all(
        hand.store,
        [attempt(hand.store, person, item.id, kind=item.kind) for item in list(load_bank().values())[:number]],
    )
    today = datetime.now(UTC).date()
    exams.set_day(hand.store, person, "a", today + timedelta(40), person, datetime.now(UTC))
    rotations.set_own(hand.store, person, 14, 14, today, None)


def _forms_with_faults(page) -> list[str]:
    page.goto("/join")
    page.get_by_role("button", name="Begin").click()
    amiss = faults(page, "join, amiss")
    page.goto("/sign-in")
    page.get_by_label("Name").fill("Nobody")
    page.get_by_role("button", name="Sign in").click()
    return amiss + faults(page, "sign in, amiss")


def _every_kind(hand: Hand) -> list[str]:
    """Each kind of question: open, not counted, and answered."""
    page = hand.page
    amiss: list[str] = []
    seen: set[str] = set()
    page.goto("/lessons/safety/dropped-objects")
    page.get_by_role("button", name="Practise this lesson").click()
    while len(seen) < 5:
        kind = hand.question().kind
        if kind not in seen:
            amiss += faults(page, f"{kind}, open")
            if kind == "numeric":
                hand.number("no number")
                amiss += faults(page, "numeric, not counted")
            hand.answer_right()
            amiss += faults(page, f"{kind}, answered")
            seen.add(kind)
        else:
            hand.answer_right()
        page.get_by_role("button", name="Next").click()
    return amiss


def _a_test(hand: Hand) -> list[str]:
    """A test: its first question, one that can't be read, before it is handed in, and what it came to."""
    page = hand.page
    page.goto("/tests/units/start")
    page.get_by_role("button", name="Begin").click()
    amiss = faults(page, "test, first question")
    while page.get_by_label("Your answer").count() == 0:
        page.get_by_role("link", name="Leave it for later").click()
    page.get_by_label("Your answer").fill("no number")
    page.get_by_role("button", name="Keep and go on").click()
    amiss += faults(page, "test, not read")
    page.get_by_role("link", name="Hand in").click()
    amiss += faults(page, "test, before handing in")
    page.get_by_role("button", name="Hand in as it is").click()
    return amiss + faults(page, "test, handed in")


def _a_paper(hand: Hand) -> list[str]:
    """A paper: its first question, one that is marked, the list with one open, before handing in, what it came to."""
    page = hand.page
    page.goto("/papers/b")
    page.get_by_role("button", name="Begin").click()
    amiss = faults(page, "paper, first question")
    page.get_by_label("Come back to it").check()
    page.get_by_text("The mark is kept.").wait_for()
    page.reload()
    amiss += faults(page, "paper, a question that is marked")
    page.goto("/papers")
    amiss += faults(page, "papers, one is open")
    page.get_by_role("link", name="Go on with paper B").click()
    page.get_by_role("link", name="Hand in", exact=True).click()
    amiss += faults(page, "paper, before handing in")
    page.get_by_role("button", name="Hand in as it is").click()
    return amiss + faults(page, "paper, handed in")


def _dials_and_workings(hand: Hand, name: str) -> list[str]:
    """An estimate, a dial and a working with a wrong line: open, not counted, answered wrong and right."""
    bank = load_bank()
    amiss: list[str] = []
    for kind in ("estimate", "gauge", "find-the-wrong-line"):
        item = next(each.id for each in bank.values() if each.kind == kind)
        question = hand.is_given(name, item)
        amiss += faults(hand.page, f"{kind}, open")
        hand.check()
        amiss += faults(hand.page, f"{kind}, not counted")
        if question.is_typed:
            hand.number(f"{question.value * 30:.6g}")
        else:
            hand.page.locator(f"input[name=line]:not([value='{question.wrong}'])").first.check()
            hand.check()
        assert hand.verdict() == "Wrong"
        amiss += faults(hand.page, f"{kind}, wrong")
        hand.is_given(name, item, 2)
        hand.answer_right()
        assert hand.verdict() == "Right"
        amiss += faults(hand.page, f"{kind}, right")
    return amiss
