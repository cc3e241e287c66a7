"""A sitting as a hand sits it: drafts without a verdict, changed and left open, handed in once, by hand or by clock."""

import threading
from datetime import timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.webapp.page_browser import words_of
from tests.webapp.sittings import START, a_sitting, bank, right_fields, wrong_fields
from webapp import my_sittings
from webapp.records import attempts, memory, people, questions, sittings

NUMERIC, CHOICE, ORDER = "units.rating-in-kn", "safety.tool-aloft", "safety.isolation-in-order"
THREE = [NUMERIC, CHOICE, ORDER]


@pytest.fixture
def ines(hands):
    """A hand's browser."""
    return hands("Ines Okoro")


@pytest.fixture
def person(ines, house):
    """Her id."""
    return people.by_name(house, "Ines Okoro").id


@pytest.fixture
def sit(house, person):
    """sit([item, ...]) begins a sitting; its address and the ids of its questions."""

    def begun(items=THREE, **more):
        id, drawn = a_sitting(house, person, items, **more)
        return f"/sittings/{id}", drawn

    return begun


def question(house, id):
    return questions.get(house, id).question


def result_of(house, at):
    return sittings.get(house, at.rpartition("/")[2])


def test_a_draft_is_kept_shown_again_and_says_no_verdict(ines, house, sit):
    at, (first, *_) = sit()
    key = question(house, first).key_text
    for answer in (key, "1 kN"):
        sent = ines.send(f"{at}/1/answer", number=answer.split()[0], unit=answer.split()[1])
        assert (sent.status_code, sent.location) == (303, f"{at}/2")
        page = ines.get(f"{at}/1")
        words = words_of(page.text)
        assert "Your answer is kept" in words and f'value="{answer.split()[0]}"' in page.text
        assert not {"Right", "Wrong", "Close", "Working"} & set(words.split())
    assert attempts.get(house, first) is None


def test_nothing_about_the_answer_leaks_before_it_is_handed_in(ines, house, sit, person):
    """Right and wrong drafts give pages that are alike in every word but the answer itself."""
    pages = []
    for fields in (right_fields, wrong_fields):
        at, drawn = sit()
        for number, id in enumerate(drawn, start=1):
            ines.send(f"{at}/{number}/answer", **fields(question(house, id)))
        addresses = [f"{at}/{number}" for number in range(1, 4)] + [f"{at}/hand-in"]
        texts = [words_of(ines.get(each).text).partition("http://")[0] for each in addresses]
        pages.append([sorted(text.split()) for text in texts])
        for id in drawn:
            assert ines.get(f"/questions/{id}").status_code == 404
            assert ines.send(f"/questions/{id}/answer", number="5").status_code == 404
            assert ines.send(f"/questions/{id}/hint").status_code == 404
            assert ines.send(f"/questions/{id}/again").status_code == 404
    assert pages[0] == pages[1]
    assert attempts.of_person(house, person, 10) == [] and memory.of_person(house, person) == {}


def test_what_cant_be_counted_is_told_at_once_kept_and_can_be_mended(ines, house, sit):
    at, (first, *_) = sit()
    sent = ines.send(f"{at}/1/answer", number="some", unit="kN")
    assert sent.status_code == 422 and "Kept, but look again." in words_of(sent.text)
    assert 'value="some"' in sent.text
    sent = ines.send(f"{at}/1/answer", number="5", unit="lb")
    assert sent.status_code == 422 and "kN" in words_of(sent.text)
    assert ines.get(f"{at}/1/answer").location == f"{at}/1"
    assert "What you wrote is kept, but can’t be counted" in words_of(ines.get(f"{at}/1").text)
    assert "can’t be counted as it stands" in words_of(ines.get(f"{at}/hand-in").text)
    assert ines.send(f"{at}/1/answer", **right_fields(question(house, first))).status_code == 303
    assert "can’t be counted" not in words_of(ines.get(f"{at}/hand-in").text)


def test_left_unmended_it_counts_as_wrong_and_is_told(ines, house, sit):
    at, (first, *_) = sit()
    ines.send(f"{at}/1/answer", number="some", unit="kN")
    ines.send(f"{at}/hand-in")
    words = words_of(ines.get(at).text)
    assert "0 of 3 right." in words
    assert "Could not be counted" in words and "It counts as wrong. You wrote “some”." in words
    assert attempts.get(house, first) is None


