"""A practice paper in the browser, with scripts and without: the tab closed, the server killed, gone on, handed in."""

import re
from datetime import UTC, datetime, timedelta

import pytest

from tests.browser.hand import Hand
from tests.webapp.serving import Served
from webapp.records import come_back_to, people, questions, sittings
from webapp.records.connection import Store
from webapp.records.moments import as_text
from webapp.records.questions import Kept

pytestmark = pytest.mark.browser

PLACE = re.compile(r"/sittings/([0-9a-f-]{36})/(\d+)")
NAME = "Ines Okoro"


class PaperSitter(Hand):
    """A hand who sits a paper: the question on the page is one of the sitting."""

    def kept(self) -> Kept:
        """The row of the question on this page."""
        sitting, place = PLACE.search(self.page.url).groups()
        return questions.of_drill(self.store, sitting)[int(place) - 1]

    def question(self):
        return self.kept().question

    def check(self) -> None:
        """Keep the answer. With scripts it waits for what the page is keeping by itself, and only then goes on."""
        with self.page.expect_navigation():
            self.page.get_by_role("button", name=re.compile("^Keep")).click()

    def number_here(self) -> int:
        """The number of the question on this page."""
        return int(PLACE.search(self.page.url)[2])


@pytest.fixture
def server(tmp_path):
    """A server of this test's own: it is killed in the middle."""
    store = Store(tmp_path / "records.sqlite")
    store.migrate()
    started = Served(store.path).start()
    yield started
    started.stop()


@pytest.fixture
def window(chromium, server):
    """window(390, scripts=True): a browser of that width whose hand has joined; its tabs come and go."""
    contexts = []

    def opened(width: int, scripts: bool):
        context = chromium.new_context(
            viewport={"width": width, "height": 844 if width < 600 else 900},
            java_script_enabled=scripts,
            reduced_motion="reduce",
        )
        context.set_default_timeout(10_000)
        contexts.append(context)
        return context

    yield opened
    for context in contexts:
        context.close()


def tab(context, server, path):
    """A new tab at that address of the server as it runs now."""
    page = context.new_page()
    page.goto(f"http://127.0.0.1:{server.port}{path}")
    return page


def joined(context, server):
    """A hand who has joined, at the list of papers."""
    page = tab(context, server, "/join")
    page.get_by_label("Name").fill(NAME)
    page.get_by_label("Password").fill("a hat with a brim of steel")
    page.get_by_role("radio", name=re.compile("^US")).check()
    page.get_by_role("radio", name="12.5").check()
    page.get_by_label("Minutes a day").fill("30")
    page.get_by_role("button", name="Begin").click()
    page.goto(f"http://127.0.0.1:{server.port}/practice")
    page.get_by_role("link", name="Open the practice papers").click()
    return page


def begin(page):
    page.get_by_role("link", name=re.compile("^Sit it ?: paper A")).click()
    page.get_by_role("button", name="Begin").click()


def only_sitting(store):
    (sitting,) = sittings.of_person(store, people.by_name(store, NAME).id)
    return sitting


def fill_without_keeping(hand) -> str:
    """An answer is filled in and nothing pressed; the question's id."""
    question, page = hand.question(), hand.page
    if question.is_typed:
        page.locator("input[name=number]").fill("12")
    elif question.kind in ("choice", "part"):
        page.locator(f"input[name={question.kind}]").first.check()
    elif question.kind == "find-the-wrong-line":
        page.locator("input[name=line]").first.check()
    elif question.kind == "match":
        page.locator("select").first.select_option(index=1)
    else:
        page.locator("button[name=down]").first.click()
    return hand.kept().id


