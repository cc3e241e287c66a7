"""A hand at the browser: reads what is on the page, types, presses. Right answers come from the question's own row."""

import re
from collections.abc import Callable
from datetime import UTC, datetime

from playwright.sync_api import Page

from question_bank import Question, load_bank
from webapp.records import people, questions
from webapp.records.connection import Store

QUESTION = re.compile(r"/questions/([0-9a-f-]{36})")


class Hand:
    """One hand with one page."""

    def __init__(self, page: Page, store: Store):
        self.page = page
        self.store = store

    def join(self, name: str, password: str) -> str:
        """Study on my own, US units, 12.5; the recovery code."""
        page = self.page
        page.goto("/")
        page.get_by_role("link", name="Study on my own").click()
        page.get_by_label("Name").fill(name)
        page.get_by_label("Password").fill(password)
        page.get_by_role("radio", name=re.compile("^US")).check()
        page.get_by_role("radio", name="12.5").check()
        page.get_by_label("Minutes a day").fill("30")
        page.get_by_role("button", name="Begin").click()
        code = page.locator(".code").inner_text().replace("\n", "").strip()
        page.get_by_role("link", name="I have written it down").click()
        return code

    def go(self, place: str) -> None:
        """To one of the five places, by the bar."""
        self.page.get_by_role("navigation", name="Places").get_by_role("link", name=place, exact=True).click()

    def read_lesson(self, title: str) -> None:
        """Every part of a lesson, by its 'Read to here'."""
        self.go("Lessons")
        self.page.get_by_role("link", name=re.compile(title)).first.click()
        while (button := self.page.get_by_role("button", name=re.compile("Read to here"))).count():
            button.first.click()

    def is_asked(self) -> bool:
        """Whether the page is a question's."""
        return QUESTION.search(self.page.url) is not None

    def question(self) -> Question:
        """The question on this page, from its row."""
        return questions.get(self.store, QUESTION.search(self.page.url)[1]).question

    def is_given(self, name: str, item_id: str, seed: int = 1, system: str = "us") -> Question:
        """Open a question of that item, drawn for the hand of that name; whatever the plan would have asked."""
        item = load_bank()[item_id]
        question = item.draw(seed, system)
        person = people.by_name(self.store, name)
        kept = questions.keep(self.store, question, person.id, "practice", datetime.now(UTC), text=item.text)
        self.page.goto(f"/questions/{kept}")
        return question

    def check(self) -> None:
        """Send the answer."""
        self.page.get_by_role("button", name="Check").click()

    def number(self, text: str, unit: str | None = None) -> None:
        """Type a number, choose its unit, send."""
        self.page.get_by_label("Your answer").fill(text)
        if unit is not None:
            self.page.get_by_label("Unit", exact=True).select_option(unit)
        self.check()

    def freely(self, text: str) -> None:
        """Type number and unit into the one field, send."""
        self.page.get_by_label("Your answer: number and unit").fill(text)
        self.check()

    def answer_right(self) -> None:
        """Answer whatever is asked, rightly."""
        kinds: dict[str, Callable[[Question], None]] = {
            "numeric": lambda question: self.number(question.key_text.split(" ")[0]),
            "estimate": lambda question: self.number(question.quick.split(" ")[0]),
            "gauge": lambda question: self.number(question.key_text.split(" ")[0]),
            "find-the-wrong-line": self._choose_line,
            "choice": self._choose,
            "order": self._put_in_order,
            "match": self._match,
            "part": self._choose_part,
            "card": lambda question: self.mark_card("I said it"),
        }
        question = self.question()
        kinds[question.kind](question)

    def mark_card(self, words: str) -> None:
        """Turn the card and mark it."""
        self.page.get_by_text("Say it, then turn the card").click()
        self.page.get_by_role("button", name=words).click()

    def text_of(self, selector: str) -> str:
        """The text of an element, its no-break spaces as plain ones."""
        return self.page.locator(selector).inner_text().replace("\N{NO-BREAK SPACE}", " ")

    def verdict(self) -> str:
        """The word over the answered question."""
        return self.page.locator(".verdict-word").inner_text().strip()

    def _choose(self, question: Question) -> None:
        self.page.locator(f"input[name=choice][value='{question.right}']").check()
        self.check()

    def _choose_line(self, question: Question) -> None:
        self.page.locator(f"input[name=line][value='{question.wrong}']").check()
        self.check()

    def _choose_part(self, question: Question) -> None:
        self.page.locator(f"input[name=part][value='{question.right[0]}']").check()
        self.check()

    def _put_in_order(self, question: Question) -> None:
        """Each step up to its place, by its button."""
        count = len(question.steps)
        for place, key in enumerate(question.accepted[0]):
            while self._order(count).index(key) > place:
                before = self._order(count)
                self.page.locator(f"button[name=up][value='{key}']").click()
                assert self._order(count) != before
        self.check()

    def _order(self, count: int) -> list[str]:
        """The steps as they stand, once the page has all of them: without scripts each move is a page of its own."""
        self.page.wait_for_load_state()
        self.page.locator(".steps input[name=step]").nth(count - 1).wait_for(state="attached")
        return [each.get_attribute("value") for each in self.page.locator(".steps input[name=step]").all()]

    def _match(self, question: Question) -> None:
        for left, right in question.pairs.items():
            self.page.locator(f"select[name='pair-{left}']").select_option(right)
        self.check()
