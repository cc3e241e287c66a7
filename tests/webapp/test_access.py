"""Access: closed by default, sessions, form tokens, the slowing of guesses, headers."""

import hashlib
from datetime import UTC, datetime, timedelta

import pytest
from flask import Flask, render_template_string, request

from webapp import access
from webapp.records import people, sessions
from webapp.records.connection import Store

START = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
FORM = '<form method="post"><input name="token" value="{{ csrf_token() }}"></form>'


class House:
    """A small app behind access.install: a clock to turn, one person, a browser."""

    def __init__(self, path, monkeypatch, **config):
        self.store = Store(path)
        self.store.migrate()
        self.clock = START
        monkeypatch.setattr(access, "store", lambda: self.store)
        monkeypatch.setattr(access, "now", lambda: self.clock)
        self.person = people.join(self.store, "Marek", "h", "c", system="us", comma=False, minutes=20, now=START)
        self.app = small_app(self.person, **config)
        self.browser = self.app.test_client()

    def token(self, browser=None) -> str:
        """The token of a form as the browser is shown it."""
        return (browser or self.browser).get("/form").text.split('value="')[1].split('"')[0]

    def sign_in(self, browser=None):
        browser = browser or self.browser
        return browser.post("/let-in", data={"token": self.token(browser)})

    def cookie(self, browser=None):
        found = (browser or self.browser).get_cookie("pinandbox")
        return found and found.value

    def rows(self, table: str) -> int:
        return self.store.db.execute(f"select count(*) from {table}").fetchone()[0]


def small_app(person, **config) -> Flask:
    app = Flask(__name__, static_folder=None)
    app.config.update(config, TESTING=True)

    @app.route("/form")
    @access.open_to_all
    def form():
        return render_template_string(FORM)

    @app.route("/open")
    @access.open_to_all
    def open_page():
        return "open"

    @app.post("/let-in")
    @access.open_to_all
    def let_in():
        access.sign_in(person, show_once="7KQM")
        return "in"

    @app.post("/let-out")
    def let_out():
        access.sign_out()
        return render_template_string(FORM)

    @app.route("/mine", methods=["GET", "POST"])
    def mine():
        return f"{access.take_show_once()} {request.form.get('word')}"

    access.install(app)
    return app


@pytest.fixture
def house(tmp_path, monkeypatch):
    house = House(tmp_path / "records.sqlite", monkeypatch)
    yield house
    house.store.close()


def test_a_page_is_closed_unless_its_view_says_otherwise(house):
    """A visitor is sent to sign in, with the page asked for; a form goes nowhere after signing in."""
    assert house.browser.get("/open").status_code == 200
    closed = house.browser.get("/mine?a=1&b=2")
    assert (closed.status_code, closed.location) == (303, "/sign-in?next=%2Fmine%3Fa%3D1%26b%3D2")
    sent = house.browser.post("/mine", data={"word": "x"})
    assert (sent.status_code, sent.location) == (303, "/sign-in")
    assert house.browser.get("/nothing").status_code == 404


def test_signing_in_opens_pages_and_signing_out_closes_them(house):
    assert house.sign_in().text == "in"
    assert house.browser.get("/mine").status_code == 200
    house.browser.post("/let-out", data={"token": house.token()})
    assert house.browser.get("/mine").status_code == 303
    assert house.rows("sessions") == 0


def test_a_copied_cookie_is_worth_nothing_after_signing_out(house):
    house.sign_in()
    copied = house.cookie()
    house.browser.post("/let-out", data={"token": house.token()})
    thief = house.app.test_client()
    thief.set_cookie("pinandbox", copied)
    assert thief.get("/mine").status_code == 303


def test_each_sign_in_has_a_new_id_and_ends_the_one_before(house):
    """The visitor's cookie is never the session's, and a second sign-in in one browser leaves one row."""
    house.token()
    visitor = house.cookie()
    house.sign_in()
    first = house.cookie()
    house.sign_in()
    assert len({visitor, first, house.cookie()}) == 3
    assert house.rows("sessions") == 1
    thief = house.app.test_client()
    for old in (visitor, first):
        thief.set_cookie("pinandbox", old)
        assert thief.get("/mine").status_code == 303


def test_the_file_holds_no_cookie(house):
    """What is kept is a hash: no text of the records is the cookie's value."""
    house.sign_in()
    dump = "\n".join(house.store.db.conn.iterdump())
    assert house.cookie() not in dump
    assert len(house.cookie()) == 43


def test_a_visitor_gets_a_cookie_with_the_first_form_and_no_row(house):
    assert house.browser.get("/open").headers.get("Set-Cookie") is None
    shown = house.browser.get("/form")
    assert "Max-Age" not in shown.headers["Set-Cookie"]
    assert house.rows("sessions") == 0
    assert house.browser.get("/form").headers.get("Set-Cookie") is None


def test_a_session_ends_after_fourteen_idle_days(house):
    house.sign_in()
    house.clock = START + timedelta(days=14)
    assert house.browser.get("/mine").status_code == 200
    house.clock += timedelta(days=14, seconds=1)
    assert house.browser.get("/mine").status_code == 303


