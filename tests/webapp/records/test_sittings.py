"""Sittings and their drafts in the records: the newest draft stands, nothing is kept once it is over, one result."""

from datetime import timedelta

import pytest

from tests.webapp.records.samples import START, ask, join
from webapp.records import sittings
from webapp.records.module_results import results_of
from webapp.records.sittings import Draft, Sitting

HOUR = timedelta(hours=1)


def begun(store, person, id="s-1", *, at=START, deadline=None, kind="module", module="units", lessons=("units/a",)):
    """An open sitting with one question; the question's id."""
    body = {"items": [], "lessons": list(lessons), "must_pass": True}
    sittings.start(store, Sitting(id, person.id, kind, module, 80, body, at, deadline))
    return ask(store, person.id, place="sitting", drill=id)


def handed(store, person, id, days, *, passed=True, percent=90, missed=(), **more):
    """A sitting begun and handed in so many days after START."""
    at = START + timedelta(days=days)
    begun(store, person, id, at=at, **more)
    assert sittings.close(store, id, at + HOUR, "hand", passed, {"percent": percent, "missed": list(missed)})


def test_a_sitting_is_kept_as_it_was_begun(store, person):
    begun(store, person, deadline=START + HOUR)
    found = sittings.get(store, "s-1")
    assert (found.kind, found.module, found.pass_mark, found.is_open) == ("module", "units", 80, True)
    assert found.body["lessons"] == ["units/a"] and found.deadline == START + HOUR
    assert sittings.of_person(store, person.id) == sittings.open_of(store, person.id) == [found]
    assert sittings.get(store, "s-9") is None


def test_the_newest_draft_stands_and_an_older_one_that_comes_late_does_not(store, person):
    question = begun(store, person)
    assert sittings.keep_draft(store, Draft(question, {"given": "1"}, START + HOUR))
    assert sittings.keep_draft(store, Draft(question, {"given": "2"}, START + 2 * HOUR))
    assert not sittings.keep_draft(store, Draft(question, {"given": "late"}, START + HOUR))
    assert sittings.drafts_of(store, "s-1")[question].given == {"given": "2"}
    assert sittings.drop_draft(store, question, START + 2 * HOUR)
    assert sittings.drafts_of(store, "s-1") == {}


def test_no_draft_is_kept_or_dropped_once_it_is_handed_in(store, person):
    question = begun(store, person)
    sittings.keep_draft(store, Draft(question, {"given": "1"}, START))
    sittings.close(store, "s-1", START, "hand", False, {})
    assert not sittings.keep_draft(store, Draft(question, {"given": "2"}, START + HOUR))
    assert not sittings.drop_draft(store, question, START + HOUR)
    assert sittings.drafts_of(store, "s-1")[question].given == {"given": "1"}


@pytest.mark.parametrize(
    ("after", "kept"), [(timedelta(minutes=59, seconds=59), True), (HOUR, False), (2 * HOUR, False)]
)
def test_no_draft_is_kept_at_or_after_the_deadline(store, person, after, kept):
    question = begun(store, person, deadline=START + HOUR)
    assert sittings.keep_draft(store, Draft(question, {"given": "1"}, START + after)) is kept


def test_a_question_of_no_sitting_takes_no_draft(store, person):
    question = ask(store, person.id, place="today")
    assert not sittings.keep_draft(store, Draft(question, {"given": "1"}, START))


def test_it_is_closed_once(store, person):
    begun(store, person)
    assert sittings.close(store, "s-1", START + HOUR, "hand", True, {"right": 12})
    assert not sittings.close(store, "s-1", START + 2 * HOUR, "clock", False, {"right": 0})
    found = sittings.get(store, "s-1")
    assert sittings.open_of(store, person.id) == [] and sittings.of_person(store, person.id) == [found]
    assert (found.handed_in_by, found.passed, found.result) == ("hand", True, {"right": 12})


def test_overdue_are_the_open_ones_whose_deadline_has_come(store, person):
    other = join(store, "Ines Okoro")
    begun(store, person, "late", deadline=START + HOUR)
    begun(store, person, "in time", deadline=START + 2 * HOUR)
    begun(store, person, "no clock")
    begun(store, person, "done", deadline=START + HOUR)
    begun(store, other, "another's", deadline=START + HOUR)
    sittings.close(store, "done", START, "hand", False, {})
    assert [each.id for each in sittings.overdue(store, [person.id], START + HOUR)] == ["late"]
    assert sittings.overdue(store, [], START + HOUR) == []


def test_results_by_person_and_module(store, person):
    other = join(store, "Ines Okoro")
    handed(store, person, "one", 0, passed=False, percent=60, missed=["units.a"])
    handed(store, person, "two", 1, percent=93)
    handed(store, person, "three", 2, percent=86)
    handed(store, other, "four", 0, module="kelly")
    begun(store, other, "open")
    found = results_of(store, [person.id, other.id])
    assert set(found) == {(person.id, "units"), (other.id, "kelly")}
    mine = found[person.id, "units"]
    assert (mine.passed.sitting, mine.best, mine.last.mark) == ("three", 93, 86)
    assert mine.tests[0].missed == ("units.a",)
    assert results_of(store, [other.id]).keys() == {(other.id, "kelly")}


def test_what_was_begun_before_the_hand_is_seen_does_not_exist(store, person):
    handed(store, person, "alone", 0)
    handed(store, person, "in the crew", 5, passed=False, percent=40)
    found = results_of(store, [person.id], {person.id: START + timedelta(hours=1)})[person.id, "units"]
    assert [each.sitting for each in found.tests] == ["in the crew"]
    assert found.passed is None and found.best == 40


def test_a_refresher_renews_its_lessons_and_passes_no_module(store, person):
    handed(store, person, "too early", 0, kind="refresher", lessons=["units/a"])
    alone = results_of(store, [person.id])[person.id, "units"]
    assert alone.passed is None and alone.best is None and alone.lessons_passed == {}
    handed(store, person, "whole", 1, lessons=["units/a", "units/b"])
    handed(store, person, "again", 200, kind="refresher", lessons=["units/a"])
    handed(store, person, "failed", 300, kind="refresher", passed=False, lessons=["units/b"])
    days = {
        lesson: (at - START).days
        for lesson, at in results_of(store, [person.id])[person.id, "units"].lessons_passed.items()
    }
    assert days == {"units/a": 200, "units/b": 1}


def test_no_page_reads_all_sittings(store, person):
    """The plan of each query goes by an index."""
    traced = []
    store.db.conn.set_trace_callback(traced.append)
    results_of(store, [person.id])
    sittings.of_person(store, person.id)
    sittings.open_of(store, person.id)
    sittings.overdue(store, [person.id], START)
    sittings.drafts_of(store, "s-1")
    store.db.conn.set_trace_callback(None)
    plans = [" ".join(row[3] for row in store.db.execute(f"explain query plan {sql}")) for sql in traced]
    assert len(plans) == 5
    assert [plan for plan in plans if "SCAN" in plan] == []