def test_which_reading_is_meant_is_asked_whatever_the_right_answer_is_and_once(ines, house, sit):
    """The answer is 1,334 kN: asked of its digits and of others, and sent again it stands as it is read."""
    at, (first, *_) = sit()
    assert question(house, first).key_text == "1,334 kN"
    for text in ("1.334", "1.234"):
        sent = ines.send(f"{at}/1/answer", number=text, unit="kN")
        assert sent.status_code == 422 and "Did you mean" in words_of(sent.text)
        assert f'name="asked-back" value="{text} kN"' in sent.text
        assert ines.send(f"{at}/1/answer", number=text, unit="kN", asked__back=f"{text} kN").status_code == 303
    assert sittings.drafts_of(house, at.rpartition("/")[2])[first].given["unread"] == ""


def test_a_reading_that_was_asked_back_and_stands_counts_as_wrong_and_is_shown(ines, house, sit):
    at, (first, *_) = sit()
    ines.send(f"{at}/1/answer", number="1.334", unit="kN", asked__back="1.334 kN")
    ines.send(f"{at}/hand-in")
    assert "It counts as wrong. You wrote “1.334 kN”. It was read as 1.334 kN." in words_of(ines.get(at).text)
    assert attempts.get(house, first) is None


def test_an_empty_form_leaves_it_open_again(ines, house, sit):
    at, (first, *_) = sit()
    ines.send(f"{at}/1/answer", **right_fields(question(house, first)))
    assert "1 of 3 answered" in words_of(ines.get(f"{at}/hand-in").text)
    assert ines.send(f"{at}/1/answer", number=" ", unit="kN").location == f"{at}/2"
    assert ines.send(f"{at}/2/answer").location == f"{at}/3"
    assert "0 of 3 answered" in words_of(ines.get(f"{at}/hand-in").text)


def test_the_list_shows_what_is_answered_and_the_address_leads_to_what_is_open(ines, house, sit):
    at, drawn = sit()
    ines.send(f"{at}/1/answer", **right_fields(question(house, drawn[0])))
    assert ines.get(at).location == f"{at}/2"
    words = words_of(ines.get(f"{at}/3").text)
    assert "Question 1 answered" in words and "Question 2 open" in words
    for number, id in enumerate(drawn[1:], start=2):
        ines.send(f"{at}/{number}/answer", **right_fields(question(house, id)))
    assert ines.get(at).location == f"{at}/hand-in"


def test_steps_in_order_are_kept_and_moved(ines, house, sit):
    at, drawn = sit([ORDER])
    asked = question(house, drawn[0])
    ines.send(f"{at}/1/answer", step=asked.accepted[0])
    assert _steps(ines.get(f"{at}/1").text) == asked.accepted[0]
    first, second, *rest = asked.accepted[0]
    moved = ines.get(f"{at}/1?" + "&".join(f"step={each}" for each in asked.accepted[0]) + f"&down={first}")
    assert _steps(moved.text) == [second, first, *rest]


def _steps(page):
    form = page.partition('<ol class="steps"')[2].partition("</ol>")[0]
    return [part.partition('"')[0] for part in form.split('name="step" value="')[1:]]


def test_handed_in_the_drafts_become_attempts_that_feed_memory(ines, house, sit, person, clock):
    at, drawn = sit()
    for number, id in enumerate(drawn[:2], start=1):
        ines.get(f"{at}/{number}")
        clock.forward(seconds=40)
        ines.send(f"{at}/{number}/answer", **(right_fields, wrong_fields)[number - 1](question(house, id)))
    clock.forward(hours=30)
    assert ines.send(f"{at}/hand-in").location == at
    made = {each.id: each for each in attempts.of_person(house, person, 10)}
    assert {id: made[id].outcome for id in made} == {drawn[0]: "right", drawn[1]: "wrong"}
    assert made[drawn[0]].seconds == 40
    # answered on the evening on which it was written, however late it is handed in
    assert made[drawn[0]].study_day == START.date() and made[drawn[0]].answered_at == START + timedelta(seconds=40)
    assert set(memory.of_person(house, person)) == {made[drawn[0]].item, made[drawn[1]].item}
    assert result_of(house, at).result["outcomes"] == {drawn[0]: "right", drawn[1]: "wrong", drawn[2]: "open"}
    words = words_of(ines.get(at).text)
    assert "1 of 3 right." in words and "Left open" in words
    assert "Right is" in words_of(ines.get(f"/questions/{drawn[0]}").text)


