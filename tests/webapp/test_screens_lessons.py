"""Lessons: the list, a lesson's page, reading on, and the questions in the text."""

import re

import pytest

from question_bank.numbers import in_comma
from tests.webapp.page_browser import words_of
from webapp.records import answers, attempts, lessons_read, people, questions

UNITS = "/lessons/units/force-mass-weight"
SAFETY = "/lessons/safety/dropped-objects"


@pytest.fixture
def ines(house):
    """The person that hands() joins."""
    return lambda: people.by_name(house, "Ines Okoro")


@pytest.fixture
def asked(house, ines):
    """asked("units/force-mass-weight") are the questions that Ines has in that lesson, by kind."""

    def by_kind(lesson: str):
        return {each.question.kind: each for each in questions.in_lesson(house, ines().id, lesson).values()}

    return by_kind


def parts_of(app, lesson: str) -> list[str]:
    return [part.slug for part in app.extensions["pinandbox"]["course"].lesson(lesson).parts]


def test_lessons_stand_in_study_order_with_words_for_how_far_each_is_read(hands, app):
    hand = hands()
    words = words_of(hand.get("/lessons").text)
    assert words.index("Dropped objects") < words.index("Force, mass and weight")
    written = len(app.extensions["pinandbox"]["course"].lessons)
    assert words.count("not begun") == written
    first, *_, last = parts_of(app, "units/force-mass-weight")
    hand.send(f"{UNITS}/read", part=first)
    assert re.search(r"1 of \d parts", words_of(hand.get("/lessons").text))
    hand.send(f"{UNITS}/read", part=last)
    assert words_of(hand.get("/lessons").text).count("not begun") == written - 1


def test_reading_to_here_marks_the_parts_before_as_well_and_leads_to_the_next(hands, app, house, ines):
    hand = hands()
    slugs = parts_of(app, "safety/dropped-objects")
    marked = hand.send(f"{SAFETY}/read", part=slugs[1])
    assert marked.location == f"{SAFETY}#{slugs[2]}"
    assert set(lessons_read.parts_read(house, ines().id)["safety/dropped-objects"]) == set(slugs[:2])
    assert hand.send(f"{SAFETY}/read", part=slugs[-1]).location == f"{SAFETY}#end"


def test_reading_goes_on_where_it_stopped(hands, app):
    hand = hands()
    slugs = parts_of(app, "safety/dropped-objects")
    hand.send(f"{SAFETY}/read", part=slugs[2])
    for page in ("/today", "/lessons"):
        assert f'href="{SAFETY}#{slugs[3]}"' in hand.get(page).text
    assert f'href="#{slugs[3]}">Go on where you stopped' in hand.get(SAFETY).text


@pytest.mark.parametrize("part", ["", "no-such-part"])
def test_a_part_that_is_not_there_is_not_marked(hands, part):
    assert hands().send(f"{SAFETY}/read", part=part).status_code == 400


@pytest.mark.parametrize("path", ["/lessons/units/nothing", "/lessons/nothing/force-mass-weight"])
def test_a_lesson_that_is_not_there(hands, path):
    hand = hands()
    assert hand.get(path).status_code == 404
    assert hand.send(f"{path}/read", part="x").status_code == 404


def test_a_lesson_shows_quantities_in_both_systems_the_hands_first(hands):
    us, metric = hands("Ines Okoro"), hands("Rurik Abara", system="metric", comma=True)
    assert "500 st (4,448 kN)" in words_of(us.get(UNITS).text)
    assert "4 448 kN (500 st)" in words_of(metric.get(UNITS).text)


def test_a_question_is_printed_with_the_mark_that_the_hand_writes(hands, asked):
    """Stem, wanted width, answer and working; what was read is shown as it was read."""
    hand = hands(system="metric", comma=True)
    hand.get(UNITS)
    kept = asked("units/force-mass-weight")["numeric"]
    page = hand.get(UNITS).text
    assert "Give it to within 0,5 %." in words_of(page) and "with a comma" not in words_of(page)
    sent = hand.send(f"{UNITS}/answer", question=kept.id, number=in_comma(kept.question.key_text), unit="")
    words = words_of(hand.follow(sent).text)
    for printed in (kept.question.key_both, *(line.result for line in kept.question.working)):
        assert " ".join(in_comma(printed).split()) in words


def test_a_lesson_has_its_figure_its_caution_and_its_sources(hands):
    page = hands().get(UNITS).text
    assert '<figure class="drawing">' in page and 'role="img"' in page
    words = words_of(page)
    assert "Caution. Before a load" in words
    assert "Where the facts are from" in words
    assert "common practice, no source" in words


def test_questions_in_the_text_are_drawn_once(hands, house, ines):
    """Opening the page again shows the same numbers."""
    hand = hands()
    hand.get(UNITS)
    first = {item: kept.id for item, kept in questions.in_lesson(house, ines().id, "units/force-mass-weight").items()}
    hand.get(UNITS)
    again = {item: kept.id for item, kept in questions.in_lesson(house, ines().id, "units/force-mass-weight").items()}
    assert len(first) >= 4 and first == again


