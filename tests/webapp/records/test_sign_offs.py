"""Signatures of hands-on tasks: appended, signed once however often the form is sent, withdrawn and never erased."""

import sqlite3
from datetime import date, timedelta

import pytest

from tests.webapp.crews import START, a_crew, a_hand, a_member, a_rig, an_observer
from webapp.records import crews, log, sign_offs
from webapp.records.ids import new_id
from webapp.records.sign_offs import SignOffError
from webapp.study.tasks import waiting

DAY = timedelta(days=1)
FIRST = date(2026, 3, 2)


@pytest.fixture
def crew(store):
    return a_crew(store)


@pytest.fixture
def ines(store, crew):
    return a_member(store, crew).person


@pytest.fixture
def teodor(store, crew):
    return an_observer(store, crew)


def sign(store, crew, hand, observer, result="alone", day=FIRST, task="S-2.4", note="", id=None, at=START):
    """Sign a task; the signature as it is kept."""
    id = id or new_id(at)
    sign_offs.sign(
        store, id, hand=hand, task=task, title="A task", crew=crew.id, rig=crew.rig.id, observer=observer,
        result=result, observed_on=day, note=note, now=at,
    )  # fmt: skip
    return sign_offs.get(store, id)


def test_a_signature_comes_back_as_it_was_signed(store, crew, ines, teodor):
    kept = sign(store, crew, ines, teodor, "prompted", note="Bowl size.")
    assert (kept.person_name, kept.observer_name, kept.rig_name) == ("Ines Okoro", "Teodor Quist", "Quillwater 7")
    assert (kept.task, kept.result, kept.observed_on, kept.note) == ("S-2.4", "prompted", FIRST, "Bowl size.")
    assert (kept.signed_at, kept.withdrawn, kept.stands, kept.counts) == (START, None, None, True)
    assert sign_offs.of_people(store, [ines.id]) == sign_offs.by_observer(store, teodor.id, 5) == [kept]
    assert sign_offs.on_rig(store, crew.rig.id, "S-2.4", FIRST) == [kept]


def test_a_form_sent_twice_signs_once(store, crew, ines, teodor):
    """The second sending changes nothing, not even where it says something else."""
    once = sign(store, crew, ines, teodor, id="form-1")
    again = sign(store, crew, ines, teodor, "not-yet", id="form-1", at=START + DAY)
    assert again == once
    assert len(sign_offs.of_people(store, [ines.id])) == 1
    assert len(log.of_crews(store, [crew.id], 10)) == 1


def test_the_id_of_another_signature_is_refused(store, crew, ines, teodor):
    sign(store, crew, ines, teodor, id="form-1")
    with pytest.raises(SignOffError, match="used for another signature"):
        sign(store, crew, ines, a_hand(store, "Hettie Quarles"), id="form-1")
    with pytest.raises(SignOffError, match="used for another signature"):
        sign(store, crew, ines, teodor, task="S-2.3", id="form-1")


def test_nobody_signs_for_themselves(store, crew, ines):
    with pytest.raises(sqlite3.IntegrityError):
        sign(store, crew, ines, ines)
    assert log.of_crews(store, [crew.id], 10) == []


def test_a_signature_can_not_be_changed_or_erased(store, crew, ines, teodor):
    sign(store, crew, ines, teodor)
    for statement in ("update sign_offs set result = 'not-yet'", "delete from sign_offs"):
        with pytest.raises(sqlite3.IntegrityError), store.writing() as db:
            db.execute(statement)


def test_what_is_withdrawn_stays_in_the_record_and_counts_no_more(store, crew, ines, teodor):
    kept = sign(store, crew, ines, teodor)
    assert sign_offs.withdraw(store, kept, teodor, " I was in town that day. ", START + DAY) is True
    [gone] = sign_offs.of_people(store, [ines.id])
    assert not gone.counts
    assert (gone.withdrawn.who, gone.withdrawn.why) == ("Teodor Quist", "I was in town that day.")
    assert gone.withdrawn.at == START + DAY
    assert sign_offs.withdraw(store, kept, ines, "Once more.", START + 2 * DAY) is False
    assert sign_offs.get(store, kept.id).withdrawn == gone.withdrawn


@pytest.mark.parametrize("why", ["", "  "])
def test_a_withdrawal_needs_a_reason(store, crew, ines, teodor, why):
    kept = sign(store, crew, ines, teodor)
    with pytest.raises(SignOffError, match="Say why"):
        sign_offs.withdraw(store, kept, teodor, why, START)
    with pytest.raises(SignOffError, match="Say why"):
        sign_offs.let_stand(store, [kept], teodor, why, START)
    assert sign_offs.get(store, kept.id).counts


