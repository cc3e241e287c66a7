"""The house opens, crews, slips, people, the log, and a hand's own crew."""

from tests.webapp.crews import START, a_hand
from webapp import codes
from webapp.records import setup_addresses, slips

SET_UP = "ABCD-EFGH-JKMN-PQRS"
WHO_MADE = "Rosalind Achterberg"

NOBODY_OWN = (303, 404, 404, 404, 404, 404)
"""The way in for nobody, and 404 for all but the crew's own coordinator."""

# method, rule, form fields; nobody, owner, other, other_observer, other_coordinator, own_observer, own_coordinator
TABLE = [
    ("GET", "/set-up/<code>", {}, 404, 404, 404, 404, 404, 404, 404),
    ("POST", "/set-up/<code>", {}, 404, 404, 404, 404, 404, 404, 404),
    ("GET", "/crews", {}, 303, 404, 404, 404, 200, 404, 200),
    ("GET", "/rigs/new", {}, 303, 404, 404, 404, 200, 404, 200),
    ("POST", "/rigs/new", {}, 303, 404, 404, 404, 422, 404, 422),
    ("GET", "/crews/new", {}, 303, 404, 404, 404, 200, 404, 200),
    ("POST", "/crews/new", {}, 303, 404, 404, 404, 422, 404, 422),
    ("GET", "/crews/<crew_id>/about", {}, *NOBODY_OWN, 200),
    ("POST", "/crews/<crew_id>/rotation", {}, *NOBODY_OWN, 422),
    ("POST", "/crews/<crew_id>/coordinators", {}, *NOBODY_OWN, 422),
    ("POST", "/crews/<crew_id>/coordinators/end", {}, *NOBODY_OWN, 422),
    ("GET", "/crews/<crew_id>/people", {}, *NOBODY_OWN, 200),
    ("GET", "/crews/<crew_id>/people/new", {}, *NOBODY_OWN, 200),
    ("POST", "/crews/<crew_id>/people/new", {}, *NOBODY_OWN, 422),
    ("GET", "/crews/<crew_id>/people/<person_id>/leave", {}, *NOBODY_OWN, 200),
    ("POST", "/crews/<crew_id>/people/<person_id>/leave", {}, *NOBODY_OWN, 422),
    ("GET", "/crews/<crew_id>/people/file", {}, *NOBODY_OWN, 200),
    ("POST", "/crews/<crew_id>/people/file", {}, *NOBODY_OWN, 422),
    ("POST", "/crews/<crew_id>/people/file/add", {}, *NOBODY_OWN, 422),
    ("GET", "/crews/<crew_id>/log", {}, *NOBODY_OWN, 200),
    ("GET", "/crews/<crew_id>/slips", {}, *NOBODY_OWN, 200),
    ("POST", "/crews/<crew_id>/slips", {}, *NOBODY_OWN, 422),
    ("GET", "/crews/<crew_id>/slips/print", {}, *NOBODY_OWN, 200),
    ("POST", "/crews/<crew_id>/slips/end", {"slip": "{other_slip}"}, *NOBODY_OWN, 404),
    ("POST", "/crews/<crew_id>/slips/end", {"slip": "{slip}"}, *NOBODY_OWN, 303),
    ("POST", "/crews/<crew_id>/slips/again", {}, *NOBODY_OWN, 303),
    ("GET", "/slip", {}, 200, 200, 200),
    ("GET", "/slip/<code>", {}, 404, 404, 404),
    ("POST", "/slip/<code>", {}, 404, 404, 404),
    ("GET", "/settings/crew", {}, 303, 200, 200),
    ("POST", "/settings/crew/share", {}, 303, 303, 404),
    ("GET", "/settings/crew/leave", {}, 303, 200, 404),
    ("POST", "/settings/crew/leave", {}, 303, 422, 404),
    ("POST", "/crews/<crew_id>/close", {}, *NOBODY_OWN, 422),
]


def have(house, ids: dict[str, str]) -> dict[str, str]:
    """A slip of the owner's crew, one of the other crew, and a code that no slip and no address has."""
    by = a_hand(house, WHO_MADE)
    until = START.replace(year=2027)
    setup_addresses.make(house, codes.hashed("another code"), START)
    return {
        "crew_id": ids["crew"],
        "person_id": ids["person"],
        "code": SET_UP,
        "slip": slips.make(house, ids["crew"], by.id, START, until, most_uses=5).id,
        "other_slip": slips.make(house, ids["other_crew"], by.id, START, until, most_uses=5).id,
    }
