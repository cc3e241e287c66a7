"""Where a hand stands with a hands-on task. The rule of what lasts how long is worked by hand on the calendar."""

from dataclasses import dataclass
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.study.tasks import good_until, since, standing, waiting

TODAY = date(2026, 8, 31)
RIG = "seven"


@dataclass(frozen=True)
class Seen:
    id: str
    result: str
    observed_on: date = date(2026, 8, 1)
    observer: str = "teodor"
    person: str = "ines"
    task: str = "S-2.3"
    rig: str = RIG
    stands: object = None
    counts: bool = True


def stand(*signed: Seen, **more):
    plain = {"needed": 2, "months": 6, "fits": True, "rig": RIG, "excuse": None, "today": TODAY}
    return standing(signed, **plain | more)


def seen(*results: str, first: date = date(2026, 8, 1)) -> list[Seen]:
    """One signature a day from `first` on."""
    return [Seen(str(at), result, first + timedelta(at)) for at, result in enumerate(results)]


@pytest.mark.parametrize(
    ("results", "state", "alone"),
    [
        pytest.param([], "none", 0, id="nothing"),
        pytest.param(["alone"], "some", 1, id="once of twice"),
        pytest.param(["alone", "alone"], "done", 2, id="twice of twice"),
        pytest.param(["alone", "prompted"], "some", 1, id="prompts do not count"),
        pytest.param(["prompted", "prompted"], "some", 0, id="prompts never count"),
        pytest.param(["not-yet"], "some", 0, id="not yet"),
        pytest.param(["alone", "alone", "not-yet"], "some", 2, id="not yet after it was done"),
        pytest.param(["alone", "not-yet", "alone"], "done", 2, id="alone again after a not yet"),
        pytest.param(["alone", "alone", "prompted"], "done", 2, id="prompts after it was done"),
        pytest.param(["not-possible"], "not-possible", 0, id="not possible"),
        pytest.param(["alone", "not-possible"], "not-possible", 1, id="no longer possible"),
        pytest.param(["not-possible", "alone"], "some", 1, id="possible after all"),
        pytest.param(["alone", "alone", "not-possible"], "done", 2, id="done before it was not possible"),
    ],
)
def test_a_task_stands_as_its_results_say(results, state, alone):
    found = stand(*seen(*results))
    assert (found.state, found.alone, found.needed) == (state, alone, 2)
    assert found.latest == (results[-1] if results else None)


def test_the_order_of_days_counts_and_not_that_of_signing():
    late = Seen("9", "not-yet", date(2026, 7, 1))
    assert stand(*seen("alone", "alone"), late).state == "done"


def test_what_was_withdrawn_is_as_if_it_were_not_there():
    assert stand(*seen("alone"), Seen("9", "alone", counts=False)).alone == 1
    assert stand(Seen("9", "not-yet", counts=False)).state == "none"


def test_not_possible_holds_for_the_rig_where_it_was_signed():
    assert stand(*seen("not-possible"), rig="twelve").state == "none"
    assert stand(*seen("not-possible"), rig=None).state == "none"


def test_a_done_task_goes_out_of_date():
    signed = seen("alone", "alone", first=date(2026, 2, 1))
    assert stand(*signed, today=date(2026, 8, 2)).state == "done"
    found = stand(*signed, today=date(2026, 8, 3))
    assert (found.state, found.last, found.lasts_to) == ("old", date(2026, 2, 2), date(2026, 8, 2))
    assert stand(*signed, months=12, today=date(2026, 8, 3)).state == "done"


@pytest.mark.parametrize(
    ("more", "state"),
    [
        ({"fits": False}, "not-here"),
        ({"excuse": "excused"}, "excused"),
        ({"excuse": "replaced", "fits": False}, "replaced"),
        ({"needed": 0}, "not-asked"),
    ],
)
def test_what_is_not_asked_says_why(more, state):
    assert stand(**more).state == state
    if more != {"needed": 0}:
        assert stand(*seen("alone", "alone"), **more).state == "done", "what was done stays done"


def test_two_that_differ_on_one_day_hold_the_task_up():
    two = [Seen("8", "alone"), Seen("9", "not-yet", observer="hettie")]
    found = stand(*two, *seen("alone", "alone", first=date(2026, 8, 3)))
    assert (found.state, found.alone) == ("waits", 2)


@pytest.mark.parametrize(
    "other",
    [
        pytest.param(Seen("2", "not-yet"), id="same observer"),
        pytest.param(Seen("2", "alone", observer="hettie"), id="same result"),
        pytest.param(Seen("2", "not-yet", date(2026, 8, 2), "hettie"), id="another day"),
        pytest.param(Seen("2", "not-yet", observer="hettie", person="marek"), id="another hand"),
        pytest.param(Seen("2", "not-yet", observer="hettie", task="S-2.4"), id="another task"),
        pytest.param(Seen("2", "not-yet", observer="hettie", counts=False), id="withdrawn"),
    ],
)
def test_these_two_do_not_wait(other):
    assert waiting([Seen("1", "alone"), other]) == []


def test_both_stand_when_each_was_let_stand():
    two = [Seen("1", "alone"), Seen("2", "not-yet", observer="hettie", stands="so it is")]
    assert waiting(two) == [two]
    both = [Seen("1", "alone", stands="so it is"), two[1]]
    assert waiting(both) == []
    assert stand(*both, needed=1).alone == 1


# By hand on the calendar.
@pytest.mark.parametrize(
    ("day", "months", "last"),
    [
        (date(2026, 3, 2), 6, date(2026, 9, 2)),
        (date(2026, 3, 2), 12, date(2027, 3, 2)),
        (date(2025, 8, 31), 6, date(2026, 2, 28)),
        (date(2023, 8, 31), 6, date(2024, 2, 29)),
        (date(2024, 2, 29), 12, date(2025, 2, 28)),
        (date(2025, 12, 15), 6, date(2026, 6, 15)),
        (date(2025, 6, 30), 6, date(2025, 12, 30)),
    ],
)
def test_a_signature_lasts_to_the_same_day_of_a_later_month(day, months, last):
    assert good_until(day, months) == last


@given(st.dates(date(2000, 1, 1), date(2100, 1, 1)), st.sampled_from([1, 6, 12, 24]))
def test_the_first_day_that_is_still_good_is_just_that(today, months):
    first = since(today, months)
    assert good_until(first, months) >= today > good_until(first - timedelta(1), months)
