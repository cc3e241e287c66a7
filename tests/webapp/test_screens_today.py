"""Today, and the record: what is for today, what was answered, what comes back, what goes wrong again."""

import re
from itertools import pairwise

import pytest

from tests.webapp.answers import answer_rightly
from tests.webapp.page_browser import words_of
from webapp.records import attempts, excuses, people, questions
from webapp.records.attempts import Attempt

SAFETY = "/lessons/safety/dropped-objects"
LAST = "hands-lines-and-the-word-stop"


def read_all(hand, app, lesson: str) -> None:
    last = app.extensions["pinandbox"]["course"].lesson(lesson).parts[-1].slug
    hand.send(f"/lessons/{lesson}/read", part=last)


def read_every_lesson(hand, app) -> None:
    for lesson in app.extensions["pinandbox"]["course"].lessons:
        read_all(hand, app, lesson.id)


@pytest.fixture
def answered(app, house, clock):
    """answered("Ines Okoro", item, outcome) is an attempt on record, made now."""

    def attempt(name: str, item_id: str, outcome: str, mistake: str | None = None, seconds: float = 30.0) -> str:
        person = people.by_name(house, name)
        item = app.extensions["pinandbox"]["bank"][item_id]
        question = item.draw(7, person.system)
        kept = questions.keep(house, question, person.id, "today", clock(), text=item.text)
        attempts.record(
            house,
            Attempt(
                kept, person.id, item_id, item.kind, "x", "44,600 lbf", outcome, mistake, False, seconds, clock(),
                clock(), clock().date(), float(item.usual_seconds),
            ),
        )  # fmt: skip
        return kept

    return attempt


def test_a_new_hand_is_told_to_read_and_how_long_it_takes(hands):
    page = hands().get("/today").text
    words = words_of(page)
    assert "Read lesson 10.1." in words and re.search(r"About \d+ minutes\.", words)
    assert "Nothing is answered yet." in words
    assert re.search(rf'class="button main" href="{SAFETY}">Read:', page)


def test_a_lesson_read_brings_its_items_with_the_reason(hands, app):
    hand = hands(minutes=60)
    read_all(hand, app, "safety/dropped-objects")
    items = len(app.extensions["pinandbox"]["bank"].of_lesson("safety/dropped-objects"))
    page = hand.get("/today").text
    words = words_of(page)
    assert f"Answer {items} items." in words and f"{items} are new." in words
    assert 'action="/practice/start" method="post"' in page
    assert page.count("<td>New</td>") + page.count("<td>New, and worth much in paper A</td>") == items


def test_the_plan_keeps_to_the_minutes_of_the_hand(hands, app):
    hand = hands(minutes=2)
    read_all(hand, app, "safety/dropped-objects")
    words = words_of(hand.get("/today").text)
    number = int(re.search(r"Answer (\d+) items?\.", words)[1])
    assert 1 <= number <= 5
    assert "Today has 2 minutes." in words


def test_the_button_starts_and_then_goes_on(hands, app):
    hand = hands()
    read_all(hand, app, "safety/dropped-objects")
    assert re.search(r'class="button main">Start<', hand.get("/today").text)
    started = hand.send("/practice/start")
    assert hand.follow(started).status_code == 200
    assert re.search(r'class="button main">Go on<', hand.get("/today").text)


def test_what_fades_is_said_to_fade(hands, answered, clock):
    hand = hands()
    answered("Ines Okoro", "safety.tool-aloft", "right")
    clock.forward(days=40)
    hand = hands()  # the session was idle too long
    words = words_of(hand.get("/today").text)
    assert "Answer 1 item." in words and "1 is fading." in words and "Fading last answered 2 Mar" in words


def test_nothing_left_says_when_the_next_item_comes_back(hands, app, answered):
    hand = hands()
    read_every_lesson(hand, app)
    for item in app.extensions["pinandbox"]["bank"]:
        answered("Ines Okoro", item, "right", seconds=1.0)
    words = words_of(hand.get("/today").text)
    assert "Nothing is for today." in words
    assert re.search(r"The next item comes back on \d+ \w+\.", words)