def test_a_new_password_ends_the_session(house):
    house.sign_in()
    people.set_password(house.store, house.person.id, "new")
    assert house.browser.get("/mine").status_code == 303


def test_the_recovery_code_is_shown_once(house):
    house.sign_in()
    assert [house.browser.get("/mine").text for _ in range(2)] == ["7KQM None", "None None"]


def test_a_form_needs_the_token_of_its_browser(house):
    """None, a made-up one, another visitor's and the one from before signing in are refused; the right one passes."""
    other = house.token(house.app.test_client())
    before = house.token()
    house.sign_in()
    for wrong in (None, "", "0" * 64, "ключ", other, before):
        refused = house.browser.post("/mine", data={"word": "x"} | ({} if wrong is None else {"token": wrong}))
        assert refused.status_code == 403, wrong
        assert "Open the page again" in refused.text
    assert house.browser.post("/mine", data={"word": "x", "token": house.token()}).text == "7KQM x"


def test_an_open_form_needs_a_token_too(house):
    """Nobody is signed in by a page of somebody else's."""
    assert house.app.test_client().post("/let-in").status_code == 403
    assert house.rows("sessions") == 0


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({}, 200),
        ({"Sec-Fetch-Site": "same-origin"}, 200),
        ({"Sec-Fetch-Site": "none"}, 200),
        ({"Sec-Fetch-Site": "cross-site"}, 403),
        ({"Sec-Fetch-Site": "same-site"}, 403),
        ({"Origin": "http://localhost"}, 200),
        ({"Origin": "https://localhost"}, 200),
        ({"Origin": "http://localhost:81"}, 403),
        ({"Origin": "http://elsewhere.example"}, 403),
        ({"Origin": "null"}, 403),
        ({"Sec-Fetch-Site": "cross-site", "Origin": "http://localhost"}, 403),
    ],
)
def test_a_form_comes_from_our_own_pages(house, headers, status):
    house.sign_in()
    sent = house.browser.post("/mine", data={"token": house.token()}, headers=headers)
    assert sent.status_code == status


def test_too_much_is_refused(house):
    """More than 64 kB of form gets 413, whichever way it is packed."""
    house.sign_in()
    big = {"token": house.token(), "word": "x" * 70_000}
    assert house.browser.post("/mine", data=big).status_code == 413
    assert house.browser.post("/mine", data=big, content_type="multipart/form-data").status_code == 413


def test_every_response_carries_the_headers(house):
    """Pages, redirects and errors alike; no script or style from a page's own text, no framing."""
    house.sign_in()
    answers = [house.browser.get(path) for path in ("/open", "/mine", "/nothing")]
    answers += [house.app.test_client().get("/mine"), house.browser.post("/mine")]
    assert [each.status_code for each in answers] == [200, 200, 404, 303, 403]
    for each in answers:
        policy = each.headers["Content-Security-Policy"]
        assert policy.startswith("default-src 'none';")
        assert "unsafe" not in policy and "*" not in policy and "http" not in policy
        assert "frame-ancestors 'none'" in policy and "base-uri 'none'" in policy and "form-action 'self'" in policy
        assert each.headers["X-Content-Type-Options"] == "nosniff"
        assert each.headers["Referrer-Policy"] == "same-origin"
        assert each.headers["Cross-Origin-Opener-Policy"] == "same-origin"
        assert "geolocation=()" in each.headers["Permissions-Policy"]
        assert "Strict-Transport-Security" not in each.headers


def test_a_signed_in_page_is_kept_by_nobody(house):
    assert "Cache-Control" not in house.browser.get("/open").headers
    assert house.browser.get("/form").headers["Cache-Control"] == "no-store"
    house.sign_in()
    assert house.browser.get("/mine").headers["Cache-Control"] == "no-store"
    assert house.browser.get("/open").headers["Cache-Control"] == "no-store"


def test_the_cookie_is_out_of_reach_of_scripts_and_other_sites(house):
    flags = house.sign_in().headers["Set-Cookie"]
    assert "HttpOnly" in flags and "SameSite=Lax" in flags and "Path=/" in flags
    assert f"Max-Age={60 * 24 * 3600}" in flags
    assert "Secure" not in flags


def test_behind_https_the_cookie_is_bound_to_it(tmp_path, monkeypatch):
    house = House(tmp_path / "records.sqlite", monkeypatch, HTTPS=True)
    signed_in = house.browser.post("/let-in", data={"token": house.token()}, base_url="https://localhost")
    assert signed_in.status_code == 200
    assert signed_in.headers["Set-Cookie"].startswith("__Host-pinandbox=")
    assert "; Secure" in signed_in.headers["Set-Cookie"]
    assert signed_in.headers["Strict-Transport-Security"] == "max-age=31536000"


