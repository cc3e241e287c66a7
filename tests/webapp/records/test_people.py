"""People, their sessions and the failed tries at their names."""

from datetime import timedelta

import pytest

from tests.webapp.records.samples import START, join
from webapp.records import lessons_read, people, sessions, tries
from webapp.records.people import NameTaken

DAY = timedelta(days=1)


def test_a_person_comes_back_as_joined(store):
    made = people.join(store, " Sunniva   Adeyemi-Park", "h", "c", system="metric", comma=True, minutes=25, now=START)
    assert (made.name, made.system, made.comma, made.minutes, made.free_entry) == (
        "Sunniva Adeyemi-Park", "metric", True, 25, False,
    )  # fmt: skip
    assert made.created_at == START
    assert people.by_id(store, made.id) == people.by_name(store, "sunniva adeyemi-PARK") == made
    assert people.by_id(store, "nobody") is people.by_name(store, "nobody") is None
    assert people.secrets_of(store, made.id) == ("h", "c")


@pytest.mark.parametrize("name", ["Marek Osei-Lund", "marek osei-lund", " MAREK  Osei-Lund ", "Ｍarek Osei-Lund"])
def test_one_name_is_one_person(store, person, name):
    with pytest.raises(NameTaken):
        join(store, name)
    assert store.db.execute("select count(*) from people").fetchone() == (1,)


def test_settings_change_one_by_one(store, person):
    people.change_settings(store, person.id, system="metric", comma=True)
    people.change_settings(store, person.id, minutes=45, free_entry=True)
    changed = people.by_id(store, person.id)
    assert (changed.system, changed.comma, changed.minutes, changed.free_entry) == ("metric", True, 45, True)
    assert (changed.name, changed.created_at) == (person.name, person.created_at)


def test_what_is_not_a_setting_cannot_be_set(store, person):
    with pytest.raises(ValueError, match="password_hash: no such setting"):
        people.change_settings(store, person.id, minutes=5, password_hash="mine")
    assert people.by_id(store, person.id) == person
    assert people.secrets_of(store, person.id) == ("hash", "code")


def test_a_new_password_ends_every_session_of_that_person(store, person):
    other = join(store, "Priya")
    for hash_, who in [("a", person), ("b", person), ("c", other)]:
        sessions.open_session(store, hash_, who.id, START)
    people.set_password(store, person.id, "new")
    assert [sessions.find(store, each, START) is None for each in "abc"] == [True, True, False]
    assert people.secrets_of(store, person.id) == ("new", "code")
    people.set_recovery(store, person.id, "fresh")
    assert people.secrets_of(store, person.id) == ("new", "fresh")


def test_a_session_knows_its_person_until_it_ends(store, person):
    sessions.open_session(store, "a", person.id, START)
    sessions.open_session(store, "b", person.id, START)
    assert sessions.find(store, "a", START).person == person
    sessions.end(store, "a")
    assert sessions.find(store, "a", START) is None
    assert sessions.find(store, "b", START) is not None
    sessions.end_all_of(store, person.id)
    assert sessions.find(store, "b", START) is None


def test_an_idle_session_ends_after_fourteen_days(store, person):
    """Fourteen days to the second are fine; a second more and the row is gone."""
    sessions.open_session(store, "a", person.id, START)
    assert sessions.find(store, "a", START + 14 * DAY) is not None
    assert sessions.find(store, "a", START + 28 * DAY + timedelta(seconds=1)) is None
    assert store.db.execute("select count(*) from sessions").fetchone() == (0,)


def test_a_session_in_daily_use_ends_after_sixty_days(store, person):
    sessions.open_session(store, "a", person.id, START)
    assert all(sessions.find(store, "a", START + days * DAY) for days in range(61))
    assert sessions.find(store, "a", START + 60 * DAY + timedelta(seconds=1)) is None


def test_looking_at_pages_writes_once_an_hour(store, person):
    sessions.open_session(store, "a", person.id, START)
    before = store.db.conn.total_changes
    for minutes in range(0, 61, 5):
        sessions.find(store, "a", START + timedelta(minutes=minutes))
    assert store.db.conn.total_changes == before
    sessions.find(store, "a", START + timedelta(minutes=61))
    assert store.db.conn.total_changes == before + 1


def test_stale_sessions_are_swept_when_somebody_signs_in(store, person):
    sessions.open_session(store, "left-behind", person.id, START)
    sessions.open_session(store, "fresh", person.id, START + 15 * DAY)
    assert store.db.execute("select token_hash from sessions").fetchall() == [("fresh",)]


def test_a_text_to_show_once_is_given_once(store, person):
    sessions.open_session(store, "a", person.id, START, show_once="7KQM-2XWD")
    sessions.open_session(store, "b", person.id, START)
    assert [sessions.take_show_once(store, each) for each in ("a", "a", "b", "nobody")] == [
        "7KQM-2XWD", None, None, None,
    ]  # fmt: skip


def test_tries_are_counted_by_key_and_forgotten(store):
    for minutes in (0, 5, 10):
        tries.add(store, ["a", "b"], START + timedelta(minutes=minutes), forget_before=START)
    assert [at - START for at in tries.since(store, "a", START)] == [timedelta(minutes=5), timedelta(minutes=10)]
    tries.clear(store, ["a"])
    assert tries.since(store, "a", START - DAY) == []
    assert len(tries.since(store, "b", START - DAY)) == 3
    tries.add(store, ["c"], START + DAY, forget_before=START + DAY / 2)
    assert tries.since(store, "b", START - DAY) == []


def test_parts_read_keep_their_first_time(store, person):
    other = join(store, "Priya")
    lessons_read.mark_part(store, person.id, "units/force", "why", START)
    lessons_read.mark_part(store, person.id, "units/force", "why", START + DAY)
    lessons_read.mark_part(store, person.id, "units/force", "three-tons", START + DAY)
    lessons_read.mark_part(store, other.id, "safety/drops", "why", START)
    assert lessons_read.parts_read(store, person.id) == {"units/force": {"why": START, "three-tons": START + DAY}}


def test_two_of_one_name_are_known_apart(store):
    """The second signs in as something else, and that stands beside the name; capitals make no difference."""
    first = join(store, "Sam Hill")
    offered = people.free_sign_in(store, " sam  HILL")
    assert offered == "sam HILL 2"
    second = people.join(
        store, "Sam Hill", "", "", system="us", comma=False, minutes=15, now=START, sign_in="Sam Hill 2"
    )
    assert (first.known_as, second.known_as) == ("Sam Hill", "Sam Hill (Sam Hill 2)")
    assert people.by_name(store, "sam hill 2") == second
    assert people.free_sign_in(store, "Sam Hill") == "Sam Hill 3"
    assert people.free_sign_in(store, "Sam Hill", {"sam hill 3"}) == "Sam Hill 4"
    assert people.free_sign_in(store, "Wen") == "Wen"


def test_who_has_no_password_yet_is_known(store, person):
    waits = people.join(store, "Priya", "", "", system="us", comma=False, minutes=15, now=START)
    both = [person.id, waits.id]
    assert people.without_password(store, both) == {waits.id}
    assert people.without_password(store, [person.id]) == people.without_password(store, []) == set()
    people.set_password(store, waits.id, "hash")
    assert people.without_password(store, both) == set()
