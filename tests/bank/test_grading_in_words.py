"""Verdicts on choices, orders, matches and cards; and that nothing a learner sends ever raises."""

import math
from collections import Counter

import pytest

from question_bank.verdict import COUNTED, NOT_COUNTED
from tests.bank.items import CARD, CHOICE, ESTIMATE, GAUGE, MATCH, ORDER, SOUND, item

SEEDS = 200
EACH_KIND = {
    "numeric": SOUND, "estimate": ESTIMATE, "gauge": GAUGE,
    "choice": CHOICE, "order": ORDER, "match": MATCH, "card": CARD,
}  # fmt: skip
RUBBISH = [
    None, "", " ", "zz", "1 or 2", "1" * 100_000, 0, 1, -1, 1.5, math.nan, math.inf, True, False, b"1", b"\xff",
    [], ["1"], ["zz"] * 5, [1, 2, 3, 4, 5], [None] * 5, [["1"], ["2"], ["3"], ["4"], ["5"]], ["1", "1", "1", "1", "1"],
    ["1", "2", "3", "4", "5", "6"], [{}] * 5, [[]], ["1"] * 10_000,
    (), ("1", "2", "3", "4", "5"), set(), {"1"}, frozenset({"1", "2"}),
    {}, {"a": "1"}, {"a": None}, {"a": []}, {"a": {}}, {1: 1}, {None: "1"}, {"zz": "1"},
    dict.fromkeys("abcd", "zz"), {key: ["1"] for key in "abcd"}, dict.fromkeys("abcd", 1), dict.fromkeys("abcd"),
    object(), Ellipsis, print,
]  # fmt: skip


@pytest.mark.parametrize("kind", EACH_KIND)
def test_nothing_that_a_learner_sends_raises(kind):
    """Whatever comes, there is a verdict, and what is no answer is not counted."""
    question = item(EACH_KIND[kind]).draw(3)
    for answer in RUBBISH:
        for comma in (False, True):
            verdict = question.grade(answer, comma)
            assert verdict.outcome in COUNTED + NOT_COUNTED
            if not question.is_typed:
                assert verdict.outcome == "unreadable" and verdict.message, repr(answer)[:60]


@pytest.mark.parametrize("answer", [None, [], {}, True, "zz", b"200", math.nan, object()])
def test_what_is_no_number_is_not_counted(answer):
    assert item(SOUND).draw(3).grade(answer).outcome == "unreadable"


def test_a_choice_is_right_or_tells_why_it_misleads():
    question = item(CHOICE, ("source =", 'why = "On a plate the ton is short."\nsource =')).draw(5)
    by_text = {each.text: each.key for each in question.options}
    right = question.grade(by_text["The short ton"])
    assert (right.outcome, right.message, right.mistake) == ("right", "On a plate the ton is short.", None)
    wrong = question.grade(by_text["The tonne"])
    assert (wrong.outcome, wrong.message, wrong.mistake) == ("wrong", "That is 1,000 kg.", "option-c")
    assert wrong.read_as == "The tonne"


def test_a_mistake_in_a_choice_keeps_its_name_whatever_the_draw():
    """The record counts 'option-b' over many draws, so the name follows the text and not its place."""
    named = set()
    for seed in range(30):
        question = item(CHOICE).draw(seed)
        key = next(each.key for each in question.options if each.text == "The long ton")
        named.add(question.grade(key).mistake)
    assert named == {"option-b"}


def in_order(question, *texts):
    keys = {each.text: each.key for each in question.steps}
    return [keys[text] for text in texts]


@pytest.mark.parametrize("texts, outcome, words", [
    ("Clean Dope Stab Spin Torque", "right", "clean thread"),
    ("Dope Clean Stab Spin Torque", "right", "clean thread"),
    ("Clean Dope Stab Torque Spin", "wrong", "Step 4 is the first one out of place: “Torque”"),
    ("Dope Clean Spin Stab Torque", "wrong", "Step 3 is the first one out of place: “Spin”"),
    ("Stab Clean Dope Spin Torque", "wrong", "Step 1 is the first one out of place: “Stab”"),
])  # fmt: skip
def test_an_order_is_right_where_it_is_an_accepted_one(texts, outcome, words):
    """Two orders are accepted; a wrong one is held against the accepted one that it agrees with longest."""
    question = item(ORDER).draw(5)
    verdict = question.grade(in_order(question, *texts.split()))
    assert verdict.outcome == outcome and words in verdict.message
    assert verdict.read_as == " → ".join(texts.split())


