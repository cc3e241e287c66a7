"""The application itself: its settings, what is open and what is closed, its error pages, its headers."""

import re
from datetime import UTC

import pytest

from tests.webapp.conftest import CHEAP
from tests.webapp.page_browser import Browser, words_of
from webapp import DEFAULTS, ConfigError, create_app
from webapp.records import house as records_house

OPEN = {
    "static", "welcome.show", "welcome.theme", "welcome.units", "welcome.entry", "account.join", "account.join_now",
    "account.sign_in", "account.sign_in_now", "account.reset", "account.reset_now", "bench.show", "bench_sums.show",
    "bench_formulas.show", "glossary.show",
    # Who holds a code that was given to them need not be anybody yet.
    "set_up.show", "set_up.become", "slip.typed", "slip.show", "slip.use",
    "ten.show", "ten.start", "ten.question", "ten.choose_size", "ten.answer", "ten.size_address", "ten.answer_address",
    "ten.result",
}  # fmt: skip


@pytest.mark.parametrize(
    ("config", "told"),
    [
        pytest.param({"DATABSE": "x.sqlite"}, "DATABSE is not a setting.", id="misspelt"),
        pytest.param({"DATABASE": ""}, "DATABASE is ''.", id="no file"),
        pytest.param({"DATABASE": 5}, "DATABASE is 5.", id="no name"),
        pytest.param({"HTTPS": "yes"}, "HTTPS is 'yes'.", id="https in words"),
        pytest.param({"ARGON2": None}, "ARGON2 is None.", id="no cost"),
        pytest.param({"CLOCK": 9}, "CLOCK must be a function", id="no clock"),
        pytest.param({"ZONE": "Rig/Floor"}, "ZONE is 'Rig/Floor', which is no time zone.", id="no such zone"),
        pytest.param({"ZONE": "../etc/passwd"}, "which is no time zone.", id="a path"),
        pytest.param({"ZONE": "Europe"}, "which is no time zone.", id="a folder of zones"),
        pytest.param({"ZONE": None}, "which is no time zone.", id="none"),
    ],
)
def test_a_setting_that_will_not_do_is_told_before_anything_is_opened(tmp_path, config, told):
    with pytest.raises(ConfigError, match=re.escape(told)):
        create_app({"DATABASE": str(tmp_path / "new.sqlite"), **config})
    assert not (tmp_path / "new.sqlite").exists()


def test_the_clock_of_the_house_is_in_utc():
    assert DEFAULTS["CLOCK"]().tzinfo is UTC


def test_each_page_is_closed_but_the_open_ones(app):
    """A visitor comes to nothing that is not on the list, whatever the method."""
    visitor = app.test_client()
    closed = 0
    for rule in app.url_map.iter_rules():
        if rule.endpoint in OPEN:
            continue
        path = re.sub(r"<(?:int:)?\w+>", "1", rule.rule)
        method = "POST" if "POST" in rule.methods else "GET"
        response = visitor.open(path, method=method)
        assert response.status_code == 303, f"{method} {rule.rule} is open. Close it, or add it to OPEN with a reason."
        assert response.location.startswith("/sign-in")
        closed += 1
    assert closed > 15
    assert {rule.endpoint for rule in app.url_map.iter_rules()} >= OPEN


@pytest.mark.parametrize("path", ["/nothing", "/lessons/units/nothing", "/static/nothing.css"])
def test_a_page_that_is_not_there_is_told_in_plain_words(hands, path):
    page = hands().get(path)
    assert page.status_code == 404
    words = words_of(page.text)
    for heading in ("There is no such page", "What happened", "What is safe", "What to do next"):
        assert heading in words
    assert "Nothing was changed." in words


def test_a_form_without_a_token_is_refused_and_says_why(client):
    client.get("/join")
    page = client.post("/theme", data={"theme": "day"})
    assert page.status_code == 403
    assert "Open the page again and send it once more." in words_of(page.text)


def test_the_wrong_method_is_told(client):
    page = client.get("/theme")
    assert page.status_code == 405
    assert "Go back and use the button." in words_of(page.text)


def test_too_much_at_once_is_told(client):
    page = client.send("/join", name="x" * 70_000)
    assert page.status_code == 413
    assert "You sent more than this page takes." in words_of(page.text)


def test_too_many_tries_have_a_page(app, client):
    from flask import abort

    from webapp.access import open_to_all

    @app.get("/tries")
    @open_to_all
    def tries():
        abort(429)

    page = client.get("/tries")
    assert page.status_code == 429
    assert "Wait some minutes, then try again." in words_of(page.text)


def test_what_breaks_is_told_without_asking_the_records(tmp_path, clock, monkeypatch, caplog):
    """The page of a 500 is made even when the records can't be read, and says nothing of the cause."""
    app = create_app({"DATABASE": str(tmp_path / "r.sqlite"), "CLOCK": clock, "ARGON2": CHEAP})
    app.test_client_class = Browser

    def broken(*args):
        raise OSError("disk pulled out at /secret/place")

    monkeypatch.setattr(records_house, "read", broken)
    page = app.test_client().get("/bench")
    app.extensions["pinandbox"]["store"].close()
    assert page.status_code == 500
    words = words_of(page.text)
    assert "Something broke on our side" in words and "All answers that a page has confirmed are saved." in words
    assert "Training aid only." in words
    assert "secret" not in page.text
    assert "disk pulled out" in caplog.text  # who runs the server can read it


def test_each_page_has_the_safety_line_and_keeps_to_its_policy(client, hands):
    hand = hands()
    pages = ((client, "/"), (client, "/bench"), (hand, "/today"), (hand, "/lessons/units/force-mass-weight"))
    for browser, path in pages:
        page = browser.get(path)
        line = "The maker’s rating plate, your rig’s procedures, local codes and licensed practice govern."
        assert line in words_of(page.text)
        assert "style-src 'self'" in page.headers["Content-Security-Policy"]
        assert "unsafe" not in page.headers["Content-Security-Policy"]


def test_the_demo_says_so_on_every_page(app, client):
    assert "Invented demo data" not in client.get("/bench").text
    with app.app_context():
        records_house.mark_demo(app.extensions["pinandbox"]["store"])
    assert "Invented demo data" in client.get("/bench").text


def test_the_address_of_the_style_sheet_changes_with_the_file(client):
    found = re.search(r'href="(/static/site\.css\?v=[0-9a-f]{8})"', client.get("/").text)
    with client.get(found[1]) as sheet:
        assert sheet.mimetype == "text/css"


def test_the_first_page_says_its_name_once(client):
    """The name of the house stands behind every other title."""
    assert "<title>Pin &amp; Box</title>" in client.get("/").text
    assert "<title>Bench · Pin &amp; Box</title>" in client.get("/bench").text
