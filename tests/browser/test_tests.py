"""A module's test in the browser, with scripts and without: left in the middle, gone on with, handed in."""

import re

import pytest

from tests.browser.hand import Hand
from webapp.records import people, questions, sittings
from webapp.records.connection import Store
from webapp.records.questions import Kept

pytestmark = pytest.mark.browser

PLACE = re.compile(r"/sittings/([0-9a-f-]{36})/(\d+)")


class TestTaker(Hand):
    """A hand who sits a test: the question on the page is one of the sitting."""

    __test__ = False

    def kept(self) -> Kept:
        """The row of the question on this page."""
        sitting, place = PLACE.search(self.page.url).groups()
        return questions.of_drill(self.store, sitting)[int(place) - 1]

    def question(self):
        return self.kept().question

    def check(self) -> None:
        """Keep the answer; there is no other button."""
        self.page.get_by_role("button", name=re.compile("^Keep")).click()


@pytest.mark.parametrize(("width", "scripts"), [(390, False), (1280, True)])
def test_a_test_is_left_gone_on_with_and_handed_in(open_page, served, width, scripts):
    page = open_page(width, scripts)
    hand = TestTaker(page, Store(served.data))
    name = f"Taker {width}"
    hand.join(name, "a hat with a brim of steel")
    hand.go("Lessons")
    page.get_by_role("link", name="Tests of all modules").click()
    page.get_by_role("link", name=re.compile("^Take it ?: module 2,")).click()
    page.get_by_role("button", name="Begin").click()
    for _ in range(7):
        hand.answer_right()
    assert PLACE.search(page.url)[2] == "8"
    page.get_by_role("link", name="Leave it for later").click()
    hand.answer_right()

    hand.go("Today")  # the tab is closed, another day it is opened at Today
    page.get_by_role("link", name=re.compile("Go on with the test of module 2")).click()
    assert PLACE.search(page.url)[2] == "8"
    page.wait_for_load_state()
    numbers = page.get_by_role("navigation", name="Questions of this test")
    assert numbers.get_by_role("link", name=re.compile("answered$")).count() == 8
    while PLACE.search(page.url):
        hand.answer_right()
    assert page.locator(".said").inner_text() == "15 of 15 answered."
    page.get_by_role("button", name="Hand in", exact=True).click()
    assert page.locator("h1").inner_text() == "Passed"
    assert page.locator(".said").first.inner_text() == "15 of 15 right."
    (sitting,) = sittings.of_person(hand.store, people.by_name(hand.store, name).id)
    assert sitting.passed and sitting.handed_in_by == "hand"
    page.go_back()  # the page before, whatever the browser kept of it, hands in nothing more
    page.goto(f"/sittings/{sitting.id}/3")
    assert page.url.endswith(f"/sittings/{sitting.id}")
