"""A lesson on a desk in Chromium: its figure stands beside the text, a question's drawing in its card."""

import pytest

from tests.browser.hand import Hand
from webapp.records.connection import Store

pytestmark = pytest.mark.browser

LESSON = "/lessons/hoisting/brakes"
FEWEST, MOST = 480, 560
"""Pixels that a figure should be wide on a desk: its letters are then about as large as those of the text."""


@pytest.mark.parametrize("width", [1216, 1280, 1440, 1640, 1920])
def test_the_figure_stands_beside_the_text_and_nothing_runs_off_the_page(open_page, served, width):
    hand = Hand(open_page(width), Store(served.data))
    hand.join(f"Desk {width}", "two tongs and a chain")
    hand.page.goto(LESSON)
    figure = hand.page.locator(".part > .drawing").first.bounding_box()
    text = hand.page.locator(".part > .text").first.bounding_box()
    assert FEWEST <= figure["width"] <= MOST
    assert figure["x"] > text["x"] + text["width"] and figure["x"] + figure["width"] < width
    assert hand.page.evaluate("document.documentElement.scrollWidth") <= width
    for card in hand.page.locator(".question:has(.numbered)").all():
        box, drawing = card.bounding_box(), card.locator(".numbered").bounding_box()
        assert box["x"] <= drawing["x"] and drawing["x"] + drawing["width"] <= box["x"] + box["width"]
        assert box["y"] < drawing["y"] and drawing["y"] + drawing["height"] < box["y"] + box["height"]