def test_an_answer_looked_at_again_is_no_slower(ines, house, sit, clock):
    at, (first, *_) = sit()
    ines.get(f"{at}/1")
    clock.forward(seconds=30)
    ines.send(f"{at}/1/answer", **wrong_fields(question(house, first)))
    clock.forward(minutes=5)
    ines.send(f"{at}/1/answer", **right_fields(question(house, first)))
    ines.send(f"{at}/hand-in")
    made = attempts.get(house, first)
    assert (made.outcome, made.seconds) == ("right", 30)


def test_handed_in_twice_by_a_double_click_or_in_two_tabs_there_is_one_result(ines, house, sit, person):
    at, drawn = sit()
    ines.send(f"{at}/1/answer", **right_fields(question(house, drawn[0])))
    assert ines.send(f"{at}/hand-in").location == at
    before = result_of(house, at)
    assert ines.send(f"{at}/hand-in").location == at
    assert ines.send(f"{at}/2/answer", **right_fields(question(house, drawn[1]))).location == at
    assert ines.get(f"{at}/2").location == at and ines.get(f"{at}/hand-in").location == at
    assert result_of(house, at) == before
    assert len(attempts.of_person(house, person, 10)) == 1


def test_two_phones_hand_in_at_the_same_moment(app, house, sit, person):
    at, drawn = sit()
    with app.app_context():
        drafts = {"given": question(house, drawn[0]).key_text, "comma": False, "seconds": 9.0, "written": "x"}
        sittings.keep_draft(house, sittings.Draft(drawn[0], drafts, START))
    open_one, both, ready = result_of(house, at), [], threading.Barrier(2)

    def hand_in(minutes):
        with app.app_context():
            ready.wait()
            both.append(my_sittings.hand_in(open_one, START + timedelta(minutes=minutes)))
            house.close()

    phones = [threading.Thread(target=hand_in, args=(minutes,)) for minutes in (1, 2)]
    for each in phones:
        each.start()
    for each in phones:
        each.join()
    assert both[0] == both[1] == result_of(house, at)
    assert len(attempts.of_person(house, person, 10)) == 1


def test_a_fault_while_handing_in_leaves_it_open_and_no_attempt(app, house, sit, person, monkeypatch):
    at, drawn = sit()
    drafts = {"given": question(house, drawn[0]).key_text, "comma": False, "seconds": 9.0, "written": "x"}
    sittings.keep_draft(house, sittings.Draft(drawn[0], drafts, START))
    monkeypatch.setattr(sittings, "close", lambda *_: 1 / 0)
    with app.app_context(), pytest.raises(ZeroDivisionError):
        my_sittings.hand_in(result_of(house, at), START)
    assert result_of(house, at).is_open
    assert attempts.of_person(house, person, 10) == [] and memory.of_person(house, person) == {}


def test_the_clock_hands_it_in_with_what_was_kept_by_then(ines, house, sit, clock):
    at, drawn = sit(deadline=START + timedelta(minutes=90))
    ines.send(f"{at}/1/answer", **right_fields(question(house, drawn[0])))
    clock.forward(minutes=90)
    assert ines.send(f"{at}/2/answer", **right_fields(question(house, drawn[1]))).location == at
    found = result_of(house, at)
    assert (found.handed_in_by, found.handed_in_at) == ("clock", START + timedelta(minutes=90))
    assert list(found.result["outcomes"].values()) == ["right", "open", "open"]
    assert "The time was up" in words_of(ines.get(at).text)


def test_a_practice_paper_is_sat_through_the_same_pages(ines, house, sit):
    """No module, a deadline: the room that the papers need."""
    at, drawn = sit(kind="paper-a", module=None, deadline=START + timedelta(minutes=90))
    words = words_of(ines.get(f"{at}/1").text)
    assert "Practice paper A" in words and "Handed in for you at 2 Mar, 10:30" in words
    ines.send(f"{at}/1/answer", **right_fields(question(house, drawn[0])))
    ines.send(f"{at}/hand-in")
    assert "1 of 3 right." in words_of(ines.get(at).text)
    assert "passed by test" not in words_of(ines.get("/lessons").text)