def test_the_minutes_of_a_day_come_to_an_end(hands, app, answered):
    hand = hands(minutes=1)
    read_every_lesson(hand, app)
    answered("Ines Okoro", "safety.tool-aloft", "right", seconds=61.0)
    words = words_of(hand.get("/today").text)
    assert "You have done what fits in your 1 minute today. The rest waits for another day." in words


@pytest.mark.parametrize("seconds", [5.0, 90.0, 240.0])
def test_what_is_left_today_only_goes_down(hands, app, house, clock, seconds):
    """Quick answers take nothing new in; slow ones use the minutes up sooner. Always one less at least."""
    hand = hands()
    read_all(hand, app, "safety/dropped-objects")
    read_all(hand, app, "units/force-mass-weight")
    left = []
    while found := re.search(r"Answer (\d+) items?\.", words_of(hand.get("/today").text)):
        left.append(int(found[1]))
        at = hand.send("/practice/start").location
        clock.forward(seconds=seconds)
        answer_rightly(hand, house, at.rpartition("/")[2])
    assert len(left) >= 3
    assert all(other < one for one, other in pairwise(left))
    if seconds < 20:
        assert left == list(range(left[0], 0, -1))


def test_before_thirty_answers_it_is_too_early_to_say(hands, app, answered):
    hand = hands()
    items = list(app.extensions["pinandbox"]["bank"])[:30]
    for item in items[:29]:
        answered("Ines Okoro", item, "right")
    for page in ("/today", "/record", "/record/forecast"):
        words = words_of(hand.get(page).text)
        assert "Too early to say." in words and "After 30 answers a forecast stands here. You have 29." in words
        assert "In nine of ten cases" not in words
    answered("Ines Okoro", items[29], "right")
    for page in ("/today", "/record", "/record/forecast"):
        assert "In nine of ten cases" in words_of(hand.get(page).text)


def test_an_empty_record_says_what_it_is_for(hands):
    words = words_of(hands().get("/record").text)
    assert "Nothing is answered yet." in words and "No mistake has come more than once." in words
    assert "Nothing is answered yet." in words_of(hands().get("/record/attempts").text)


def test_the_record_tells_each_item_its_last_answer_and_its_day(hands, answered):
    hand = hands()
    answered("Ines Okoro", "safety.tool-aloft", "wrong", "option-b")
    answered("Ines Okoro", "safety.tool-aloft", "right")
    page = hand.get("/record/items").text
    row = words_of(re.search(r"<tr>\s*<th scope=\"row\">A tool for work aloft<.*?</tr>", page, re.DOTALL)[0])
    assert re.fullmatch(r"A tool for work aloft 2 answers Right 2 Mar \d+ \w+", row)


def test_a_mistake_that_came_twice_is_told_with_its_reason(hands, app, answered):
    """Of a choice it is the option, of a number the slip; one that came once is left out."""
    hand = hands()
    bank = app.extensions["pinandbox"]["bank"]
    slip = bank["units.rating-in-tonnes"].mistakes[0]
    for _ in range(2):
        answered("Ines Okoro", "safety.tool-aloft", "wrong", "option-b")
        answered("Ines Okoro", "units.rating-in-tonnes", "wrong", slip.name)
    answered("Ines Okoro", "safety.barrier-first", "wrong", "option-c")
    once = bank["safety.barrier-first"].options[2].tell
    answered("Ines Okoro", "units.rating-in-tonnes", "wrong", "a-slip-of-an-older-version")
    answered("Ines Okoro", "units.rating-in-tonnes", "wrong", "a-slip-of-an-older-version")
    words = words_of(hand.get("/record").text)
    told = words[words.index("Mistakes that come again") :]
    assert "2 times, in A tool for work aloft" in told
    assert "A pocket is no fixing." in told
    assert slip.title in told
    assert once and once not in told and "older-version" not in told


