"""The demo's invented people."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from course import load_course
from question_bank import load_bank
from webapp import demo, passwords
from webapp.records import attempts, house, lessons_read, memory, people
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


def everything(store: Store) -> list[tuple]:
    """What each hand answered, without ids."""
    return [
        (hand.name, each.item, each.typed, each.outcome, each.mistake, each.seconds, each.answered_at)
        for hand in demo.HANDS
        for each in attempts.counted(store, people.by_name(store, hand.name).id)
    ]


def test_each_hand_can_sign_in_with_the_password_printed(made):
    store, signs = made
    assert [sign.name for sign in signs] == ["Marek Osei-Lund", "Sunniva Adeyemi-Park", "Caspian Ferreira-Holt"]
    assert len({sign.password for sign in signs}) == 3
    for sign in signs:
        password_hash, _ = people.secrets_of(store, people.by_name(store, sign.name).id)
        assert passwords.matches(password_hash, sign.password)


def test_it_is_marked_as_invented(store):
    assert house.is_demo(store)


@pytest.mark.parametrize("hand", demo.HANDS, ids=lambda hand: hand.name)
def test_today_has_something_that_fades(store, hand):
    """Two weeks lie behind each hand: answers on several days, none from the future, and some items have faded."""
    person = people.by_name(store, hand.name)
    answered = attempts.counted(store, person.id)
    days = {each.study_day for each in answered}
    assert len(days) >= 4
    assert min(days) == TODAY - timedelta(demo.DAYS)
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
    found = {hand.name: people.by_name(store, hand.name) for hand in demo.HANDS}
    assert [(each.system, each.comma) for each in found.values()] == [("us", False), ("metric", True), ("us", False)]
    hers = [each for each in attempts.counted(store, found["Sunniva Adeyemi-Park"].id) if each.kind == "numeric"]
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
