"""Ten conversions: about how big, then exact; kept and never counted; told at the end."""

import re

import pytest

from question_bank.powers_of_ten import is_clear, lowest_offered, power_of
from tests.webapp.page_browser import words_of
from webapp.records import answers, drills, questions


@pytest.fixture
def drill(client, house):
    return Drill(client, house)


class Drill:
    """One drill in a visitor's browser."""

    def __init__(self, browser, house, **start):
        self.browser, self.house = browser, house
        self.id = browser.send("/ten/start", **start).location.split("/")[2]
        self.kept = questions.of_drill(house, self.id)

    def address(self, place, end=""):
        return f"/ten/{self.id}/{place}{end}"

    def size(self, place, by=0):
        """Choose the right power of ten, or one that is wrong by so much within the four that are offered."""
        question = self.kept[place - 1].question
        lowest = lowest_offered(question.value, question.seed)
        power = lowest + (power_of(question.value) - lowest + by) % 4
        return self.browser.send(self.address(place, "/size"), power=str(power))

    def exact(self, place, text=None):
        """Answer rightly, or with that text."""
        key = self.kept[place - 1].question.key_text
        return self.browser.send(self.address(place, "/answer"), free=text or key)

    def words(self, place):
        return words_of(self.browser.get(self.address(place)).text)

    def result(self):
        return words_of(self.browser.get(f"/ten/{self.id}/result").text)


def test_ten_of_the_table_with_fair_sizes(drill):
    assert len(drill.kept) == 10
    assert all(is_clear(kept.question.value) and kept.question.conversion for kept in drill.kept)
    assert len({kept.item for kept in drill.kept}) == 10
    titles = [re.search("<title>(.*?)</title>", drill.browser.get(drill.address(n)).text)[1] for n in range(1, 11)]
    assert len(set(titles)) == 10


def test_no_account_and_nothing_counts(client, house):
    drill = Drill(client, house, writes="comma")
    for place in range(1, 11):
        client.follow(drill.size(place))
        question = drill.kept[place - 1].question
        key = question.key_text.replace(",", "").replace(".", ",") if place != 3 else f"0,0007 {question.unit}"
        page = client.follow(drill.exact(place, key))
        assert ("Right" if place != 3 else "Wrong") in words_of(page.text)
    words = drill.result()
    assert "9 of 10 right" in words and "10 of 10 powers of ten right" in words and "Number 3" in words
    assert house.db.execute("select count(*) from attempts").fetchone() == (0,)


def test_first_how_big_then_exact(drill):
    """No field before the choice, and no answer is taken before it; what was chosen stands beside the field."""
    assert "about how big" in drill.words(1) and "Your answer" not in drill.words(1)
    assert drill.exact(1).status_code == 303 and answers.get(drill.house, drill.kept[0].id) is None
    drill.size(1)
    words = drill.words(1)
    assert "You chose" in words and "Your answer" in words and "about how big" not in words


def test_a_size_must_be_one_of_the_four(drill):
    for sent in ({}, {"power": "99"}, {"power": "2.0"}, {"power": "२"}):
        page = drill.browser.send(drill.address(1, "/size"), **sent)
        assert page.status_code == 422 and "Choose one of the four" in words_of(page.text)
    assert drills.size_chosen(drill.house, drill.kept[0].id) is None


def test_the_first_choice_and_the_first_answer_stand(drill):
    """Back and another choice, back and another answer: nothing changes."""
    drill.size(1, by=1)
    first = drills.size_chosen(drill.house, drill.kept[0].id)
    drill.size(1)
    assert drills.size_chosen(drill.house, drill.kept[0].id) == first
    drill.exact(1, f"0.0007 {drill.kept[0].question.unit}")
    drill.exact(1)
    drill.size(1)
    assert answers.get(drill.house, drill.kept[0].id).outcome == "wrong"
    assert drills.size_chosen(drill.house, drill.kept[0].id) == first


def test_whether_the_size_was_right_is_told_after_the_exact_answer_only(drill):
    drill.size(1, by=1)
    before = drill.words(1)
    assert "wrong" not in before.lower() and "Right is" not in before
    drill.exact(1)
    after = drill.words(1)
    assert "Your power of ten" in after and "one of the two was wrong" in after


def test_an_estimate_that_speaks_against_the_slip_is_pointed_out(client, house):
    for _ in range(20):
        drill = Drill(client, house)
        for place, kept in enumerate(drill.kept, start=1):
            question = kept.question
            slips = [s for s in question.mistakes if power_of(s.value) != power_of(question.value)]
            if slips:
                drill.size(place)
                drill.exact(place, f"{slips[0].value:.6g} {question.unit}")
                assert "does not lie in it" in drill.words(place) and "does not lie in it" in drill.result()
                return
    pytest.fail("No drill of twenty had a slip out of its power of ten.")


def test_what_is_not_counted_leads_back_to_the_question(drill):
    """The page of an answer that was not counted stands at the form's address: loaded anew, it leads back."""
    drill.size(1)
    page = drill.exact(1, "as heavy as it gets")
    assert page.status_code == 422 and "Not counted" in words_of(page.text)
    for end in ("/answer", "/size"):
        again = drill.browser.get(drill.address(1, end))
        assert again.status_code == 303 and again.location == drill.address(1)