@pytest.mark.parametrize("mistake, title, tell", [
    ("number-copied", "Number copied", "It stands in another unit now"),
    ("factor-upside-down", "Factor upside down", "where you multiplied, divide"),
    ("ten-times-too-large", "Ten times too large", "the number is 10 times too large"),
    ("a-thousand-times-too-small", "A thousand times too small", "the number is 1,000 times too small"),
    ("other-unit", "Right number, other unit", "Read the unit twice"),
    ("rounded-past", "Rounded to the unsafe side", "Ratings, and the room there is, are rounded down"),
])  # fmt: skip
def test_a_general_mistake_is_named_and_counted_over_all_items(hands, answered, mistake, title, tell):
    """Once in each of two items is twice, and one made once is left out."""
    hand = hands()
    answered("Ines Okoro", "units.hook-load-in-kn", "wrong", mistake)
    assert title not in words_of(hand.get("/record").text)
    answered("Ines Okoro", "units.torque-in-kn-m", "wrong", mistake)
    words = words_of(hand.get("/record").text)
    told = words[words.index("Mistakes that come again") :]
    assert f"{title} 2 times, in several items" in told and tell in told


def test_a_general_mistake_made_in_one_item_alone_stands_with_that_item(hands, app, answered):
    """With the item's own word on it where it has one, with the general one elsewhere."""
    hand = hands()
    own = next(
        each
        for each in app.extensions["pinandbox"]["bank"]["units.hook-load-in-kn"].mistakes
        if each.name == "number-copied"
    )
    for _ in range(2):
        answered("Ines Okoro", "units.hook-load-in-kn", "wrong", "number-copied")
        answered("Ines Okoro", "safety.drop-energy", "wrong", "other-unit")
    told = words_of(hand.get("/record").text).partition("Mistakes that come again")[2]
    bank = app.extensions["pinandbox"]["bank"]
    assert f"{own.title} 2 times, in {bank['units.hook-load-in-kn'].title}" in told
    assert f"Right number, other unit 2 times, in {bank['safety.drop-energy'].title}" in told
    assert "several items" not in told


def test_all_answers_come_a_page_at_a_time(hands, answered, clock):
    hand = hands()
    made = []
    for _ in range(45):
        made.append(answered("Ines Okoro", "safety.tool-aloft", "right"))
        clock.forward(minutes=1)
    first = hand.get("/record/attempts").text
    shown = re.findall(r'href="/questions/([0-9a-f-]{36})"', first)
    assert shown == made[:4:-1]
    older = re.search(r'href="(/record/attempts\?before=[0-9a-f-]{36})">Older', first)[1]
    second = hand.get(older).text
    assert re.findall(r'href="/questions/([0-9a-f-]{36})"', second) == made[4::-1]
    assert "Older answers" not in words_of(second)


def test_anothers_answers_are_not_there(hands, answered):
    hands("Ines Okoro")
    kept = answered("Ines Okoro", "safety.tool-aloft", "right")
    other = hands("Rurik Abara")
    assert other.get("/record/attempts?before=" + kept).status_code == 404
    assert other.get("/record/attempts?before=nonsense").status_code == 404
    assert kept not in other.get("/record").text


def test_where_to_read_on_leaves_an_excused_module_for_last(app, hands, house, clock):
    """A hand of a kelly rig, excused from top drives, is sent on to the next module."""
    ines = hands("Ines Okoro")
    lessons = app.extensions["pinandbox"]["course"].lessons
    first = next(each for each in lessons if each.module == "top-drive")
    for each in lessons[: lessons.index(first)]:
        read_all(ines, app, each.id)
    assert f"Or read on {first.number} " in words_of(ines.get("/today").text)
    person = people.by_name(house, "Ines Okoro").id
    excuses.add(house, person, person, clock(), why="No top drive here.", module="top-drive")
    after = next(each for each in lessons[lessons.index(first) :] if each.module != "top-drive")
    assert f"Or read on {after.number} " in words_of(ines.get("/today").text)
