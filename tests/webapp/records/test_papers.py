"""Papers in the records: grants of extra time, questions to come back to, items held back, results."""

from datetime import timedelta

import pytest

from tests.webapp.crews import a_crew, a_member, a_rig
from tests.webapp.records.samples import START, ask
from webapp.records import come_back_to, extra_time, paper_results, sittings
from webapp.records.sittings import Sitting

HOUR = timedelta(hours=1)


def paper(store, person, id, at=START, kind="paper-a", items=("units.a",), percent=None, passed=False):
    """A paper begun at that moment; handed in an hour later with that mark, unless it is None. Its questions' ids."""
    body = {"items": [{"item": item} for item in items], "must_pass": True, "paper": {"questions": 60}}
    sittings.start(store, Sitting(id, person.id, kind, None, 75, body, at, at + 2 * HOUR))
    drawn = [ask(store, person.id, item, place="sitting", drill=id) for item in items]
    if percent is not None:
        result = {"percent": percent, "right": percent, "asked": 100, "missed": [], "low": []}
        sittings.close(store, id, at + HOUR, "hand", passed, result)
    return drawn


def test_extra_time_is_of_a_hand_in_a_crew_granted_once_and_ended(store):
    one, other = a_crew(store), a_crew(store, a_rig(store, "Quillwater 12"))
    member = a_member(store, one)
    hand = member.person.id
    assert extra_time.granted(store, hand, one.id) is None
    assert extra_time.grant(store, hand, one.id, "A letter", hand, START)
    assert not extra_time.grant(store, hand, one.id, "Another", hand, START + HOUR)
    found = extra_time.granted(store, hand, one.id)
    assert (found.why, found.who, found.at) == ("A letter", member.person.name, START)
    assert extra_time.granted(store, hand, other.id) is None
    assert extra_time.end(store, hand, one.id, hand, START + HOUR)
    assert not extra_time.end(store, hand, one.id, hand, START + HOUR)
    assert extra_time.granted(store, hand, one.id) is None
    assert extra_time.grant(store, hand, one.id, "A new letter", hand, START + 2 * HOUR)
    assert store.db.execute("select count(*) from extra_time").fetchone() == (2,)


def test_a_mark_is_of_its_sitting_and_taken_away(store, person):
    first, second = paper(store, person, "s-1", items=("units.a", "units.b"))
    (elsewhere,) = paper(store, person, "s-2")
    for id in (first, first, elsewhere):
        come_back_to.mark(store, id, START)
    assert come_back_to.of_sitting(store, "s-1") == {first}
    come_back_to.unmark(store, first)
    come_back_to.unmark(store, second)
    assert come_back_to.of_sitting(store, "s-1") == set() and come_back_to.of_sitting(store, "s-2") == {elsewhere}


def test_items_are_held_back_by_what_is_open_and_begun_since(store, person):
    paper(store, person, "s-1", at=START - 30 * HOUR, items=("units.old",))
    paper(store, person, "s-2", items=("units.done",), percent=50)
    paper(store, person, "s-3", items=("units.now", "units.too"))
    assert sittings.items_held_back(store, person.id, START - 24 * HOUR) == {"units.now", "units.too"}
    assert sittings.items_held_back(store, "nobody", START - 24 * HOUR) == set()


@pytest.mark.parametrize(
    ("marks", "best"),
    [
        ([(60, False), (80, True), (70, False)], "s-1"),
        ([(90, False), (76, True)], "s-1"),
        ([(50, False), (50, False)], "s-1"),
    ],
)
def test_a_pass_goes_before_a_higher_mark_that_is_none(store, person, marks, best):
    for number, (percent, passed) in enumerate(marks):
        paper(store, person, f"s-{number}", at=START + number * 3 * HOUR, percent=percent, passed=passed)
    one = paper_results.of_person(store, person.id)["a"]
    assert one.best.sitting == best and one.latest.sitting == f"s-{len(marks) - 1}"
    assert one.latest.full == 60


def test_what_was_begun_before_is_not_seen_and_an_open_one_is_no_result(store, person):
    paper(store, person, "s-1", percent=90, passed=True)
    paper(store, person, "s-2", at=START + 3 * HOUR, kind="paper-b", percent=40)
    paper(store, person, "s-3", at=START + 6 * HOUR, items=("units.last",))
    assert list(paper_results.of_person(store, person.id)) == ["a", "b"]
    assert list(paper_results.of_person(store, person.id, START + HOUR)) == ["b"]
    assert paper_results.items_asked_last(store, person.id) == {"units.last"}
    assert paper_results.items_asked_last(store, "nobody") == set()
