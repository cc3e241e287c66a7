"""A house without a coordinator gets one by an address that the server prints: once, and for two days."""

from datetime import datetime

from webapp import codes
from webapp.records import house, rights, setup_addresses
from webapp.records.connection import Store


def new_address(store: Store, base: str, now: datetime) -> str:
    """What to tell whoever runs the server: the new address under `base`. Addresses before it end."""
    code = codes.set_up_code()
    setup_addresses.make(store, codes.hashed(code), now)
    return f"Whoever opens this address becomes a coordinator. It works once, for 48 hours:\n    {base}/set-up/{code}"


def first_address(store: Store, base: str, now: datetime) -> str | None:
    """The same at the start of a server, while the house has no coordinator. A demo has its own people."""
    if rights.any_coordinator(store) or house.is_demo(store):
        return None
    return new_address(store, base, now)
