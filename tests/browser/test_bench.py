"""The bench at phone and desk width, with scripts and without: convert, work own numbers, pass the link on, print."""

import re

import pytest
from playwright.sync_api import Error

pytestmark = pytest.mark.browser

WIDTHS_AND_SCRIPTS = [
    pytest.param(width, scripts, id=f"{width} {'scripts' if scripts else 'no scripts'}")
    for width in (390, 1280)
    for scripts in (True, False)
]
A4_POINTS = (595, 842)
PAGE = re.compile(rb"/Type\s*/Page\b(?!s)")
BOX = re.compile(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)")
SMALLEST = """() => Math.min(...[...document.querySelectorAll('.formula-sheet *')]
    .filter(each => each.offsetParent && [...each.childNodes].some(node => node.nodeType === 3 && node.data.trim()))
    .map(each => parseFloat(getComputedStyle(each).fontSize)))"""
PIXELS_A_POINT = 96 / 72


def plain(text: str) -> str:
    return " ".join(text.replace("\N{NO-BREAK SPACE}", " ").split())


def wider_than_the_screen(page) -> int:
    page.wait_for_load_state()  # before the style sheet is there, nothing has its width
    return page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")


@pytest.mark.parametrize(("width", "scripts"), WIDTHS_AND_SCRIPTS)
def test_a_number_is_converted(open_page, width, scripts):
    page = open_page(width, scripts)
    page.goto("/bench")
    page.get_by_label("Quantity").fill("44,612.37 lb")
    page.get_by_label("Unit", exact=True).select_option("load/kN")
    page.get_by_role("button", name="Convert").click()
    assert page.locator("#h-load").inner_text() == "As a load"
    assert page.locator("tr.given .num").inner_text() == "44,612.37"
    assert "You typed lb and chose kN" in page.get_by_role("status").inner_text()
    assert "198.45" in page.locator(".companions").inner_text()  # 44,612.37 × 4.448222 / 1,000 by hand
    assert wider_than_the_screen(page) <= 0


@pytest.mark.parametrize(("width", "scripts"), WIDTHS_AND_SCRIPTS)
def test_own_numbers_are_worked_and_the_link_is_passed_on(open_page, width, scripts):
    page = open_page(width, scripts)
    page.goto("/bench")
    page.locator(".group", has_text="Units and the rating plate").locator("summary").click()
    page.get_by_role("link", name="string under the block").click()
    page.get_by_label("Hook load", exact=True).fill("1,400")
    page.get_by_label("Hook load: Unit").select_option("kN")
    page.get_by_label("Travelling weight", exact=True).fill("44,000 lb")
    page.get_by_role("button", name="Work it out").click()
    # By hand: 44,000 lbf = 195.72 kN; 1,400 − 195.72 = 1,204.28 kN = 270.73 klbf.
    answer = "270.7 klbf 1,204 kN"
    assert plain(page.locator(".said").inner_text()) == answer
    assert page.url.endswith("#answer")
    working = plain(page.locator(".working").first.inner_text())
    assert "1,400 kN × 0.224809" in working and "= 44,000 lb / 1,000" in working
    assert page.locator(".caution").is_visible()
    assert wider_than_the_screen(page) <= 0
    page.locator(".working-box summary").click()
    assert "1,204 kN" in plain(page.locator(".working").last.inner_text())

    link = page.get_by_role("link", name="Link with these numbers").get_attribute("href")
    other = open_page(width, scripts)
    other.goto(link)
    assert plain(other.locator(".said").inner_text()) == answer
    assert other.get_by_label("Hook load", exact=True).input_value() == "1400"
    assert other.get_by_label("Hook load: Unit").input_value() == "kN"


@pytest.mark.parametrize(("width", "scripts"), WIDTHS_AND_SCRIPTS)
def test_a_silly_number_gets_a_sentence(open_page, width, scripts):
    page = open_page(width, scripts)
    page.goto("/bench/safety/drop-energy")
    page.get_by_label(re.compile("^(Weight|Mass)$")).fill("5 lb")
    page.get_by_label("Height", exact=True).fill("-3' 6\"")
    page.get_by_role("button", name="Work it out").click()
    assert "Height: This can’t be below 0" in page.get_by_role("alert").inner_text()
    assert page.locator(".said").count() == 0
    page.get_by_label("Height", exact=True).fill("3' 6\"")
    page.get_by_role("button", name="Work it out").click()
    assert "17.5 ft·lbf" in plain(page.locator(".said").inner_text())  # 5 × 3.5 by hand


def on_letter_paper(page) -> bytes:
    """The page as a PDF. On a busy machine one print in a hundred fails: it is asked for twice."""
    try:
        return page.pdf(format="Letter")
    except Error:
        page.wait_for_load_state("networkidle")
        return page.pdf(format="Letter")


def test_each_example_prints_on_one_page(open_page):
    """On US Letter, the shorter of the two papers."""
    page = open_page(1280)
    page.goto("/bench")
    sums = [each.get_attribute("href") for each in page.locator(".group a").all()]
    assert len(sums) >= 5
    long = []
    for address in sums:
        page.goto(address)
        page.get_by_role("link", name="Work the example").click()
        if len(PAGE.findall(on_letter_paper(page))) != 1:
            long.append(address)
    assert long == []


def test_a_printed_sum_has_what_it_needs_and_no_form(open_page):
    page = open_page(390)
    page.goto("/bench/units/string-under-block?hook_load=300+klbf&travelling_weight=40+klbf")
    page.emulate_media(media="print")
    for selector in (
        ".paper-name",
        ".said",
        ".numbers-table",
        ".working >> nth=0",
        ".caution",
        ".source",
        ".foot p:has-text('Training aid only')",
        ".foot .print-only",
    ):
        assert page.locator(selector).is_visible(), selector
    for selector in (".own-numbers", ".places", ".bar", ".working-box"):
        assert not page.locator(selector).is_visible(), selector


@pytest.mark.parametrize("show", ["both", "us", "metric"])
def test_the_formula_sheet_prints_on_two_sides_of_a4_in_type_of_seven_points(open_page, show):
    """One for each part, with meanings, limits and cautions. What goes on paper is listed in formula_sheet.py."""
    page = open_page(1280)
    page.goto(f"/bench/formulas?show={show}")
    printed = page.pdf(prefer_css_page_size=True)
    assert len(PAGE.findall(printed)) == 2
    assert {(round(float(wide)), round(float(high))) for wide, high in BOX.findall(printed)} == {A4_POINTS}
    page.emulate_media(media="print")
    assert page.evaluate(SMALLEST) >= 7 * PIXELS_A_POINT - 0.01
    assert page.locator(".formula-aid").count() == page.locator(".formula-side").count() == 2


def test_the_formula_sheet_fits_a_phone(open_page):
    page = open_page(390)
    page.goto("/bench/formulas")
    assert wider_than_the_screen(page) <= 0
    page.get_by_role("link", name="Metric units").click()
    assert page.get_by_role("link", name="Metric units").get_attribute("aria-current") == "true"
