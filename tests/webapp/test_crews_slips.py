"""Slips: made and printed by a coordinator, used by hands; what does not work is said."""

import io
import re
from datetime import timedelta
from pathlib import Path

import pytest
import segno

from tests.webapp.conftest import PASSWORD
from tests.webapp.crews import START, a_coordinator, a_crew, a_hand, a_member, a_rig
from tests.webapp.page_browser import words_of
from webapp import passwords
from webapp.records import crews, log, people, slips

NEW = {
    "name": "Joao Wexley",
    "password": PASSWORD,
    "system": "us",
    "writes": "point",
    "minutes": "15",
    "job": "Floorhand",
}
DAY = timedelta(days=1)


@pytest.fixture
def crew(house):
    return a_crew(house)


@pytest.fixture
def rosalind(crew, hands):
    """The browser of the crew's coordinator."""
    return hands("Rosalind Achterberg")


def a_slip(house, crew, most_uses: int = 3, person: str | None = None) -> str:
    """The address of a slip that works for ten days."""
    by = a_coordinator(house)
    slip = slips.make(house, crew.id, by.id, START, START + 10 * DAY, most_uses, person)
    return f"/slip/{slips.code_of(house, slip.id)}"


def somebody_without_password(house, crew, name: str = "Priya Dunmore"):
    """A member who was put in the crew and has never signed in."""
    person = people.join(house, name, "", "", system="metric", comma=True, minutes=15, now=START)
    crews.join(house, person, crew.id, "derrickhand", START)
    return person


def codes_on(html: str) -> list[str]:
    """The codes of a printed sheet."""
    return re.findall(r'<p class="slip-code">(\S+)</p>', html)


def test_a_slip_is_made_and_printed_once_for_each_hand(rosalind, house, crew):
    made = rosalind.send(f"/crews/{crew.id}/slips", most_uses="12", until="2026-03-20")
    page = rosalind.follow(made)
    [slip] = slips.of_crew(house, crew.id)
    assert codes_on(page.text) == [slips.code_of(house, slip.id)] * 12
    assert "Quillwater 7, Crew A sign-on slip for one of 12 hands, to 20 Mar" in words_of(page.text)
    assert slip.until.isoformat() == "2026-03-21T04:00:00+00:00"
    assert [each.what for each in log.of_crews(house, [crew.id], 5)] == ["slip made"]


def test_as_many_pieces_as_hands_who_may_still_join(rosalind, house, crew, clock):
    """Of 3, one has joined: two pieces. Of 200 no more than ten pages come at a time, and the page says so."""
    rosalind.send(f"/crews/{crew.id}/slips", most_uses="3", until="2026-03-20")
    [slip] = slips.of_crew(house, crew.id)
    assert slips.use(house, slip, a_hand(house, "Joao Wexley").id, clock())
    assert len(codes_on(rosalind.get(f"/crews/{crew.id}/slips/print?slip={slip.id}").text)) == 2
    many = rosalind.follow(rosalind.send(f"/crews/{crew.id}/slips", most_uses="200", until="2026-03-20")).text
    assert len(codes_on(many)) == 60
    assert "60 pieces are here, and 200 hands may still join by this slip." in words_of(many)


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({"most_uses": "0"}, "from 1 to 200"),
        ({"most_uses": "201"}, "from 1 to 200"),
        ({"until": ""}, "year-month-day"),
        ({"until": "2026-03-01"}, "past"),
        ({"until": "2027-03-04"}, "for a year at most"),
        ({"until": "9999-12-31"}, "for a year at most"),
    ],
)
def test_a_slip_that_can_not_be_is_told(rosalind, house, crew, fields, sentence):
    page = rosalind.send(f"/crews/{crew.id}/slips", **{"most_uses": "5", "until": "2026-03-20"} | fields)
    assert page.status_code == 422 and sentence in words_of(page.text)
    assert slips.of_crew(house, crew.id) == []


