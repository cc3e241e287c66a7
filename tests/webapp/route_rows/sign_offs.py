"""Rows of hands-on tasks: an observer signs for hands of a crew, its coordinator decides, and others see nothing."""

from tests.webapp.crews import START, a_hand
from webapp.records import rights, sign_offs
from webapp.records.people import by_id

TASK = "S-2.4"
FORM = "019c0000-0000-7000-8000-00000000000"
SENT = {"id": FORM + "1", "when": "today", "result": "alone", "once_more": "yes"}

# method, rule, form fields; then status for nobody, owner, other learner, other observer, other coordinator, own
# observer, own coordinator
TABLE = [
    ("GET", "/sign-offs", {}, 303, 404, 404, 200, 404, 200, 404),
    ("GET", "/sign-offs/<person>", {}, 303, 404, 404, 404, 404, 200, 404),
    ("GET", "/sign-offs/<person>/<task>", {}, 303, 404, 404, 404, 404, 200, 404),
    ("POST", "/sign-offs/<person>/<task>", {"result": "alone"}, 303, 404, 404, 404, 404, 400, 404),
    ("POST", "/sign-offs/<person>/<task>", {"id": FORM + "1"}, 303, 404, 404, 404, 404, 422, 404),
    (
        "POST", "/sign-offs/<person>/<task>", SENT,
        303, 404, 404, 404, 404, 303, 404,
    ),
    ("GET", "/sign-offs/mine", {}, 303, 200, 200, 200, 200, 200, 200),
    ("GET", "/sign-offs/mine/<signed>", {}, 303, 404, 404, 404, 404, 200, 404),
    ("POST", "/sign-offs/mine/<signed>/withdraw", {}, 303, 404, 404, 404, 404, 422, 404),
    ("POST", "/sign-offs/mine/<signed>/withdraw", {"why": "Wrong hand."}, 303, 404, 404, 404, 404, 303, 404),
    ("GET", "/crews/<crew>/observers", {}, 303, 404, 404, 404, 404, 404, 200),
    ("POST", "/crews/<crew>/observers", {}, 303, 404, 404, 404, 404, 404, 422),
    (
        "POST", "/crews/<crew>/observers", {"person": "Teodor Quist", "tasks": "S-2.3", "until": "2026-06-01"},
        303, 404, 404, 404, 404, 404, 303,
    ),
    ("POST", "/crews/<crew>/observers/<right>/end", {}, 303, 404, 404, 404, 404, 404, 303),
    ("GET", "/crews/<crew>/tasks", {}, 303, 404, 404, 404, 404, 404, 200),
    ("GET", "/crews/observed", {}, 303, 404, 404, 404, 200, 404, 200),
    ("GET", "/crews/signed/<signed>", {}, 303, 404, 404, 404, 404, 404, 200),
    ("POST", "/crews/signed/<signed>/decide", {}, 303, 404, 404, 404, 404, 404, 303),
    ("POST", "/crews/signed/<signed>/withdraw", {}, 303, 404, 404, 404, 404, 404, 422),
    ("POST", "/crews/signed/<signed>/withdraw", {"why": "Wrong hand."}, 303, 404, 404, 404, 404, 404, 303),
    ("GET", "/record/tasks", {}, 303, 200, 200, 200, 200, 200, 200),
]  # fmt: skip


def have(house, ids: dict[str, str]) -> dict[str, str]:
    """A task signed by the crew's own observer, and a right that can be ended without taking theirs."""
    signed = FORM + "9"
    sign_offs.sign(
        house, signed, hand=by_id(house, ids["person"]), task=TASK, title="A task", crew=ids["crew"], rig=ids["rig"],
        observer=by_id(house, ids["observer"]), result="alone", observed_on=START.date(), note="", now=START,
    )  # fmt: skip
    hettie = a_hand(house, "Hettie Quarles")
    rights.give(house, hettie.id, ids["crew"], "observer", ids["coordinator"], START, (TASK,), START.date())
    [right] = rights.of_person(house, hettie.id, "observer")
    return {"task": TASK, "signed": signed, "right": right.id}
