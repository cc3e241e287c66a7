"""Parts of a figure: spots read from the drawing, names left out, every number graded by what it stands at."""

import re
from xml.etree import ElementTree

import pytest

from question_bank import load_bank, question_from_body
from question_bank.errors import BankError
from question_bank.figures import figure, figure_ids
from question_bank.figures.spots import spots_of
from tests.bank.items import item

ITEMS = [each.id for each in load_bank().values() if each.kind == "part"]
TONG = """
[tong]
kind = "part"
title = "The swing of the tong"
lesson = "safety/dropped-objects"
stem = "Where does the tong swing?"
figure = "red-zone"
part = "tong-arc"
among = ["setback", "v-door", "tong-arc", "stairs"]
caution = "C-02"
source = "Common practice, no source"

[tong.tells]
stairs = "That is the way out."
"""


def test_the_right_number_is_right_and_each_other_one_is_told(bank):
    question = item(TONG).draw(5)
    assert question.grade(question.right[0]).outcome == "right"
    for place in question.places:
        if place.key not in question.right:
            verdict = question.grade(place.key)
            assert (verdict.outcome, verdict.mistake) == ("wrong", f"part-{place.part}")
            assert verdict.message == ("That is the way out." if place.part == "stairs" else verdict.message)
            assert place.name in verdict.message or place.part == "stairs"


@pytest.mark.parametrize("answer", [None, "", "0", "13", "tong-arc", 1, ["1"], {"1": "1"}, True])
def test_what_is_no_number_of_the_drawing_is_not_counted(answer):
    assert item(TONG).draw(5).grade(answer).outcome == "unreadable"


def test_numbers_are_given_in_drawn_order_so_that_they_tell_nothing():
    rights = {item(TONG).draw(seed).right[0] for seed in range(60)}
    assert rights == {"1", "2", "3", "4"}


@pytest.mark.parametrize("item_id", ITEMS)
def test_no_name_is_left_in_the_drawing_or_said_of_a_place(bank, item_id):
    """Neither in the labels, nor for those who have the drawing read out."""
    for seed in range(5):
        question = bank[item_id].draw(seed)
        texts = " ".join(ElementTree.fromstring(question.svg).itertext()).casefold()
        for place in question.places:
            assert not re.search(rf"\b{re.escape(place.name.casefold())}\b", texts)
            words = [each for each in re.findall(r"\w+", place.name.casefold()) if len(each) > 3]
            assert not set(words) & set(re.findall(r"\w+", place.where.casefold())), place


@pytest.mark.parametrize("item_id", ITEMS)
def test_it_is_kept_and_shown_again_word_for_word(bank, item_id):
    question = bank[item_id].draw(11)
    assert question_from_body(question.body()) == question


@pytest.mark.parametrize("item_id", ITEMS)
def test_two_drawings_on_one_page_share_no_id(bank, item_id):
    question = bank[item_id].draw(11)
    ids = [
        set(re.findall(r' id="([^"]+)"', text))
        for text in (question.drawing("a"), question.drawing("b"), figure(question.figure).svg)
    ]
    assert ids[0] and not (ids[0] & ids[1] or ids[0] & ids[2])
    used = set(re.findall(r"url\(#([\w-]+)\)", question.drawing("a")))
    assert used <= ids[0]


@pytest.mark.parametrize("id", [each for each in figure_ids() if figure(each).spots])
def test_spots_stand_inside_the_drawing_and_are_not_shown_in_a_lesson(id):
    found = figure(id)
    _, _, width, height = map(float, re.search(r'viewBox="([^"]+)"', found.svg)[1].split())
    for spot in found.spots:
        assert 14 <= spot.x <= width - 14 and 14 <= spot.y <= height - 14, spot
        if spot.at:
            assert 0 < spot.at[0] < width and 0 < spot.at[1] < height, spot
            assert max(abs(spot.x - spot.at[0]), abs(spot.y - spot.at[1])) > 18, "the number would hide its part"
    assert "--spot" not in found.svg and "--spot" not in found.unnamed
    assert len({each.part for each in found.spots}) == len({each.name for each in found.spots}) == len(found.spots)


@pytest.mark.parametrize("old, new, field, words", [
    ('figure = "red-zone"', 'figure = "blue-zone"', "figure", "no figure"),
    ('figure = "red-zone"', 'figure = "three-weights"', "among", "no spot"),
    ('part = "tong-arc"', 'part = "tong"', "part", "no spot 'tong'"),
    ('"tong-arc", "stairs"]', '"stairs"]', "among", "the right one among them"),
    ('"setback", "v-door", "tong-arc", "stairs"]', '"tong-arc", "stairs"]', "among", "4 to 12"),
    ("stairs = ", "steps = ", "tells", "no spot 'steps'"),
])  # fmt: skip
def test_a_fault_names_its_field(old, new, field, words):
    with pytest.raises(BankError, match=words) as caught:
        item(TONG, (old, new))
    assert field in str(caught.value)


@pytest.mark.parametrize("spot, words", [
    ('<circle id="x--spot-a" cx="1" cy="2"><title>a</title></circle>', "a <title> and a <desc>"),
    ('<circle id="y--a" cx="1" cy="2"><title>a</title><desc>b</desc></circle>', "needs an id"),
    ('<circle id="x--spot-a" cy="2"><title>a</title><desc>b</desc></circle>', "numbers for cx"),
    ('<circle id="x--spot-a" cx="1" cy="2" data-at="3"><title>a</title><desc>b</desc></circle>', "two for data-at"),
    ('<circle id="x--spot-a" cx="1" cy="2" data-at="3 b"><title>a</title><desc>b</desc></circle>', "two for data-at"),
])  # fmt: skip
def test_a_spot_that_lacks_something_is_refused(spot, words):
    root = ElementTree.fromstring(f'<svg xmlns="http://www.w3.org/2000/svg"><g id="x--spots">{spot}</g></svg>')
    with pytest.raises(ValueError, match=words):
        spots_of("x", root)
