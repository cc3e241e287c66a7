"""Today by rotation and exam: a day without minutes, more minutes, a gap, what is left out; and the forecast."""

import re
from datetime import date, timedelta

import pytest

from tests.webapp.page_browser import words_of
from tests.webapp.records.samples import attempt, record_all
from tests.webapp.taking_tests import a_test
from webapp import my_readiness
from webapp.records import exams, people, rotations

TODAY = date(2026, 3, 2)
OFF_TODAY = (14, 14, TODAY + timedelta(3), None)


@pytest.fixture
def ines(hands, house):
    """Her browser; `ines.id` is the person's."""
    browser = hands("Ines Okoro", minutes=15)
    browser.id = people.by_name(house, "Ines Okoro").id
    return browser


def read_all(hand, app, *lessons: str) -> None:
    """Read these lessons to their ends, or every lesson."""
    course = app.extensions["pinandbox"]["course"]
    for lesson in map(course.lesson, lessons) if lessons else course.lessons:
        hand.send(f"/lessons/{lesson.id}/read", part=lesson.parts[-1].slug)


def answered(app, house, person: str, number: int, days: float = 0, outcome: str = "right") -> list[str]:
    """So many items answered at that many days after the tests' first moment; their ids."""
    items = list(app.extensions["pinandbox"]["bank"].values())[:number]
    record_all(
        house, [attempt(house, person, item.id, days, kind=item.kind, outcome=outcome, seconds=5.0) for item in items]
    )
    return [item.id for item in items]


def exam_in(house, person: str, days: int, paper: str = "a") -> None:
    exams.set_day(house, person, paper, TODAY + timedelta(days), person, people.by_id(house, person).created_at)


def test_a_day_without_minutes_says_so_and_offers_to_study_anyway(ines, app, house):
    read_all(ines, app)
    rotations.set_own(house, ines.id, *OFF_TODAY)
    people.change_settings(house, ines.id, minutes_off=0)
    page = ines.get("/today").text
    assert "No minutes are planned for today. You can study anyway." in words_of(page)
    assert page.count('class="button main"') == 1 and "Study 10 minutes anyway" in page
    assert ines.send("/today/more", minutes="10").location == "/today"
    words = words_of(ines.get("/today").text)
    assert "Today has 10 minutes." in words and re.search(r"Answer \d+ items\.", words)


def test_more_minutes_are_offered_once_todays_are_used_up(ines, app, house):
    read_all(ines, app)
    people.change_settings(house, ines.id, minutes=1, minutes_off=1)
    record_all(house, [attempt(house, ines.id, "safety.tool-aloft", kind="choice", seconds=150.0)])
    words = words_of(ines.get("/today").text)
    assert "You have done what fits in your 1 minute today." in words and "10 minutes more" in words
    ines.send("/today/more", minutes="20")
    page = words_of(ines.get("/today").text)
    assert "Today has 23 minutes." in page and "minutes more" not in page  # 2.5 are used: 3, and 20


def test_no_other_number_of_minutes_is_taken_and_a_day_has_an_end(ines, house):
    for minutes in ("", "0", "11", "-10", "10 "):
        assert ines.send("/today/more", minutes=minutes).status_code == 400
    assert rotations.single_days(house, ines.id) == {}
    for _ in range(15):
        ines.send("/today/more", minutes="20")
    assert rotations.single_days(house, ines.id) == {TODAY: 240.0}


def test_the_rotation_decides_the_minutes_of_today(ines, app, house):
    read_all(ines, app)
    people.change_settings(house, ines.id, minutes=30, minutes_off=5)
    rotations.set_own(house, ines.id, *OFF_TODAY)
    assert "Today has 5 minutes." in words_of(ines.get("/today").text)
    rotations.set_own(house, ines.id, 14, 14, TODAY, None)
    assert "Today has 30 minutes." in words_of(ines.get("/today").text)


