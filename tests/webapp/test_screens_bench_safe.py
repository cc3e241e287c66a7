"""The bench's pages where numbers could hurt: what is refused, what is warned of, and what stays on paper."""

import re

import pytest

from question_bank.units import register
from tests.webapp.page_browser import words_of
from webapp.views.bench import USED_MOST

OVERPULL = "/bench/loads/overpull-left"


def test_ninety_for_ninety_percent_is_refused_and_percent_is_worked(client):
    """500 st is 1,000 klbf; of that 90 % on two links is 450 klbf each, by hand."""
    page = client.get("/bench/hoisting/worn-links?links=2&rating=500+st&left=90").text
    assert "If you mean 90 %, write it so." in words_of(page) and 'class="said"' not in page
    assert '<option value="%"' in page
    words = words_of(client.get("/bench/hoisting/worn-links?links=2&rating=500+st&left=90+%25").text)
    assert "450 klbf" in words and "Rounded down, to the safe side." in words


def test_an_impossible_step_has_no_answer(client):
    numbers = "pipe_pull=300+klbf&line_limit=400+klbf&plate=400+klbf&hook_load=50+klbf&travelling_weight=80+klbf"
    page = client.get(f"{OVERPULL}?{numbers}").text
    assert "the string weight comes to −30 klbf, below zero" in words_of(page).replace("\N{NO-BREAK SPACE}", " ")
    assert 'class="said"' not in page and "Rounded" not in page


def test_the_weakest_part_and_the_rounding_stay_on_paper(client):
    numbers = "pipe_pull=600+klbf&line_limit=400+klbf&plate=450+klbf&hook_load=350+klbf&travelling_weight=30+klbf"
    page = client.get(f"{OVERPULL}?{numbers}").text
    assert '<p class="weakest">The weakest here: room of the line.</p>' in page
    assert '<p class="rounded">Rounded down, to the safe side.</p>' in page  # a .note is not printed
    assert re.search(r'class="paper-name print-only">Pin &amp; Box', page)


@pytest.mark.parametrize(
    ("address", "told", "untold"),
    [
        ("loads/design-factor-of-the-line?nominal_strength=103+klbf&hook_load=900+klbf&lines=8",
         ["Below 1 the line parts", "Compare with your rig’s least factor."], []),
        ("hoisting/elevator-used?string=400+klbf&rating=150+st", ["133.3 %", "is an overload"], []),
        ("tripping/height-in-one-line?example=yes&yield_strength=75000+psi&pipe_modulus=5+in³&tong_arm=4+ft&torque=24000+ft·lbf",
         ["Rounded down.", "At this figure the pipe gives for good."], ["safe side"]),
        ("hoisting/lowering-speed-limit?brake_limit=950+hp&string=394,000+lbf&travelling_weight=49,000+lb&writes=comma",
         ["If you mean 394 000 lbf, write it like that.",
          "Unlike what the course draws", "hot, wet or worn", "for lowering"],
         ["safe side"]),
        ("drilling-line/working-stuck-pipe", ["Leaves out jarring"], ["working stuck pipe,"]),
        ("masts/wind-on-the-board", ["steady or a gust"], ["height and gusts"]),
        ("loads/design-factor-of-the-line?nominal_strength=103+klbf&hook_load=300+klbf&lines=18",
         ["Lines strung: The formula holds for 2 to 16. You wrote 18."], ["Efficiency: Write it"]),
    ],
)  # fmt: skip
def test_what_a_sum_says(client, address, told, untold):
    words = words_of(client.get(f"/bench/{address}").text)
    words = words.replace("\N{NARROW NO-BREAK SPACE}", " ").replace("\N{NO-BREAK SPACE}", " ")
    for each in told:
        assert each in words
    for each in untold:
        assert each not in words


def test_a_source_is_printed_as_it_is_cited(client):
    page = words_of(client.get("/bench/loads/fast-line-pull?writes=comma").text)
    assert "Example 1.1" in page and "Example 1,1" not in page


def test_units_of_the_rig_that_are_not_ours_are_told_what_to_write(client):
    assert "Here that is psi: write psi." in words_of(client.get("/bench?value=500+psig&unit=").text)
    assert "strokes of a pump" in words_of(client.get("/bench?value=60+spm&unit=").text)


@pytest.mark.parametrize("find", ["tonmile", "ton-mile", "ton mile", "Ton-Miles"])
def test_a_sum_is_found_however_its_words_are_parted(client, find):
    assert "/bench/drilling-line/round-trip" in client.get("/bench", query_string={"find": find}).text


def test_numbers_that_nobody_would_write_are_set_apart(client):
    """1.125 in is 1.125 / 63,360 = 0.000017756 mile by hand."""
    page = client.get("/bench?value=1.125+in&unit=").text
    usual, _, odd = page.partition("Very small or very large")
    assert "0.000017756" not in usual and "0.000017756" in odd
    assert "28.575" in usual


def test_the_units_that_are_used_most_stand_first(client):
    page = client.get("/bench").text
    assert page.index('<optgroup label="Used most">') < page.index('<optgroup label="Load">')
    for name, symbol in USED_MOST:
        assert symbol in register(name).units


def test_the_trades_five_come_before_the_other_groups_of_units(client):
    page = client.get("/bench").text
    groups = re.findall(r'<optgroup label="([^"]+)">', page)
    assert groups[:6] == ["Used most", "Load", "Torque", "Pressure", "Length", "Power"]
    assert len(groups) == len(set(groups)) and {"Mass", "Energy", "Density"} <= set(groups[6:])


def test_the_formula_sheet_has_its_name_limits_and_cautions(client):
    page = client.get("/bench/formulas").text
    words = words_of(page)
    assert "Formula sheet · Pin & Box" in words
    for each in ("Holds at 90° only.", "open-ended and all in one mud", "Tongs under pull.", "The agreed pull."):
        assert each in words
    assert 'class="formula-says"' in page and "formula-says no-print" not in page


def test_home_does_not_promise_a_size_of_print(client):
    assert "one sheet" not in words_of(client.get("/").text)
