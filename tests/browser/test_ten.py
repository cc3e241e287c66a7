"""Ten conversions by hand: at phone and desk width, with scripts and without; no account, nothing cut off."""

import re

import pytest
from playwright.sync_api import expect

from question_bank.powers_of_ten import lowest_offered, power_of
from tests.browser.test_axe import faults
from webapp.records import questions
from webapp.records.connection import Store

pytestmark = pytest.mark.browser

ADDRESS = re.compile(r"/ten/([0-9a-f-]{36})/(\d+|result)")
TOO_WIDE = "document.documentElement.scrollWidth - document.documentElement.clientWidth"


class Drill:
    """One drill on one page."""

    def __init__(self, page, store, clock=False):
        self.page, self.store = page, store
        page.goto("/")
        page.get_by_role("navigation", name="Places").get_by_role("link", name="Ten", exact=True).click()
        if clock:
            page.get_by_role("radio", name=re.compile("^With a clock")).check()
        page.get_by_role("button", name="Start").click()

    def question(self):
        drill, place = ADDRESS.search(self.page.url).groups()
        return questions.of_drill(self.store, drill)[int(place) - 1].question

    def choose(self, by=0):
        """The right power of ten, or one wrong by so much within the four."""
        question = self.question()
        lowest = lowest_offered(question.value, question.seed)
        power = lowest + (power_of(question.value) - lowest + by) % 4
        self.page.locator(f"input[name=power][value='{power}']").check()
        self.page.get_by_role("button", name="To the exact answer").click()

    def answer(self, text=None):
        self.page.get_by_label("Your answer").fill(text or self.question().key_text.split(" ")[0])
        self.page.get_by_role("button", name="Check").click()

    def next(self):
        self.page.get_by_role("link", name=re.compile("^(Next|See all 10)$")).click()

    def words(self):
        return self.page.get_by_role("main").inner_text().replace("\N{NO-BREAK SPACE}", " ")


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
@pytest.mark.parametrize("width", [390, 1280])
def test_ten_from_the_first_page_to_ten_more(open_page, served, width, scripts):
    page = open_page(width, scripts)
    drill = Drill(page, Store(served.data), clock=True)
    for place in range(1, 11):
        assert f"{place} of 10" in drill.page.locator("progress").get_attribute("aria-label")
        if place == 4:
            page.get_by_role("link", name="Skip this question").click()
            continue
        drill.choose(by=1 if place == 2 else 0)
        assert "You chose" in drill.words()
        drill.answer("0.0007" if place == 3 else None)
        assert page.locator(".verdict-word").inner_text().strip() == ("Wrong" if place == 3 else "Right")
        assert page.evaluate(TOO_WIDE) <= 0
        drill.next()
    words = drill.words()
    assert "8 of 10 right" in words and "8 of 10 powers of ten right" in words and "in all" in words
    assert "Number 3" in words and page.evaluate(TOO_WIDE) <= 0
    assert page.get_by_role("row").count() == 11
    before = page.url
    page.get_by_role("button", name="Ten more").click()
    assert page.url != before and page.url.endswith("/1") and page.locator("[data-seconds]").count() == 1


def test_the_clock_is_seen_to_run_where_scripts_run(open_page, served):
    page = open_page(390)
    Drill(page, Store(served.data), clock=True)
    clock = page.locator("[data-clock]")
    expect(clock).to_have_text(re.compile(r"^0:\d\d$"))
    began = clock.inner_text()
    expect(clock).not_to_have_text(began)


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_back_and_reload_change_nothing(open_page, served, scripts):
    page = open_page(390, scripts)
    drill = Drill(page, Store(served.data))
    address = page.url
    drill.choose()
    page.wait_for_load_state("networkidle")
    page.go_back()
    if page.locator("input[name=power]").count():  # the browser may show the form from its memory
        page.locator("input[name=power]").first.check()
        page.get_by_role("button", name="To the exact answer").click()
    page.goto(address)
    assert "You chose" in drill.words()
    drill.answer("as heavy as it gets")
    assert "Not counted" in page.get_by_role("alert").inner_text()
    page.goto(page.url)  # the form's own address, typed or kept
    assert page.url == address and page.get_by_label("Your answer").count() == 1
    drill.answer("0.0007")
    page.goto(address)
    assert page.locator(".verdict-word").inner_text().strip() == "Wrong"


def test_by_keyboard_alone(open_page, served):
    page = open_page(1280)
    drill = Drill(page, Store(served.data))
    question = drill.question()
    place = power_of(question.value) - lowest_offered(question.value, question.seed)
    page.locator("input[name=power]").first.focus()
    page.keyboard.press("Space")
    for _ in range(place):
        page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    page.get_by_label("Your answer").focus()
    page.keyboard.type(question.key_text.split(" ")[0])
    page.keyboard.press("Enter")
    assert page.locator(".verdict-word").inner_text().strip() == "Right"


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1280])
def test_axe_is_content_with_each_step(open_page, served, width, theme):
    page = open_page(width, theme=theme)
    drill = Drill(page, Store(served.data), clock=True)
    amiss = faults(page, "how big")
    page.get_by_role("button", name="To the exact answer").click()
    amiss += faults(page, "how big, none chosen")
    drill.choose(by=1)
    amiss += faults(page, "exact")
    drill.answer("no number")
    amiss += faults(page, "exact, not counted")
    drill.answer("0.0007")
    amiss += faults(page, "answered wrong")
    drill.next()
    drill.choose()
    drill.answer()
    amiss += faults(page, "answered right")
    page.goto(page.url.rpartition("/")[0] + "/result")
    amiss += faults(page, "result")
    assert not amiss, "\n".join(amiss)
