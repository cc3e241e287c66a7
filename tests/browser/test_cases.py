"""A case at the browser: begun, left and gone on with, Back and reload, to its end and onto paper."""

import re

import pytest

from question_bank import load_bank, load_cases
from tests.browser.hand import Hand
from tests.browser.test_axe import faults
from webapp.records import attempts, people
from webapp.records.connection import Store

pytestmark = pytest.mark.browser

CASE = "string-in-mud"


@pytest.fixture(scope="module")
def case():
    return load_cases(load_bank())[CASE]


def begin(page, case) -> None:
    """From Practice, by its button."""
    page.goto("/practice")
    with page.expect_navigation():
        page.get_by_role("button", name=re.compile(f"(Start|Go on).*{case.title}")).click()


def go_on(page) -> None:
    """The button under an answered part, and wait for where it leads."""
    with page.expect_navigation():
        page.get_by_role("button", name=re.compile("Next part|See the whole case")).click()


def fits(page) -> bool:
    """Whether nothing sticks out to the side."""
    return page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
@pytest.mark.parametrize("width", [390, 1280])
def test_a_hand_works_a_case_to_its_end(open_page, served, case, width, scripts):
    hand = Hand(open_page(width, scripts), Store(served.data))
    name = f"Case {width} {scripts}"
    hand.join(name, "elevator latched and pulled")
    page = hand.page
    begin(page, case)
    first = page.url
    assert "What you know so far" in hand.text_of("main") and hand.text_of(".head .side") == "Part 1 of 4"
    hand.number("heavy")
    assert "Not counted" in page.get_by_role("alert").inner_text() and "What you know so far" in hand.text_of("main")
    page.goto(first)
    _answers_wrongly_and_looks_back(hand, first)
    go_on(page)
    assert "answer 1" in hand.text_of(".known")
    address = page.url
    hand.go("Today")
    begin(page, case)
    assert page.url == address
    while hand.is_asked():
        page.reload()
        assert fits(page)
        hand.answer_right()
        assert hand.verdict() == "Right" and fits(page)
        go_on(page)
    assert "3 of 4 right." in hand.text_of("main") and page.locator(".verdict").count() == 4
    counted = attempts.of_person(hand.store, people.by_name(hand.store, name).id, limit=10)
    assert [each.outcome for each in counted] == ["right", "right", "right", "wrong"]


def _answers_wrongly_and_looks_back(hand: Hand, address: str) -> None:
    """Another answer sent from the form that the browser may still show changes nothing."""
    page = hand.page
    hand.number("0.1")
    assert hand.verdict() == "Wrong"
    page.go_back()
    if page.get_by_label("Your answer").count():
        hand.number(hand.question().key_text)
    page.goto(address)
    assert hand.verdict() == "Wrong"


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1280])
def test_axe_is_content_with_every_page_of_a_case(open_page, served, case, width, theme):
    hand = Hand(open_page(width, theme=theme), Store(served.data))
    hand.join(f"Case axe {width} {theme}", "elevator latched and pulled")
    page = hand.page
    begin(page, case)
    amiss = faults(page, "part, open")
    hand.answer_right()
    amiss += faults(page, "part, answered")
    page.get_by_role("link", name="The whole case").click()
    amiss += faults(page, "case, open")
    page.get_by_role("link", name="This case on paper").click()
    amiss += faults(page, "sheet, open")
    page.get_by_role("link", name="Back to the case").click()
    page.get_by_role("link", name="Go on").click()
    while hand.is_asked():
        hand.answer_right()
        go_on(page)
    amiss += faults(page, "case, done")
    page.get_by_role("link", name="This case on paper").click()
    amiss += faults(page, "sheet, done")
    page.goto("/practice")
    amiss += faults(page, "practice")
    assert not amiss, "\n".join(amiss)


def test_on_paper_the_workings_begin_a_sheet_of_their_own(open_page, served, case):
    """On the screen they are hidden until the case is answered; in print they are there, after a break."""
    hand = Hand(open_page(1280), Store(served.data))
    hand.join("Case on paper", "elevator latched and pulled")
    page = hand.page
    begin(page, case)
    page.get_by_role("link", name="The whole case").click()
    page.get_by_role("link", name="This case on paper").click()
    workings = page.locator(".paper-workings")
    assert not workings.is_visible()
    page.emulate_media(media="print")
    assert workings.is_visible()
    assert workings.evaluate("each => getComputedStyle(each).breakBefore") == "page"
    assert (
        not page.locator(".places").is_visible() and not page.get_by_role("link", name="Back to the case").is_visible()
    )
