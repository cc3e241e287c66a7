"""Practice papers as a hand sits them: what is said before, the clock, extra time, what is kept, going on."""

from datetime import timedelta

import pytest

from tests.webapp.crews import a_coordinator, a_crew, a_member, a_rig
from tests.webapp.page_browser import words_of
from tests.webapp.papers import answer_all, begin, id_of, rows_of
from tests.webapp.sittings import START, bank, right_fields, wrong_fields
from webapp.records import attempts, log, memory, people, questions, rotations, sittings


@pytest.fixture
def ines(hands):
    """A hand's browser."""
    return hands("Ines Okoro")


def person(house):
    return people.by_name(house, "Ines Okoro").id


def sitting_of(house, at):
    return sittings.get(house, id_of(at))


def asked(house, at, number):
    return questions.of_drill(house, id_of(at))[number - 1].question


def test_both_papers_are_told(ines):
    words = words_of(ines.get("/papers").text)
    for says in ("60 questions, 90 minutes", "80 questions, 120 minutes", "Pass mark 75 %, and 50 % in each module"):
        assert says in words
    assert words.index("Paper A") < words.index("Paper B") and words.count("Not sat yet.") == 2
    words = words_of(ines.get("/papers/a").text)
    assert "60 questions in 90 minutes. You pass with 45 right, that is 75 %" in words
    assert "Sit it without the formula sheet." in words
    assert "The formula sheet is open beside it." in words_of(ines.get("/papers/b").text)
    assert "6 questions about what hurts people must all be right" in words
    assert ines.get("/papers/c").status_code == 404


def test_a_paper_is_drawn_to_its_blueprint_with_its_deadline(ines, house):
    at = begin(ines)
    found = sitting_of(house, at)
    assert (found.kind, found.module, found.pass_mark) == ("paper-a", None, 75)
    assert found.deadline == START + timedelta(minutes=90)
    modules = [each["lesson"].partition("/")[0] for each in rows_of(house, at)]
    by_hand = {
        "units": 5, "kelly": 6, "top-drive": 5, "tripping": 13, "masts": 8, "hoisting": 5, "drilling-line": 5,
        "loads": 4, "pipe": 4, "safety": 5,
    }  # fmt: skip
    assert {module: modules.count(module) for module in by_hand} == by_hand and len(modules) == 60
    systems = [each.question.system for each in questions.of_drill(house, id_of(at)) if each.question.has_numbers]
    numerics = sum(bank()[each["item"]].kind == "numeric" for each in rows_of(house, at))
    assert systems.count("metric") == round(numerics / 10 + 1e-9)
    assert begin(ines) == begin(ines, "b") == at, "one paper at a time: the open one is gone on with"


def test_without_a_clock_there_is_no_deadline_and_nothing_is_told_before(ines, house, clock):
    at = begin(ines, clock="none")
    assert sitting_of(house, at).deadline is None
    page = ines.get(f"{at}/1").text
    assert "data-seconds-left" not in page
    clock.forward(days=3)
    assert sitting_of(house, at).is_open and "It has no clock" in words_of(ines.get("/papers").text)


def test_the_sheet_is_open_for_b_alone(ines, house):
    at = begin(ines, "a")
    assert "/bench/formulas" not in ines.get(f"{at}/1").text
    ines.send(f"{at}/hand-in")
    at = begin(ines, "b")
    assert 'href="/bench/formulas" target="_blank"' in ines.get(f"{at}/1").text
    assert len(rows_of(house, at)) == 80 and sitting_of(house, at).body["paper"]["least"] == 60


def test_the_time_left_is_the_server_s_and_today_and_papers_lead_on(ines, house, clock):
    at = begin(ines)
    clock.forward(minutes=46, seconds=30)
    words = words_of(ines.get(f"{at}/1").text)
    assert "43 minutes left Handed in for you at 2 Mar, 10:30, as it is then." in words
    assert f'data-seconds-left="{43 * 60 + 30}"' in ines.get(f"{at}/hand-in").text
    for place in ("/today", "/papers", "/papers/b"):
        page = ines.get(place)
        assert "You have paper A open, 43 minutes left." in words_of(page.text)
        assert f'href="{at}"' in page.text