def test_the_clock_says_seconds_of_each_and_of_all(client, house, clock):
    drill = Drill(client, house, clock="with")
    for place in (1, 2):
        drill.words(place)
        clock.forward(seconds=7 * place)
        drill.size(place)
        clock.forward(seconds=20)
        drill.words(place)
        drill.exact(place)
        clock.forward(seconds=300)
    assert "Time: 27 s. You chose the power of ten after 7 s." in drill.words(1)
    words = drill.result()
    assert "2 of 10 powers of ten right, 1 of them within 10 seconds. 1 min 1 s in all." in words
    assert "34 s size after 14 s" in words


def test_a_clock_reads_on_after_a_reload(client, house, clock):
    drill = Drill(client, house, clock="with")
    client.get(drill.address(1))
    clock.forward(seconds=33)
    assert 'data-seconds="33"' in client.get(drill.address(1)).text


def test_without_a_clock_no_time_is_shown(drill):
    drill.size(1)
    drill.exact(1)
    assert "power of ten" in drill.words(1) and "Time:" not in drill.words(1)
    assert "in all" not in drill.result() and "data-seconds" not in drill.browser.get(drill.address(2)).text


def test_a_drill_that_was_left_shows_what_there_is(drill):
    drill.size(1)
    drill.exact(1)
    drill.size(2)
    words = drill.result()
    assert "1 of 10 right" in words and words.count("not answered") == 9 + 8


def test_ten_more_keeps_the_clock(client, house):
    page = client.get(f"/ten/{Drill(client, house, clock='with').id}/result").text
    assert '<input type="hidden" name="clock" value="with">' in page


def test_a_drill_from_before_the_powers_of_ten_is_still_shown(drill):
    """A row answered at the level before: no size, no times."""
    drill.house.db.execute("delete from drills")
    kept = drill.kept[0]
    answers.keep_first(drill.house, answers.UncountedAnswer(kept.id, "5", "5", "wrong", None, kept.drawn_at))
    drill.house.db.commit()
    assert "Wrong" in drill.words(1) and "0 of 10 right" in drill.result()


def test_a_hand_who_is_signed_in_has_a_drill_of_their_own(hands, client, house):
    owner = hands("Ines Okoro", system="metric")
    drill = Drill(owner, house)
    assert client.get(drill.address(1)).status_code == 404
    assert {kept.question.system for kept in drill.kept} <= {"us", "metric"}


def test_ten_has_no_eleventh(drill):
    for address in (drill.address(11), drill.address(0), "/ten/nothing/1", "/ten/nothing/result"):
        assert drill.browser.get(address).status_code == 404


def test_the_first_page_says_which_ton_is_which(client):
    words = words_of(client.get("/ten").text)
    assert "st is the short ton, 2,000 lb" in words and "t is the tonne, 1,000 kg" in words


def test_a_number_typed_freely_is_asked_for_its_unit(drill):
    """With the unit in a field of its own, the number is enough."""
    drill.size(1)
    drill.size(2)
    key, unit = drill.kept[0].question.key_text.split(" ")
    page = drill.exact(1, key)
    assert page.status_code == 422 and f"You wrote {key} and no unit." in words_of(page.text)
    assert answers.get(drill.house, drill.kept[0].id) is None
    assert drill.exact(1, f"{key} {unit}").status_code == 303
    key, unit = drill.kept[1].question.key_text.split(" ")
    assert drill.browser.send(drill.address(2, "/answer"), number=key, unit=unit).status_code == 303


def comma_drill(client, house):
    """A drill of somebody who writes 12,5, and the place of an answer of thousands in it."""
    for _ in range(20):
        drill = Drill(client, house, writes="comma")
        for place, kept in enumerate(drill.kept, start=1):
            if 1_500 <= kept.question.value < 9_000:
                drill.size(place)
                return drill, place
    pytest.fail("No drill of twenty had an answer of thousands.")


@pytest.mark.parametrize("share", [1.0, 1.07])
def test_the_other_mark_is_asked_of_right_and_wrong_alike_and_once(client, house, share):
    """1,984 and 2,123 by a hand who writes 12,5: both are asked back, so that nothing is told by it."""
    drill, place = comma_drill(client, house)
    question = drill.kept[place - 1].question
    value = int(question.value * share)
    typed = f"{value:,}"
    send = {"number": typed, "unit": question.unit}
    page = drill.browser.send(drill.address(place, "/answer"), **send)
    assert page.status_code == 422 and "Did you mean" in words_of(page.text)
    assert f'name="asked-back" value="{typed} {question.unit}"' in page.text
    if share > 1:
        page = drill.browser.send(drill.address(place, "/answer"), asked__back=f"{typed} {question.unit}", **send)
        assert page.status_code == 303
        assert answers.get(house, drill.kept[place - 1].id).outcome == "wrong"


def test_the_example_beside_the_field_is_written_as_the_hand_writes(client, house):
    """A hand with a point first, then one with a comma: the templates are read once for both."""
    client.set_cookie("entry", "free")
    for writes, such_as in (("point", "7.25"), ("comma", "7,25")):
        drill = Drill(client, house, writes=writes)
        drill.size(1)
        words = drill.words(1).replace("\N{NARROW NO-BREAK SPACE}", " ").replace("\N{NO-BREAK SPACE}", " ")
        asked = drill.kept[0].question.unit
        assert f"Such as {such_as} {asked}" in words if asked else "Such as 0" in words