def test_a_right_number_is_shown_with_its_working_and_never_counts(hands, house, ines, asked):
    hand = hands()
    hand.get(UNITS)
    kept = asked("units/force-mass-weight")["numeric"]
    number, unit = kept.question.key_text.split(" ")
    sent = hand.send(f"{UNITS}/answer", question=kept.id, number=number, unit=unit)
    assert sent.location == f"{UNITS}#q-{kept.item}"
    assert answers.get(house, kept.id).outcome == "right"
    assert attempts.get(house, kept.id) is None
    words = words_of(hand.follow(sent).text)
    assert f"Right is {kept.question.key_both}" in words
    assert kept.question.working[-1].result in words


def test_a_known_mistake_is_named(hands, asked):
    hand = hands()
    hand.get(UNITS)
    kept = asked("units/force-mass-weight")["numeric"]
    slip = kept.question.mistakes[0]
    sent = hand.send(f"{UNITS}/answer", question=kept.id, number=f"{slip.value:.10g}", unit=kept.question.unit)
    page = hand.follow(sent)
    assert slip.title in words_of(page.text) and slip.tell in words_of(page.text)


@pytest.mark.parametrize(
    ("number", "told"),
    [
        pytest.param("about forty", "does not begin with a number", id="unreadable"),
        pytest.param("", "Nothing was typed.", id="nothing"),
        pytest.param("12 ft", "You gave a length", id="other dimension"),
        pytest.param("12 tons", "Which ton?", id="which ton"),
    ],
)
def test_what_can_not_be_read_is_not_counted_and_stays_in_the_field(hands, house, asked, number, told):
    hand = hands()
    hand.get(UNITS)
    kept = asked("units/force-mass-weight")["numeric"]
    page = hand.send(f"{UNITS}/answer", question=kept.id, number=number, unit="klbf")
    assert page.status_code == 422
    words = words_of(page.text)
    assert "Not counted." in words and told in words
    assert f'name="number" type="text" inputmode="decimal" value="{number}"' in page.text
    assert answers.get(house, kept.id) is None


def test_the_first_answer_stands(hands, house, asked):
    hand = hands()
    hand.get(UNITS)
    kept = asked("units/force-mass-weight")["numeric"]
    hand.send(f"{UNITS}/answer", question=kept.id, number="1", unit=kept.question.unit)
    hand.send(f"{UNITS}/answer", question=kept.id, number=kept.question.key_text, unit="")
    assert answers.get(house, kept.id).outcome == "wrong"


def test_other_numbers_are_drawn_after_an_answer_and_not_before(hands, asked):
    hand = hands()
    hand.get(UNITS)
    kept = asked("units/force-mass-weight")["numeric"]
    hand.send(f"{UNITS}/again", question=kept.id)
    assert asked("units/force-mass-weight")["numeric"].id == kept.id
    hand.send(f"{UNITS}/answer", question=kept.id, number="1", unit=kept.question.unit)
    hand.send(f"{UNITS}/again", question=kept.id)
    assert hand.get(UNITS).status_code == 200
    latest = {each.id for each in asked("units/force-mass-weight").values()}
    assert kept.id not in latest


@pytest.mark.parametrize("kind", ["choice", "match", "order", "card"])
def test_a_question_in_words_can_be_tried_once_more_and_never_counts(hands, house, ines, asked, kind):
    """The button stands with the answer alone; what comes is a question of its own, and the old answer stays."""
    hand = hands()
    lesson = _lesson_with(hand, ines, house, kind)
    kept = asked(lesson)[kind]
    assert "The same once more" not in words_of(hand.get(f"/lessons/{lesson}").text)
    sent = {"mark": "part"}
    if kind == "choice":
        sent = {"choice": kept.question.right}
    elif kind == "order":
        sent = {"step": [step.key for step in kept.question.steps]}
    elif kind == "match":
        sent = {f"pair-{left.key}": kept.question.right[0].key for left in kept.question.left}
    page = hand.follow(hand.send(f"/lessons/{lesson}/answer", question=kept.id, **sent)).text
    assert "The same once more" in words_of(page)
    hand.send(f"/lessons/{lesson}/again", question=kept.id)
    fresh = questions.in_lesson(house, ines().id, lesson)[kept.item]
    assert fresh.id != kept.id and answers.get(house, fresh.id) is None
    assert answers.get(house, kept.id) is not None and attempts.get(house, kept.id) is None


def _lesson_with(hand, ines, house, kind: str) -> str:
    """The first of these lessons whose text asks a question of that kind, opened."""
    for lesson in ("safety/dropped-objects", "units/torque-power-pressure", "top-drive/pipe-handler"):
        hand.get(f"/lessons/{lesson}")
        if any(each.question.kind == kind for each in questions.in_lesson(house, ines().id, lesson).values()):
            return lesson
    pytest.fail(f"No lesson of these asks a {kind}.")


