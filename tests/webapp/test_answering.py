"""Answering: what is counted, what is not, and that nothing counts twice."""

import threading

import pytest

from tests.webapp.answers import answer_rightly
from tests.webapp.page_browser import words_of
from webapp.records import attempts, memory, people, questions
from webapp.study.memory import back_on

ITEM = "units.string-under-block"


@pytest.fixture
def ines(hands, house):
    """Ines' browser and her id."""
    browser = hands("Ines Okoro")
    return browser, people.by_name(house, "Ines Okoro").id


@pytest.fixture
def ask(app, house, clock):
    """ask(person_id, item, seed) keeps a drawn question; its id and the question."""

    def asked(person_id: str, item_id: str = ITEM, seed: int = 1, place: str = "practice"):
        item = app.extensions["pinandbox"]["bank"][item_id]
        question = item.draw(seed, "us")
        return questions.keep(house, question, person_id, place, clock(), text=item.text), question

    return asked


def answers(house, person_id):
    return attempts.of_person(house, person_id, limit=50)


def test_a_form_that_is_sent_twice_counts_once(ines, ask, house):
    browser, person = ines
    question_id, question = ask(person)
    for text in (question.key_text, "5 klbf", question.key_text):
        sent = browser.send(f"/questions/{question_id}/answer", free=text)
        assert sent.status_code == 303 and sent.location == f"/questions/{question_id}"
    (only,) = answers(house, person)
    assert (only.outcome, only.typed) == ("right", question.key_text)


def test_a_double_click_counts_once(app, ines, ask, house):
    """Two sendings at the same moment, from two threads of the server."""
    browser, person = ines
    question_id, question = ask(person)
    browser.get(f"/questions/{question_id}")
    cookie, token = browser.get_cookie("pinandbox").value, browser.token
    statuses = []

    def press():
        other = app.test_client()
        other.set_cookie("pinandbox", cookie)
        form = {"token": token, "free": question.key_text}
        statuses.append(other.post(f"/questions/{question_id}/answer", data=form).status_code)
        app.extensions["pinandbox"]["store"].close()

    presses = [threading.Thread(target=press) for _ in range(6)]
    for each in presses:
        each.start()
    for each in presses:
        each.join()
    assert statuses == [303] * 6
    assert len(answers(house, person)) == 1


@pytest.mark.parametrize(
    "typed, words",
    [
        ("heavy", "does not begin with a number"),
        ("", "Nothing was typed"),
        ("300 ton", "Which ton?"),
        ("300 kN·m", "You gave a torque"),
        ("1" * 65, "longer than 64"),
        ("<script>alert(1)</script>", "does not begin with a number"),
    ],
)
def test_what_is_not_counted_comes_back_and_the_question_stays(ines, ask, house, typed, words):
    browser, person = ines
    question_id, _ = ask(person)
    page = browser.send(f"/questions/{question_id}/answer", free=typed)
    assert page.status_code == 422
    assert "Not counted" in page.text and words in words_of(page.text)
    assert answers(house, person) == []
    assert "<script>alert" not in page.text


def test_the_mistake_is_told_by_name_with_the_working_and_both_systems(ines, ask):
    browser, person = ines
    question_id, question = ask(person)
    slip = next(each for each in question.mistakes if each.name == "added")
    page = browser.follow(browser.send(f"/questions/{question_id}/answer", number=f"{slip.value:g}", unit="klbf"))
    words = words_of(page.text)
    assert slip.tell in words and question.key_both in words
    assert all(line.put_in in words and line.result in words for line in question.working)
    assert '<details class="working-box" open>' in page.text


def test_the_number_goes_with_the_unit_beside_it(ines, ask, house):
    """The same load in kN, by the select; and a unit typed into the number's own field wins."""
    browser, person = ines
    for seed, (number, unit) in enumerate([("{kn:.1f}", "kN"), ("{klbf:.1f} kip", "kN"), ("{klbf:.2f}", "klbf")]):
        question_id, question = ask(person, seed=seed)
        number = number.format(kn=question.value * 4.4482216, klbf=question.value)
        browser.send(f"/questions/{question_id}/answer", number=number, unit=unit)
        assert attempts.get(house, question_id).outcome == "right"


def test_a_decimal_mark_that_would_change_the_verdict_is_asked_back(hands, house, ask):
    browser = hands("Joao", comma=True)
    person = people.by_name(house, "Joao").id
    question_id, question = ask(person, "units.rating-in-kn")
    written = f"{question.value:,.0f}"
    page = browser.send(f"/questions/{question_id}/answer", number=written, unit="kN")
    assert page.status_code == 422 and "Did you mean" in page.text
    assert answers(house, person) == []


