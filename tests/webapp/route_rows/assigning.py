"""Modules assigned, the matrix, one person's page, excuses, exam days and moving: the own coordinator's alone."""

from tests.webapp.crews import START
from webapp.records import assignments, excuses

# method, rule, fields, then the status for each of test_routes.ASKERS
TABLE = [
    ("GET", "/crews/all", {}, 303, 404, 404, 404, 200, 404, 200),
    ("GET", "/crews/<crew_id>", {}, 303, 404, 404, 404, 404, 404, 200),
    ("GET", "/crews/<crew_id>/assign", {}, 303, 404, 404, 404, 404, 404, 200),
    ("POST", "/crews/<crew_id>/assign", {}, 303, 404, 404, 404, 404, 404, 422),
    ("POST", "/crews/<crew_id>/assignments/<assignment_id>/end", {}, 303, 404, 404, 404, 404, 404, 422),
    ("GET", "/people/<person_id>", {}, 303, 404, 404, 404, 404, 404, 200),
    ("GET", "/people/<person_id>/readiness", {}, 303, 404, 404, 404, 404, 404, 200),
    ("GET", "/people/<person_id>/excuse", {}, 303, 404, 404, 404, 404, 404, 200),
    ("POST", "/people/<person_id>/excuse", {}, 303, 404, 404, 404, 404, 404, 422),
    ("POST", "/people/<person_id>/excuses/<excuse_id>/end", {}, 303, 404, 404, 404, 404, 404, 303),
    ("GET", "/people/<person_id>/exam", {}, 303, 404, 404, 404, 404, 404, 200),
    ("POST", "/people/<person_id>/exam", {}, 303, 404, 404, 404, 404, 404, 422),
    ("GET", "/people/<person_id>/extra-time", {}, 303, 404, 404, 404, 404, 404, 200),
    ("POST", "/people/<person_id>/extra-time", {}, 303, 404, 404, 404, 404, 404, 422),
    ("POST", "/people/<person_id>/extra-time", {"why": "Letter of 2 March"}, 303, 404, 404, 404, 404, 404, 303),
    ("POST", "/people/<person_id>/exam/before", {}, 303, 404, 404, 404, 404, 404, 303),
    ("GET", "/people/<person_id>/transfer", {}, 303, 404, 404, 404, 404, 404, 200),
    ("POST", "/people/<person_id>/transfer", {"crew": "{other_crew}", "why": "x"}, 303, 404, 404, 404, 404, 404, 404),
]  # fmt: skip


def have(house, ids):
    """A module assigned to the owner's crew, and one that the owner is excused from."""
    by, crew, person = ids["coordinator"], ids["crew"], ids["person"]
    terms = {"rig_type": None, "due_by": "date", "due_day": START.date(), "pass_mark": 80, "must_pass": True}
    assigned = assignments.new("units", "crew", crew, made_by=by, made_at=START, **terms)
    assignments.add(house, assigned)
    excuse = excuses.add(house, person, by, START, module="kelly", why="There is none.")
    return {"crew_id": crew, "person_id": person, "assignment_id": assigned.id, "excuse_id": excuse}
