"""Every route × who asks: nobody, the owner of what it shows, another learner. A new route that is missing fails."""

import pytest

from question_bank.powers_of_ten import power_of
from tests.webapp.cases import CASE, give_case
from webapp.records import case_runs, people, questions

LESSON = "/lessons/safety/dropped-objects"

# method, rule, form fields, status for nobody, for the owner, for another learner
TABLE = [
    ("GET", "/", {}, 200, 303, 303),
    ("GET", "/static/<path:filename>", {}, 200, 200, 200),
    ("POST", "/theme", {"theme": "night"}, 303, 303, 303),
    ("POST", "/units", {"system": "metric"}, 303, 303, 303),
    ("POST", "/entry", {"entry": "free"}, 303, 303, 303),
    ("GET", "/glossary", {}, 200, 200, 200),
    ("GET", "/bench", {}, 200, 200, 200),
    ("GET", "/bench/formulas", {}, 200, 200, 200),
    ("GET", "/bench/<module>/<name>", {}, 200, 200, 200),
    ("GET", "/join", {}, 200, 303, 303),
    ("POST", "/join", {}, 422, 422, 422),
    ("GET", "/recovery-code", {}, 303, 200, 200),
    ("GET", "/sign-in", {}, 200, 303, 303),
    ("POST", "/sign-in", {"name": "Nobody", "password": "wrong words here"}, 422, 422, 422),
    ("GET", "/reset", {}, 200, 200, 200),
    ("POST", "/reset", {}, 422, 422, 422),
    ("GET", "/settings", {}, 303, 200, 200),
    ("POST", "/settings", {}, 303, 422, 422),
    ("POST", "/settings/password", {}, 303, 422, 422),
    ("GET", "/settings/plan", {}, 303, 200, 200),
    ("POST", "/settings/plan", {}, 303, 422, 422),
    ("POST", "/settings/plan/exam", {}, 303, 422, 422),
    ("POST", "/settings/plan/day", {}, 303, 422, 422),
    ("POST", "/settings/recovery-code", {}, 303, 422, 422),
    ("GET", "/today", {}, 303, 200, 200),
    ("GET", "/lessons", {}, 303, 200, 200),
    ("GET", "/lessons/<module>/<name>", {}, 303, 200, 200),
    ("POST", "/lessons/<module>/<name>/read", {"part": "why-things-fall"}, 303, 303, 303),
    ("POST", "/lessons/<module>/<name>/answer", {"question": "{lesson_question}", "number": "5"}, 303, 303, 404),
    ("POST", "/lessons/<module>/<name>/again", {"question": "{lesson_question}"}, 303, 303, 404),
    ("GET", "/practice", {}, 303, 200, 200),
    ("POST", "/practice/start", {"lesson": "safety/dropped-objects"}, 303, 303, 303),
    ("POST", "/practice/next", {"after": "{question}"}, 303, 303, 404),
    ("GET", "/questions/<question_id>", {}, 303, 200, 404),
    ("POST", "/questions/<question_id>/hint", {}, 303, 303, 404),
    ("POST", "/questions/<question_id>/answer", {"number": "no number"}, 303, 422, 404),
    ("POST", "/questions/<question_id>/answer", {"number": "5"}, 303, 303, 404),
    ("GET", "/questions/<question_id>/answer", {}, 303, 303, 404),
    ("POST", "/questions/<question_id>/again", {}, 303, 303, 404),
    ("POST", "/cases/<case>/start", {}, 303, 303, 303),
    ("GET", "/cases/<run>", {}, 303, 200, 404),
    ("GET", "/cases/<run>/sheet", {}, 303, 200, 404),
    ("GET", "/record", {}, 303, 200, 200),
    ("GET", "/record/attempts", {}, 303, 200, 200),
    ("GET", "/ten", {}, 200, 200, 200),
    ("POST", "/ten/start", {"writes": "point"}, 303, 303, 303),
    ("GET", "/ten/<drill>/<int:place>", {}, 404, 200, 404),
    ("POST", "/ten/<drill>/<int:place>/size", {}, 404, 422, 404),
    ("POST", "/ten/<drill>/<int:place>/answer", {"number": "too early"}, 404, 303, 404),
    ("POST", "/ten/<drill>/<int:place>/size", {"power": "{power}"}, 404, 303, 404),
    ("POST", "/ten/<drill>/<int:place>/answer", {"number": "no number"}, 404, 422, 404),
    ("GET", "/ten/<drill>/<int:place>/size", {}, 404, 303, 404),
    ("GET", "/ten/<drill>/<int:place>/answer", {}, 404, 303, 404),
    ("GET", "/ten/<drill>/result", {}, 404, 200, 404),
    ("POST", "/sign-out", {}, 303, 303, 303),
]  # fmt: skip


