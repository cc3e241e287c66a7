"""The bench's sums: the list, own numbers, what is amiss, the link to pass on, and the formula sheet."""

import re
from html import unescape

import pytest

from tests.webapp.page_browser import words_of

SUM = "/bench/units/string-under-block"
DROP = "/bench/safety/drop-energy"


def sums_on(html: str) -> list[str]:
    """The addresses of the sums that are listed."""
    return re.findall(r'href="(/bench/[a-z-]+/[a-z0-9-]+)"', html)


def work(client, **numbers: str):
    """The page of the string under the block with numbers as the form sends them."""
    return client.get(SUM, query_string={name.replace("__", "-"): text for name, text in numbers.items()})


def test_every_sum_is_listed_once_and_opens(client, app):
    bank = app.extensions["pinandbox"]["bank"]
    wanted = {
        "/bench/" + item.id.replace(".", "/")
        for item in bank.values()
        if item.kind == "numeric" and not item.is_conversion
    }
    listed = sums_on(client.get("/bench").text)
    assert set(listed) == wanted and len(listed) == len(wanted) >= 5
    for address in listed:
        assert client.get(address).status_code == 200


def test_modules_stand_in_the_courses_order(client):
    headings = re.findall(r"<summary><h3>(.*?)</h3>", client.get("/bench").text)
    assert headings.index("Units and the rating plate") < headings.index("Safety and inspection")


def test_a_sum_is_found_by_its_name_or_its_numbers(client):
    every = sums_on(client.get("/bench").text)
    page = client.get("/bench?find=Travelling+weight").text
    assert SUM in sums_on(page) and DROP not in sums_on(page) and len(sums_on(page)) < len(every)
    assert '<details class="group" open>' in page
    assert "No sum has “zeppelin”" in words_of(client.get("/bench?find=zeppelin").text)


@pytest.mark.parametrize(
    "address", ["/bench/units/nothing", "/bench/units/hook-load-in-kn", "/bench/safety/tool-aloft"]
)
def test_what_is_no_sum_is_not_found(client, address):
    """A pure conversion is the converter's; words are no sum."""
    assert client.get(address).status_code == 404


def test_an_opened_sum_has_empty_fields_and_a_marked_example(client):
    page = client.get(SUM)
    assert re.findall(r'<input id="f-hook_load"[^>]* value="([^"]*)"', page.text) == [""]
    words = words_of(page.text)
    assert "The course made up these numbers. They are not your rig’s." in words and "Answer" not in words
    address = unescape(re.search(r'href="([^"]+)">Work the example', page.text)[1])
    example = words_of(client.get(address).text)
    assert "Example numbers. The course made them up. They are not your rig’s." in example
    assert "Answer" in example and "Your numbers" not in example
    link = unescape(re.search(r'href="([^"]+)">Link with these numbers', client.get(address).text)[1])
    assert "example=yes" in link


def test_own_numbers_in_mixed_units_are_worked_in_both_systems(client):
    page = work(client, hook_load="1,400", hook_load__unit="kN", travelling_weight="20", travelling_weight__unit="t")
    words = words_of(page.text)
    # By hand: 1,400 kN − 20 × 9.80665 kN = 1,203.9 kN = 270.6 klbf.
    for expected in (
        "270.6 klbf 1,204 kN",
        "= hook load − travelling weight",
        "The same in metric units",
        "The formula holds for 222 to 6,670 kN.",
        "Holds where the hook load counts block",
        "Caution. Before a load",
        "Training aid only.",
        "Source: statics",
    ):
        assert expected in words


def test_the_hands_own_system_comes_first(hands):
    page = hands(system="metric").get(f"{SUM}?hook_load=300+klbf&travelling_weight=40+klbf").text
    assert "1,157 kN 260 klbf" in words_of(page)  # 260 × 4.448222 = 1,156.5 by hand


def test_the_link_keeps_numbers_units_and_the_mark(client, hands):
    page = work(client, hook_load="1400,5", hook_load__unit="kN", travelling_weight="20 t", writes="comma").text
    link = unescape(re.search(r'href="([^"]+)">Link with these numbers', page)[1])
    assert "hook_load=1400,5+kN" in link and "travelling_weight=20+t" in link and link.endswith("writes=comma")
    other = hands("Marek Osei").get(link).text
    answer = re.compile(r'<p class="said">(.*?)</p>', re.DOTALL)
    assert (
        words_of(answer.search(other)[1])
        == words_of(answer.search(page)[1])
        == "270,8 klbf 1 204 kN".replace("1 204", "1\u202f204").replace("\u202f", " ")
    )
    assert 'type="radio" name="writes" value="comma" checked' in other