def test_a_slip_can_be_printed_again_and_ended(rosalind, house, crew):
    rosalind.send(f"/crews/{crew.id}/slips", most_uses="2", until="2026-03-20")
    [slip] = slips.of_crew(house, crew.id)
    again = f"/crews/{crew.id}/slips/print?slip={slip.id}"
    assert codes_on(rosalind.get(again).text) == codes_on(rosalind.get(again).text) != []
    rosalind.send(f"/crews/{crew.id}/slips/end", slip=slip.id)
    assert "ended early" in rosalind.get(f"/crews/{crew.id}/slips").text
    assert codes_on(rosalind.get(again).text) == []
    assert [each.what for each in log.of_crews(house, [crew.id], 5)] == ["slip ended", "slip made"]


def test_the_square_reads_as_the_address(rosalind, crew):
    """The drawing on the page, module by module, against the library's own matrix of that address."""
    html = rosalind.follow(rosalind.send(f"/crews/{crew.id}/slips", most_uses="1", until="2026-03-20")).text
    address = f"http://localhost/slip/{codes_on(html)[0]}"
    drawn = re.search(r'<svg[^>]*class="square".*?</svg>', html, re.DOTALL)[0]
    side = int(re.search(r'viewBox="0 0 (\d+) ', drawn)[1])
    assert _dark_modules(drawn, side) == _wanted_modules(segno.make_qr(address, error="m"))


def _wanted_modules(code) -> set[tuple[int, int]]:
    return {(x, y) for y, row in enumerate(code.matrix_iter(border=4)) for x, dark in enumerate(row) if dark}


def _dark_modules(svg: str, side: int) -> set[tuple[int, int]]:
    """The squares that the strokes of the drawing cover: M moves, h draws to the right, m moves on from there."""
    dark, x, y = set(), 0.0, 0.0
    path = re.search(r'<path[^>]*stroke="#000"[^>]* d="([^"]+)"|<path[^>]* d="([^"]+)"[^>]*stroke="#000"', svg)
    for command, numbers in re.findall(r"([MmhHvz])([^MmhHvz]*)", path[1] or path[2]):
        values = [float(each) for each in re.findall(r"-?\d*\.?\d+", numbers)]
        if command == "M":
            x, y = values
        elif command == "m":
            x, y = x + values[0], y + values[1]
        else:
            dark |= {(int(x) + step, int(y)) for step in range(int(values[0]))}
            x += values[0]
    assert all(0 <= place < side for module in dark for place in module)
    return dark


def test_a_loopback_address_on_a_slip_is_told(rosalind, crew):
    page = rosalind.get(f"/crews/{crew.id}/slips/print", base_url="http://localhost:8060")
    assert "works on this computer only" in words_of(page.text)


def test_somebody_new_joins_by_a_slip(client, house, crew):
    """They are told before who will see what; what they did is seen from today on."""
    address = a_slip(house, crew)
    page = words_of(client.get(address).text)
    assert "Rosalind Achterberg coordinates Quillwater 7, Crew A, and will see, from today on" in page
    assert client.send(address, **NEW).location == "/recovery-code"
    membership = crews.membership_now(house, people.by_name(house, "Joao Wexley").id)
    assert (membership.crew, membership.job, membership.sees_from) == (crew, "floorhand", START)
    assert client.get("/today").status_code == 200
    [line] = log.of_crews(house, [crew.id], 5)
    assert (line.who, line.what) == ("Joao Wexley", "joined")


@pytest.mark.parametrize("share", [False, True])
def test_who_is_signed_in_joins_and_chooses_what_is_seen(hands, house, crew, clock, share):
    browser = hands("Ines Okoro")
    clock.forward(days=5)
    joined = browser.send(a_slip(house, crew), job="derrickhand", **({"share": "yes"} if share else {}))
    assert "You are in the crew." in words_of(browser.follow(joined).text)
    membership = crews.membership_now(house, people.by_name(house, "Ines Okoro").id)
    assert (membership.joined_at, membership.sees_from) == (START + 5 * DAY, START if share else START + 5 * DAY)


