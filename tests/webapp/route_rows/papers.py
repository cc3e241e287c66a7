"""Practice papers are each hand's own: everybody who is signed in sits their own. Their pages are those of sittings."""

TABLE = [
    ("GET", "/papers", {}, 303, 200, 200),
    ("GET", "/papers/<letter>", {}, 303, 200, 200),
    ("POST", "/papers/<letter>/begin", {}, 303, 303, 303),
]


def have(house, ids: dict[str, str]) -> dict[str, str]:
    """The letter of a paper."""
    return {"letter": "a"}
