"""A case as a hand meets it: begun, answered part by part, left and gone on with, shown whole, printed."""

import re

import pytest

from question_bank.numbers import show
from tests.webapp.answers import answer_rightly
from tests.webapp.cases import CASE, TITLES, give_case
from tests.webapp.page_browser import words_of
from webapp.records import attempts, case_runs, people, questions


@pytest.fixture
def ines(app, hands):
    """A hand whose application has the case."""
    give_case(app)
    return hands("Ines Okoro")


@pytest.fixture
def run_of(house):
    """run_of() is the newest run of the case for Ines, run_of("Marek Osei") for another hand."""

    def newest(name: str = "Ines Okoro"):
        return case_runs.newest(house, people.by_name(house, name).id)[CASE]

    return newest


def begin(hand) -> str:
    """Start the case; the id of the question that it leads to."""
    return hand.send(f"/cases/{CASE}/start").location.rpartition("/")[2]


def answer_and_go_on(hand, house, question_id: str) -> str:
    """Answer rightly and press the button; the address it leads to."""
    answer_rightly(hand, house, question_id)
    return hand.send("/practice/next", after=question_id).location


def answer_all(hand, house) -> str:
    """All parts of the case, rightly; the address after the last one."""
    at = f"/questions/{begin(hand)}"
    while at.startswith("/questions/"):
        at = answer_and_go_on(hand, house, at.rpartition("/")[2])
    return at


def known_on(page: str) -> list[tuple[str, str]]:
    """The rows of the table of what is known."""
    table = re.search(r'<table class="known">.*?</table>', page, re.DOTALL)[0]
    return [
        (words_of(label), words_of(text))
        for label, text in re.findall(r'<th scope="row">(.*?)</th><td>(.*?)</td>', table)
    ]


def test_practice_lists_the_case_and_starts_it(ines, house):
    words = words_of(ines.get("/practice").text)
    assert "From air to hook 4 parts, about 5 minutes Start : From air to hook" in words
    question = questions.get(house, begin(ines))
    assert (question.place, question.item) == ("case", "units.buoyancy-of-mud")


def test_all_parts_are_rows_at_once_and_belong_together(ines, house, run_of):
    begin(ines)
    kept = questions.of_drill(house, run_of().id)
    assert [each.question.title for each in kept] == list(TITLES)
    assert {each.place for each in kept} == {"case"} and {each.person for each in kept} == {run_of().person}


def test_the_story_of_a_case_from_part_to_part(ines, house, run_of):
    """On top stand the givens, then each right result; at the end all parts with verdict and working."""
    at = begin(ines)
    kept = questions.of_drill(house, run_of().id)
    for place, each in enumerate(kept, start=1):
        assert at == each.id
        page = ines.get(f"/questions/{at}").text
        assert f"Part {place} of 4" in words_of(page)
        labels = ["string in air", "mud weight", "buoyancy factor", "string in mud"][: 2 + min(place - 1, 2)]
        assert [label for label, _ in known_on(page)] == labels
        answer_rightly(ines, house, at)
        answered = words_of(ines.get(f"/questions/{at}").text)
        assert ("See the whole case" if place == 4 else "Next part") in answered and "Right" in answered
        at = ines.send("/practice/next", after=at).location.rpartition("/")[2]
    assert at == run_of().id
    page = ines.get(f"/cases/{at}").text
    words = words_of(page)
    assert "4 of 4 right." in words and page.count('class="verdict right"') == 4
    assert all(kept[n].question.working[-1].result in words for n in (0, 1, 3))
    assert words.count("Read as") == 3


def test_a_later_part_goes_on_from_the_right_result_whatever_was_answered(ines, house, run_of):
    at = begin(ines)
    first, second, *_ = questions.of_drill(house, run_of().id)
    wrong = show(first.question.value / 2, 3)
    assert ines.send(f"/questions/{at}/answer", free=wrong).status_code == 303
    assert attempts.get(house, at).outcome == "wrong"
    ines.send("/practice/next", after=at)
    page = ines.get(f"/questions/{second.id}").text
    assert ("buoyancy factor", f"{first.question.key_text} answer 1") in known_on(page)
    assert first.question.key_text in words_of(re.search(r'<p class="stem">.*?</p>', page)[0])
    assert wrong not in words_of(page)


def test_a_part_does_not_open_before_the_one_before_it(ines, house, run_of):
    """Its stem tells what the parts before it find."""
    first = begin(ines)
    later = questions.of_drill(house, run_of().id)[3]
    assert ines.get(f"/questions/{later.id}").location == f"/questions/{first}"
    sent = ines.send(f"/questions/{later.id}/answer", free=later.question.key_text)
    assert sent.location == f"/questions/{first}" and attempts.get(house, later.id) is None
    assert later.question.givens[0][1] not in words_of(ines.get(f"/cases/{run_of().id}").text)


def test_the_answers_count_like_any_other(ines, house, run_of):
    answer_all(ines, house)
    found = attempts.of_person(house, run_of().person, limit=10)
    assert [each.outcome for each in found] == ["right"] * 4
    assert {each.id for each in found} == {each.id for each in questions.of_drill(house, run_of().id)}
    assert "4 answers" in words_of(ines.get("/record").text)