def test_two_that_differ_wait_until_both_stand(store, crew, ines, teodor):
    hettie = a_hand(store, "Hettie Quarles")
    two = [sign(store, crew, ines, teodor, "alone"), sign(store, crew, ines, hettie, "not-yet")]
    [group] = waiting(sign_offs.of_people(store, [ines.id]))
    assert {each.id for each in group} == {each.id for each in two}
    sign_offs.let_stand(store, group, hettie, "Two tours, two observations.", START + DAY)
    both = sign_offs.of_people(store, [ines.id])
    assert waiting(both) == []
    assert {each.stands.why for each in both} == {"Two tours, two observations."}
    sign(store, crew, ines, a_hand(store, "Ivo Strand"), "prompted")
    assert [len(group) for group in waiting(sign_offs.of_people(store, [ines.id]))] == [3]


def test_two_that_differ_wait_until_one_is_withdrawn(store, crew, ines, teodor):
    one = sign(store, crew, ines, teodor, "alone")
    sign(store, crew, ines, a_hand(store, "Hettie Quarles"), "not-yet")
    sign_offs.withdraw(store, one, teodor, "Mixed up the name.", START)
    assert waiting(sign_offs.of_people(store, [ines.id])) == []


def test_each_change_is_in_the_log_with_its_sentence(store, crew, ines, teodor):
    kept = sign(store, crew, ines, teodor, note="Bowl size.")
    sign_offs.let_stand(store, [kept], teodor, "Right as it is.", START)
    sign_offs.withdraw(store, kept, teodor, "Wrong hand.", START)
    lines = log.of_crews(store, [crew.id], 10)
    assert [(each.what, each.who, each.about) for each in lines] == [
        ("withdrawn", "Teodor Quist", "Ines Okoro"),
        ("both stand", "Teodor Quist", "Ines Okoro"),
        ("signed", "Teodor Quist", "Ines Okoro"),
    ]
    assert lines[2].detail == "S-2.4 A task, seen on 2 March 2026: done alone. Bowl size."
    assert lines[0].detail == "S-2.4 of 2 March 2026, signed by Teodor Quist. Wrong hand."


def test_signatures_are_found_by_people_task_and_day(store, crew, ines, teodor):
    marek = a_member(store, crew, "Marek Osei-Lund").person
    old = sign(store, crew, ines, teodor, day=FIRST - 400 * DAY)
    new = sign(store, crew, ines, teodor, day=FIRST)
    other = sign(store, crew, marek, teodor, task="S-2.3")
    assert sign_offs.of_people(store, [ines.id]) == [new, old]
    assert sign_offs.of_people(store, [ines.id, marek.id], "S-2.3") == [other]
    assert sign_offs.of_people(store, [ines.id, marek.id], since=FIRST) == [other, new]
    assert sign_offs.of_people(store, [ines.id], "S-2.4", FIRST + DAY) == []
    assert sign_offs.of_people(store, []) == []


def test_a_signature_stays_with_the_rig_where_it_was_seen(store, crew, ines, teodor):
    other = a_crew(store, a_rig(store, "Quillwater 12", "top-drive"))
    sign(store, crew, ines, teodor)
    crews.leave(store, crews.membership_now(store, ines.id).id, "transfer", START + DAY)
    crews.join(store, ines, other.id, "floorhand", START + DAY)
    [kept] = sign_offs.of_people(store, [ines.id])
    assert (kept.rig_name, kept.crew) == ("Quillwater 7", crew.id)


@pytest.mark.parametrize(
    "ask",
    [
        pytest.param(lambda store: sign_offs.of_people(store, ["a", "b"], "S-2.4", FIRST), id="of people"),
        pytest.param(lambda store: sign_offs.on_rig(store, "r", "S-2.4", FIRST), id="on a rig"),
        pytest.param(lambda store: sign_offs.by_observer(store, "o", 5), id="by an observer"),
    ],
)
def test_no_search_reads_all_signatures_or_decisions(store, ask):
    asked = []
    store.db.conn.set_trace_callback(asked.append)
    ask(store)
    store.db.conn.set_trace_callback(None)
    [statement] = [each for each in asked if "from sign_offs" in each]
    plan = [row[3] for row in store.db.execute(f"explain query plan {statement}")]
    assert [step for step in plan if step.startswith(("SCAN signed", "SCAN decisions", "SCAN gone", "SCAN kept"))] == []
    assert any(step.startswith("SEARCH signed USING INDEX sign_offs_by") for step in plan)
