"""The set-up address opens the house: once, for two days, for somebody new or who is signed in."""

from datetime import timedelta

import pytest

from tests.webapp.conftest import PASSWORD
from tests.webapp.page_browser import words_of
from webapp import codes
from webapp.records import people, rights, setup_addresses

NEW = {"name": "Rosalind Achterberg", "password": PASSWORD, "system": "metric", "writes": "point", "minutes": "15"}
CODE = "7KQM-2XWD-9HTR-VB4C"
ADDRESS = f"/set-up/{CODE}"


@pytest.fixture
def address(house, clock):
    """The address of this house's set-up, just printed."""
    setup_addresses.make(house, codes.hashed(CODE), clock())
    return ADDRESS


def test_somebody_new_becomes_coordinator_and_goes_on_to_crews(client, house, address):
    page = words_of(client.get(address).text)
    assert "You become a coordinator" in page
    joined = client.send(address, **NEW)
    assert joined.location == "/recovery-code?next=/crews"
    assert 'href="/crews">I have written it down' in client.follow(joined).text
    rosalind = people.by_name(house, "Rosalind Achterberg")
    assert rights.is_coordinator(house, rosalind.id) and rosalind.system == "metric"
    assert "You coordinate no crew yet" in words_of(client.get("/crews").text)


def test_who_is_signed_in_only_says_yes(hands, house, address):
    browser = hands("Ines Okoro")
    assert "You are signed in as Ines Okoro." in words_of(browser.get(address).text)
    assert browser.send(address).location == "/crews"
    assert rights.is_coordinator(house, people.by_name(house, "Ines Okoro").id)


def test_looking_at_the_address_does_not_use_it_up(client, address):
    assert [client.get(address).status_code for _ in range(3)] == [200, 200, 200]


def test_it_works_once(hands, house, client, address):
    hands("Ines Okoro").send(address)
    for answer in (client.get(address), client.send(address, **NEW)):
        assert answer.status_code == 410
        assert "has been used already. It works once." in words_of(answer.text)
    assert people.by_name(house, "Rosalind Achterberg") is None


@pytest.mark.parametrize("hours, status", [(47.9, 200), (48, 410)])
def test_it_works_for_two_days(client, clock, address, hours, status):
    clock.forward(hours=hours)
    page = client.get(address)
    assert page.status_code == status
    assert ("It works for 48 hours" in words_of(page.text)) is (status == 410)


def test_a_newer_address_ends_it(client, house, clock, address):
    clock.forward(minutes=1)
    setup_addresses.make(house, codes.hashed("AAAA-BBBB-CCCC-DDDD"), clock())
    assert client.get(address).status_code == 410
    assert client.get("/set-up/aaaabbbb-CCCC-dddd").status_code == 200


def test_what_is_amiss_is_told_and_the_address_stays_open(client, house, address):
    page = client.send(address, **NEW | {"password": "short", "name": ""})
    assert page.status_code == 422
    assert "2 things need mending" in words_of(page.text)
    assert client.get(address).status_code == 200
    assert not rights.any_coordinator(house)


def test_a_taken_name_leaves_the_address_open(hands, client, house, address):
    """Nobody becomes a coordinator by the name of somebody else."""
    hands("Rosalind Achterberg")
    page = client.send(address, **NEW)
    assert page.status_code == 422 and "is taken" in words_of(page.text)
    assert not rights.any_coordinator(house)
    assert client.get(address).status_code == 200


def test_two_at_one_moment_are_one_coordinator(hands, client, house, address, monkeypatch):
    """The second of two who both saw the address open is told, and has not joined."""
    hands("Ines Okoro").send(address)
    client.get("/join")
    said = iter(["open"])
    state = setup_addresses.state
    monkeypatch.setattr(setup_addresses, "state", lambda *asked: next(said, None) or state(*asked))
    page = client.send(address, **NEW)
    assert page.status_code == 410 and "has been used already" in words_of(page.text)
    assert people.by_name(house, "Rosalind Achterberg") is None


def test_guesses_are_slowed(client, clock, address):
    """Twenty codes that nobody was given; then even the right one waits, and later works again."""
    letters = codes.LETTERS
    answers = [client.get(f"/set-up/{letters[number]}BCD-EFGH-JKMN-PQRS").status_code for number in range(20)]
    assert answers == [404] * 20
    slowed = client.get(address)
    assert slowed.status_code == 429 and "Too many tries. Wait 15 minutes" in words_of(slowed.text)
    clock.moment += timedelta(minutes=16)
    assert client.get(address).status_code == 200
