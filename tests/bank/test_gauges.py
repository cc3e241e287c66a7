"""Dials: read from the picture alone they give the key; they can be read on a phone, and by who can't see them."""

import re
from itertools import combinations, pairwise
from xml.etree import ElementTree

import pytest

from question_bank import load_bank
from question_bank.errors import BankError
from question_bank.numbers import in_comma
from tests.bank.dial_reader import SVG, Picture
from tests.bank.items import GAUGE, faults, item
from tests.bank.pencil import pencil

GAUGES = [each.id for each in load_bank().values() if each.kind == "gauge"]
PHONE = 326 / 360
"""A dial of 360 units in a question on a phone of 390 px: 32 px go to the page's sides, 32 to the question's."""


@pytest.fixture(scope="module", params=GAUGES)
def questions(request, bank):
    """Two hundred questions of each shipped gauge item, in both systems."""
    return [bank[request.param].draw(seed, system) for system in ("us", "metric") for seed in range(100)]


@pytest.fixture(scope="module")
def pictures(questions):
    return [Picture(each.dial) for each in questions]


def test_read_from_the_picture_alone_every_dial_gives_its_key(questions, pictures):
    """Needle against numbered marks and numbers, to a hundredth of the tolerance."""
    for question, picture in zip(questions, pictures, strict=True):
        assert picture.reading() == pytest.approx(question.value, abs=question.half_width / 50), question.seed
        assert question.grade(f"{picture.reading():.6g}").outcome == "right"


def test_the_spaces_that_are_drawn_are_the_spaces_that_the_working_counts(questions, pictures):
    for question, picture in zip(questions, pictures, strict=True):
        counted = re.search(r"\+ ([\d.]+) ×", question.working[1].put_in)[1]
        assert picture.spaces_past() == pytest.approx(float(counted), abs=0.02), question.seed


def test_every_dial_is_drawn_for_some_seed(bank, questions):
    """An item with several dials draws each of them."""
    drawn = {question.unit for question in questions}
    assert drawn == {dial.unit.symbol for dial in bank[questions[0].item].dials}


def test_the_needle_reaches_into_the_marks_and_is_over_no_letter(pictures):
    for picture in pictures[::3]:
        outer, inner = picture.strokes("dial-mark")[0][1:]
        assert inner < picture.tip <= outer + 0.05
        for kind in ("dial-number", "dial-unit", "dial-word"):
            assert not any(picture.covers(text) for text in picture.texts(kind)), kind


def test_it_can_be_read_on_a_phone(pictures):
    """Letters of 14 px at least, half a small space of 4 px at least, and nothing cut off."""
    for picture in pictures:
        for kind in ("dial-number", "dial-unit", "dial-word"):
            for text in picture.texts(kind):
                assert text.size * PHONE >= 14
                assert min(text.left, text.top, picture.wide - text.right, picture.high - text.bottom) >= 0, text
        angles = sorted(each[0] for of in ("dial-mark", "dial-mark-numbered") for each in picture.strokes(of))
        step = min(later - one for one, later in pairwise(angles))
        assert step / 2 / 360 * 2 * 3.1416 * picture.tip * PHONE >= 4


def test_no_two_texts_of_a_dial_overlap(pictures):
    for picture in pictures[::10]:
        texts = [each for kind in ("dial-number", "dial-unit", "dial-word") for each in picture.texts(kind)]
        for one, other in combinations(texts, 2):
            apart = one.right < other.left or other.right < one.left or one.bottom < other.top or other.bottom < one.top
            assert apart, (one, other)


def test_its_colours_come_from_the_page(questions):
    for question in questions[::10]:
        for each in ElementTree.fromstring(question.dial).iter():
            assert not each.attrib.keys() & {"style", "stroke", "stroke-width", "font-family"}
            assert each.get("fill", "none") == "none"


