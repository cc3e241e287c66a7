"""The pages of one crew, as the row of links on each of them has them."""

from flask import current_app
from werkzeug.exceptions import HTTPException
from werkzeug.routing import RoutingException

from webapp.records.crews import Crew

PAGES = (
    ("Modules", "/crews/{crew}"),
    ("People", "/crews/{crew}/people"),
    ("Assign", "/crews/{crew}/assign"),
    ("Tasks", "/crews/{crew}/tasks"),
    ("Observers", "/crews/{crew}/observers"),
    ("Slips", "/crews/{crew}/slips"),
    ("Rig sheet", "/rigs/{rig}/sheet?crew={crew}"),
    ("Log", "/crews/{crew}/log"),
    ("About", "/crews/{crew}/about"),
)


def crew_links(crew: Crew) -> list[tuple[str, str]]:
    """Word and address of each page of the crew that this house has."""
    addresses = [(word, page.format(crew=crew.id, rig=crew.rig.id)) for word, page in PAGES]
    return [(word, address) for word, address in addresses if _is_a_page(address)]


def _is_a_page(address: str) -> bool:
    try:
        current_app.url_map.bind("").match(address.partition("?")[0], "GET")
    except (HTTPException, RoutingException):
        return False
    return True
