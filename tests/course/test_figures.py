"""Drawn figures: colours from the page, names that don't clash, text that can be read, and drawings that are true."""

import re
from xml.etree import ElementTree

import pytest

from question_bank.figures import HERE, FigureError, figure, figure_ids

SVG = "{http://www.w3.org/2000/svg}"
CLASSES = {
    "figure", "fig-line", "fig-fill", "fig-fill-2", "fig-accent", "fig-hatch", "fig-text", "fig-leader", "fig-dot",
}  # fmt: skip
FORBIDDEN = re.compile(r"\bstyle\b|<style|#[0-9a-fA-F]{3,8}\b(?!-)|rgb|hsl|<script|\bon\w+=|href")
FIGURES = figure_ids()
every_figure = pytest.mark.parametrize("id", FIGURES)


def tree(id: str) -> ElementTree.Element:
    return ElementTree.fromstring(figure(id).svg)


def test_the_figures_of_the_first_part_are_there():
    assert {"red-zone", "three-weights"} <= set(FIGURES)


@pytest.mark.parametrize("id", ["no-such-figure", "../figures/red-zone", "", "red-zone.svg", "Red-Zone"])
def test_an_unknown_figure_is_refused(id):
    with pytest.raises(FigureError, match="There is no figure"):
        figure(id)


@every_figure
def test_it_is_told_to_those_who_cannot_see_it(id):
    found, root = figure(id), tree(id)
    assert root.get("role") == "img"
    assert root.get("aria-labelledby").split() == [f"{id}--title", f"{id}--desc"]
    assert 10 <= len(found.title) <= 80 and len(found.description) > 150
    assert root.find(f"{SVG}title").get("id") == f"{id}--title"
    assert "{{" not in found.svg


@every_figure
def test_its_colours_come_from_the_page(id):
    source = (HERE / f"{id}.svg").read_text(encoding="utf-8")
    assert not FORBIDDEN.search(source.replace("url(#", "url("))
    names = set()
    for element in tree(id).iter():
        names |= set((element.get("class") or "").split())
        for paint in ("fill", "stroke"):
            assert re.fullmatch(r"none|currentColor|url\(#[\w-]+\)", element.get(paint, "none")), (element.tag, paint)
        assert element.get("stroke-width") is None
    assert names <= CLASSES


def test_ids_do_not_clash_when_all_figures_stand_on_one_page():
    ids = [element.get("id") for id in FIGURES for element in tree(id).iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    for id in FIGURES:
        used = set(re.findall(r"url\(#([\w-]+)\)", figure(id).svg))
        own = {element.get("id") for element in tree(id).iter()} - {None}
        assert used <= own
        assert all(each.startswith(f"{id}--") for each in own)


@every_figure
def test_its_text_is_large_enough_for_a_phone(id):
    """Drawn at 358 px, the width of a 390 px phone less its margins."""
    root = tree(id)
    width = float(root.get("viewBox").split()[2])
    assert 340 <= width <= 365
    sizes = [float(element.get("font-size")) for element in root.iter() if element.get("font-size")]
    assert min(sizes) >= 13


@every_figure
def test_its_quantities_are_in_the_notation(id, stray_quantities):
    source = ElementTree.fromstring((HERE / f"{id}.svg").read_text(encoding="utf-8"))
    assert [found for text in source.itertext() for found in stray_quantities(text)] == []


def test_its_quantities_follow_the_system():
    us, metric = figure("three-weights", "us"), figure("three-weights", "metric", comma=True)
    assert "2,204.6 lbf (9.807 kN)" in us.svg and "2,000 lbf (8.896 kN)" in us.description
    assert "9,807 kN (2\N{NARROW NO-BREAK SPACE}204,6 lbf)" in metric.svg
    assert "2,204.6" not in metric.svg


def numbers(id: str) -> list[float]:
    """The numbers in the path of the first grey area of that group of three-weights."""
    group = next(each for each in tree("three-weights").iter() if each.get("id") == f"three-weights--{id}")
    area = next(each for each in group if each.get("class") == "fig-fill")
    return [float(each) for each in re.findall(r"[\d.]+", area.get("d"))]


def test_the_three_weights_are_drawn_to_scale():
    """Tops level at zero; lower edges at 2,000, 2,204.62 and 2,240 lbf on the drawn scale, to half a unit."""
    root = ElementTree.tostring(tree("three-weights"), encoding="unicode")
    assert "M62 76V376" in root, "the lbf scale runs from 0 at 76 to 2,500 at 376"
    per_lbf = (376 - 76) / 2500
    for id, pounds in {"short-ton": 2000, "tonne": 2204.62, "long-ton": 2240}.items():
        _, top, _, bottom, _ = numbers(id)
        assert top == 76
        assert bottom == pytest.approx(76 + pounds * per_lbf, abs=0.5)
    kn = [float(each) for each in re.findall(r"M308 ([\d.]+)H316", root)]
    assert kn == pytest.approx([76 + each * 224.809 * per_lbf for each in (0, 2, 4, 6, 8, 10)], abs=0.5)


def test_the_parts_of_the_red_zone_can_be_asked():
    ids = {element.get("id") for element in tree("red-zone").iter()}
    parts = [
        "zone",
        "tong-arc",
        "pipe-path",
        "escape-way",
        "static-bolt",
        "static-lamp",
        "dynamic-clamp",
        "dynamic-hose",
    ]
    assert {f"red-zone--{part}" for part in parts} <= ids


@pytest.mark.browser
@pytest.mark.parametrize("system", ["us", "metric"])
@every_figure
def test_no_label_is_cut_off_or_hides_another(chromium, id, system):
    """Measured in the browser at 390 px, with the fonts that are there."""
    page = chromium.new_page(viewport={"width": 390, "height": 900})
    page.set_content(f"<body style='margin:16px;font-family:system-ui,sans-serif'>{figure(id, system).svg}</body>")
    boxes = page.evaluate(
        """() => [...document.querySelectorAll('svg, svg text')].map(each => {
             const box = each.getBoundingClientRect();
             return [each.tagName == 'svg' ? '' : each.textContent, box.left, box.top, box.right, box.bottom]})"""
    )
    page.close()
    (_, left, top, right, bottom), *labels = boxes
    assert labels
    for text, *box in labels:
        assert box[0] >= left and box[1] >= top and box[2] <= right and box[3] <= bottom, f"{text} is cut off"
    for at, (text, *one) in enumerate(labels):
        for other_text, *other in labels[:at]:
            apart = one[0] >= other[2] - 1 or other[0] >= one[2] - 1 or one[1] >= other[3] - 5 or other[1] >= one[3] - 5
            assert apart, f"{text} and {other_text} stand in each other's way"