@pytest.mark.parametrize("value", ["x", "x" * 42, "é" * 43, "x" * 44, ""])
def test_a_cookie_that_cannot_be_ours_is_replaced(house, value):
    house.browser.set_cookie("pinandbox", value)
    assert house.browser.get("/form").status_code == 200
    assert len(house.cookie()) == 43 and house.cookie() != value


def failing(house, count: int, name="Marek", address="10.0.0.7"):
    for _ in range(count):
        access.failed_try(name, address)


@pytest.fixture
def asked(house):
    with house.app.test_request_context():
        yield house


def test_five_failed_tries_make_a_name_wait_at_that_address(asked):
    """The wait counts down, ends after a quarter of an hour, and is not for others."""
    failing(asked, 4)
    assert access.throttle("Marek", "10.0.0.7") == 0
    failing(asked, 1)
    assert access.throttle("Marek", "10.0.0.7") == 900
    assert access.throttle(" MAREK ", "10.0.0.7") == 900
    assert access.throttle("Marek", "10.0.0.8") == access.throttle("Priya", "10.0.0.7") == 0
    asked.clock += timedelta(minutes=14, seconds=59)
    assert access.throttle("Marek", "10.0.0.7") == 1
    asked.clock += timedelta(seconds=1)
    assert access.throttle("Marek", "10.0.0.7") == 0


def test_the_wait_ends_when_the_oldest_of_five_tries_is_old(asked):
    for _ in range(5):
        failing(asked, 1)
        asked.clock += timedelta(minutes=2)
    assert access.throttle("Marek", "10.0.0.7") == (15 - 10) * 60
    asked.clock += timedelta(minutes=5)
    assert access.throttle("Marek", "10.0.0.7") == 0
    failing(asked, 1)
    assert access.throttle("Marek", "10.0.0.7") == 120


def test_tries_that_came_in_at_once_do_not_shorten_the_wait(asked):
    """Seven failed tries, a minute apart: it waits until only four of them are young."""
    for _ in range(7):
        failing(asked, 1)
        asked.clock += timedelta(minutes=1)
    assert access.throttle("Marek", "10.0.0.7") == (15 - 7 + 2) * 60


def test_twenty_tries_at_a_name_from_anywhere_make_it_wait(asked):
    for number in range(20):
        assert access.throttle("Marek", "10.9.9.9") == 0
        failing(asked, 1, address=f"10.0.0.{number}")
    assert access.throttle("Marek", "10.9.9.9") == 900
    assert access.throttle("Priya", "10.9.9.9") == 0


def test_sixty_tries_from_an_address_make_it_wait(asked):
    for number in range(60):
        assert access.throttle("Priya", "10.0.0.7") == 0
        failing(asked, 1, name=f"Hand {number}")
    assert access.throttle("Priya", "10.0.0.7") == 900
    assert access.throttle("Priya", "10.0.0.8") == 0


def test_a_good_try_forgets_the_name_and_not_the_address(asked):
    failing(asked, 5)
    failing(asked, 55, name="Priya")
    access.good_try("Marek", "10.0.0.7")
    assert access.throttle("Marek", "10.0.0.8") == 0
    assert access.throttle("Somebody", "10.0.0.7") == 900


def test_what_was_typed_as_a_name_is_not_in_the_file(asked):
    """It may have been a password."""
    failing(asked, 1, name="my secret words")
    dump = "\n".join(asked.store.db.conn.iterdump())
    assert "my secret words" not in dump and "10.0.0.7" not in dump


@pytest.mark.parametrize(
    ("path", "goes_to"),
    [
        ("/lessons/units/force?part=2", "/lessons/units/force?part=2"),
        (None, "/today"),
        ("", "/today"),
        ("https://elsewhere.example/", "/today"),
        ("//elsewhere.example/", "/today"),
        ("/\\elsewhere.example/", "/today"),
        ("/\t/elsewhere.example", "/today"),
        ("/x\r\nSet-Cookie: a=b", "/today"),
        ("javascript:alert(1)", "/today"),
        ("today", "/today"),
    ],
)
def test_after_signing_in_one_stays_in_the_house(path, goes_to):
    assert access.next_page(path) == goes_to


def test_a_style_sheet_may_be_kept_by_the_browser(house, tmp_path):
    """Static files are open, and being signed in does not forbid keeping them."""
    (tmp_path / "static").mkdir()
    (tmp_path / "static" / "site.css").write_text("body {}")
    app = Flask("with_static", static_folder=str(tmp_path / "static"))
    access.install(app)
    house.sign_in()
    for cookie in (None, house.cookie()):
        browser = app.test_client()
        browser.set_cookie("pinandbox", cookie or "")
        with browser.get("/static/site.css") as sheet:
            assert sheet.status_code == 200
            assert "no-store" not in sheet.headers["Cache-Control"]
            assert sheet.headers["X-Content-Type-Options"] == "nosniff"


def test_the_row_holds_a_hash_of_the_cookie(house):
    """SHA-256 of the cookie's value."""
    house.sign_in()
    hashed = hashlib.sha256(house.cookie().encode()).hexdigest()
    assert sessions.find(house.store, hashed, START).person == house.person
