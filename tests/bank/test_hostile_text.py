"""Any text at all ends in a finite quantity or in a reason, at a cost that a phone would not notice."""

import contextlib
import math
import random
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from question_bank.reading import LONGEST, AnswerError, Quantity, read_quantity

USUAL = "44,600 lb"
DEAREST = 30
ALPHABET = (
    "0123456789" * 3 + "..,,  ''\"\"--++//^*xX×eE½¼⅝⁄−–—’‘”“′″°%()[]{}_:;!?#$&|\\~`@=<>" + "ftinlbkNmstdaJpsrguohy"
    "٠٤٩۳४４５Ⅻ四²³¹⁰⁵⁻₂①½٫٬" + "\x00\x07\t\n\r\x1b\x7f\u0085\u2028" + "🔧🛢👷\u200d\ufe0f" "\u0301\u0308\u20dd"
    "\u202a\u202e\u2066\u200f\u200b\ufeff\u00a0\u2009\u202f"
)  # fmt: skip
ADVERSARIAL = [
    "1" * 64,
    "1 " * 32,
    "(" * 64,
    "-" * 64,
    "+-" * 32,
    "1'" * 20,
    "1/1" * 20,
    "10^" * 20,
    "1e" * 32,
    "1," * 32,
    "1." * 32,
    "1,234" * 12,
    "1 234" * 12,
    "123 " * 16,
    "123," * 16,
    "111,111,111,111,111,111,111,111,111,111,111,111,111,111,111,111",
    "111 111 111 111 111 111 111 111 111 111 111 111 111 111 111 111x",
    "½" * 64,
    "5½" * 32,
    "10⁵" * 21,
    "10⁻" * 21,
    "1 × 10^5 " * 7,
    "1' 1\" " * 9,
    "1' 1 1/1" * 8,
    "1ft" * 21,
    "''" * 32,
    "\"'" * 32,
    " " * 64,
    "\t" * 64,
    "0." + "0" * 61 + "1",
    "9" * 15 + "." + "9" * 48,
    "5 " + "k" * 62,
    "5 " + "- " * 31,
    "5" + "·" * 63,
    "٤" * 64,
    "🔧" * 64,
    "\u0301" * 64,
    "1e308",
    "1e-308",
    "1×10^-999",
    "-1e999 lb",
]


def ends_well(text, asked, comma):
    """Read the text; fail on anything but a finite quantity that can be shown in one line, or an AnswerError."""
    try:
        read = read_quantity(text, asked, comma)
    except AnswerError as error:
        assert error.outcome in ("unreadable", "other-dimension", "ask-back")
        assert error.message and len(error.message) < 400
        return
    assert isinstance(read, Quantity) and math.isfinite(read.value) and math.isfinite(read.base)
    assert len(read.shown(comma)) <= 48


def cost(text, asked="lbf", comma=False, repeats=7, loops=20):
    """Seconds of one reading: the best of several runs, which a busy neighbour cannot make look dearer."""

    def once():
        begin = time.perf_counter()
        for _ in range(loops):
            with contextlib.suppress(AnswerError):
                read_quantity(text, asked, comma)
        return (time.perf_counter() - begin) / loops

    return min(once() for _ in range(repeats))


def times_the_usual(text, comma=False, enough=DEAREST / 2):
    """The cost of a text against the usual answer's, measured side by side; measured again before it is called dear."""
    ratio = math.inf
    for _ in range(5):
        ratio = min(ratio, cost(text, comma=comma) / cost(USUAL))
        if ratio <= enough:
            break
    return ratio


@settings(max_examples=1500, deadline=None, derandomize=True)
@given(st.text(alphabet=sorted(set(ALPHABET)), max_size=LONGEST), st.sampled_from(["lbf", "ft", "%"]), st.booleans())
def test_any_text_ends_in_a_finite_quantity_or_a_reason(text, asked, comma):
    ends_well(text, asked, comma)


def test_texts_that_look_like_numbers_end_well_too():
    """Twenty thousand texts stitched from pieces of numbers, since pure chance seldom gets past the first sign."""
    pieces = [
        "1", "0", "44", "600", "1234", ",", ".", " ", "-", "−", "+", "1/2", "/", "½", "e5", "e-9", "e300", " x 10^",
        "×10⁵", "'", '"', "′", " ft ", " in", " lb", "kip", "ton", " kN", "²", "٤", "\u202e", "*", "^", "°",
    ]  # fmt: skip
    picks = random.Random(20_001)
    for _ in range(20_000):
        text = "".join(picks.choice(pieces) for _ in range(picks.randint(1, 8)))[:LONGEST]
        ends_well(text, picks.choice(["lbf", "ft"]), picks.random() < 0.5)


@pytest.mark.parametrize("text", ADVERSARIAL, ids=[f"{each[:12]!r} {len(each)}" for each in ADVERSARIAL])
def test_an_adversarial_text_ends_well_and_costs_little(text):
    """At no more than 30 times the cost of reading '44,600 lb' in the same run."""
    for comma in (False, True):
        ends_well(text, "lbf", comma)
        ends_well(text, "ft", comma)
        assert times_the_usual(text, comma) <= DEAREST


def test_random_texts_cost_little():
    """The dearest of 400 random texts over the nasty alphabet stays within 30 times the usual answer."""
    picks = random.Random(64)
    texts = ["".join(picks.choice(ALPHABET) for _ in range(LONGEST)) for _ in range(400)]
    quick = {text: cost(text, repeats=2, loops=2) for text in texts}
    for text in sorted(texts, key=quick.get)[-10:]:
        assert times_the_usual(text) <= DEAREST, text


@pytest.mark.parametrize("length", [LONGEST + 1, 10_000, 1_000_000])
@pytest.mark.parametrize("piece", ["1", "1 ", "½", "١", "-", "(", "10⁵"])
def test_a_long_text_is_refused_before_anything_is_computed(piece, length):
    """A text of a megabyte is refused as quickly as one of 65 signs."""
    text = (piece * length)[:length]
    with pytest.raises(AnswerError, match="longer than 64") as caught:
        read_quantity(text, "lbf")
    assert caught.value.outcome == "unreadable"
    assert times_the_usual(text, enough=1) <= 1


def test_a_text_of_exactly_the_longest_length_is_read():
    text = "44600" + " " * (LONGEST - 8) + "lbf"
    assert len(text) == LONGEST
    assert read_quantity(text, "lbf").value == 44_600
