"""Today, Lessons, Record, Ten conversions and Bench, as a hand meets them. The client checks each page it fetches."""

import re

import pytest

from tests.webapp.answers import answer_rightly
from tests.webapp.page_browser import words_of
from webapp.records import answers, attempts, people, questions

DROPS = "/lessons/safety/dropped-objects"
PARTS = ["why-things-fall", "what-a-fall-can-do", "hold-it-up-there", "the-red-zone", "hands-lines-and-the-word-stop"]


def test_a_new_hand_is_sent_to_read(hands):
    page = hands().get("/today")
    words = words_of(page.text)
    assert "Read lesson 10.1." in words and "Nothing is answered yet" in words
    assert page.text.count('class="button main"') == 1


def test_reading_is_kept_to_the_part(hands):
    """'Read to here' marks that part and all before it; the lesson goes on where it stopped."""
    browser = hands()
    assert browser.send(f"{DROPS}/read", part=PARTS[1]).location == f"{DROPS}#{PARTS[2]}"
    words = words_of(browser.get(DROPS).text)
    assert "2 of 6 parts read" in words and "Go on where you stopped" in words
    assert "4 of its 6 parts" in words_of(browser.get("/today").text)


def test_items_come_up_once_their_lesson_is_read(hands):
    browser = hands()
    browser.send(f"{DROPS}/read", part=PARTS[-1])
    page = browser.get("/today")
    assert "are new" in words_of(page.text)
    assert page.text.count('class="button main"') == 1
    assert browser.send("/practice/start").location.startswith("/questions/")


def test_the_plan_keeps_to_the_minutes(hands):
    """Five minutes are not filled with an hour; the last item may run over."""
    browser = hands(minutes=5)
    browser.send(f"{DROPS}/read", part=PARTS[-1])
    page = browser.get("/today").text
    seconds = [int(each) for each in re.findall(r'<td class="num">(\d+) s</td>', page)][:-1]
    assert seconds and sum(seconds[:-1]) < 300


@pytest.mark.parametrize("part", ["", "no-such-part", "why-things-fall<script>"])
def test_a_part_that_is_not_there_is_refused(hands, part):
    assert hands().send(f"{DROPS}/read", part=part).status_code == 400


def test_a_lesson_that_is_not_there_is_not_found(hands):
    assert hands().get("/lessons/safety/nothing").status_code == 404


def test_a_question_in_the_text_is_kept_and_never_counts(hands, house):
    browser = hands()
    browser.get(DROPS)
    person = people.by_name(house, "Ines Okoro").id
    kept = questions.in_lesson(house, person, "safety/dropped-objects")["safety.drop-energy"]
    sent = browser.send(f"{DROPS}/answer", question=kept.id, free=kept.question.key_text)
    assert sent.location == f"{DROPS}#q-safety.drop-energy"
    assert kept.question.key_both in words_of(browser.get(DROPS).text)
    assert answers.get(house, kept.id).outcome == "right"
    assert attempts.of_person(house, person, limit=5) == []


def test_the_text_shows_the_hands_own_units_first(hands):
    us, metric = hands("Ines Okoro"), hands("Joao Wexley", system="metric", comma=True)
    assert "2\N{NO-BREAK SPACE}kg" in metric.get(DROPS).text
    assert "4.4\N{NO-BREAK SPACE}lb (2\N{NO-BREAK SPACE}kg)" in us.get(DROPS).text
    assert "9,80665" in metric.get("/lessons/units/force-mass-weight").text


def test_record_shows_when_each_comes_back_and_the_mistakes_that_come_again(hands, house, clock):
    browser = hands()
    for _ in range(2):
        question_id = browser.send("/practice/start", lesson="units/force-mass-weight").location.rpartition("/")[2]
        while questions.get(house, question_id).item != "units.rating-in-kn":
            answer_rightly(browser, house, question_id)
            question_id = browser.send("/practice/next", after=question_id).location.rpartition("/")[2]
        slip = questions.get(house, question_id).question.slip("long-ton")
        browser.send(f"/questions/{question_id}/answer", number=f"{slip.value:.1f}", unit="kN")
        clock.forward(days=2)
    words = words_of(browser.get("/record").text)
    assert "Long ton" in words and "2 times" in words
    assert re.search(r"Plate in short tons, load in kN Wrong .* \d+ \w{3}", words)
    assert browser.get("/record/attempts").status_code == 200


@pytest.mark.parametrize(
    "address, words",
    [
        ("/bench?value=286+klbf", "1,272"),
        ("/bench?value=500+st", "453.59"),
        ("/bench?value=30%27+6%22", "9.296"),
        ("/bench?value=heavy", "does not begin with a number"),
        ("/bench?value=500+ton", "Which ton?"),
        ("/bench?value=286", "has no unit"),
    ],
)
def test_the_bench_says_a_quantity_in_all_its_units(client, address, words):
    assert words in words_of(client.get(address).text)


@pytest.mark.parametrize(
    "writes, typed, words",
    [
        ("comma", "44,600 lb", "Read as 44,6 lb. If you mean 44 600 lb"),
        ("point", "44.600 lb", "Read as 44.6 lb. If you mean 44,600 lb"),
    ],
)
def test_the_bench_says_how_it_read_a_mark_that_can_be_read_two_ways(client, writes, typed, words):
    assert words in words_of(client.get("/bench", query_string={"value": typed, "writes": writes}).text)
    assert "If you mean" not in client.get("/bench", query_string={"value": "44,600 lb", "writes": "point"}).text


@pytest.mark.parametrize("theme", ["day", "night"])
def test_day_and_night_are_remembered_by_the_browser(client, theme):
    client.send("/theme", theme=theme, back="/bench")
    assert f'<html lang="en" class="{theme}">' in client.get("/").text


def test_what_breaks_is_told_without_a_trace(app, hands, monkeypatch):
    """The 500 page: what happened, what is safe, what to do; no code, no path."""
    app.config.update(TESTING=False, PROPAGATE_EXCEPTIONS=False)
    browser = hands()
    monkeypatch.setattr("webapp.views.record.render_template", lambda *_, **__: 1 / 0)
    page = browser.get("/record")
    assert page.status_code == 500
    assert "Something broke" in page.text and "Traceback" not in page.text and "division" not in page.text


def test_what_is_too_large_is_refused(hands):
    assert hands().send("/settings", name="x" * 70_000).status_code == 413


def test_an_address_of_nobody_says_what_to_do(client):
    page = client.get("/nowhere")
    assert page.status_code == 404 and "What to do next" in page.text
