"""Record: what was answered, what comes back when, and the mistakes that come again."""

from collections import Counter
from dataclasses import dataclass
from datetime import date

from flask import Blueprint, abort, render_template, request

from question_bank import Item
from question_bank.kinds.slip import general
from question_bank.quantities_in_text import fill
from webapp.at_hand import bank, course, me, store, system, today
from webapp.planning import last_outcomes
from webapp.reading import readings
from webapp.records import attempts, memory
from webapp.records.attempts import Attempt
from webapp.study.memory import back_on
from webapp.study.so_far import is_fading, so_far

views = Blueprint("record", __name__)

LATEST = 8
A_PAGE = 40
AGAIN = 2


@dataclass(frozen=True)
class Line:
    """One item in the record: how often it was answered, how last, and from when it fades."""

    item: Item
    times: int
    last: Attempt | None
    back_on: date | None
    fading: bool


@dataclass(frozen=True)
class Again:
    """A mistake that came more than once, and what to tell of it. `item` is the one that it came in, if it was one."""

    item: Item | None
    title: str
    tell: str
    count: int


@views.get("/record")
def show() -> str:
    """The counts, item by item, the mistakes that come again, and the latest answers."""
    counted = attempts.counted(store(), me().id)
    lines = _lines(counted)
    return render_template(
        "record/record.html",
        lessons=[(lesson, [lines[item.id] for item in bank().of_lesson(lesson.id)]) for lesson in course().lessons],
        readings=readings(),
        answers=len(counted),
        so_far=so_far(bank(), last_outcomes(), memory.of_person(store(), me().id), today()),
        again=_come_again(),
        latest=attempts.of_person(store(), me().id, LATEST),
        bank=bank(),
    )


@views.get("/record/attempts")
def all_attempts() -> str:
    """All answers, newest first, a page at a time. `before` is the id of the last one on the page before."""
    before = request.args.get("before")
    if before is not None:
        last = attempts.get(store(), before)
        if last is None or last.person != me().id:
            abort(404)
    found = attempts.of_person(store(), me().id, A_PAGE + 1, before)
    older = found[A_PAGE - 1].id if len(found) > A_PAGE else None
    return render_template("record/attempts.html", found=found[:A_PAGE], older=older, first=before is None, bank=bank())


def _lines(counted: list[Attempt]) -> dict[str, Line]:
    """A line for each item of the bank, by its id. `counted` comes oldest first."""
    states = memory.of_person(store(), me().id)
    last = {each.item: each for each in counted}
    times = {item: 0 for item in bank()}
    for each in counted:
        times[each.item] = times.get(each.item, 0) + 1
    found = {}
    for name, item in bank().items():
        state = states.get(name)
        fading = state is not None and is_fading(state, today())
        found[name] = Line(item, times[name], last.get(name), state and back_on(state), fading)
    return found


def _come_again() -> list[Again]:
    """What came more than once, the commonest first. A general mistake counts over all items, any other in its own."""
    made = attempts.mistakes_of(store(), me().id)
    in_items = Counter(each.mistake for each in made if general(each.mistake))
    alone = [each for each in made if in_items[each.mistake] < AGAIN and each.count >= AGAIN]
    found = [_told(each.item, each.mistake, each.count) for each in alone]
    for name in (each for each, items in in_items.items() if items >= AGAIN):
        found.append(_general(name, sum(each.count for each in made if each.mistake == name)))
    return sorted((each for each in found if each), key=lambda each: -each.count)


def _general(name: str, count: int, item: Item | None = None) -> Again | None:
    known = general(name)
    return known and Again(item, known.title, known.tell, count)


def _told(name: str, mistake: str, count: int) -> Again | None:
    """A mistake by its title, with what to tell of it; None if the course no longer has it."""
    item = bank().get(name)
    if item is None:
        return None
    if item.kind == "choice":
        option = next((each for each in item.options if f"option-{each.key}" == mistake), None)
        return option and Again(
            item, f"You chose: {fill(option.text, system())}", fill(option.tell or "", system()), count
        )
    if item.kind == "part":
        spot = next((each for each in item.spots if f"part-{each.part}" == mistake), None)
        return spot and Again(item, f"You chose: {spot.name}", fill(item.tells.get(spot.part, ""), system()), count)
    slip = next((each for each in getattr(item, "mistakes", ()) if each.name == mistake), None)
    if slip is None:
        return _general(mistake, count, item)
    return Again(item, slip.title, fill(slip.tell.get(system(), ""), system()), count)
