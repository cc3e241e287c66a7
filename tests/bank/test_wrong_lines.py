"""Workings with one wrong line: wrong in one place only, leading where the known mistake leads, and told so."""

import json
import math
from collections import Counter

import pytest

from question_bank import load_bank, question_from_body
from question_bank.bank import read_file
from question_bank.errors import BankError
from tests.bank.pencil import pencil
from tests.bank.wrong_lines import SOURCE, WRONG, faults_of_wrong_line, wrong_line

SHIPPED = [each.id for each in load_bank().values() if each.kind == "find-the-wrong-line"]
SEEDS = range(100)
RUBBISH = [None, "", "0", "4", "-1", "1.0", " 1", "01", "one", True, 1.0, 0, 9, [], ["1"], {}, b"1", math.nan, object()]


@pytest.fixture(scope="module", params=SHIPPED)
def questions(request, bank):
    """Two hundred questions of each shipped item, in both systems."""
    return [bank[request.param].draw(seed, system) for system in ("us", "metric") for seed in SEEDS]


def test_at_least_three_are_shipped():
    assert len(SHIPPED) >= 3


def test_one_line_is_wrong_and_the_others_work_out(questions):
    """With a pencil: each line's own numbers give its result; only the wrong one's equation is not the right one's."""
    for question in questions:
        right = {line.find: line.equation for line in question.working}
        differing = [
            at for at, line in enumerate(question.shown, 1) if right.get(line.find, line.equation) != line.equation
        ]
        assert differing == [question.wrong], question.shown
        for line in question.shown:
            assert pencil(line.put_in) == pytest.approx(pencil(line.result), rel=0.01), line


def test_lines_before_the_wrong_one_are_the_right_ones(questions):
    """As in the right working; a line that only says a value in another unit may be missing there."""
    for question in questions:
        for line in question.shown[: question.wrong - 1]:
            assert line in question.working or " = " in line.equation, line


def test_it_ends_where_the_source_items_mistake_ends(bank, questions):
    """The last line, typed as an answer to the source item's own question, is met by the mistake's name."""
    for question in questions:
        source = bank[bank[question.item].of].draw(question.seed, question.system)
        assert source.stem == question.task
        verdict = source.grade(question.shown[-1].result)
        assert verdict.outcome == "wrong"
        assert source.slip(verdict.mistake).title == question.slip


def test_three_lines_at_least_and_the_wrong_one_is_not_always_the_same(questions):
    assert all(len(question.shown) >= 3 for question in questions)
    for system in ("us", "metric"):
        places = Counter(question.wrong for question in questions if question.system == system)
        assert len(places) >= 2 and max(places.values()) <= 0.85 * len(SEEDS), places


def test_the_right_line_grades_right_and_every_other_one_wrong(questions):
    for question in questions:
        for at in range(1, len(question.shown) + 1):
            for answer in (at, str(at)):
                verdict = question.grade(answer)
                assert (verdict.outcome, verdict.mistake) == ("right" if at == question.wrong else "wrong", None)
                assert verdict.read_as == f"line {at}"


def test_it_shows_the_line_put_right_and_tells_of_who_wrote_it(questions):
    for question in questions:
        shown = question.shown[question.wrong - 1]
        assert question.mended.find == shown.find and question.mended.equation != shown.equation
        assert question.mended in question.working and question.working[-1].result in question.key_both
        assert question.tell.startswith("Whoever wrote this ")


def test_what_is_no_line_is_not_counted():
    question = wrong_line().draw(3)
    for answer in RUBBISH:
        verdict = question.grade(answer)
        assert verdict.outcome == "unreadable" and verdict.message, repr(answer)


def test_a_working_worked_wrongly_by_hand():
    """500 × 0.8 = 400; 200 − 40 = 160; 400 − 160 = 240. With the factor forgotten 340; with the block left in 200."""
    givens = {"table": "500 klbf", "factor": "0.8", "reading": "200 klbf", "block": "40 klbf"}
    found = {(q.wrong, *(line.result for line in q.shown)) for q in (wrong_line().draw(s, "us", givens) for s in SEEDS)}
    assert found == {(1, "500 klbf", "160 klbf", "340 klbf"), (3, "400 klbf", "160 klbf", "200 klbf")}
    assert all(wrong_line().draw(seed, "us", givens).key_both == "240 klbf (1,068 kN)" for seed in SEEDS)