def test_a_choice_is_shown_with_why_it_misleads(hands, asked):
    hand = hands()
    hand.get(SAFETY)
    kept = asked("safety/dropped-objects")["choice"]
    wrong = next(option for option in kept.question.options if option.key != kept.question.right)
    page = words_of(hand.follow(hand.send(f"{SAFETY}/answer", question=kept.id, choice=wrong.key)).text)
    assert f"You chose: {wrong.text}" in page and wrong.tell in page and kept.question.why in page


def test_nothing_chosen_is_not_counted(hands, asked):
    hand = hands()
    hand.get(SAFETY)
    kept = asked("safety/dropped-objects")["choice"]
    page = hand.send(f"{SAFETY}/answer", question=kept.id)
    assert page.status_code == 422 and "Nothing was chosen. Choose one." in words_of(page.text)


def test_steps_are_moved_by_buttons_without_scripts_and_then_sent(hands, house, asked):
    """Each press loads the page with the new order; the order at the end is what is graded."""
    hand = hands()
    hand.get(SAFETY)
    kept = asked("safety/dropped-objects")["order"]
    keys = [step.key for step in kept.question.steps]
    moved = hand.get(SAFETY, query_string={"question": kept.id, "step": keys, "down": keys[0]})
    shown = re.findall(r'<li>\s*<input type="hidden" name="step" value="(\d+)">', moved.text)
    assert shown == [keys[1], keys[0], *keys[2:]]
    sent = hand.send(f"{SAFETY}/answer", question=kept.id, step=kept.question.accepted[0])
    assert answers.get(house, kept.id).outcome == "right"
    assert "Right" in words_of(hand.follow(sent).text)


@pytest.mark.parametrize("steps", [["1", "1"], ["9"], []])
def test_steps_from_a_strange_address_are_not_taken(hands, asked, steps):
    hand = hands()
    hand.get(SAFETY)
    kept = asked("safety/dropped-objects")["order"]
    page = hand.get(SAFETY, query_string={"question": kept.id, "step": steps, "up": "1"})
    shown = re.findall(r'<li>\s*<input type="hidden" name="step" value="(\d+)">', page.text)
    assert shown == [step.key for step in kept.question.steps]


def test_a_wrong_order_shows_where_each_step_stood(hands, asked):
    hand = hands()
    hand.get(SAFETY)
    kept = asked("safety/dropped-objects")["order"]
    right = kept.question.accepted[0]
    sent = hand.send(f"{SAFETY}/answer", question=kept.id, step=[right[1], right[0], *right[2:]])
    page = words_of(hand.follow(sent).text)
    assert "yours: 2" in page and "yours: 1" in page and "yours: 3" not in page


def test_pairs_are_graded_and_an_empty_one_is_not_counted(hands, asked):
    hand = hands()
    hand.get(SAFETY)
    kept = asked("safety/dropped-objects")["match"]
    pairs = {f"pair__{left}": right for left, right in kept.question.pairs.items()}
    first = next(iter(pairs))
    page = hand.send(f"{SAFETY}/answer", question=kept.id, **pairs | {first: ""})
    assert page.status_code == 422 and "Choose one for each." in words_of(page.text)
    done = words_of(hand.follow(hand.send(f"{SAFETY}/answer", question=kept.id, **pairs)).text)
    assert "yours:" not in done and kept.question.why in done


def test_nobody_answers_anothers_question(hands, house, ines, asked):
    hand, other = hands("Ines Okoro"), hands("Rurik Abara")
    hand.get(UNITS)
    kept = asked("units/force-mass-weight")["numeric"]
    for path in (f"{UNITS}/answer", f"{UNITS}/again"):
        assert other.send(path, question=kept.id, number="1", unit="kN").status_code == 404
    assert hand.send(f"{SAFETY}/answer", question=kept.id, number="1").status_code == 404
    assert hand.send(f"{UNITS}/answer", question="no-such-id").status_code == 404
    assert answers.get(house, kept.id) is None


def test_typing_freely_is_remembered_and_works(hands, house, asked):
    hand = hands()
    hand.get(UNITS)
    kept = asked("units/force-mass-weight")["numeric"]
    back = f"{UNITS}#q-{kept.item}"
    assert hand.send("/entry", entry="free", back=back).location == back
    page = hand.get(UNITS).text
    assert 'name="free"' in page and 'name="number"' not in page
    hand.send(f"{UNITS}/answer", question=kept.id, free=kept.question.key_text)
    assert answers.get(house, kept.id).outcome == "right"


def test_the_end_of_a_lesson_leads_to_its_practice(hands):
    page = hands().get(UNITS).text
    form = re.search(r'<form class="actions" action="/practice/start" method="post">.*?</form>', page, re.DOTALL)
    assert 'name="lesson" value="units/force-mass-weight"' in form[0] and "Practise this lesson" in form[0]
