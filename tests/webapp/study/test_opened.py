"""Which items may be asked: the horizon, patience over a gap, the gate."""

from datetime import date, timedelta

import pytest

from webapp.study.aim import Aim
from webapp.study.memory import State
from webapp.study.opened import Gate, days_to_go, days_to_wait, in_last_days
from webapp.study.planner import plan_today
from webapp.study.rotation import Rotation, every_day, usual_minutes
from webapp.study.sitting import CLOSED
from webapp.study.worth import BESIDE, Offer, Section, exam_worth, has_floor, seconds_of, worth_of_sections

DAY = date(2026, 3, 2)


@pytest.mark.parametrize(
    ("exam", "days", "last"), [(None, 30, False), (40, 40, False), (6, 6, False), (5, 5, True), (1, 1, True),
                               (0, 1, True), (-1, 30, False)]
)  # fmt: skip
def test_days_to_the_exam(exam, days, last):
    """Without an exam, or after it, a month ahead; on its own day one day, so that something can still be gained."""
    exam = None if exam is None else DAY + timedelta(exam)
    assert days_to_go(exam, DAY) == days
    assert in_last_days(exam, DAY) is last


@pytest.mark.parametrize(
    ("day", "to_go", "wait"),
    [
        (DAY, 60, 0),  # the second day of the hitch is a day like this one
        (DAY + timedelta(13), 60, 14),  # the last day on: the eve of the next hitch is 14 days away
        (DAY + timedelta(13), 9, 8),  # the exam comes before that
        (DAY + timedelta(20), 60, 7),
        (DAY, 1, 0),
    ],
)
def test_patience_over_days_off(day, to_go, wait):
    """By hand: 14 on at 20 minutes, 14 off at 4. The mean is 12, half of it 6: days off are no days to wait for."""
    rotation = Rotation(14, 14, DAY, 20, 4)
    assert usual_minutes(rotation) == 12
    assert days_to_wait(rotation, day, to_go) == wait


def offers(*modules: tuple[str, int]) -> list[Offer]:
    return [
        Offer(f"{module}-{number}", f"{module}/1", Section(module, "numeric"), 60.0)
        for module, items in modules
        for number in range(items)
    ]


def test_a_module_opens_when_fifteen_in_a_hundred_of_each_before_it_were_seen():
    """By hand: 15 % of 20 are 3, of 10 are 1.5, so two."""
    gate = Gate({"a": 20, "b": 10, "c": 5}, {"a": 2, "b": 0, "c": 0})
    assert "a" in gate and "b" not in gate
    gate.see("a")
    assert "b" in gate and "c" not in gate
    gate.see("b")
    assert "c" not in gate
    gate.see("b")
    assert "c" in gate


def test_a_lesson_not_read_holds_up_nothing():
    """Twenty items of the first module, of a lesson not read: its three closed the second module if they were read."""
    course, aim = offers(("a", 20), ("b", 10)), Aim(every_day(15))

    def asked_of_b(read: set[str], seen: dict[str, State]) -> bool:
        left_out = plan_today(course, seen, read, aim, DAY, minutes=1).left_out
        return CLOSED not in left_out.values()

    two = {f"a-{number}": State(3.0, 5.0, DAY) for number in range(2)}
    assert asked_of_b({"b/1"}, {}) and asked_of_b({"b/1"}, two)
    assert not asked_of_b({"a/1", "b/1"}, {})
    assert asked_of_b({"a/1", "b/1"}, two | {"a-2": State(3.0, 5.0, DAY)})


def test_worth_has_a_mean_of_one_over_what_the_exam_asks():
    """By hand: two items asked 0.6 of the time, one 0.3: mean 0.5; 1.2 and 0.6. A card is beside the exam."""
    course = [*offers(("a", 2), ("b", 1)), Offer("card", "a/1", Section("a", "card"), 20.0)]
    worth = worth_of_sections(course, {Section("a", "numeric"): 0.6, Section("b", "numeric"): 0.3})
    assert worth == pytest.approx({Section("a", "numeric"): 1.2, Section("b", "numeric"): 0.6})
    assert exam_worth(worth, Section("a", "card")) == BESIDE
    assert not has_floor(worth, Section("a", "card"))
    assert worth_of_sections(course, {}) == {}
    assert exam_worth({}, Section("a", "card")) == 1.0
    assert has_floor({}, Section("a", "card"))


def test_seconds_of_an_asking():
    """By hand for 60 s: 66 where right is sure; 30 more for the working where wrong is; 18 more at first sight."""
    assert seconds_of(60, 1.0) == pytest.approx(66)
    assert seconds_of(60, 0.0) == pytest.approx(96)
    assert seconds_of(60, 0.5, unseen=True) == pytest.approx(99)