@pytest.mark.parametrize("place", ["/today", "/papers", "/record", "/papers/b"])
def test_the_clock_hands_it_in_whoever_looks_first(ines, house, clock, place):
    at = begin(ines)
    ines.send(f"{at}/1/answer", **right_fields(asked(house, at, 1)))
    clock.forward(hours=5)
    words = words_of(ines.get(place).text)
    found = sitting_of(house, at)
    assert (found.handed_in_by, found.handed_in_at) == ("clock", START + timedelta(minutes=90))
    assert found.result["right"] == 1 and "You have paper A open" not in words


def test_extra_time_is_ticked_by_who_is_in_no_crew(ines, house):
    """By hand: a quarter of 90 is 22.5; a half minute is given as a whole one."""
    assert "A quarter more time (113 minutes)" in words_of(ines.get("/papers/a").text)
    assert sitting_of(house, begin(ines, extra="yes")).deadline == START + timedelta(minutes=113)


def test_extra_time_of_a_crew_s_hand_is_granted_by_their_coordinator_and_logged(ines, hands, house, clock):
    crew = a_crew(house)
    a_member(house, crew, "Ines Okoro")
    rosalind = hands("Rosalind Achterberg")
    assert "A quarter more time (" not in words_of(ines.get("/papers/a").text)
    at = begin(ines, extra="yes")
    assert sitting_of(house, at).deadline == START + timedelta(minutes=90), "a tick of their own is no grant"
    ines.send(f"{at}/hand-in")
    page = f"/people/{person(house)}/extra-time"
    assert rosalind.send(page, why=" ").status_code == 422
    assert rosalind.send(page, why="Agreed by letter of 1 March").status_code == 303
    rosalind.send(page, why="Sent twice")
    assert "Rosalind Achterberg granted you a quarter more time" in words_of(ines.get("/papers/a").text)
    assert "a quarter more in practice papers" in words_of(rosalind.get(f"/people/{person(house)}").text)
    at = begin(ines, "b")
    assert sitting_of(house, at).deadline == START + timedelta(minutes=150)
    rosalind.send(page, end="yes")
    assert sitting_of(house, at).deadline == START + timedelta(minutes=150), "an open paper keeps its time"
    lines = [(each.what, each.detail) for each in log.of_crews(house, [crew.id], 9)]
    assert lines == [
        ("extra time ended", "No extra time in practice papers any more."),
        ("extra time", "A quarter more in practice papers: Agreed by letter of 1 March."),
    ]


def test_a_grant_is_of_one_crew(ines, hands, house):
    a_member(house, a_crew(house), "Ines Okoro")
    other = a_crew(house, a_rig(house, "Quillwater 12", "top-drive"), coordinator="Tilda Marsh")
    hands("Rosalind Achterberg").send(f"/people/{person(house)}/extra-time", why="Agreed by letter")
    a_coordinator(house, "Rosalind Achterberg", other)
    hands("Rosalind Achterberg").send(f"/people/{person(house)}/transfer", crew=other.id, why="Needed there")
    assert "granted you" not in words_of(ines.get("/papers/a").text)


def test_on_the_rig_rest_comes_first(ines, house):
    says = "Do not sit a timed paper straight after a tour"
    assert says not in words_of(ines.get("/papers/a").text), "no rotation is known"
    rotations.set_own(house, person(house), 14, 14, START.date(), None)
    assert says in words_of(ines.get("/papers/a").text)
    rotations.set_own(house, person(house), 14, 14, START.date() - timedelta(days=14), None)
    assert says not in words_of(ines.get("/papers/a").text)


def test_a_hand_of_a_kelly_rig_has_more_of_the_kelly(ines, house):
    a_member(house, a_crew(house), "Ines Okoro")
    modules = [each["lesson"].partition("/")[0] for each in rows_of(house, begin(ines))]
    assert (modules.count("kelly"), modules.count("top-drive")) == (8, 3)


def test_what_the_page_keeps_by_itself_is_a_draft(ines, house, clock):
    at = begin(ines, clock="none")
    ines.get(f"{at}/1")
    clock.forward(seconds=5)
    assert ines.send(f"{at}/1/draft", **wrong_fields(asked(house, at, 1))).status_code == 204
    clock.forward(seconds=35)
    ines.send(f"{at}/1/draft", **right_fields(asked(house, at, 1)))
    clock.forward(minutes=4)
    ines.send(f"{at}/1/answer", **right_fields(asked(house, at, 1)))
    assert attempts.of_person(house, person(house), 5) == []
    ines.send(f"{at}/hand-in")
    (made,) = attempts.of_person(house, person(house), 5)
    assert (made.outcome, made.seconds) == ("right", 40), "the first half of an answer is no answer"
    assert made.item in memory.of_person(house, person(house))


