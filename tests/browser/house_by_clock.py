"""A house in a thread of the tests, behind the same server as `pinandbox serve`, with a clock to turn."""

import socket
import threading
from datetime import UTC, datetime
from pathlib import Path

import waitress

from tests.conftest import Clock
from tests.webapp.conftest import CHEAP
from webapp import create_app
from webapp.records.connection import Store
from webapp.setting_up import first_address

MONDAY = datetime(2026, 3, 2, 6, 30, tzinfo=UTC)


class HouseByClock:
    """A house on a Monday morning, empty unless the file has somebody in it already.

    `told` is what its first start prints: how somebody becomes coordinator.
    """

    def __init__(self, data: Path, moment: datetime = MONDAY):
        self.data = data
        self.clock = Clock(moment)
        self.store = Store(data)
        self.store.migrate()
        self.app = create_app({"DATABASE": str(data), "CLOCK": self.clock, "ARGON2": CHEAP})
        listening = socket.create_server(("127.0.0.1", 0))
        self.port = listening.getsockname()[1]
        self._server = waitress.create_server(self.app, sockets=[listening])
        self._thread = threading.Thread(target=self._server.run, daemon=True)
        self.told = first_address(self.store, f"http://127.0.0.1:{self.port}", self.clock())

    def start(self) -> "HouseByClock":
        """Begin to answer."""
        self._thread.start()
        return self

    def stop(self) -> None:
        """No more is answered."""
        self._server.close()
        self.store.close()
