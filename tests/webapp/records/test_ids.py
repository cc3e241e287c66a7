"""Ids of records."""

import uuid
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta

from webapp.records import ids

MOMENT = datetime(2026, 3, 2, 9, 0, 0, 123_000, tzinfo=UTC)


def stamp(text: str) -> int:
    """The milliseconds in an id."""
    return uuid.UUID(text).int >> 80


def test_an_id_is_a_uuid_of_version_7(monkeypatch):
    monkeypatch.setattr(ids, "_last", 0)
    made = uuid.UUID(ids.new_id(MOMENT))
    assert (made.version, made.variant) == (7, uuid.RFC_4122)
    assert stamp(str(made)) == int(MOMENT.timestamp() * 1000)


def test_ids_sort_by_their_moment(monkeypatch):
    monkeypatch.setattr(ids, "_last", 0)
    made = [ids.new_id(MOMENT + timedelta(milliseconds=number)) for number in range(500)]
    assert made == sorted(made)
    assert [stamp(each) - stamp(made[0]) for each in made] == list(range(500))


def test_ids_of_one_moment_and_after_a_clock_set_back_still_count_up(monkeypatch):
    monkeypatch.setattr(ids, "_last", 0)
    made = [ids.new_id(MOMENT) for _ in range(200)] + [ids.new_id(MOMENT - timedelta(days=1)) for _ in range(200)]
    assert made == sorted(made)
    assert len(set(made)) == 400


def test_threads_never_share_an_id():
    with ThreadPoolExecutor(8) as pool:
        made = [
            each for several in pool.map(lambda _: [ids.new_id() for _ in range(500)], range(8)) for each in several
        ]
    assert len(set(made)) == 4_000
