"""Joining, the recovery code, signing in and out, the reset, the settings."""

import re

import pytest

from tests.webapp.conftest import PASSWORD
from tests.webapp.page_browser import words_of
from webapp.records import people

GOOD = {"name": "Ines Okoro", "password": PASSWORD, "system": "us", "writes": "point", "minutes": "15"}
CODE = re.compile(r"[0-9A-Z]{4}(?:-[0-9A-Z]{4}){4}")


def code_on(html: str) -> str | None:
    """The recovery code on a page, or None."""
    found = re.search(r'<p class="code">(.*?)</p>', html, re.DOTALL)
    return found and re.sub(r"<[^>]+>|\s", "", found[1])


def test_a_visitor_is_shown_two_ways_in_and_three_doors(client):
    page = words_of(client.get("/").text)
    for words in ("Study on my own", "Sign in", "Ten conversions", "Bench", "Glossary"):
        assert words in page


def test_the_first_page_of_who_is_signed_in_is_today(hands):
    assert hands().get("/").location == "/today"


def test_joining_leads_over_the_code_to_today(client, house):
    """The code is shown once, and only once."""
    joined = client.send("/join", **GOOD)
    assert joined.location == "/recovery-code"
    assert CODE.fullmatch(code_on(client.follow(joined).text))
    assert code_on(client.get("/recovery-code").text) is None
    assert client.get("/today").status_code == 200
    person = people.by_name(house, "ines okoro")
    assert (person.system, person.comma, person.minutes) == ("us", False, 15)


def test_what_was_chosen_is_kept(client, house):
    client.send("/join", **GOOD | {"system": "metric", "writes": "comma", "minutes": "25"})
    person = people.by_name(house, "Ines Okoro")
    assert (person.system, person.comma, person.minutes) == ("metric", True, 25)


@pytest.mark.parametrize(
    ("field", "typed", "sentence"),
    [
        pytest.param("name", "  ", "Write the name that your crew knows you by.", id="no name"),
        pytest.param("name", "x" * 61, "Write a name of at most 60 letters.", id="long name"),
        pytest.param("name", "a\0b", "Write a name of at most 60 letters.", id="control sign in the name"),
        pytest.param("password", "short", "Use at least 8 characters.", id="short password"),
        pytest.param("password", "Ines Okoro", "Your name can't be your password", id="name as password"),
        pytest.param("system", "", "Choose the units that you read first.", id="no units"),
        pytest.param("writes", "dot", "Choose how you write twelve and a half.", id="no mark"),
        pytest.param("minutes", "soon", "Write a whole number of minutes", id="minutes in words"),
        pytest.param("minutes", "0", "Write a whole number of minutes", id="no minutes"),
        pytest.param("minutes", "-5", "Write a whole number of minutes", id="minutes below nothing"),
        pytest.param("minutes", "٣", "Write a whole number of minutes", id="other digits"),
        pytest.param("minutes", "9" * 300, "Write a whole number of minutes", id="endless minutes"),
    ],
)
def test_what_can_not_be_taken_is_told_beside_its_field(client, house, field, typed, sentence):
    """What was typed is kept, but for the password; nobody has joined."""
    page = client.send("/join", **GOOD | {field: typed})
    assert page.status_code == 422
    beside = re.search(rf'id="f-{field}-problem">(.*?)</p>', page.text, re.DOTALL)
    assert sentence in words_of(beside[1])
    assert PASSWORD not in page.text
    if field != "name":
        assert 'value="Ines Okoro"' in page.text
    if field == "minutes" and len(typed) < 9:
        assert f'value="{typed}"' in page.text
    assert people.by_name(house, "Ines Okoro") is None


def test_a_taken_name_is_told(client, hands):
    hands("Ines Okoro")
    page = client.send("/join", **GOOD | {"name": "INES  okoro"})
    assert page.status_code == 422
    assert "is taken. Add a middle name or a nickname." in words_of(page.text)


def test_a_name_is_shown_and_never_run(client):
    page = client.send("/join", **GOOD | {"name": "<b>Ines</b>", "minutes": "x"})
    assert "&lt;b&gt;Ines&lt;/b&gt;" in page.text and "<b>Ines</b>" not in page.text


@pytest.mark.parametrize(
    ("languages", "system", "writes"),
    [
        pytest.param("en-US,en;q=0.9", "us", "point", id="American"),
        pytest.param("en-GB", "metric", "point", id="British"),
        pytest.param("nb-NO,nb;q=0.9", "metric", "comma", id="Norwegian"),
        pytest.param("es-US", "us", "comma", id="Spanish in the States"),
        pytest.param("", "us", "point", id="no word of it"),
    ],
)
def test_what_is_ticked_first_follows_the_browser(client, languages, system, writes):
    page = client.get("/join", headers={"Accept-Language": languages} if languages else {}).text
    ticked = re.findall(r'value="(\w+)" checked', page)
    assert ticked == [system, writes]


def test_signing_in_goes_where_the_hand_wanted_to(hands, client):
    hands("Ines Okoro")
    asked = client.get("/lessons")
    page = client.follow(asked)
    assert 'name="next" value="/lessons"' in page.text
    assert client.send("/sign-in", name="ines okoro", password=PASSWORD, next="/lessons").location == "/lessons"