def test_who_is_in_a_crew_is_told_and_stays(hands, house, crew):
    other = a_crew(house, a_rig(house, "Quillwater 12", "top-drive"), "Crew B")
    a_member(house, other)
    browser, address = hands("Ines Okoro"), a_slip(house, crew)
    assert "You are in Quillwater 12, Crew B." in words_of(browser.get(address).text)
    assert browser.send(address, job="floorhand").status_code == 422
    assert crews.membership_now(house, people.by_name(house, "Ines Okoro").id).crew == other
    assert slips.of_crew(house, crew.id)[0].uses == 0
    own = a_slip(house, other)
    assert "You are in this crew already." in words_of(browser.get(own).text)


def test_a_name_that_is_taken_uses_nothing_up(client, house, crew):
    a_hand(house, "Joao Wexley")
    address = a_slip(house, crew)
    page = client.send(address, **NEW)
    assert page.status_code == 422 and "is taken" in words_of(page.text)
    assert slips.of_crew(house, crew.id)[0].uses == 0


def test_what_is_amiss_is_told_beside_its_field(client, house, crew):
    page = client.send(a_slip(house, crew), **NEW | {"job": "", "password": "short"})
    assert page.status_code == 422
    for field in ("job", "password"):
        assert f'id="f-{field}-problem"' in page.text
    assert people.by_name(house, "Joao Wexley") is None


def test_a_slip_is_used_up_by_as_many_as_it_is_for(app, house, crew):
    address = a_slip(house, crew, most_uses=2)
    answers = []
    for name in ("Joao Wexley", "Wen Castellane", "Hettie Quarles"):
        answers.append(app.test_client().send(address, **NEW | {"name": name}))
    assert [each.status_code for each in answers] == [303, 303, 410]
    assert "This slip is used up." in words_of(answers[2].text)
    assert people.by_name(house, "Hettie Quarles") is None


def test_a_slip_whose_day_is_past_says_so(client, house, crew, clock):
    address = a_slip(house, crew)
    clock.forward(days=10)
    for answer in (client.get(address), client.send(address, **NEW)):
        assert answer.status_code == 410 and "The last day of this slip is past." in words_of(answer.text)


def test_a_slip_that_was_ended_says_so(client, house, crew):
    address = a_slip(house, crew)
    slips.revoke_all(house, crew.id, START)
    assert "Your coordinator has ended this slip." in words_of(client.get(address).text)


def test_the_last_place_goes_to_one_of_two(client, house, crew, monkeypatch):
    """Both saw the slip open; the second is told, and has not joined."""
    address = a_slip(house, crew, most_uses=1)
    monkeypatch.setattr(slips, "use", lambda *asked: False)
    page = client.send(address, **NEW)
    assert page.status_code == 422 and "This slip does not work any more." in words_of(page.text)
    assert people.by_name(house, "Joao Wexley") is None


def test_a_code_is_typed_as_it_comes(client, house, crew):
    """On the field of the first page, with small letters and without dashes."""
    assert 'href="/slip"' in client.get("/").text
    code = a_slip(house, crew).removeprefix("/slip/")
    asked = client.get("/slip", query_string={"code": f" {code.lower().replace('-', ' ')}"})
    assert asked.location == f"/slip/{code}"
    assert client.follow(asked).status_code == 200


def test_a_code_of_no_slip_is_told_and_guesses_are_slowed(client, house, crew, clock):
    address = a_slip(house, crew)
    page = client.get("/slip/ABCD-EFGH-JKMN")
    assert page.status_code == 404 and "No slip has this code." in words_of(page.text)
    for _ in range(19):
        client.get("/slip/ABCD-EFGH-JKMN")
    assert client.get(address).status_code == client.send(address, **NEW).status_code == 429
    assert people.by_name(house, "Joao Wexley") is None
    clock.forward(minutes=16)
    assert client.get(address).status_code == 200


