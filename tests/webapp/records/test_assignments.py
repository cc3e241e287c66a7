"""Assignments, excuses, exam days; and what the records say of many people at once."""

import sqlite3
from datetime import date, timedelta

import pytest

from tests.webapp.crews import START, a_coordinator, a_crew, a_hand, a_member
from tests.webapp.records.samples import attempt, record_all
from webapp.records import assignments, exams, excuses, lessons_read, standing
from webapp.records.standing import Since

DAY = timedelta(1)


@pytest.fixture
def crew(store):
    return a_crew(store)


@pytest.fixture
def by(store):
    return a_coordinator(store).id


def terms(by, **more):
    plain = {"rig_type": "kelly", "due_by": "hitch", "due_day": date(2026, 3, 9), "pass_mark": 85, "must_pass": False}
    return plain | {"made_by": by, "made_at": START} | more


def test_an_assignment_comes_back_as_it_was_made(store, crew, by):
    new = assignments.new("units", "rig", crew.rig.id, **terms(by))
    assignments.add(store, new)
    assert assignments.get(store, new.id) == new and assignments.get(store, "gone") is None
    assert assignments.running(store, [], [], [crew.rig.id]) == [new]
    assert assignments.running(store, [by], [crew.id], []) == []


def test_it_ends_once(store, crew, by):
    new = assignments.new("units", "crew", crew.id, **terms(by))
    assignments.add(store, new)
    assert assignments.end(store, new.id, by, "Stacked.", START + DAY) is True
    assert assignments.end(store, new.id, by, "Again.", START + 2 * DAY) is False
    assert assignments.running(store, [], [crew.id], []) == []
    (ended,) = assignments.ended(store, [], [crew.id], [])
    assert (ended.ended_why, ended.ended_at) == ("Stacked.", START + DAY)


@pytest.mark.parametrize("changes", [{"pass_mark": 49}, {"due_by": "month"}, {"rig_type": "spinner"}])
def test_what_is_out_of_range_is_refused(store, crew, by, changes):
    with pytest.raises(sqlite3.IntegrityError):
        assignments.add(store, assignments.new("units", "crew", crew.id, **terms(by, **changes)))


def test_an_excuse_is_of_one_thing_and_has_a_reason(store, by):
    person = a_hand(store, "Ines Okoro").id
    for amiss in ({"why": "x"}, {"why": "x", "module": "units", "task": "S-1.1"}, {"why": "", "module": "units"}):
        with pytest.raises(sqlite3.IntegrityError):
            excuses.add(store, person, by, START, **amiss)
    id = excuses.add(store, person, by, START, module="units", why="x", instead="the yard")
    kept = excuses.get(store, id)
    assert (kept.kind, kept.instead, kept.ended_at) == ("replaced", "the yard", None)
    assert excuses.end(store, id, by, START) is True and excuses.end(store, id, by, START) is False
    assert excuses.running(store, [person]) == [] and excuses.get(store, "gone") is None


def test_the_newest_exam_day_counts_and_none_takes_it_away(store, by):
    ines, marek = a_hand(store, "Ines Okoro").id, a_hand(store, "Marek Osei").id
    exams.set_day(store, ines, "a", date(2026, 5, 9), by, START)
    exams.set_day(store, ines, "b", date(2026, 5, 3), by, START)
    exams.set_day(store, marek, "a", date(2026, 5, 9), by, START)
    found = exams.of_people(store, [ines, marek])
    assert (found[ines].paper, found[ines].day, found[marek].day) == ("b", date(2026, 5, 3), date(2026, 5, 9))
    exams.set_day(store, ines, "b", None, by, START)
    assert exams.of_people(store, [ines, marek, "gone"]).keys() == {marek}


def test_memory_is_added_up_by_module_from_a_day_on(store):
    """Three items answered: one before the day, two from it on; of these one fades tomorrow."""
    person = a_hand(store, "Ines Okoro").id
    record_all(store, [attempt(store, person, item, days) for item, days in (("a.1", 0), ("a.2", 3), ("a.3", 5))])
    backs = dict(store.db.execute("select item, back_on from memory").fetchall())
    items = {"a.1": ("a", 10.0), "a.2": ("a", 20.0), "a.3": ("a", 40.0), "a.4": ("a", 80.0)}
    after = date.fromisoformat(backs["a.2"])

    def found(days, known_after=date(2026, 1, 1)):
        since = Since(START + timedelta(days), START.date() + timedelta(days))
        return standing.remembered(store, {person: since}, items, known_after).get((person, "a"))

    whole, later = found(0), found(3)
    assert (whole.seen, whole.known, whole.known_seconds) == (3, 3, 70.0)
    assert (later.seen, later.known, later.known_seconds) == (2, 2, 60.0)
    assert found(6) is None
    assert found(3, after).known == int(backs["a.3"] > backs["a.2"])
    one = standing.remembered(store, {person: Since(START, START.date())}, {"a.2": ("b", 5.0)}, date(2026, 1, 1))
    assert one[person, "b"].known_seconds == 5.0 and len(one) == 1


def test_on_the_day_of_the_moment_memory_counts_by_the_moment_of_the_answer(store):
    """One item answered an hour before, one at the moment, one before and after it."""
    person, hour = a_hand(store, "Ines Okoro").id, 1 / 24
    pairs = (("a.1", -hour), ("a.2", 0), ("a.3", -hour), ("a.3", hour))
    record_all(store, [attempt(store, person, item, days) for item, days in pairs])
    items = {f"a.{number}": ("a", 10.0 * number) for number in (1, 2, 3)}
    since = {person: Since(START, START.date())}
    found = standing.remembered(store, since, items, date(2026, 1, 1))[person, "a"]
    assert (found.seen, found.known, found.known_seconds) == (2, 2, 50.0)
    later = {person: Since(START + timedelta(hours=2), START.date())}
    assert standing.remembered(store, later, items, date(2026, 1, 1)) == {}


def test_minutes_read_leave_out_what_was_read_before_and_parts_that_are_gone(store, crew):
    member = a_member(store, crew)
    person = member.person.id
    parts = {("a/one", "first"): ("a", 2.5), ("a/one", "second"): ("a", 1.5), ("b/two", "first"): ("b", 4.0)}
    lessons_read.mark_part(store, person, "a/one", "first", START - DAY)
    lessons_read.mark_part(store, person, "a/one", "second", START)
    lessons_read.mark_part(store, person, "b/two", "first", START + DAY)
    lessons_read.mark_part(store, person, "b/two", "gone", START + DAY)
    since = {person: Since(START, START.date())}
    assert standing.minutes_read(store, since, parts) == {(person, "a"): 1.5, (person, "b"): 4.0}
    assert standing.minutes_read(store, {}, parts) == {}