@pytest.mark.parametrize("elsewhere", ["//evil.example", "https://evil.example/", "/\\evil.example", "today"])
def test_signing_in_never_leads_to_another_site(hands, client, elsewhere):
    hands("Ines Okoro")
    assert client.send("/sign-in", name="Ines Okoro", password=PASSWORD, next=elsewhere).location == "/today"


@pytest.mark.parametrize(
    ("name", "password"), [("Ines Okoro", "wrong words here"), ("Nobody Here", PASSWORD), ("", "")]
)
def test_a_wrong_name_and_a_wrong_password_look_the_same(hands, client, name, password):
    hands("Ines Okoro")
    page = client.send("/sign-in", name=name, password=password)
    assert page.status_code == 422
    assert "That name and that password do not belong together." in words_of(page.text)


def test_guessing_is_slowed_and_then_allowed_again(hands, client, clock):
    hands("Ines Okoro")
    for _ in range(5):
        client.send("/sign-in", name="Ines Okoro", password="a guess at it")
    page = client.send("/sign-in", name="Ines Okoro", password=PASSWORD)
    assert page.status_code == 429
    assert "Too many tries. Wait 15 minutes, then try again." in words_of(page.text)
    clock.forward(minutes=15, seconds=1)
    assert client.send("/sign-in", name="Ines Okoro", password=PASSWORD).status_code == 303


def test_signing_out_closes_the_pages(hands):
    hand = hands()
    assert hand.send("/sign-out").location == "/"
    assert hand.get("/today").location.startswith("/sign-in")


def test_the_recovery_code_lets_back_in_and_is_used_up(client, app):
    code = code_on(client.follow(client.send("/join", **GOOD)).text)
    other = app.test_client()
    reset = other.send("/reset", name="Ines Okoro", code=code.lower().replace("-", " "), password="a new one at dusk")
    assert reset.location == "/recovery-code"
    new_code = code_on(other.follow(reset).text)
    assert new_code and new_code != code
    assert client.get("/today").status_code == 303  # the old sessions have ended
    again = app.test_client().send("/reset", name="Ines Okoro", code=code, password="a third one at noon")
    assert again.status_code == 422
    assert client.send("/sign-in", name="Ines Okoro", password="a new one at dusk").status_code == 303


def test_a_wrong_code_is_told_and_counts_as_a_guess(client, hands):
    hands("Ines Okoro")
    for _ in range(5):
        page = client.send("/reset", name="Ines Okoro", code="AAAA", password="a new one at dusk")
        assert page.status_code == 422
        assert "That name and that code do not belong together." in words_of(page.text)
    assert client.send("/reset", name="Ines Okoro", code="AAAA", password="a new one at dusk").status_code == 429


def test_settings_are_kept_and_shown_again(hands, house):
    hand = hands()
    saved = hand.send("/settings", system="metric", writes="comma", entry="free")
    page = hand.follow(saved)
    assert "Your settings are saved." in words_of(page.text)
    assert re.findall(r'value="(\w+)" checked', page.text) == ["metric", "comma", "free"]
    person = people.by_name(house, "Ines Okoro")
    assert (person.system, person.comma, person.free_entry) == ("metric", True, True)


def test_settings_that_can_not_be_taken_change_nothing(hands, house):
    hand = hands()
    page = hand.send("/settings", system="metric", writes="sideways")
    assert page.status_code == 422
    assert people.by_name(house, "Ines Okoro").system == "us"


def test_a_new_password_needs_the_present_one(hands, app):
    hand = hands()
    assert hand.send("/settings/password", present="not this one", new_password="a new one at dusk").status_code == 422
    assert hand.send("/settings/password", present=PASSWORD, new_password="short").status_code == 422
    page = hand.follow(hand.send("/settings/password", present=PASSWORD, new_password="a new one at dusk"))
    assert "Your new password is set." in words_of(page.text)
    fresh = app.test_client()
    assert fresh.send("/sign-in", name="Ines Okoro", password="a new one at dusk").status_code == 303


def test_a_new_recovery_code_needs_the_password(hands):
    hand = hands()
    assert hand.send("/settings/recovery-code", code_password="not this one").status_code == 422
    made = hand.send("/settings/recovery-code", code_password=PASSWORD)
    assert CODE.fullmatch(code_on(hand.follow(made).text))


@pytest.mark.parametrize(
    ("value", "html"),
    [
        ("day", '<html lang="en" class="day">'),
        ("night", '<html lang="en" class="night">'),
        ("device", '<html lang="en">'),
    ],
)
def test_day_and_night_are_kept_without_an_account(client, value, html):
    client.get("/bench")
    switched = client.send("/theme", theme=value, back="/bench")
    assert switched.location == "/bench"
    assert html in client.follow(switched).text


def test_the_units_of_a_visitor_are_kept_in_the_browser(client):
    client.send("/units", system="metric", back="/bench")
    assert "Change to US first." in words_of(client.get("/bench").text)


def test_the_units_of_a_hand_are_a_setting(hands, house):
    hand = hands()
    hand.send("/units", system="metric", back="/today")
    assert people.by_name(house, "Ines Okoro").system == "metric"


@pytest.mark.parametrize(("path", "field"), [("/theme", "theme"), ("/units", "system"), ("/entry", "entry")])
def test_a_switch_knows_its_positions(client, path, field):
    assert client.send(path, **{field: "sideways"}).status_code == 400
    assert client.send(path).status_code == 400


def test_a_switch_never_leads_to_another_site(client):
    assert client.send("/theme", theme="day", back="//evil.example").location == "/"