@pytest.mark.parametrize(("width", "scripts"), [(390, False), (390, True), (1280, True)])
def test_a_paper_outlives_the_tab_and_the_server_and_is_handed_in(window, server, width, scripts):
    store, context = Store(server.data), window(width, scripts)
    page = joined(context, server)
    begin(page)
    hand = PaperSitter(page, store)
    assert re.search(r"(89:\d\d|89 minutes) left", page.locator(".time-left").inner_text())
    answered = [hand.kept().id]
    hand.answer_right()
    page.get_by_label("Come back to it").check()
    answered.append(hand.kept().id)
    hand.answer_right()
    assert hand.number_here() == 3
    if scripts:
        with page.expect_response(re.compile(r"/draft$")):
            answered.append(fill_without_keeping(hand))
        page.get_by_text("Kept while you write.").wait_for()
    page.close()
    server.kill()

    server.start()
    page = tab(context, server, "/today")
    assert re.search(r"You have paper A open, \d\d minutes left\.", page.locator("main").inner_text())
    page.get_by_role("link", name="Go on with paper A").click()
    hand = PaperSitter(page, store)
    sitting = only_sitting(store)
    assert set(sittings.drafts_of(store, sitting.id)) == set(answered)
    assert come_back_to.of_sitting(store, sitting.id) == {answered[1]}
    first_open = next(
        number
        for number, kept in enumerate(questions.of_drill(store, sitting.id), 1)
        if kept.id not in answered or sittings.drafts_of(store, sitting.id)[kept.id].given["unread"]
    )
    assert hand.number_here() == first_open
    for _ in range(4):
        hand.answer_right()
    places = page.get_by_role("navigation", name="Questions of this paper")
    assert places.get_by_role("link", name=re.compile("^Question 2.*come back to it")).count()
    page.get_by_role("link", name="Hand in", exact=True).click()
    assert "What is open counts as wrong." in page.locator("main").inner_text()
    page.get_by_role("link", name="question 2", exact=True).click()
    assert hand.number_here() == 2
    page.get_by_role("link", name="Hand in", exact=True).click()
    page.get_by_role("button", name="Hand in as it is").click()
    assert page.locator("h1").inner_text() == "Not passed"
    each_working_can_be_seen(page, store)
    sitting = only_sitting(store)
    assert sitting.handed_in_by == "hand" and sitting.result["right"] >= 6 - (not scripts)


def each_working_can_be_seen(page, store):
    """Sixty questions; each opens, and each with numbers shows the last line of its working."""
    rows = page.locator("details[id^=question-]")
    assert rows.count() == 60
    with_numbers = 0
    for number, kept in enumerate(questions.of_drill(store, only_sitting(store).id), 1):
        row = page.locator(f"#question-{number}")
        if row.get_attribute("open") is None:
            row.locator("> summary").click()
        if kept.question.has_numbers:
            box = row.locator(".working-box")
            if box.evaluate("box => box.tagName === 'DETAILS' && !box.open"):
                box.locator("summary").click()
            assert box.locator(".working-result").last.is_visible()
            with_numbers += 1
    assert with_numbers > 10


@pytest.mark.parametrize(("width", "scripts"), [(390, True), (1280, False)])
def test_the_time_runs_out(window, server, width, scripts):
    """The deadline is moved to a few seconds from now. With scripts the page leads on; without, a press does."""
    store, context = Store(server.data), window(width, scripts)
    page = joined(context, server)
    begin(page)
    hand = PaperSitter(page, store)
    first = hand.kept().id
    hand.answer_right()
    move_deadline(store, seconds=8)
    page.reload()
    if scripts:
        second = fill_without_keeping(hand)
        page.get_by_role("heading", name="Not passed").wait_for(timeout=20_000)
        kept = {first, second}
    else:
        assert "under a minute left" in page.locator(".time-left").inner_text()
        move_deadline(store, seconds=-1)
        hand.check()
        kept = {first}
    assert "The time was up" in page.locator("main").inner_text()
    sitting = only_sitting(store)
    assert (sitting.handed_in_by, sitting.handed_in_at) == ("clock", sitting.deadline)
    assert set(sittings.drafts_of(store, sitting.id)) == kept
    assert sitting.result["outcomes"][first] == "right"
    page.go_back()
    page.goto(f"http://127.0.0.1:{server.port}/sittings/{sitting.id}/2")
    assert page.locator("h1").inner_text() == "Not passed"


def move_deadline(store, seconds):
    with store.writing() as db:
        db.execute("update sittings set deadline = ?", [as_text(datetime.now(UTC) + timedelta(seconds=seconds))])