def test_who_cannot_see_it_is_told_what_an_eye_takes_from_it(questions):
    """Unit, numbers, spaces, and where the needle stands; neither what a space is worth nor the reading itself."""
    for question in questions:
        root = ElementTree.fromstring(question.dial)
        title, told = root.findtext(f"{SVG}title"), root.findtext(f"{SVG}desc")
        named = {each.get("id") for each in root.iter() if each.get("id")}
        assert root.get("role") == "img" and set(root.get("aria-labelledby").split()) == named
        assert question.unit in title and question.unit in told
        passed, upto, past = re.search(r"between (\d+) and (\d+), ([\d½]+) small spaces? past", told).groups()
        spaces = int(re.search(r"there are (\d+) small spaces", told)[1])
        count = float(past.replace("½", ".5"))
        assert float(passed) + count * (float(upto) - float(passed)) / spaces == pytest.approx(question.value)
        reading = f"{question.value:g}"
        assert reading not in re.findall(r"[\d.]*\d", f"{title} {told}"), "the reading is given away"


def test_no_needle_stands_on_a_number(questions):
    """There would be nothing to count, and the numbers in the description would give it away."""
    for question in questions:
        assert float(re.search(r"\+ ([\d.]+) ×", question.working[1].put_in)[1]) > 0


def test_the_key_is_right_for_both_hands_and_in_every_unit(questions):
    for question in questions:
        assert question.grade(question.key_text).outcome == "right"
        assert question.grade(in_comma(question.key_text), comma=True).outcome == "right"
        beside = re.search(r"\((.*)\)", question.key_both)
        assert beside is None or question.grade(beside[1]).outcome == "right"


def test_every_known_slip_is_met_by_name_and_stands_apart(questions):
    """Four tolerances from the reading, two from each other one; of two hundred needles most have two at least."""
    for question in questions:
        for slip in question.mistakes:
            assert abs(slip.value - question.value) >= 4 * question.half_width * (1 - 1e-9)
            assert question.grade(f"{slip.value:.12g}").mistake == slip.name
        for one, other in combinations(question.mistakes, 2):
            assert abs(one.value - other.value) >= 2 * question.half_width * (1 - 1e-9)
    assert sum(len(question.mistakes) >= 2 for question in questions) > len(questions) / 2


def test_every_slip_is_one_that_the_record_can_tell_of(bank, questions):
    known = {each.name for each in bank[questions[0].item].mistakes}
    assert {slip.name for question in questions for slip in question.mistakes} <= known


def test_the_working_can_be_followed_with_a_pencil(questions):
    for question in questions:
        for line in question.working:
            assert pencil(line.put_in) == pytest.approx(pencil(line.result), rel=1e-9)
        assert question.working[-1].result == question.key_text


def test_the_units_of_the_trade_are_read():
    drawn = {row.unit.symbol for each in load_bank().values() if each.kind == "gauge" for row in each.dials}
    assert drawn >= {"klbf", "kN", "kdaN", "t", "kft·lbf", "kN·m", "psi", "bar"}
    assert len(GAUGES) >= 5


@pytest.fixture(scope="module")
def at_285():
    """The needle of the sample dial at 285 klbf: three and a half spaces of 10 past 250."""
    return next(each for each in (item(GAUGE).draw(seed, "us") for seed in range(300)) if each.value == 285)


@pytest.mark.parametrize("typed, outcome, mistake", [
    ("285", "right", None), ("280", "right", None), ("290", "right", None), ("279.9", "wrong", None),
    ("290.1", "wrong", None), ("1,268 kN", "right", None), ("285 ft", "other-dimension", None),
    ("253.5", "wrong", "space-taken-for-1"), ("265", "wrong", "counted-back-from-the-next-number"),
    ("2850", "wrong", "ten-times-too-much"),
    ("28.5", "wrong", "a-tenth-of-it"), ("285 kN", "wrong", "other-unit"), ("300", "wrong", None),
])  # fmt: skip
def test_half_a_space_either_side_is_right_and_slips_have_names(at_285, typed, outcome, mistake):
    """By hand: 250 + 3.5 × 1 = 253.5; counted back, 300 − 35 = 265. 250 + 3.5 × 5 = 267.5 lies under two spaces off."""
    verdict = at_285.grade(typed)
    assert (verdict.outcome, verdict.mistake) == (outcome, mistake)


