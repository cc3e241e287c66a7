"""The demo: three invented hands and two weeks of their answers, made through the same functions as real ones."""

import random
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from course import Course, load_course
from question_bank import Bank, Question, Verdict, load_bank
from question_bank.numbers import in_comma, show
from webapp import passwords
from webapp.records import attempts, copies, house, lessons_read, memory, people, questions
from webapp.records.attempts import Attempt
from webapp.records.connection import Store
from webapp.records.errors import RecordsError
from webapp.records.people import Person
from webapp.study.aim import Aim
from webapp.study.days import study_day
from webapp.study.planner import plan_today
from webapp.study.rotation import every_day
from webapp.study.worth import Offer, Section

SEED = 41
DAYS = 14
# Nobody has studied on these last days, so that something has begun to fade by today.
AWAY = 3
MIDDAY = time(12)


@dataclass(frozen=True)
class Hand:
    """An invented person: how they read and write, how many lessons they have read, and how they fare at first."""

    name: str
    system: str
    comma: bool
    minutes: int
    lessons: int
    right: float
    knows_a_slip: float


HANDS = (
    Hand("Marek Osei-Lund", "us", False, 15, lessons=4, right=0.62, knows_a_slip=0.7),
    Hand("Sunniva Adeyemi-Park", "metric", True, 20, lessons=3, right=0.72, knows_a_slip=0.5),
    Hand("Caspian Ferreira-Holt", "us", False, 10, lessons=3, right=0.9, knows_a_slip=0.8),
)


@dataclass(frozen=True)
class SignIn:
    """What somebody types to look at the demo as one of its hands."""

    name: str
    password: str


def refuse_real(path: Path) -> None:
    """Raises RecordsError unless the file is a demo's: nobody's own records are ever made afresh."""
    copies.check(path)
    with closing(Store(path)) as store:
        invented = house.is_demo(store)
    if not invented:
        raise RecordsError(
            f"{path} holds real records and no demo: it stays as it is. Choose another file with --data."
        )


def make_afresh(path: Path, zone: str) -> tuple[Store, list[SignIn]]:
    """A new demo file in the place of an older one, and its sign-ins. Raises RecordsError if that one is in use."""
    copies.remove(path)
    store = Store(path)
    store.migrate()
    memory.rebuild(store)
    return store, fill(store, load_bank(), load_course(), datetime.now(UTC), ZoneInfo(zone))


def fill(store: Store, bank: Bank, course: Course, now: datetime, zone: tzinfo) -> list[SignIn]:
    """Fill a new records file with the invented hands and mark it as a demo; their sign-ins.

    The answers are the same every time; the passwords are random.
    """
    chance = random.Random(SEED)
    first = study_day(now, zone) - timedelta(DAYS)
    signs = [SignIn(hand.name, passwords.new_password()) for hand in HANDS]
    with store.writing():
        house.mark_demo(store)
        crew = [_joined(store, hand, sign, _at(first, zone)) for hand, sign in zip(HANDS, signs, strict=True)]
        for number in range(DAYS - AWAY):
            for hand, person in zip(HANDS, crew, strict=True):
                if number == 0:
                    _read_lessons(store, course, hand, person, _at(first, zone))
                if number == 0 or chance.random() < 0.8:
                    _study(store, bank, course, hand, person, first + timedelta(number), zone, chance)
    return signs


def _joined(store: Store, hand: Hand, sign: SignIn, at: datetime) -> Person:
    hashes = passwords.hash_password(sign.password), passwords.hash_recovery_code(passwords.new_recovery_code())
    return people.join(store, hand.name, *hashes, system=hand.system, comma=hand.comma, minutes=hand.minutes, now=at)


def _at(day: date, zone: tzinfo) -> datetime:
    return datetime.combine(day, MIDDAY, zone)


def _read_lessons(store: Store, course: Course, hand: Hand, person: Person, at: datetime) -> None:
    for lesson in course.lessons[: hand.lessons]:
        for part in lesson.parts:
            lessons_read.mark_part(store, person.id, lesson.id, part.slug, at)


