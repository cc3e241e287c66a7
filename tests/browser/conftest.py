"""Debian's Chromium against a real `pinandbox serve`, with an empty records file."""

import pytest

from tests.webapp.serving import Served
from webapp.records.connection import Store


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    """A server over an empty records file."""
    store = Store(tmp_path_factory.mktemp("house") / "records.sqlite")
    store.migrate()
    server = Served(store.path).start()
    yield server
    server.stop()


@pytest.fixture
def open_page(chromium, served):
    """Opens a page of a given width, with scripts or without; every context is closed at the end."""
    contexts = []

    def opened(width: int = 390, scripts: bool = True, theme: str = "light"):
        context = chromium.new_context(
            viewport={"width": width, "height": 844 if width < 600 else 900},
            java_script_enabled=scripts,
            color_scheme=theme,
            base_url=f"http://127.0.0.1:{served.port}",
            reduced_motion="reduce",
        )
        context.set_default_timeout(10_000)
        contexts.append(context)
        return context.new_page()

    yield opened
    for context in contexts:
        context.close()
