"""The log: appended, read back newest first and by crew, never changed."""

import sqlite3
from datetime import timedelta

import pytest

from tests.webapp.crews import START, a_crew, a_hand, a_member, a_rig
from webapp.records import crews, log


def test_a_line_comes_back_with_the_names(store):
    crew = a_crew(store)
    ines = a_member(store, crew)
    rosalind = a_hand(store, "Rosalind Achterberg")
    log.note(store, rosalind.id, "left", "Ines leaves Crew A.", START, crew.id, ines.person.id)
    [line] = log.of_crews(store, [crew.id], 10)
    assert (line.at, line.who, line.crew, line.about) == (START, "Rosalind Achterberg", crew.id, "Ines Okoro")
    assert (line.what, line.detail) == ("left", "Ines leaves Crew A.")


def test_lines_come_in_pages_newest_first_and_by_crew(store):
    rig = a_rig(store)
    first, second = a_crew(store, rig), a_crew(store, rig, "Crew B")
    who = a_hand(store, "Rosalind Achterberg").id
    for number in range(5):
        log.note(store, who, "told", f"Line {number}.", START + timedelta(minutes=number), first.id)
    log.note(store, who, "told", "Of the other crew.", START, second.id)
    page = log.of_crews(store, [first.id], 3)
    assert [each.detail for each in page] == ["Line 4.", "Line 3.", "Line 2."]
    rest = log.of_crews(store, [first.id], 3, before=page[-1].id)
    assert [each.detail for each in rest] == ["Line 1.", "Line 0."]
    assert len(log.of_crews(store, [first.id, second.id], 10)) == 6
    assert log.of_crews(store, [], 10) == []


@pytest.mark.parametrize("statement", ["update log set detail = 'Nothing.'", "delete from log"])
def test_a_line_stays_as_it_was_written(store, statement):
    crew = a_crew(store)
    log.note(store, a_hand(store, "Rosalind Achterberg").id, "told", "It was so.", START, crew.id)
    with pytest.raises(sqlite3.IntegrityError), store.writing() as db:
        db.execute(statement)
    assert [each.detail for each in log.of_crews(store, [crew.id], 10)] == ["It was so."]


def test_a_line_goes_with_what_it_tells(store):
    """What is undone leaves no line, and a line that can't be written undoes what it tells."""
    crew = a_crew(store)
    ines = a_member(store, crew)
    with pytest.raises(sqlite3.IntegrityError), store.writing():
        crews.leave(store, ines.id, "Contract ended", START)
        log.note(store, "nobody", "left", "Ines leaves.", START, crew.id)
    assert crews.membership_now(store, ines.person.id) is not None
    with pytest.raises(RuntimeError), store.writing():
        log.note(store, ines.person.id, "left", "Ines leaves.", START, crew.id)
        raise RuntimeError("The rest did not come about.")
    assert log.of_crews(store, [crew.id], 10) == []