def test_a_drawn_order_is_never_an_answer_already():
    for seed in range(SEEDS):
        question = item(ORDER).draw(seed)
        assert [each.key for each in question.steps] not in question.accepted


def partners(question, **changed):
    lefts = {each.text: each.key for each in question.left}
    rights = {each.text: each.key for each in question.right}
    wanted = {"lbf": "a force", "kN": "a force", "kg": "a mass", "ft": "a length"} | changed
    return {lefts[left]: rights[right] for left, right in wanted.items()}


def test_a_match_is_right_where_every_line_has_its_partner():
    question = item(MATCH).draw(5)
    assert len(question.right) == 3, "a right text that two lefts share is offered once"
    assert question.grade(partners(question)).outcome == "right"
    wrong = question.grade(partners(question, kg="a force", ft="a mass"))
    assert wrong.outcome == "wrong" and "kg" in wrong.message and "ft" in wrong.message and "lbf" not in wrong.message


def test_a_match_with_a_line_left_open_is_not_counted():
    question = item(MATCH).draw(5)
    answer = partners(question)
    for key in list(answer):
        less = {left: right for left, right in answer.items() if left != key}
        assert question.grade(less).outcome == "unreadable"
        assert question.grade({**less, key: ""}).outcome == "unreadable"


@pytest.mark.parametrize("mark, outcome", [("could-not", "wrong"), ("part", "close"), ("said", "right")])
def test_a_card_is_marked_by_the_hand(mark, outcome):
    verdict = item(CARD).draw(1).grade(mark)
    assert (verdict.outcome, verdict.counted) == (outcome, True)


def evenly(counts, ways):
    """Whether each of so many ways came up often enough for an even draw: at least half its share."""
    return len(counts) == ways and min(counts.values()) >= SEEDS / ways / 2


def test_the_key_of_the_right_option_tells_nothing(bank):
    """Over 200 seeds each place holds the right option about as often; keys are 1, 2, 3 … from the top."""
    for each in bank.values():
        if each.kind == "choice":
            drawn = [each.draw(seed) for seed in range(SEEDS)]
            assert all([one.key for one in q.options] == [str(n) for n in range(1, len(q.options) + 1)] for q in drawn)
            assert evenly(Counter(question.right for question in drawn), len(drawn[0].options)), each.id


def test_the_key_of_a_step_tells_nothing(bank):
    for each in bank.values():
        if each.kind == "order":
            drawn = [each.draw(seed) for seed in range(SEEDS)]
            assert all([one.key for one in q.steps] == [str(n) for n in range(1, len(q.steps) + 1)] for q in drawn)
            for place in range(len(drawn[0].steps)):
                assert evenly(Counter(question.accepted[0][place] for question in drawn), len(drawn[0].steps)), each.id


def test_the_key_of_a_partner_tells_nothing(bank):
    """Neither the key nor the place of a left text leads to its right one."""
    for each in bank.values():
        if each.kind == "match":
            drawn = [each.draw(seed) for seed in range(SEEDS)]
            ways = len(drawn[0].right)
            for key in drawn[0].pairs:
                assert evenly(Counter(question.pairs[key] for question in drawn), ways), each.id
            for place in range(len(drawn[0].left)):
                assert evenly(Counter(q.pairs[q.left[place].key] for q in drawn), ways), each.id


def test_a_seed_of_any_size_is_drawn(bank):
    for seed in (0, -1, 2**31, 2**63 - 1, 2**64):
        assert bank["safety.tool-aloft"].draw(seed) == bank["safety.tool-aloft"].draw(seed)
