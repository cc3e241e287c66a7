"""Estimates, dials and workings with a wrong line on their pages: open, answered, in a lesson, in the record."""

import re

import pytest

from question_bank import load_bank
from question_bank.conversions import table
from tests.webapp.answers import answer_rightly
from tests.webapp.page_browser import words_of
from webapp.records import answers, attempts, people, questions

BANK = load_bank()
LESSON = "/lessons/units/force-mass-weight"
WORKINGS = [each.id for each in BANK.values() if each.kind == "find-the-wrong-line"]


@pytest.fixture
def given(hands, house, clock):
    """given(item, system) opens a question of that item for Ines: her browser, its address, the question."""
    browser = hands("Ines Okoro")
    person = people.by_name(house, "Ines Okoro").id

    def opened(item_id: str, system: str = "us", seed: int = 3):
        question = BANK[item_id].draw(seed, system)
        kept = questions.keep(house, question, person, "practice", clock(), text=BANK[item_id].text)
        return browser, f"/questions/{kept}", question

    return opened


def shown(text: str) -> str:
    """A text as words_of gives it."""
    return " ".join(text.split())


@pytest.mark.parametrize("item", [each.id for each in BANK.values() if each.kind in ("estimate", "gauge")])
@pytest.mark.parametrize("system", ["us", "metric"])
def test_a_number_typed_in_fields_is_graded(given, item, system):
    browser, address, question = given(item, system)
    page = browser.get(address)
    assert page.status_code == 200 and question.key_text not in words_of(page.text)
    number, _, unit = question.key_text.partition(" ")
    browser.send(f"{address}/answer", number=number, unit=unit)
    words = words_of(browser.get(address).text)
    assert "Right" in words and shown(question.key_both) in words


def test_a_dial_is_shown_open_and_answered_from_its_row(given):
    browser, address, question = given("units.weight-dial")
    assert question.dial in browser.get(address).text
    slip = question.mistakes[0]
    browser.send(f"{address}/answer", free=f"{slip.value:.12g} {question.unit}")
    page = browser.get(address).text
    assert question.dial in page
    assert slip.title in words_of(page) and shown(slip.tell) in words_of(page)
    assert "Same kind, other numbers" in words_of(page)


def test_the_quick_way_comes_with_the_verdict_and_not_before(given):
    browser, address, question = given("units.about-psi-in-bar")
    words = words_of(browser.get(address).text)
    assert "roughly" in words and shown(question.why) not in words
    browser.send(f"{address}/answer", free="1")
    words = words_of(browser.get(address).text)
    assert "Wrong" in words and "The quick way gives" in words and shown(question.why) in words
    assert "Exactly it is" in words and "Exact working" in words


@pytest.mark.parametrize("item", WORKINGS)
@pytest.mark.parametrize("system", ["us", "metric"])
def test_every_line_can_be_chosen_and_the_right_working_is_kept_for_later(given, item, system):
    browser, address, question = given(item, system)
    page = browser.get(address).text
    assert len(re.findall(r'<input type="radio" name="line"', page)) == len(question.shown)
    words = words_of(page)
    assert shown(question.key_both) not in words and shown(question.tell) not in words
    browser.send(f"{address}/answer", line=str(question.wrong))
    words = words_of(browser.get(address).text)
    assert "Right working" in words and shown(question.tell) in words
    assert f"Line {question.wrong} put right" in words and shown(question.key_both) in words


@pytest.mark.parametrize(
    "fields", [{}, {"line": ""}, {"line": "0"}, {"line": "99"}, {"line": "1 or 2"}, {"choice": "1"}]
)
def test_what_is_no_line_comes_back_and_is_not_counted(given, house, fields):
    browser, address, _ = given(WORKINGS[0])
    page = browser.send(f"{address}/answer", **fields)
    assert page.status_code == 422 and "No line was chosen" in page.text
    assert attempts.get(house, address.rpartition("/")[2]) is None


def test_no_line_is_chosen_beforehand(given):
    browser, address, question = given(WORKINGS[0])
    lines = re.findall(r'<input type="radio" name="line"[^>]*>', browser.get(address).text)
    assert len(lines) == len(question.shown) and not any("checked" in each for each in lines)


def test_the_record_shows_what_was_read_of_each(given, house):
    browser, address, question = given(WORKINGS[0])
    browser.send(f"{address}/answer", line=str(question.wrong))
    _, address, gauge = given("units.weight-dial")
    browser.send(f"{address}/answer", free=gauge.key_text)
    words = words_of(browser.get("/record/attempts").text)
    assert f"line {question.wrong}" in words and gauge.key_text in words
    kept = attempts.get(house, address.rpartition("/")[2])
    assert (kept.kind, kept.outcome, kept.mistake) == ("gauge", "right", None)


def test_a_slip_at_a_dial_that_comes_again_is_told_of_in_the_record(given):
    again = 0
    for seed in range(40):
        browser, address, question = given("units.weight-dial", seed=seed)
        slip = question.slip("counted-back-from-the-next-number")
        if slip and again < 2:
            browser.send(f"{address}/answer", free=f"{slip.value:.12g} {question.unit}")
            again += 1
    words = words_of(browser.get("/record").text)
    assert "Counted back from the next number" in words and "count on from the number passed" in words


def test_a_dial_in_a_lesson_is_answered_and_does_not_count(hands, house):
    browser = hands()
    page = browser.get(LESSON).text
    person = people.by_name(house, "Ines Okoro").id
    kept = questions.in_lesson(house, person, "units/force-mass-weight")["units.weight-dial"]
    assert kept.question.dial in page
    sent = browser.send(f"{LESSON}/answer", question=kept.id, free=kept.question.key_text)
    assert sent.location == f"{LESSON}#q-units.weight-dial"
    page = browser.get(LESSON).text
    assert kept.question.key_both in words_of(page) and "With other numbers" in page
    assert answers.get(house, kept.id).outcome == "right" and attempts.of_person(house, person, limit=5) == []


@pytest.mark.parametrize("kind", ["estimate", "gauge", "find-the-wrong-line"])
def test_one_right_answer_at_first_sight_proves_less_than_that_of_a_sum(given, house, clock, kind):
    """The first day on which it fades comes sooner than that of a numeric item answered right at first sight."""
    back = {}
    for each in (kind, "numeric"):
        item = next(one.id for one in BANK.values() if one.kind == each)
        browser, address, _ = given(item)
        answer_rightly(browser, house, address.rpartition("/")[2])
        back[each] = int(re.search(r"Comes back in (\d+) days", words_of(browser.get(address).text))[1])
    assert back[kind] < back["numeric"]


def test_ten_conversions_leave_estimates_out(client, house):
    """An estimate that is a conversion is still no conversion of the drill."""
    assert not any(each.kind == "estimate" for each in table(BANK))
    for _ in range(3):
        drill = client.send("/ten/start").location.split("/")[2]
        assert {each.question.kind for each in questions.of_drill(house, drill)} == {"numeric"}
