"""Decisions: appended, and honoured by every fold."""

from datetime import timedelta

import pytest

from tests.webapp.records.samples import START, attempt, join, memory_rows, record_all
from webapp.records import attempts, decisions, memory
from webapp.records.decisions import DecisionError


def test_a_withdrawn_item_counts_for_nobody(store):
    """It leaves marks, mistakes and memory of everybody and stays in the record; a later attempt counts no more."""
    people = [join(store, name) for name in ("Marek", "Sunniva")]
    for person in people:
        record_all(store, [attempt(store, person.id, "units.bad", outcome="wrong", mistake="x")])
        record_all(store, [attempt(store, person.id, "units.good")])
    decisions.append(store, "item-withdrawn", "units.bad", "lead", "the key was wrong", START)
    for person in people:
        record_all(store, [attempt(store, person.id, "units.bad", days=3)])
        assert [each.item for each in attempts.counted(store, person.id)] == ["units.good"]
        assert attempts.mistakes_of(store, person.id) == []
        assert set(memory.of_person(store, person.id)) == {"units.good"}
        assert len(attempts.of_person(store, person.id, 10)) == 3


def test_a_corrected_attempt_counts_with_its_new_outcome(store, person):
    """Memory becomes what it would be had the attempt been right; the mistake is no longer held against the hand."""
    made = attempt(store, person.id, outcome="wrong", mistake="x")
    record_all(store, [made, attempt(store, person.id, days=4)])
    decisions.append(store, "attempt-corrected", made.id, "lead", "the band was too tight", START, outcome="right")
    corrected = memory_rows(store)
    assert [(each.outcome, each.mistake) for each in attempts.counted(store, person.id)] == [("right", None)] * 2
    assert attempts.get(store, made.id) == made

    other = join(store, "Sunniva")
    record_all(store, [attempt(store, other.id), attempt(store, other.id, days=4)])
    assert memory.of_person(store, other.id) == memory.of_person(store, person.id)
    assert len(corrected) == 1


def test_the_latest_correction_holds(store, person):
    made = attempt(store, person.id, outcome="wrong")
    record_all(store, [made])
    for days, outcome in [(0, "right"), (2, "close"), (1, "right")]:
        decisions.append(
            store, "attempt-corrected", made.id, "lead", "looked again", START + timedelta(days), outcome=outcome
        )
    assert [each.outcome for each in attempts.counted(store, person.id)] == ["close"]
    assert [each.outcome for each in decisions.on(store, "attempt-corrected", made.id)] == ["right", "right", "close"]


def test_a_decision_and_its_memory_are_saved_together(store, person, monkeypatch):
    """If the replay fails, the decision is not there either."""
    made = attempt(store, person.id)
    record_all(store, [made])
    before = memory_rows(store)

    def fails(*_):
        raise ZeroDivisionError

    monkeypatch.setattr(memory, "fold", fails)
    with pytest.raises(ZeroDivisionError):
        decisions.append(store, "attempt-corrected", made.id, "lead", "why", START, outcome="wrong")
    assert store.db.execute("select count(*) from decisions").fetchone() == (0,)
    assert memory_rows(store) == before


@pytest.mark.parametrize(
    ("kind", "subject", "who", "why", "outcome", "message"),
    [
        pytest.param("item-praised", "units.a", "lead", "why", None, "can't be decided here", id="unknown kind"),
        pytest.param("item-withdrawn", "units.a", " ", "why", None, "who took it and why", id="nobody"),
        pytest.param("item-withdrawn", "units.a", "lead", "", None, "who took it and why", id="no reason"),
        pytest.param(
            "item-withdrawn", "units.a", "lead", "why", "right", "nothing else gets one", id="outcome too many"
        ),
        pytest.param("attempt-corrected", "x", "lead", "why", None, "right, close or wrong", id="outcome missing"),
        pytest.param("attempt-corrected", "x", "lead", "why", "good", "right, close or wrong", id="outcome unknown"),
        pytest.param("attempt-corrected", "x", "lead", "why", "right", "no attempt x", id="no such attempt"),
    ],
)
def test_decisions_that_cannot_be_taken_say_why(store, kind, subject, who, why, outcome, message):
    with pytest.raises(DecisionError, match=message):
        decisions.append(store, kind, subject, who, why, START, outcome=outcome)
    assert store.db.execute("select count(*) from decisions").fetchone() == (0,)
