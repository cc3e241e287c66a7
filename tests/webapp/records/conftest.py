"""A fresh records file for each test, and somebody in it."""

import pytest

from tests.webapp.records.samples import join
from webapp.records.connection import Store


@pytest.fixture
def store(tmp_path):
    """A migrated records file of its own for each test."""
    store = Store(tmp_path / "records.sqlite")
    store.migrate()
    yield store
    store.close()


@pytest.fixture
def person(store):
    """Somebody who studies."""
    return join(store, "Marek Osei-Lund")