def test_each_part_is_timed_from_the_one_before(ines, house, clock, run_of):
    """All parts are drawn at once; the third does not count the time of the first two."""
    at = f"/questions/{begin(ines)}"
    while at.startswith("/questions/"):
        clock.forward(seconds=40)
        at = answer_and_go_on(ines, house, at.rpartition("/")[2])
    assert [each.seconds for each in attempts.of_person(house, run_of().person, limit=10)] == [40.0] * 4


def test_a_second_press_of_start_goes_on_and_draws_nothing(ines, house, run_of):
    first = begin(ines)
    run = run_of().id
    assert begin(ines) == first and run_of().id == run


def test_a_case_that_was_left_is_gone_on_with(ines, house, hands, clock):
    first = begin(ines)
    second = answer_and_go_on(ines, house, first)
    clock.forward(days=2)
    again = hands("Ines Okoro")
    words = words_of(again.get("/practice").text)
    assert "1 of 4 parts answered" in words and "Go on : From air to hook" in words
    assert f"/questions/{begin(again)}" == second


def test_begun_again_it_has_other_questions_and_the_old_ones_stay(ines, house, run_of):
    first, run = begin(ines), run_of().id
    afresh = ines.send(f"/cases/{CASE}/start", afresh="yes").location.rpartition("/")[2]
    assert afresh != first and run_of().id != run
    assert begin(ines) == afresh
    assert ines.get(f"/questions/{first}").status_code == 200
    assert ines.get(f"/cases/{run}").status_code == 200


def test_after_its_end_the_case_starts_with_other_numbers(ines, house, run_of):
    whole = answer_all(ines, house)
    assert "Same case, other numbers" in words_of(ines.get(whole).text)
    before = run_of().id
    begin(ines)
    assert run_of().id != before


def test_what_is_not_counted_comes_back_with_the_table(ines):
    at = begin(ines)
    refused = ines.send(f"/questions/{at}/answer", number="heavy")
    assert refused.status_code == 422
    assert "Not counted." in words_of(refused.text) and known_on(refused.text)


def test_a_second_sending_of_an_answer_changes_nothing(ines, house):
    at = begin(ines)
    answer_rightly(ines, house, at)
    assert ines.send(f"/questions/{at}/answer", free="0.5").status_code == 303
    assert attempts.get(house, at).outcome == "right"


def test_next_on_a_part_answered_before_leads_to_the_open_one(ines, house):
    first = begin(ines)
    second = answer_and_go_on(ines, house, first)
    third = answer_and_go_on(ines, house, second.rpartition("/")[2])
    assert ines.send("/practice/next", after=first).location == third


def test_another_hand_finds_no_case(ines, house, hands, run_of):
    at = begin(ines)
    other = hands("Marek Osei")
    for address in (f"/questions/{at}", f"/cases/{run_of().id}", f"/cases/{run_of().id}/sheet"):
        assert other.get(address).status_code == 404
    assert other.send("/practice/next", after=at).status_code == 404
    assert "Go on : From air" not in words_of(other.get("/practice").text)


def test_a_case_that_is_not_there_is_not_found(ines):
    assert ines.send("/cases/no-such-case/start").status_code == 404
    assert ines.get("/cases/no-such-run").status_code == 404


def test_a_run_is_shown_from_its_row_when_the_course_has_the_case_no_more(app, ines, house):
    whole = answer_all(ines, house)
    before = words_of(ines.get(whole).text)
    app.extensions["pinandbox"]["cases"] = {}
    after = words_of(ines.get(whole).text)
    assert after == before.replace("Same case, other numbers ", "")


def test_the_sheet_has_blanks_and_its_workings_are_for_paper_until_all_is_answered(ines, house, run_of):
    begin(ines)
    page = ines.get(f"/cases/{run_of().id}/sheet").text
    first, second, *_ = questions.of_drill(house, run_of().id)
    asked, workings = page.split('<section class="paper-workings print-only"')
    assert words_of(asked).count("________ (answer") == 2
    assert second.question.key_text not in words_of(asked)
    assert words_of(asked).count(first.question.key_text) == 0
    assert all(words_of(line.result) in words_of(workings) for line in second.question.working)
    answer_all(ines, house)
    assert 'class="paper-workings"' in ines.get(f"/cases/{run_of().id}/sheet").text


def test_a_metric_hand_with_commas_reads_the_case_their_way(app, hands, house):
    give_case(app)
    hand = hands("Sunniva Park", system="metric", comma=True)
    at = begin(hand)
    assert questions.get(house, at).question.system == "metric"
    (_, air), (_, mud) = known_on(hand.get(f"/questions/{at}").text)
    assert re.fullmatch(r"[\d ]+ kN \([\d,]+ klbf\)", air) and re.fullmatch(r"[\d ]+ kg/m³ \([\d,]+ lb/gal\)", mud)


def test_a_factor_is_asked_as_a_plain_number(ines, house):
    """What the page has chosen beside the field is what the question asks for: the number alone is right."""
    at = begin(ines)
    page = ines.get(f"/questions/{at}").text
    assert re.search(r'<option value="" selected>plain number</option>\s*<option>%</option>', page)
    assert ines.send(f"/questions/{at}/answer", number=questions.get(house, at).question.key_text, unit="").status_code
    assert attempts.get(house, at).outcome == "right"
