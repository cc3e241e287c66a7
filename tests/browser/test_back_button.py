"""The Back button and a second tab: an answer counts once, whatever the browser still shows."""

import pytest

from tests.browser.hand import Hand
from webapp.records import attempts, people
from webapp.records.connection import Store

pytestmark = pytest.mark.browser


@pytest.fixture(params=[True, False], ids=["scripts", "no scripts"])
def hand(request, open_page, served):
    hand = Hand(open_page(390, request.param), Store(served.data))
    hand.join(request.node.name[:60], "two tongs and a chain")
    hand.page.goto("/lessons/safety/dropped-objects")
    hand.page.get_by_role("button", name="Practise this lesson").click()
    while hand.question().kind != "choice":
        hand.answer_right()
        hand.page.get_by_role("button", name="Next").click()
    return hand


def counted(hand: Hand, name: str) -> list[str]:
    person = people.by_name(hand.store, name)
    return [each.outcome for each in attempts.of_person(hand.store, person.id, limit=50)]


def test_back_and_another_answer_counts_once(hand):
    question, address = hand.question(), hand.page.url
    wrong = next(each.key for each in question.options if each.key != question.right)
    hand.page.locator(f"input[name=choice][value='{wrong}']").check()
    hand.check()
    assert hand.verdict() == "Wrong"
    hand.page.go_back()
    if hand.page.locator("input[name=choice]").count():  # the browser may show the form from its memory
        hand.page.locator(f"input[name=choice][value='{question.right}']").check()
        hand.check()
    hand.page.goto(address)
    assert hand.verdict() == "Wrong"
    name = hand.page.locator(".menu-name").text_content()
    assert counted(hand, name).count("wrong") == 1 and len(counted(hand, name)) == 1


def test_the_same_question_in_two_tabs_counts_once(hand):
    second = hand.page.context.new_page()
    second.goto(hand.page.url)
    hand.answer_right()
    question = hand.question()
    wrong = next(each.key for each in question.options if each.key != question.right)
    second.locator(f"input[name=choice][value='{wrong}']").check()
    second.get_by_role("button", name="Check").click()
    assert second.locator(".verdict-word").inner_text().strip() == "Right"
    assert counted(hand, second.locator(".menu-name").text_content()) == ["right"]