def test_an_emptied_field_is_open_again_and_an_unreadable_one_is_to_be_mended(ines, house):
    at = begin(ines)
    number = next(at for at, each in enumerate(rows_of(house, at), 1) if bank()[each["item"]].kind == "numeric")
    ines.send(f"{at}/{number}/draft", number="3..", unit="x")
    assert f"Question {number} to mend" in words_of(ines.get(f"{at}/hand-in").text)
    ines.send(f"{at}/{number}/draft", number=" ", unit="")
    assert f"Question {number} open" in words_of(ines.get(f"{at}/hand-in").text)


def test_nothing_is_kept_once_the_time_is_up(ines, house, clock):
    at = begin(ines)
    clock.forward(minutes=90)
    assert ines.send(f"{at}/1/draft", **right_fields(asked(house, at, 1))).status_code == 410
    assert sitting_of(house, at).result["right"] == 0


def test_a_question_is_marked_to_come_back_to(ines, house):
    at = begin(ines)
    ines.send(f"{at}/2/draft", come__back="yes", mark__only="yes")
    assert "Question 2 open , come back to it" in words_of(ines.get(f"{at}/1").text)
    assert sittings.drafts_of(house, id_of(at)) == {}, "a mark is no answer"
    ines.send(f"{at}/3/answer", come__back="yes", **right_fields(asked(house, at, 3)))
    words = words_of(ines.get(f"{at}/hand-in").text)
    assert "Marked to come back to: question 2 , question 3 ." in words and "1 of 60 answered." in words
    assert 'value="yes" checked' in ines.get(f"{at}/3").text
    ines.send(f"{at}/3/answer", **right_fields(asked(house, at, 3)))
    assert "Marked to come back to: question 2 ." in words_of(ines.get(f"{at}/hand-in").text)


def test_the_next_paper_asks_other_questions_where_there_are_others(ines, house):
    """Kelly, top drive, hoisting and units have more than twice what a paper asks."""
    first = {each["item"] for each in rows_of(house, at)} if (at := begin(ines)) else set()
    ines.send(f"{at}/hand-in")
    for each in rows_of(house, begin(ines)):
        if each["lesson"].partition("/")[0] in {"units", "kelly", "top-drive", "hoisting"} and not each["must_pass"]:
            assert each["item"] not in first


def test_items_of_an_open_sitting_are_not_asked_elsewhere_for_a_day(ines, house, clock):
    at = begin(ines, clock="none")
    answer_all(ines, house, at)
    ines.send(f"{at}/hand-in")
    clock.forward(days=60)
    ines = _again(ines)
    before = set(_picked(ines))
    at = begin(ines, clock="none")
    asked_now = {bank()[each["item"]].title for each in rows_of(house, at)}
    assert before & asked_now, "what fades is in this paper too: else this test shows nothing"
    assert not set(_picked(ines)) & asked_now
    clock.forward(hours=25)
    assert set(_picked(ines)) & asked_now


def _again(ines):
    """Signed in again: a session does not last for months."""
    ines.send("/sign-in", name="Ines Okoro", password="kelly spins at dawn")
    return ines


def _picked(ines) -> list[str]:
    """The titles of the items on Today."""
    page = ines.get("/today").text.partition("What is picked")[2]
    return [title for title in {item.title for item in bank().values()} if f">{title}<" in page]


def test_practice_of_a_lesson_that_is_all_in_the_open_paper(ines, house):
    lesson = next(
        each["lesson"]
        for at in [begin(ines)]
        for each in rows_of(house, at)
        if len(bank().of_lesson(each["lesson"])) < 20
    )
    held = sittings.items_held_back(house, person(house), START)
    for _ in range(len(bank().of_lesson(lesson)) + 1):
        sent = ines.send("/practice/start", lesson=lesson)
        if not sent.location.startswith("/questions/"):
            break
        kept = questions.get(house, sent.location.rpartition("/")[2])
        assert kept.item not in held
        ines.send(f"{sent.location}/answer", **right_fields(kept.question))
