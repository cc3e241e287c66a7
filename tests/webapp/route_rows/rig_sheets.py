"""Rig sheets: a rig's own for its coordinators and observers, a hand's own for the hand and who works with the crew."""

from tests.webapp.crews import START
from webapp.records import rig_sheets

# nobody, owner, other, other observer, other coordinator, own observer, own coordinator
TABLE = [
    ("GET", "/rig-sheet", {}, 303, 200, 200, 200, 200, 200, 200),
    ("GET", "/rig-sheet?edit=yes", {}, 303, 200, 200, 200, 200, 200, 200),
    ("POST", "/rig-sheet/remove", {}, 303, 303, 303, 303, 303, 303, 303),
    ("POST", "/rig-sheet", {"tool_rating": "five"}, 303, 422, 422, 422, 422, 422, 422),
    ("GET", "/rigs/<rig>/sheet", {}, 303, 404, 404, 404, 404, 200, 200),
    ("GET", "/rigs/<rig>/sheet?version=1", {}, 303, 404, 404, 404, 404, 200, 200),
    ("GET", "/rigs/<rig>/sheet?edit=yes", {}, 303, 404, 404, 404, 404, 404, 200),
    ("POST", "/rigs/<rig>/sheet", {}, 303, 404, 404, 404, 404, 404, 422),
    ("POST", "/rigs/<rig>/sheet/checked", {"sheet": "{rig_sheet}"}, 303, 404, 404, 404, 404, 303, 303),
    ("GET", "/people/<person>/rig-sheet", {}, 303, 404, 404, 404, 404, 200, 200),
    ("POST", "/people/<person>/rig-sheet/checked", {"sheet": "{own_sheet}"}, 303, 404, 404, 404, 404, 303, 303),
    ("POST", "/people/<person>/rig-sheet/take", {"sheet": "{own_sheet}"}, 303, 404, 404, 404, 404, 404, 303),
]  # fmt: skip


def have(house, ids):
    """A sheet of the owner's rig, and one that the owner filled in."""
    kept = {"values": {"tool_rating": "250 st"}, "notes": {}, "draws": {}, "system": "us", "now": START}
    return {
        "rig_sheet": rig_sheets.keep(house, **kept, by=ids["coordinator"], rig=ids["rig"]).id,
        "own_sheet": rig_sheets.keep(house, **kept, by=ids["person"], person=ids["person"], for_rig=ids["rig"]).id,
    }