def test_a_unit_that_was_typed_and_another_that_was_chosen(client):
    page = work(
        client, hook_load="300,000 lb", hook_load__unit="kN", travelling_weight="40", travelling_weight__unit="klbf"
    )
    assert "You typed lb and chose kN. lb is taken" in words_of(page.text)
    assert '<option value="lb" selected>' in page.text


def test_feet_take_inches(client):
    words = words_of(client.get(f"{DROP}?mass=2+lb&height=30'+6\"").text)
    assert "61 ft·lbf" in words and "30.5 ft" in words  # 2 × 30.5 by hand


@pytest.mark.parametrize(
    ("numbers", "told"),
    [
        ({"hook_load": "-5 lb"}, "This can’t be below 0. You wrote −5 lb."),
        ({"hook_load": "0"}, "This can’t be 0"),
        ({"hook_load": "12 ft"}, "You gave a length"),
        ({"hook_load": "12 tons"}, "Which ton?"),
        ({"hook_load": "<b>1</b>"}, "does not begin with a number"),
        ({"hook_load": "9" * 90}, "longer than 64 signs"),
    ],
)
def test_what_is_amiss_is_told_beside_its_field(client, numbers, told):
    page = work(client, **{"travelling_weight": "40 klbf", **numbers})
    assert page.status_code == 200 and "<b>1</b>" not in page.text
    beside = re.search(r'id="f-hook_load-problem">(.*?)</p>', page.text, re.DOTALL)
    assert told in words_of(beside[1])
    assert 'id="f-travelling_weight-problem"' not in page.text and 'class="said"' not in page.text


def test_outside_the_range_is_worked_with_a_warning_beside_it(client):
    words = words_of(work(client, hook_load="9,000 klbf", travelling_weight="40 klbf").text)
    assert "8,960 klbf" in words
    assert "This lies outside the range in which the formula holds. The formula holds for 50 to 1,500 klbf." in words
    assert "9,000 klbf lies outside." in words


@pytest.mark.parametrize(
    "query", ["hook_load-unit=furlong&hook_load=5", "hook_load=&travelling_weight=", "writes=x&hook_load=5"]
)
def test_a_strange_address_is_a_page(client, query):
    assert client.get(f"{SUM}?{query}").status_code == 200


def test_nothing_is_kept(client, house):
    client.get(SUM)
    before = house.db.execute("select total_changes()").fetchone()
    work(client, hook_load="300 klbf", travelling_weight="40 klbf", writes="comma")
    assert house.db.execute("select total_changes()").fetchone() == before
    assert 'name="writes" value="point" checked' in client.get(SUM).text


def test_the_converters_link_says_how_a_signed_in_hand_writes(hands):
    page = hands(comma=True).get("/bench?value=2,5+kN").text
    assert '<input type="hidden" name="writes" value="comma">' in page


def test_a_link_that_is_written_otherwise_asks_the_hand(hands):
    page = hands().get("/bench?value=2,5+kN&writes=comma").text
    assert 'type="radio" name="writes" value="comma" checked' in page
    assert "2,5 kN" in words_of(page)


@pytest.mark.parametrize(
    ("show", "has", "has_not"),
    [
        ("both", ["US E = m × h (ft·lbf)", "metric E = m × 9.80665 × h (J)", "m mass (lb, kg)"], []),
        ("us", ["E = m × h (ft·lbf)", "m mass (lb)"], ["(J)", "metric E"]),
        ("metric", ["E = m × 9.80665 × h (J)", "m mass (kg)"], ["(ft·lbf)"]),
        ("neither", ["US E = m × h (ft·lbf)"], []),
    ],
)
def test_the_formula_sheet_shows_one_system_or_both(client, show, has, has_not):
    words = words_of(client.get(f"/bench/formulas?show={show}").text)
    words = re.sub(r" (?=[,)])|(?<=\() ", "", words)
    for each in has:
        assert each in words
    for each in has_not:
        assert each not in words
    assert "9.80665 standard gravity, m/s²" in words and "Training aid only." in words