def test_it_is_the_same_after_json_and_does_not_need_its_source():
    question = wrong_line().draw(5, "metric")
    again = question_from_body(json.loads(json.dumps(question.body())))
    assert again == question and again.grade(str(question.wrong)).outcome == "right"


def test_its_version_changes_with_its_source():
    """A draw follows from both texts, so both are in the hash, and in the text that is kept."""
    changed = wrong_line(('find = "string"', 'find = "the string"'))
    assert changed.text_hash != wrong_line().text_hash
    assert "[margin-gone-wrong]" in wrong_line().text and "[margin]" in wrong_line().text


def test_the_unspoilt_item_has_no_fault():
    assert faults_of_wrong_line() == []


def test_without_its_source_it_is_refused():
    items = read_file("units/tried.toml", "units", WRONG)
    with pytest.raises(BankError, match="was not looked up"):
        items[0].draw(1)


OF = 'of = "units.margin"'
FORMULA = 'formula = "allowed - reading"\ntell = "Whoever'


@pytest.mark.parametrize("old, new, field, words", [
    (OF, 'of = "units.margins"', "of", ["no numeric item"]),
    (OF, 'of = "units.margin-gone-wrong"', "of", ["no numeric item"]),
    (OF, "", "of", ["missing"]),
    ('mistake = "factor-left-out"', 'mistake = "factor"', "wrong 1 mistake", ["factor-left-out", "block-left-in"]),
    ('step = "allowed"', 'step = "allow"', "wrong 1 step", ["allowed"]),
    ('step = "left"', 'step = "allowed"', "wrong 2 formula", ["allowed"]),
    (FORMULA, 'formula = "left - reading"\ntell = "Whoever', "wrong 2 formula", ["left"]),
    (FORMULA, 'formula = "allowed * reading"\ntell = "Whoever', "wrong 2 formula", ["a load"]),
    (FORMULA, 'formula = "allowed - klbf"\ntell = "Whoever', "wrong 2 formula", ["klbf"]),
    (FORMULA, 'formula = "static_line_pull(allowed, factor) / 2"\ntell = "Whoever', "wrong 2 formula", ["two steps"]),
    ('formula = "table"', 'formula = { us = "table" }', "wrong", ["'metric'"]),
    ('formula = "table"\ntell =', 'formula = "table"\ntells =', "wrong 1 tells", ["not a field"]),
])  # fmt: skip
def test_a_fault_of_form_is_refused_when_the_bank_is_read(old, new, field, words):
    with pytest.raises(BankError) as caught:
        wrong_line((old, new))
    assert caught.value.field == field and all(word in caught.value.problem for word in words), caught.value
    assert caught.value.item == "units.margin-gone-wrong"


def test_one_step_that_is_always_wrong_is_refused():
    second = 'mistake = "block-left-in"\nstep = "left"\nformula = "allowed - reading"'
    first = 'mistake = "factor-left-out"\nstep = "left"\nformula = "table - string"'
    with pytest.raises(BankError, match="different steps"):
        wrong_line(('mistake = "factor-left-out"\nstep = "allowed"\nformula = "table"', first), (second, second))


@pytest.mark.parametrize("old, new, words", [
    ('formula = "table"', 'formula = "table * factor * factor"', ["leads to", "factor-left-out"]),
    ('formula = "table"', 'formula = "reading"', ["leads to"]),
    (FORMULA, 'formula = "allowed - string"\ntell = "Whoever', ["leads to"]),
    (FORMULA, 'formula = "allowed - reading * 1.01"\ntell = "Whoever', ["leads to"]),
    ('mistake = "block-left-in"', 'mistake = "factor-left-out"', ["leads to"]),
    ('formula = "table - string"', 'formula = "table + string"', ["leads to"]),
])  # fmt: skip
def test_a_wrong_step_that_does_not_lead_where_its_mistake_leads_is_found(old, new, words):
    found = faults_of_wrong_line((old, new))
    assert found and all(word in found[0].problem for word in words), found


def test_two_lines_are_too_few():
    """Without the middle step there are two lines left: a guess."""
    middle = SOURCE[SOURCE.index('[[margin.steps]]\nname = "string"') : SOURCE.index('[[margin.steps]]\nname = "left"')]
    changes = [
        (middle, ""),
        ("allowed - string", "allowed - reading + block"),
        ("table - string", "table - reading + block"),
    ]
    (found,) = faults_of_wrong_line(*changes)
    assert found.field == "of" and "2 lines" in found.problem