def test_after_a_gap_the_plan_fits_the_minutes_and_says_so(ines, app, house, clock, hands):
    read_all(ines, app)
    answered(app, house, ines.id, 120)
    clock.forward(days=21)
    page = hands("Ines Okoro").get("/today").text
    words = words_of(page)
    assert "You were away 21 days. Nothing has piled up" in words
    seconds = [int(each) for each in re.findall(r'<td class="num">(\d+) s</td>', page)]
    assert sum(seconds[:-1]) < 15 * 60
    left_out = re.search(r"No time is left for them today (\d+)", words)
    assert int(left_out[1]) > 60


def test_six_days_are_no_gap(ines, app, house, clock, hands):
    read_all(ines, app)
    answered(app, house, ines.id, 40)
    clock.forward(days=6)
    words = words_of(hands("Ines Okoro").get("/today").text)
    assert "You were away" not in words and "Picked from all you have read" in words


def test_what_is_left_out_adds_up_to_the_bank(ines, app, house):
    read_all(ines, app, "safety/dropped-objects")
    page = ines.get("/today").text
    picked = int(re.search(r"Answer (\d+) items?\.", words_of(page))[1])
    table = page[page.index("Items that are not for today") :]
    counts = [int(each) for each in re.findall(r'<td class="num">(\d+)</td>', table)]
    assert picked + sum(counts) == len(app.extensions["pinandbox"]["bank"])
    assert "You have not read their lesson yet" in table


def test_a_module_passed_by_test_opens_its_items_unread(ines, app, house, clock):
    assert "Answer" not in words_of(ines.get("/today").text)
    units = app.extensions["pinandbox"]["course"].module("units")
    lessons = [each.id for each in units.lessons]
    a_test(house, people.by_id(house, ines.id), "units", clock(), lessons=lessons)
    assert re.search(r"Answer \d+ items\. \d+ are new\.", words_of(ines.get("/today").text))


def test_a_hand_who_has_told_nothing_is_asked_for_rotation_and_exam(ines, house):
    assert "Tell your rotation and exam day" in words_of(ines.get("/today").text)
    rotations.set_own(house, ines.id, *OFF_TODAY)
    words = words_of(ines.get("/today").text)
    assert "Tell your rotation" not in words and "No exam day is set. Set your exam day" in words
    exam_in(house, ines.id, 40)
    assert "Set your exam day" not in words_of(ines.get("/today").text)


def test_an_exam_day_that_is_past_is_told_and_no_longer_aimed_at(ines, app, house, clock, hands):
    exam_in(house, ines.id, 3)
    answered(app, house, ines.id, 40)
    assert "right on 5 Mar." in words_of(ines.get("/today").text)
    clock.forward(days=4)
    words = words_of(hands("Ines Okoro").get("/today").text)
    assert "Your exam day, 5 Mar, is past. Set the next one" in words
    assert "right in 30 days, on 5 Apr." in words


def test_the_exam_is_today(ines, app, house):
    exam_in(house, ines.id, 0)
    answered(app, house, ines.id, 40)
    words = words_of(ines.get("/today").text)
    assert "Your exam is today." in words and "right on 2 Mar." in words


def test_the_paper_decides_the_pass_mark(ines, app, house):
    answered(app, house, ines.id, 40)
    assert "Paper A needs 75 %" in words_of(ines.get("/today").text)
    exam_in(house, ines.id, 40, "b")
    assert "Paper B needs 80 %" in words_of(ines.get("/today").text)


def the_numbers(words: str) -> tuple[int, int, int]:
    return tuple(
        int(each)
        for each in re.search(
            r"About (\d+) % right .*? In nine of ten cases it is between (\d+) % and (\d+) %", words
        ).groups()
    )


def test_the_forecast_is_the_same_on_all_its_pages_and_says_about(ines, app, house):
    read_all(ines, app)
    exam_in(house, ines.id, 40)
    answered(app, house, ines.id, 120)
    found = {the_numbers(words_of(ines.get(page).text)) for page in ("/today", "/record", "/record/forecast")}
    assert len(found) == 1
    about, low, high = found.pop()
    assert low < about < high
    page = ines.get("/record/forecast").text
    last = re.findall(r'<th scope="row">([^<]+)</th><td class="num">(\d+)\s%</td>', page)[-1]
    assert last == ("10\N{NO-BREAK SPACE}Apr", str(about))
    assert f"about {about}\N{NO-BREAK SPACE}%</text>" in page