def _study(
    store: Store, bank: Bank, course: Course, hand: Hand, person: Person, day: date, zone: tzinfo, chance: random.Random
) -> None:
    """One sitting: today's plan, each item drawn, answered and recorded."""
    offers = [
        Offer(item.id, lesson.id, Section(lesson.module, item.kind), float(item.usual_seconds))
        for lesson in course.lessons
        for item in bank.values()
        if item.lesson == lesson.id
    ]
    read = set(lessons_read.parts_read(store, person.id))
    at = _at(day, zone) + timedelta(hours=chance.uniform(4, 9))
    aim = Aim(every_day(hand.minutes))
    for pick in plan_today(offers, memory.of_person(store, person.id), read, aim, day).picks:
        item = bank[pick.item]
        question = item.draw(chance.randrange(2**31), person.system)
        question_id = questions.keep(store, question, person.id, "today", at, text=item.text)
        seconds = round(pick.seconds * chance.uniform(0.5, 1.8), 1)
        at += timedelta(seconds=seconds)
        written, verdict = _answer(question, hand, chance)
        attempt = Attempt(
            id=question_id,
            person=person.id,
            item=item.id,
            kind=question.kind,
            typed=written,
            read_as=verdict.read_as,
            outcome=verdict.outcome,
            mistake=verdict.mistake,
            hint=False,
            seconds=seconds,
            answered_at=at,
            received_at=at,
            study_day=day,
            usual_seconds=pick.seconds,
        )
        attempts.record(store, attempt)
        at += timedelta(seconds=chance.uniform(5, 40))


def _answer(question: Question, hand: Hand, chance: random.Random) -> tuple[str, Verdict]:
    """What the hand writes, and the verdict on it: the first of their answers that counts."""
    is_right, knows = chance.random() < hand.right, chance.random() < hand.knows_a_slip
    for given in _answers(question, is_right, knows, chance):
        if question.is_typed and hand.comma:
            given = in_comma(given)
        verdict = question.grade(given, comma=hand.comma)
        if verdict.counted:
            return _written(given), verdict
    raise ValueError(f"{question.item}, seed {question.seed}: no answer of the demo's counts.")


def _answers(question: Question, is_right: bool, knows: bool, chance: random.Random) -> Iterator[Any]:
    """The answer that comes to mind, and after it the right one, should the first be asked back."""
    right, wrong = _right_and_wrong(question, knows, chance)
    if not is_right:
        yield chance.choice(wrong)
    yield right


def _right_and_wrong(question: Question, knows: bool, chance: random.Random) -> tuple[Any, list[Any]]:
    match question.kind:
        case "estimate":
            slips = [each.value for each in question.mistakes] if knows else []
            return question.quick, [f"{show(each, 2)} {question.unit}" for each in slips or [question.value * 2.5]]
        case "gauge":
            slips = [each.value for each in question.mistakes] if knows else []
            wrong = slips or [question.value + 3 * question.half_width]
            return question.key_text, [f"{show(each, 6)} {question.unit}" for each in wrong]
        case "find-the-wrong-line":
            others = [str(at) for at in range(1, len(question.shown) + 1) if at != question.wrong]
            return str(question.wrong), others
        case "numeric":
            slips = [each.value for each in question.mistakes] if knows else []
            wrong = slips or [question.value * 1.02, question.value * chance.uniform(0.4, 0.8)]
            return question.key_text, [f"{show(each, 4)} {question.unit}" for each in wrong]
        case "choice":
            return question.right, [each.key for each in question.options if each.key != question.right]
        case "order":
            return question.accepted[0], [[each.key for each in question.steps]]
        case "match":
            keys = [each.key for each in question.right]
            return question.pairs, [{left: keys[keys.index(right) - 1] for left, right in question.pairs.items()}]
        case "part":
            return question.right[0], [each.key for each in question.places if each.key not in question.right]
        case "card":
            return "said", ["part", "could-not"]
    raise ValueError(f"{question.kind!r} is a kind that the demo can't answer.")


def _written(given: Any) -> str:
    """The answer as the record keeps it: one line of text."""
    if isinstance(given, list):
        return " ".join(given)
    if isinstance(given, dict):
        return " ".join(f"{left}={right}" for left, right in given.items())
    return given