def test_a_first_sign_in_sets_the_password(client, house, crew):
    """Who has no password can't sign in before, not even with none; the slip lets them in once."""
    priya = somebody_without_password(house, crew)
    for guess in ("", PASSWORD):
        assert client.send("/sign-in", name="Priya Dunmore", password=guess).status_code == 422
    assert client.send("/reset", name="Priya Dunmore", code="", password=PASSWORD).status_code == 422
    address = a_slip(house, crew, 1, priya.id)
    page = client.get(address).text
    assert "You are Priya Dunmore , and you sign in as Priya Dunmore ." in words_of(page)
    assert re.findall(r'value="(\w+)" checked', page) == ["metric", "comma"]
    sent = {"password": PASSWORD, "system": "us", "writes": "point", "minutes": "25"}
    assert client.send(address, **sent).location == "/recovery-code"
    changed = people.by_id(house, priya.id)
    assert (changed.system, changed.comma, changed.minutes) == ("us", False, 25)
    assert passwords.matches(people.secrets_of(house, priya.id)[0], PASSWORD)
    assert client.get("/today").status_code == 200
    assert client.get(address).status_code == 410
    assert crews.membership_now(house, priya.id).crew == crew


def test_an_old_slip_changes_no_password(client, house, crew):
    """Whoever runs the server gave her one meanwhile."""
    priya = somebody_without_password(house, crew)
    address = a_slip(house, crew, 1, priya.id)
    people.set_password(house, priya.id, "kept")
    for answer in (client.get(address), client.send(address, password=PASSWORD, system="us", writes="point")):
        assert answer.status_code == 410
    assert people.secrets_of(house, priya.id)[0] == "kept"


def test_nobody_takes_anothers_first_sign_in_while_signed_in(hands, house, crew):
    priya = somebody_without_password(house, crew)
    browser, address = hands("Ines Okoro"), a_slip(house, crew, 1, priya.id)
    assert "This slip is for Priya Dunmore. You are signed in as Ines Okoro." in words_of(browser.get(address).text)
    assert browser.send(address, password=PASSWORD).status_code == 422
    assert people.without_password(house, [priya.id]) == {priya.id}


def test_slips_for_first_sign_ins_are_printed_by_name_and_made_anew(rosalind, house, crew):
    for name in ("Wen Castellane", "Priya Dunmore"):
        a_slip(house, crew, 1, somebody_without_password(house, crew, name).id)
    page = rosalind.get(f"/crews/{crew.id}/slips/print").text
    assert re.findall(r'slip-name">([^<]+)<', page) == ["Priya Dunmore", "Wen Castellane"]
    first = codes_on(page)
    anew = rosalind.follow(rosalind.send(f"/crews/{crew.id}/slips/again")).text
    assert len(codes_on(anew)) == 2 and not set(codes_on(anew)) & set(first)
    assert {each.state(START) for each in slips.of_crew(house, crew.id)[2:]} == {"revoked"}


def test_who_left_before_signing_in_has_no_slip_any_more(rosalind, client, house, crew):
    priya = somebody_without_password(house, crew)
    address = a_slip(house, crew, 1, priya.id)
    rosalind.send(f"/crews/{crew.id}/people/{priya.id}/leave", why="Did not come")
    assert codes_on(rosalind.get(f"/crews/{crew.id}/slips/print").text) == []
    assert client.get(address).status_code == 410


@pytest.mark.browser
def test_a_camera_reads_the_square_on_the_page(chromium, rosalind, crew, app):
    """The page as Chromium draws it, read by another library than the one that made the square."""
    import zxingcpp
    from PIL import Image

    html = rosalind.follow(rosalind.send(f"/crews/{crew.id}/slips", most_uses="3", until="2026-03-20")).text
    style = (Path(app.static_folder) / "site.css").read_text(encoding="utf-8")
    page = chromium.new_page(viewport={"width": 390, "height": 844})
    try:
        page.set_content(re.sub(r"<link[^>]*stylesheet[^>]*>", "", html))
        page.add_style_tag(content=style)
        shot = page.locator(".slip").first.screenshot()
    finally:
        page.close()
    [read] = zxingcpp.read_barcodes(Image.open(io.BytesIO(shot)))
    assert read.text == f"http://localhost/slip/{codes_on(html)[0]}"