def test_the_clock_hands_in_what_another_looks_at(app, house, sit, person, clock):
    """Before a coordinator is shown results, whatever the clock has ended is handed in; its owner need not come."""
    at, _ = sit(deadline=START + timedelta(minutes=90))
    clock.forward(days=3)
    with app.app_context():
        my_sittings.close_overdue([person])
    assert result_of(house, at).handed_in_at == START + timedelta(minutes=90)


def test_the_mark_holds_the_mark_for_numbers_that_stood_when_it_was_written(ines, house, sit, person):
    """A hand who changes from 12.5 to 12,5 in between has still written what they have written."""
    at, drawn = sit()
    asked = question(house, drawn[0])
    ines.send(f"{at}/1/answer", **right_fields(asked))
    people.change_settings(house, person, comma=True)
    ines.send(f"{at}/hand-in")
    assert attempts.get(house, drawn[0]).outcome == "right"


def test_must_pass_missed_is_named_and_not_passed(ines, house, sit):
    at, drawn = sit([NUMERIC] * 4 + [CHOICE], pass_mark=80)
    for number, id in enumerate(drawn[:4], start=1):
        ines.send(f"{at}/{number}/answer", **right_fields(question(house, id)))
    ines.send(f"{at}/5/answer", **wrong_fields(question(house, drawn[4])))
    ines.send(f"{at}/hand-in")
    words = words_of(ines.get(at).text)
    assert words.startswith("Not passed") and "4 of 5 right. 4 are needed." in words
    assert f"This must be right, and was not: {bank()[CHOICE].title}" in words
    assert result_of(house, at).passed is False


@settings(max_examples=12, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(ends=st.lists(st.sampled_from(["right", "wrong", "unread", "open"]), min_size=3, max_size=3))
def test_however_it_is_answered_the_parts_come_to_the_whole(app, house, sit, ends):
    at, drawn = sit()
    for id, end in zip(drawn, ends, strict=True):
        asked = question(house, id)
        given = {"right": _right(asked), "wrong": _wrong(asked), "unread": "no such answer"}.get(end)
        if given is not None:
            body = {"given": given, "written": "x", "fields": {}, "comma": False, "unread": "", "seconds": 9.0}
            sittings.keep_draft(house, sittings.Draft(id, body, START))
    with app.app_context():
        found = my_sittings.hand_in(result_of(house, at), START)
    assert list(found.result["outcomes"].values()) == ends
    assert found.result["right"] == ends.count("right") and found.result["asked"] == 3
    graded = [attempts.get(house, id) for id in drawn]
    assert [bool(each) for each in graded] == [end in ("right", "wrong") for end in ends]


def _right(asked):
    return {"numeric": lambda: asked.key_text, "choice": lambda: asked.right, "order": lambda: asked.accepted[0]}[
        asked.kind
    ]()


def _wrong(asked):
    (given,) = wrong_fields(asked).values()
    return given


def test_no_page_of_an_open_question_has_its_answer_in_its_source(ines, house, sit):
    """One question of each kind, answered wrong: neither the reason, nor what misleads, nor the working is sent."""
    of_each_kind = {item.kind: item.id for item in bank().values() if item.kind != "card"}
    at, drawn = sit(list(of_each_kind.values()))
    for number, id in enumerate(drawn, start=1):
        asked = question(house, id)
        ines.send(f"{at}/{number}/answer", **wrong_fields(asked))
        words = words_of(ines.get(f"{at}/{number}").text)
        tells = [each.tell for each in getattr(asked, "options", getattr(asked, "mistakes", []))]
        tells += [asked.key_both] if hasattr(asked, "key_both") else []
        told = [text for text in (asked.why, *tells) if text and text in words]
        assert told == [], f"{asked.kind}: {told}"


@pytest.mark.parametrize(
    ("sent", "entry", "shown"),
    [
        ({"number": "1,300", "unit": "kN"}, "free", 'name="free" type="text" value="1,300 kN"'),
        ({"free": "1,300 kN"}, "fields", 'inputmode="decimal" value="1,300 kN"'),
    ],
)
def test_a_draft_is_shown_whichever_fields_it_was_typed_in(ines, sit, sent, entry, shown):
    at, _ = sit()
    ines.send(f"{at}/1/answer", **sent)
    ines.send("/entry", entry=entry)
    assert shown in ines.get(f"{at}/1").text