def test_a_rotation_lies_under_the_forecast(ines, app, house):
    answered(app, house, ines.id, 40)
    assert "plot-hitch" not in ines.get("/record/forecast").text
    rotations.set_own(house, ines.id, *OFF_TODAY)
    page = ines.get("/record/forecast").text
    assert page.count('class="plot-hitch"') == 1 and "on the rig</text>" in page
    assert "on a day off. Some days get missed, so it counts 85 %" in words_of(page)


def test_no_number_of_minutes_is_told_where_none_will_do(ines, app, house):
    exam_in(house, ines.id, 1)
    answered(app, house, ines.id, 40, outcome="wrong")
    words = words_of(ines.get("/today").text)
    assert "Even two hours a day are not expected to reach 75 % by then. A later day would help." in words


def test_a_forecast_is_made_once_for_the_same_inputs(ines, app, house, monkeypatch):
    made = []
    plain = my_readiness.foretell
    monkeypatch.setattr(my_readiness, "foretell", lambda situation: made.append(1) or plain(situation))
    answered(app, house, ines.id, 40)
    for page in ("/today", "/record", "/record/forecast", "/today"):
        ines.get(page)
    assert len(made) == 1
    record_all(house, [attempt(house, ines.id, "units.torque-in-kn-m")])
    ines.get("/today")
    assert len(made) == 2
    people.change_settings(house, ines.id, minutes=45)
    ines.get("/today")
    assert len(made) == 3


def test_a_row_of_which_nothing_is_answered_is_called_a_guess(ines, app, house):
    answered(app, house, ines.id, 40)
    page = ines.get("/record").text
    rows = re.findall(
        r'<th scope="row">(\d+) [^<]+(<span class="under">a guess)?', page[page.index('class="shares"') :]
    )
    seen = {item.lesson.partition("/")[0] for item in list(app.extensions["pinandbox"]["bank"].values())[:40]}
    modules = app.extensions["pinandbox"]["course"].modules
    assert {int(number) for number, guess in rows if not guess} >= {each.number for each in modules if each.id in seen}
    assert sum(bool(guess) for _, guess in rows) == len(modules) - len(seen)


def test_the_record_has_its_parts_on_pages_of_their_own(ines, app, house, clock):
    answered(app, house, ines.id, 40)
    test = a_test(house, people.by_id(house, ines.id), "units", clock(), percent=66)
    for page in ("/record", "/record/sat", "/record/whole"):
        words = words_of(ines.get(page).text)
        assert "Test of module 1" in words and "66 % not passed" in words
    assert f"/sittings/{test}" in ines.get("/record/sat").text
    whole = words_of(ines.get("/record/whole").text)
    for part in ("Forecast", "By module", "By kind of question", "What is fading", "Time spent by week"):
        assert part in whole
    assert "2 Mar 1 40 3" in whole  # the week: one day, forty answers of five seconds


def test_what_is_fading_is_told_by_lesson(ines, app, house, clock, hands):
    items = answered(app, house, ines.id, 40)
    assert "Nothing is fading." in words_of(ines.get("/record/items").text)
    clock.forward(days=300)
    words = words_of(hands("Ines Okoro").get("/record/items").text)
    told = words[words.index("What is fading") : words.index("By lesson")]
    bank = app.extensions["pinandbox"]["bank"]
    assert all(" ".join(bank[item].title.split()) in told for item in items[:5])


def test_anothers_answers_are_in_nobody_elses_forecast(ines, app, house, hands):
    answered(app, house, ines.id, 60)
    other = hands("Rurik Abara")
    for page in ("/record", "/record/forecast", "/today"):
        assert "Nothing is answered yet." in words_of(other.get(page).text)
