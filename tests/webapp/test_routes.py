"""Every route × who asks. A new route that is missing fails.

Who asks is nobody, a hand who owns what is shown and is in the crew, another learner, an observer and a coordinator of
another crew, and an observer and a coordinator of the hand's own crew. Rows of three statuses are for what a hand has
alone: whoever works with crews gets there what another learner gets. Rows of seven stand in `route_rows/`, a file for
each subject; a file there is found by itself.
"""

import re
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

import pytest

from question_bank.powers_of_ten import power_of
from tests.webapp.cases import CASE, give_case
from tests.webapp.crews import a_crew, a_hand, a_member, a_rig, an_observer
from webapp.records import case_runs, people, questions

LESSON = "/lessons/safety/dropped-objects"
ASKERS = (
    "nobody", "owner", "other", "other_observer", "other_coordinator", "own_observer", "own_coordinator",
)  # fmt: skip
NAMES = {
    "owner": "Ines Okoro",
    "other": "Marek Osei",
    "other_observer": "Lucho Brandvold",
    "other_coordinator": "Tilda Marsh",
    "own_observer": "Teodor Quist",
    "own_coordinator": "Rosalind Achterberg",
}

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


ROWS = [
    import_module(f"tests.webapp.route_rows.{path.stem}")
    for path in sorted(Path(__file__).with_name("route_rows").glob("*.py"))
]
"""Each has TABLE, rows as above with a status for each of ASKERS. It may have have(house, ids): what its rows need; it
gives more ids. A rule's `<name>`, and a field's or rule's `{name}`, is replaced by ids["name"]."""
ALL = [*TABLE[:-1], *(row for rows in ROWS for row in rows.TABLE), TABLE[-1]]
"""Signing out comes last, since nothing after it would be asked by anybody."""
SAMPLES = {
    "path:filename": "site.css",
    "module": "safety",
    "name": "dropped-objects",
    "case": CASE,
    "int:place": "1",
}


@pytest.fixture
def known(app, hands, house, clock):
    """What the owner has: an open question, a question in a lesson, a drill, a case, a crew. And their browser."""
    give_case(app)
    owner = hands(NAMES["owner"])
    owner.get(LESSON)
    item = app.extensions["pinandbox"]["bank"]["units.string-under-block"]
    ines = people.by_name(house, NAMES["owner"]).id
    question = questions.keep(house, item.draw(1, "us"), ines, "practice", clock(), text=item.text)
    drill = owner.send("/ten/start").location.split("/")[2]
    owner.send(f"/cases/{CASE}/start")
    first = questions.of_drill(house, drill)[0].question
    in_lesson = questions.in_lesson(house, ines, "safety/dropped-objects")
    ids = SAMPLES | {
        "question": question,
        "question_id": question,
        "lesson_question": in_lesson["safety.drop-energy"].id,
        "drill": drill,
        "run": case_runs.newest(house, ines)[CASE].id,
        "power": str(power_of(first.value)),
    }
    ids |= _two_crews(house)
    for rows in ROWS:
        if hasattr(rows, "have"):
            ids |= rows.have(house, ids)
    return owner, ids


def _two_crews(house) -> dict[str, str]:
    """The owner's crew with an observer and a coordinator, and another rig's with its own."""
    rig = a_rig(house)
    own = a_crew(house, rig, coordinator=NAMES["own_coordinator"])
    other = a_crew(house, a_rig(house, "Quillwater 12", "top-drive"), coordinator=NAMES["other_coordinator"])
    member = a_member(house, own, NAMES["owner"])
    observer = an_observer(house, own, NAMES["own_observer"])
    an_observer(house, other, NAMES["other_observer"])
    return {
        "rig": rig.id,
        "crew": own.id,
        "other_crew": other.id,
        "person": member.person.id,
        "membership": member.id,
        "observer": observer.id,
        "coordinator": a_hand(house, NAMES["own_coordinator"]).id,
    }


def _filled(text: str, ids: dict[str, str]) -> str:
    """With the ids in the place of their names."""
    if text.startswith("/bench/<module>"):
        return "/bench/units/string-under-block"
    return re.sub(r"<([^>]+)>|{(\w+)}", lambda found: ids[found[1] or found[2]], text)


def _answers(browser, ids: dict[str, str]) -> Iterator[tuple[tuple, str, object]]:
    """Each row with its address and the response to this browser, in the order of the table."""
    for row in ALL:
        method, rule, fields, *_ = row
        sent = {name: _filled(value, ids) for name, value in fields.items()}
        address = _filled(rule, ids)
        response = browser.get(address) if method == "GET" else browser.send(address, **sent)
        response.close()
        yield row, address, response


@pytest.mark.parametrize("who", ASKERS)
def test_each_route_answers_each_asker_as_the_table_says(app, hands, known, who):
    owner, ids = known
    browser = {"nobody": app.test_client, "owner": lambda: owner}.get(who, lambda: hands(NAMES[who]))()
    amiss = []
    for (method, rule, _, *expected), address, response in _answers(browser, ids):
        wanted = _wanted(expected, who)
        closed = who == "nobody" and wanted == 303 and rule not in OPEN_AND_MOVING
        if response.status_code != wanted or (closed and not response.location.startswith("/sign-in")):
            amiss.append(f"{method} {address}: {response.status_code} {response.location}, not {wanted}")
    assert not amiss, "\n".join(amiss)


def _wanted(expected: list[int], who: str) -> int:
    """Of three statuses, the last is for whoever is neither nobody nor the owner."""
    place = ASKERS.index(who)
    return expected[place] if len(expected) == len(ASKERS) else expected[min(place, 2)]


def test_each_row_has_a_status_for_each_asker():
    """Seven, or three."""
    assert [row for row in ALL if len(row[3:]) not in (3, len(ASKERS))] == []


OPEN_AND_MOVING = {"/theme", "/units", "/entry", "/ten/start"}
"""Open routes that lead on: a visitor's 303 from them is not the way to the sign-in."""


def test_no_route_is_missing_from_the_table(app):
    """Add the new route to TABLE, with the status that each asker must get."""
    in_table = {(method, re.sub(r"\?.*", "", rule)) for method, rule, *_ in ALL}
    routes = {(method, rule.rule) for rule in app.url_map.iter_rules() for method in rule.methods - {"HEAD", "OPTIONS"}}
    assert routes == in_table


POSTS = sorted({rule for method, rule, *_ in ALL if method == "POST"})


def test_a_form_without_our_token_is_refused(known):
    owner, ids = known
    taken = {rule: owner.post(_filled(rule, ids), data={}).status_code for rule in POSTS}
    assert {rule: status for rule, status in taken.items() if status != 403} == {}


def test_a_form_from_another_site_is_refused(known):
    owner, ids = known
    elsewhere = {"Sec-Fetch-Site": "cross-site"}
    taken = {
        rule: owner.post(_filled(rule, ids), data={"token": owner.token}, headers=elsewhere).status_code
        for rule in POSTS
    }
    assert {rule: status for rule, status in taken.items() if status != 403} == {}