def test_a_needle_counted_back_from_the_next_number_is_told_so():
    """At 260 klbf, one space past 250: four spaces of 10 are left to 300, and 290 is one back from it."""
    question = next(each for each in (item(GAUGE).draw(seed, "us") for seed in range(300)) if each.value == 260)
    verdict = question.grade("290")
    assert verdict.mistake == "counted-back-from-the-next-number" and "count on from there" in verdict.message


def test_the_unspoilt_gauge_has_no_fault():
    assert faults(GAUGE) == []


@pytest.mark.parametrize("old, new, field", [
    ('systems = ["us"]', 'systems = ["metric"]', "dials"),
    ('systems = ["us"]', 'systems = ["uk"]', "dials 1 systems"),
    ('unit = "klbf"', 'unit = "psi"', "dials"),
    ('unit = "klbf"', 'unit = "kips"', "dials 1 unit"),
    ("mark = 10", "mark = 0", "dials 1"),
    ("mark = 10", "mark = -10", "dials 1"),
    ("mark = 10", "mark = 15", "dials 1 numbered"),
    ("mark = 10", "mark = 5", "dials 1 mark"),
    ("mark = 10", "mark = 50", "dials 1 numbered"),
    ("numbered = 50", "numbered = 30", "dials 1 to"),
    ("to = 400", "to = 410", "dials 1 to"),
    ("to = 400", "to = 4000", "dials 1 to"),
    ("from = 0\n", "from = 25\n", "dials 1 to"),
    ("from = 0\n", "from = -50\n", "dials 1"),
    ("reads = { from = 105, to = 385 }", "reads = { from = 103, to = 385 }", "dials 1 reads"),
    ("reads = { from = 105, to = 385 }", "reads = { from = 385, to = 105 }", "dials 1 reads"),
    ("reads = { from = 105, to = 385 }", "reads = { from = 105, to = 405 }", "dials 1 reads"),
    ("taken_for = [1, 5]", "taken_for = [10]", "dials 1 taken_for"),
    ("taken_for = [1, 5]", "taken_for = [1, 1]", "dials 1 taken_for"),
    ("taken_for = [1, 5]", "taken_for = []", "dials 1 taken_for"),
    ('word = "weight"', "", "word"),
])  # fmt: skip
def test_a_dial_that_cannot_be_drawn_or_read_is_refused(old, new, field):
    with pytest.raises(BankError) as caught:
        item(GAUGE, (old, new))
    assert caught.value.field == field


@pytest.mark.parametrize("old, new, field", [
    ('reading = "285 klbf"', 'reading = "295 klbf"', "dials 1 check marks"),
    ('reading = "285 klbf"', 'reading = "285 kN"', "dials 1 check reading"),
    ('reading = "285 klbf"', 'reading = "300 klbf"', "dials 1 check reading"),
    ("after = 250", "after = 200", "dials 1 check after"),
    ("before = 300", "before = 350", "dials 1 check before"),
    ("marks = 3.5", "marks = 3", "dials 1 check marks"),
    ("way = 0.7125", "way = 0.72", "dials 1 check way"),
    ("to = 400", "to = 450", "dials 1 check way"),
    ("mark = 10", "mark = 25", "dials 1 reads"),
    ("to = 1800", "to = 2000", "dials 2 check way"),
    ("reads = { from = 475", "reads = { from = 525", "dials 2 reads"),
    ('by = "by hand: 250 + 3.5 × 10"', 'by = ""', "dials 1 check by"),
])  # fmt: skip
def test_a_dial_that_its_hand_worked_reading_does_not_fit_is_found(old, new, field):
    found = faults(GAUGE, (old, new))
    assert found and found[0].field == field, found
