"""The bench and the glossary: open to all, nothing kept."""

import re

import pytest

from tests.webapp.page_browser import words_of


def convert(client, value: str, unit: str = "", **more: str):
    return client.get("/bench", query_string={"value": value, "unit": unit, **more})


def rows_of(html: str) -> dict[str, str]:
    """Unit -> number of every row on the page; the later of two registers wins."""
    found = re.findall(r'<td class="num">(.*?)</td><th scope="row">(\S+)(?:</th>| <)', html)
    return {unit: number for number, unit in found}


def test_a_quantity_is_shown_in_every_unit(client):
    page = convert(client, "350 st", "load/st")
    rows = rows_of(page.text)
    assert rows["lbf"] == "700,000" and rows["klbf"] == "700"
    assert rows["t"] == "317.51"  # 350 x 0.90718474, by hand
    assert rows["kN"] == "3,113.8"  # 700,000 lbf x 4.4482216 N, by hand
    assert "Rounded to five figures." in words_of(page.text)


def test_each_unit_stands_once_under_its_own_system(client):
    page = convert(client, "350 st", "load/st").text
    captions = re.findall(r"<caption>(.*?)</caption>(.*?)</table>", page, re.DOTALL)
    tables = {caption: re.findall(r'<th scope="row">(\w+)', rows) for caption, rows in captions}
    assert tables["US units"] == ["lbf", "klbf", "st", "lb"]
    assert tables["Other units"] == ["lt"]
    assert tables["Metric units"] == ["kN", "N", "MN", "daN", "kdaN", "t", "kg"]


def test_pounds_are_a_load_and_a_mass(client):
    words = words_of(convert(client, "44,600 lb").text)
    assert "As a load" in words and "As a mass" in words
    assert words.count("Caution. Before a load") == 1


def test_foot_pounds_are_a_torque_and_an_energy_each_with_its_caution(client):
    words = words_of(convert(client, "50 ft-lb").text)
    for expected in ("As a torque", "As an energy", "Caution. Tongs under pull", "Caution. Things above you"):
        assert expected in words


def test_what_was_typed_is_marked_and_kept_in_the_address(client):
    page = convert(client, "30' 6\"").text
    assert re.search(r'<tr class="given"><td class="num">30\.5</td><th scope="row">ft', page)
    assert 'value="30&#39; 6&#34;"' in page


@pytest.mark.parametrize(
    ("value", "unit", "told"),
    [
        pytest.param("", "", "Nothing was typed.", id="nothing"),
        pytest.param("44600", "", "has no unit. Write one after the number, or choose one.", id="no unit"),
        pytest.param("12 tons", "", "Which ton?", id="which ton"),
        pytest.param("12 parsecs", "", "is not one of ours. Choose one from the list.", id="strange unit"),
        pytest.param("a lot", "", "does not begin with a number", id="no number"),
        pytest.param("12 ft", "load/kN", "You gave a length", id="other dimension"),
        pytest.param("9" * 80, "load/kN", "That is longer than 64 signs.", id="long"),
        pytest.param("nan kN", "", "does not begin with a number", id="not a number"),
        pytest.param("1e400 kN", "", "too large", id="too large"),
        pytest.param("<b>1</b>", "", "does not begin with a number", id="html"),
    ],
)
def test_what_can_not_be_read_is_told_beside_the_field(client, value, unit, told):
    page = convert(client, value, unit)
    assert page.status_code == 200
    beside = re.search(r'id="f-value-problem">(.*?)</p>', page.text, re.DOTALL)
    assert told in words_of(beside[1])
    assert "<b>1</b>" not in page.text


@pytest.mark.parametrize("unit", ["nothing", "load/", "load/furlong", "nothing/kN", "/", "load/kN/x"])
def test_a_strange_unit_in_the_address_is_as_if_none_was_chosen(client, unit):
    assert "As a load" in words_of(convert(client, "5 kN", unit).text)


def test_zero_and_less_are_numbers_too(client):
    assert rows_of(convert(client, "0 kN").text)["lbf"] == "0"
    assert rows_of(convert(client, "-5 kN").text)["kN"] == "−5"


def test_the_mark_decides_and_is_used_for_what_is_printed(client):
    point, comma = convert(client, "1,500 kN", writes="point"), convert(client, "1,500 kN", writes="comma")
    assert rows_of(point.text)["kN"] == "1,500" and rows_of(comma.text)["kN"] == "1,5"
    assert rows_of(comma.text)["lbf"] == "337,21"


def test_a_hand_is_not_asked_how_it_writes(hands):
    page = hands(comma=True).get("/bench?value=2,5+kN").text
    assert 'type="radio" name="writes"' not in page
    assert rows_of(page)["kN"] == "2,5"


def test_a_hands_own_system_comes_first(hands):
    metric = words_of(hands("Rurik Abara", system="metric").get("/bench?value=5+kN").text)
    assert metric.index("Metric units") < metric.index("US units")


def test_nothing_is_kept(client, house):
    client.get("/bench")  # the first page of all makes the server's key
    before = house.db.execute("select total_changes()").fetchone()
    convert(client, "350 st", writes="comma")
    assert house.db.execute("select total_changes()").fetchone() == before
    assert 'name="writes" value="point" checked' in client.get("/bench").text


def test_the_glossary_is_alphabetical_and_each_word_has_its_lesson(client, app):
    page = client.get("/glossary").text
    words = re.findall(r"<dt>(.*?)</dt>", page)
    assert words == sorted(words, key=str.casefold)
    assert len(words) == len(app.extensions["pinandbox"]["course"].glossary)
    assert "{{" not in page


def test_the_glossary_is_in_the_units_and_the_mark_of_who_reads(hands):
    words = words_of(hands(system="metric", comma=True).get("/glossary").text)
    assert "178 kN (40 klbf)" in words
    assert "9,80665" in words
