"""An order that a hand has begun to put right is still there when the page is loaded again."""

import pytest

from tests.browser.hand import Hand
from webapp.records.connection import Store

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_loading_the_page_again_keeps_the_order(open_page, served, scripts):
    hand = Hand(open_page(390, scripts), Store(served.data))
    hand.join(f"Order {scripts}", "slow block over the board")
    page = hand.page
    page.goto("/lessons/safety/dropped-objects")
    page.get_by_role("button", name="Practise this lesson").click()
    while hand.question().kind != "order":
        hand.answer_right()
        page.get_by_role("button", name="Next").click()
    first = order(page)
    for _ in range(2):
        before = page.url
        page.locator(f"button[name=down][value='{first[0]}']").click()
        page.wait_for_url(lambda url, before=before: url != before)
    made = order(page)
    assert made == [first[1], first[2], first[0], *first[3:]]
    page.reload()
    assert order(page) == made
    page.goto(page.url)
    assert order(page) == made
    page.go_back()
    page.go_forward()
    assert order(page) == made
    hand.answer_right()
    assert hand.verdict() == "Right"


def test_an_order_in_a_lesson_is_kept_too(open_page, served):
    """The address keeps which of the questions in the text it is of."""
    hand = Hand(open_page(390), Store(served.data))
    hand.join("Order in a lesson", "slow block over the board")
    page = hand.page
    page.goto("/lessons/safety/dropped-objects")
    if not page.locator("ol.steps").count():
        pytest.skip("No lesson asks for an order in its text.")
    first = order(page)
    page.locator(f"button[name=down][value='{first[0]}']").click()
    made = order(page)
    assert made != first
    page.reload()
    assert order(page) == made
    assert "question=" in page.url


def order(page) -> list[str]:
    """The keys of the steps as they stand."""
    page.wait_for_load_state()
    return [each.get_attribute("value") for each in page.locator(".steps input[name=step]").all()]