@pytest.fixture
def known(app, hands, house, clock):
    """What the owner has: an open question, a question in a lesson, a drill, a case. And the owner's browser."""
    give_case(app)
    owner = hands("Ines Okoro")
    owner.get(LESSON)
    item = app.extensions["pinandbox"]["bank"]["units.string-under-block"]
    ines = people.by_name(house, "Ines Okoro").id
    question = questions.keep(house, item.draw(1, "us"), ines, "practice", clock(), text=item.text)
    drill = owner.send("/ten/start").location.split("/")[2]
    owner.send(f"/cases/{CASE}/start")
    first = questions.of_drill(house, drill)[0].question
    in_lesson = questions.in_lesson(house, ines, "safety/dropped-objects")
    return owner, {
        "question": question,
        "lesson_question": in_lesson["safety.drop-energy"].id,
        "drill": drill,
        "run": case_runs.newest(house, ines)[CASE].id,
        "power": str(power_of(first.value)),
    }


def _address(rule: str, ids: dict[str, str]) -> str:
    return (
        rule.replace("<path:filename>", "site.css")
        .replace("/bench/<module>/<name>", "/bench/units/string-under-block")
        .replace("<module>/<name>", "safety/dropped-objects")
        .replace("<question_id>", ids["question"])
        .replace("<drill>", ids["drill"])
        .replace("<case>", CASE)
        .replace("<run>", ids["run"])
        .replace("<int:place>", "1")
    )


@pytest.mark.parametrize("who", ["nobody", "owner", "other"])
def test_each_route_answers_each_asker_as_the_table_says(app, hands, known, who):
    owner, ids = known
    amiss = []
    for method, rule, fields, *expected in TABLE:
        browser = {"nobody": app.test_client, "owner": lambda: owner, "other": lambda: hands("Marek Osei")}[who]()
        sent = {name: ids.get(value.strip("{}"), value) for name, value in fields.items()}
        address = _address(rule, ids)
        response = browser.get(address) if method == "GET" else browser.send(address, **sent)
        response.close()
        wanted = expected[("nobody", "owner", "other").index(who)]
        closed = who == "nobody" and wanted == 303 and rule not in OPEN_AND_MOVING
        if response.status_code != wanted or (closed and not response.location.startswith("/sign-in")):
            amiss.append(f"{method} {address}: {response.status_code} {response.location}, not {wanted}")
    assert not amiss, "\n".join(amiss)


OPEN_AND_MOVING = {"/theme", "/units", "/entry", "/ten/start"}
"""Open routes that lead on: a visitor's 303 from them is not the way to the sign-in."""


def test_no_route_is_missing_from_the_table(app):
    """Add the new route to TABLE, with the status that each asker must get."""
    in_table = {(method, rule) for method, rule, *_ in TABLE}
    routes = {(method, rule.rule) for rule in app.url_map.iter_rules() for method in rule.methods - {"HEAD", "OPTIONS"}}
    assert routes == in_table


@pytest.mark.parametrize("rule", sorted({rule for method, rule, *_ in TABLE if method == "POST"}))
def test_a_form_without_our_token_is_refused(known, rule):
    owner, ids = known
    assert owner.post(_address(rule, ids), data={}).status_code == 403


@pytest.mark.parametrize("rule", sorted({rule for method, rule, *_ in TABLE if method == "POST"}))
def test_a_form_from_another_site_is_refused(known, rule):
    owner, ids = known
    sent = owner.post(_address(rule, ids), data={"token": owner.token}, headers={"Sec-Fetch-Site": "cross-site"})
    assert sent.status_code == 403
