"""Estimates, dials and workings with a wrong line in Chromium: by keyboard, without scripts, on a phone."""

import pytest

from question_bank import load_bank
from tests.browser.hand import Hand
from webapp.records.connection import Store

pytestmark = pytest.mark.browser

DIALS = [each.id for each in load_bank().values() if each.kind == "gauge"]
WORKING = next(each.id for each in load_bank().values() if each.kind == "find-the-wrong-line")


@pytest.fixture(params=[(390, True), (390, False), (1280, True)], ids=["phone", "phone without scripts", "desk"])
def hand(request, open_page, served):
    width, scripts = request.param
    hand = Hand(open_page(width, scripts), Store(served.data))
    hand.name = f"{request.function.__name__[:30]} {width} {scripts}"
    hand.join(hand.name, "two tongs and a chain")
    return hand


def test_wrong_lines_by_keyboard_and_by_hand(hand):
    _found_by_keyboard(hand)
    _another_line_chosen(hand)
    hand.is_given(hand.name, WORKING, 5)
    hand.check()
    assert "Not counted" in hand.page.get_by_role("alert").inner_text()


def _found_by_keyboard(hand: Hand) -> None:
    """Space on the first line, arrows along them, Enter to send."""
    question = hand.is_given(hand.name, WORKING, 3)
    hand.page.locator("input[name=line]").first.focus()
    hand.page.keyboard.press("Space")
    for _ in range(question.wrong - 1):
        hand.page.keyboard.press("ArrowDown")
    hand.page.keyboard.press("Enter")
    assert hand.verdict() == "Right"
    verdict = hand.text_of(".verdict")
    assert question.tell in verdict and f"Line {question.wrong} put right" in verdict


def _another_line_chosen(hand: Hand) -> None:
    question = hand.is_given(hand.name, WORKING, 4)
    other = 1 if question.wrong != 1 else 2
    hand.page.locator(f"input[name=line][value='{other}']").check()
    hand.check()
    verdict = hand.text_of(".verdict")
    assert hand.verdict() == "Wrong" and f"You chose line {other}" in verdict
    assert f"Line {question.wrong} is the wrong one" in verdict and question.mended.result in verdict
    assert question.working[-1].result in hand.text_of(".working")


def test_dials_can_be_read_and_an_estimate_shows_the_quick_way(hand):
    for item in DIALS:
        _reads_a_dial(hand, item)
    question = hand.is_given(hand.name, "units.about-psi-in-bar", 7)
    hand.number(f"{question.value * 1.08:.0f}")
    verdict = hand.text_of(".verdict")
    assert hand.verdict() == "Right"
    assert question.quick in verdict and question.key_both in verdict and question.why in verdict


def _reads_a_dial(hand: Hand, item: str) -> None:
    """Numbers of 14 px at least, nothing wider than the page, and still there when it is answered."""
    question = hand.is_given(hand.name, item, 7)
    dial = hand.page.get_by_role("img", name="Dial of a")
    box = dial.bounding_box()
    sizes = dial.locator("text").evaluate_all("all => all.map(each => parseFloat(getComputedStyle(each).fontSize))")
    assert min(sizes) * box["width"] / 360 >= 14
    assert hand.page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    assert box["x"] >= 0 and box["x"] + box["width"] <= hand.page.viewport_size["width"]
    hand.number(question.key_text.split(" ")[0])
    assert hand.verdict() == "Right"
    assert hand.page.get_by_role("img", name="Dial of a").count() == 1
