"""The demo's invented people."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from course import load_course
from question_bank import load_bank
from webapp import demo, passwords
from webapp.demo.scenario import read_scenario
from webapp.records import attempts, crews, house, lessons_read, memory, people, rights
from webapp.records.connection import Store
from webapp.study.aim import Aim
from webapp.study.planner import plan_today
from webapp.study.rotation import every_day
from webapp.study.worth import Offer, Section

NOW = datetime(2026, 3, 16, 15, 0, tzinfo=UTC)
TODAY = date(2026, 3, 16)


def filled(path) -> tuple[Store, list]:
    store = Store(path)
    store.migrate()
    return store, demo.fill(store, load_bank(), load_course(), NOW, ZoneInfo("UTC"))


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    store, signs = filled(tmp_path_factory.mktemp("demo") / "demo.sqlite")
    yield store, signs
    store.close()


@pytest.fixture
def store(made):
    return made[0]


LEARNERS = [hand for hand in read_scenario().people.values() if hand.studies > 2]


def everything(store: Store) -> list[tuple]:
    """What each hand answered, without ids."""
    return [
        (hand.name, each.item, each.typed, each.outcome, each.mistake, each.seconds, each.answered_at)
        for hand in read_scenario().people.values()
        for each in attempts.counted(store, people.by_name(store, hand.name).id)
    ]


def test_those_whose_passwords_are_printed_can_sign_in(made):
    store, signs = made
    assert [sign.job for sign in signs] == ["training coordinator", "floorhand", "floorhand", "derrickhand", "driller"]
    assert len({sign.password for sign in signs}) == len(signs)
    for sign in signs:
        password_hash, _ = people.secrets_of(store, people.by_name(store, sign.name).id)
        assert passwords.matches(password_hash, sign.password)


def test_the_crews_are_manned_and_have_their_coordinator(store):
    rosalind = people.by_name(store, "Rosalind Achterberg")
    assert rights.is_coordinator(store, rosalind.id)
    mine = crews.crews_with_right(store, rosalind.id, "coordinator", TODAY)
    assert [each.full_name for each in mine] == [
        "Quillwater 12, crew A", "Quillwater 12, crew B", "Quillwater 7, crew A", "Quillwater 7, crew B",
    ]  # fmt: skip
    aboard = {each.person.name: each.crew.full_name for each in crews.members(store, [each.id for each in mine])}
    assert aboard["Marek Osei-Lund"] == "Quillwater 7, crew A"
    assert len(aboard) == sum(hand.crew is not None for hand in read_scenario().people.values())


@pytest.mark.parametrize("days", range(7))
def test_the_first_day_is_a_monday_five_weeks_before_this_week(days):
    first = demo.first_day(TODAY + timedelta(days))
    assert (first.weekday(), (TODAY + timedelta(days) - first).days) == (0, 35 + days)


def test_it_is_marked_as_invented(store):
    assert house.is_demo(store)


@pytest.mark.parametrize("hand", LEARNERS, ids=lambda hand: hand.name)
def test_today_has_something_that_fades(store, hand):
    """Weeks lie behind each hand: answers on several days, none from the future, and some items have faded."""
    person = people.by_name(store, hand.name)
    answered = attempts.counted(store, person.id)
    days = {each.study_day for each in answered}
    assert len(days) >= 4
    assert min(days) == demo.first_day(TODAY) + timedelta(hand.joins)
    assert max(each.answered_at for each in answered) < NOW
    known = memory.of_person(store, person.id)
    offers = [
        Offer(item.id, item.lesson, Section(item.lesson.split("/")[0], item.kind), item.usual_seconds)
        for item in load_bank().values()
    ]
    read = set(lessons_read.parts_read(store, person.id))
    plan = plan_today(offers, known, read, Aim(every_day(hand.minutes)), TODAY)
    assert sum(pick.recall is not None for pick in plan.picks) >= 3


def test_the_hands_differ_in_how_they_read_and_write(store):
    """Sunniva reads metric units and writes 12,5; the numbers she typed show it, and were read as she meant them."""
    marek, sunniva = (people.by_name(store, name) for name in ("Marek Osei-Lund", "Sunniva Adeyemi-Park"))
    assert (marek.system, marek.comma) == ("us", False) and (sunniva.system, sunniva.comma) == ("metric", True)
    hers = [each for each in attempts.counted(store, sunniva.id) if each.kind == "numeric"]
    assert any("," in each.typed for each in hers)
    assert not any("." in each.typed for each in hers)
    assert any(each.outcome == "right" and "," in each.typed for each in hers)


def test_every_outcome_and_some_known_mistakes_are_there(store):
    answered = everything(store)
    assert {outcome for _, _, _, outcome, _, _, _ in answered} == {"right", "close", "wrong"}
    assert len({(item, mistake) for _, item, _, _, mistake, _, _ in answered if mistake}) >= 3


def test_the_answers_are_the_same_every_time(store, tmp_path):
    other, _ = filled(tmp_path / "again.sqlite")
    assert everything(other) == everything(store)
    other.close()