def test_a_hint_that_was_shown_is_written_down_with_the_answer(ines, ask, house):
    browser, person = ines
    question_id, question = ask(person)
    assert question.hint not in words_of(browser.get(f"/questions/{question_id}").text)
    assert question.hint in words_of(browser.follow(browser.send(f"/questions/{question_id}/hint")).text)
    browser.send(f"/questions/{question_id}/answer", free=question.key_text)
    assert attempts.get(house, question_id).hint is True


def test_the_server_believes_no_key_seed_or_person_from_the_form(ines, ask, house):
    browser, person = ines
    question_id, _ = ask(person)
    forged = {"seed": "2", "key": "5", "value": "5", "person": "somebody", "outcome": "right", "answered_at": "1999"}
    browser.send(f"/questions/{question_id}/answer", free="5 klbf", **forged)
    kept = attempts.get(house, question_id)
    assert (kept.outcome, kept.person) == ("wrong", person)
    assert kept.answered_at.year > 2000


def test_the_same_kind_with_other_numbers_is_a_new_question(ines, ask, house):
    browser, person = ines
    question_id, question = ask(person)
    browser.send(f"/questions/{question_id}/answer", free=question.key_text)
    new = browser.send(f"/questions/{question_id}/again").location.rpartition("/")[2]
    assert new != question_id
    assert questions.get(house, new).item == ITEM


def test_an_answered_question_is_shown_from_its_row(ines, ask, house, app, clock):
    """Months later and with the item gone from the course, the old page still has its own numbers."""
    browser, person = ines
    question_id, question = ask(person)
    browser.send(f"/questions/{question_id}/answer", free=question.key_text)
    before = browser.get(f"/questions/{question_id}").text
    app.extensions["pinandbox"]["bank"]._items.pop(ITEM)
    after = browser.get(f"/questions/{question_id}")
    assert after.status_code == 200
    assert question.key_both in words_of(after.text) and question.stem in words_of(before)


def test_days_later_it_knows_what_is_fading(ines, ask, house, clock):
    """Wrong today: it says when it comes back, and on that day it is fading."""
    browser, person = ines
    question_id, question = ask(person)
    browser.send(f"/questions/{question_id}/answer", free="5 klbf")
    assert "Comes back" in browser.get(f"/questions/{question_id}").text
    assert "fading" not in words_of(browser.get("/today").text)
    days = (back_on(memory.of_person(house, person)[ITEM]) - clock().date()).days
    clock.forward(days=days)
    page = words_of(browser.get("/today").text)
    assert "1 is fading" in page and question.title in page


def test_nothing_in_a_page_of_an_open_question_tells_the_answer(ines, ask):
    """No key, no seed, no mistake, no mark on the right option in the page's source."""
    browser, person = ines
    for item in (ITEM, "safety.tool-aloft", "safety.barriers-in-order", "safety.static-or-dynamic"):
        question_id, question = ask(person, item, seed=12_345_678)
        html = browser.get(f"/questions/{question_id}").text
        assert "12345678" not in html
        for word in ("right", "accepted", "pairs", "mistake", "band"):
            assert f"data-{word}" not in html and f'value="{word}"' not in html
        if item == ITEM:
            assert question.key_text not in words_of(html)


@pytest.mark.parametrize("item", ["units.rating-in-kn", "units.rating-in-tonnes", "units.indicator-in-klbf"])
def test_the_given_copied_with_its_own_unit_is_no_answer(ines, ask, house, item):
    """Of a conversion only the asked unit is taken; anything else is asked back and not counted."""
    browser, person = ines
    question_id, question = ask(person, item)
    page = browser.send(f"/questions/{question_id}/answer", free=question.givens[0][1])
    assert page.status_code == 422 and f"asks for it in {question.unit}" in words_of(page.text)
    assert answers(house, person) == []


def test_the_right_number_beside_the_wrong_unit_is_told(ines, ask):
    browser, person = ines
    question_id, question = ask(person)
    number = question.key_text.split(" ")[0]
    page = browser.follow(browser.send(f"/questions/{question_id}/answer", number=number, unit="kN"))
    assert "Your number fits klbf" in words_of(page.text)


def test_practice_of_a_lesson_ends_after_each_round_of_its_items(app, ines, house):
    browser, _ = ines
    lesson = "units/force-mass-weight"
    items = app.extensions["pinandbox"]["bank"].of_lesson(lesson)
    for _ in range(2):
        at = browser.send("/practice/start", lesson=lesson).location
        for _ in items:
            assert at.startswith("/questions/")
            question_id = at.rpartition("/")[2]
            answer_rightly(browser, house, question_id)
            at = browser.send("/practice/next", after=question_id).location
        assert at == f"/practice?done={lesson}"
        assert "every item of lesson 1.1" in words_of(browser.get(at).text)
