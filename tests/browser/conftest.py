"""Debian's Chromium against a real `pinandbox serve`. Where CI is set, a missing browser fails and does not skip."""

import os
import shutil

import pytest

from tests.webapp.serving import Served
from webapp.records.connection import Store

ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


@pytest.fixture(scope="session")
def chromium():
    """One Chromium for the whole run."""
    from playwright.sync_api import sync_playwright

    path = shutil.which("chromium")
    if path is None:
        message = "There is no chromium on the path. Install Debian's chromium for the browser tests."
        if os.environ.get("CI"):
            pytest.fail(message)
        pytest.skip(message)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=ARGUMENTS)
        yield browser
        browser.close()


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
