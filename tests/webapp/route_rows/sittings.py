"""Tests of modules and sittings are the hand's alone. Neither coordinator nor observer opens one by its address."""

from tests.webapp.sittings import a_sitting

TABLE = [
    ("GET", "/tests", {}, 303, 200, 200),
    ("GET", "/tests/<module>/start", {}, 303, 200, 200),
    ("POST", "/tests/<module>/start", {}, 303, 303, 303),
    ("GET", "/sittings/<sitting>", {}, 303, 303, 404),
    ("GET", "/sittings/<sitting>/<int:place>", {}, 303, 200, 404),
    ("POST", "/sittings/<sitting>/<int:place>/answer", {"number": "no number"}, 303, 422, 404),
    ("POST", "/sittings/<sitting>/<int:place>/answer", {"number": "5"}, 303, 303, 404),
    ("POST", "/sittings/<sitting>/<int:place>/draft", {"number": "5"}, 303, 204, 404),
    ("GET", "/sittings/<sitting>/<int:place>/answer", {}, 303, 303, 404),
    ("GET", "/sittings/<sitting>/hand-in", {}, 303, 200, 404),
    ("POST", "/sittings/<sitting>/hand-in", {}, 303, 303, 404),
    ("GET", "/sittings/<sitting>", {}, 303, 200, 404),
    ("POST", "/sittings/<sitting>/<int:place>/draft", {"number": "5"}, 303, 410, 404),
]  # fmt: skip


def have(house, ids: dict[str, str]) -> dict[str, str]:
    """An open sitting of the owner with one question, a sum."""
    sitting, _ = a_sitting(house, ids["person"], ["units.rating-in-kn"])
    return {"sitting": sitting}
