"""Who may sign which tasks in a crew, and until when: given and ended by its coordinator."""

from datetime import date, timedelta

from flask import Blueprint, abort, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp import hands_on
from webapp.allowed import coordinating, my_crew
from webapp.at_hand import course, me, now, store, today
from webapp.records import crews, log, people, rights
from webapp.records.crews import Crew
from webapp.records.people import Person
from webapp.records.rights import Right
from webapp.views.entry import NOT_TAKEN

views = Blueprint("observers", __name__)

USUAL = timedelta(days=182)
LONGEST = timedelta(days=731)
DONE = {"given": "The right is given.", "ended": "The right is ended."}


@views.get("/crews/<crew>/observers")
def show(crew: str) -> str:
    """Who may sign here, who might once, and the form to give the right."""
    return _page(my_crew(crew), {"until": (today() + USUAL).isoformat()}, [], {})


@views.post("/crews/<crew>/observers")
def give(crew: str) -> Response | tuple[str, int]:
    """Give somebody the right to sign tasks in this crew up to a day. It stands beside what they have already.

    Where they are not seen on a task themselves, or have never signed in, it is asked once whether that is meant.
    """
    mine = my_crew(crew)
    problems: dict[str, str] = {}
    person, tasks, until = _person(problems), _tasks(problems), _until(problems)
    if not problems and (doubt := _doubt(person, tasks)) and request.form.get("sure") != doubt:
        problems["sure"] = doubt
    if problems:
        return _page(mine, request.form, request.form.getlist("tasks"), problems), NOT_TAKEN
    with store().writing():
        rights.give(store(), person.id, mine.id, "observer", me().id, now(), tasks, until)
        told = f"{person.name} may sign {', '.join(tasks)} until {until.day} {until:%B %Y}.{_known(person, tasks)}"
        log.note(store(), me().id, "observer named", told, now(), crew=mine.id, about=person.id)
    return redirect(url_for(".show", crew=crew, done="given"), 303)


@views.post("/crews/<crew>/observers/<right>/end")
def end(crew: str, right: str) -> Response:
    """End a right. What was signed by it stays."""
    mine = my_crew(crew)
    found = next((each for each in _rights(mine) if each.id == right), None) or abort(404)
    if found.ended_at is None:
        with store().writing():
            rights.end(store(), right, now())
            told = f"{found.person.name} may no longer sign {', '.join(found.tasks)}."
            log.note(store(), me().id, "observer ended", told, now(), crew=mine.id, about=found.person.id)
    return redirect(url_for(".show", crew=crew, done="ended"), 303)


def _rights(crew: Crew) -> list[Right]:
    return rights.in_crew(store(), crew.id, "observer")


def _page(crew: Crew, typed: dict[str, str], ticked: list[str], problems: dict[str, str]) -> str:
    found = _rights(crew)
    tasks = course().tasks.values()
    return render_template(
        "signoffs/observers.html",
        crew=crew,
        holding=[each for each in found if each.holds_on(today())],
        past=[each for each in found if not each.holds_on(today())],
        known=crews.members(store(), [each.id for each in coordinating()]),
        modules=[
            (module, [each for each in tasks if each.module == module.id and each.fits(crew.rig.rig_type)])
            for module in course().modules
        ],
        typed=typed,
        ticked=ticked,
        problems=problems,
        earliest=today(),
        latest=today() + LONGEST,
        done=DONE.get(request.args.get("done", "")),
    )


def _person(problems: dict[str, str]) -> Person | None:
    typed = request.form.get("person", "").strip()[:80]
    found = people.by_name(store(), typed) if typed else None
    if not typed:
        problems["person"] = "Write what the observer types to sign in."
    elif found is None:
        problems["person"] = "Nobody here signs in like that. Look at the spelling, or ask them for it."
    return found


def _tasks(problems: dict[str, str]) -> tuple[str, ...]:
    """The tasks ticked, and those of the modules ticked as a whole, in the order of the course."""
    ticked = set(request.form.getlist("tasks"))
    found = tuple(each.id for each in course().tasks.values() if each.id in ticked or each.module in ticked)
    if not found:
        problems["tasks"] = "Tick one task or more."
    return found


def _doubt(person: Person, tasks: tuple[str, ...]) -> str | None:
    """What speaks against them as an observer, as far as who is asking may know it; the form sends it back as said."""
    told = _known(person, tasks).strip()
    return f"{told} Give the right all the same?" if told else None


def _known(person: Person, tasks: tuple[str, ...]) -> str:
    """Of somebody in a crew of mine, or of me: whether they signed in yet, and on which of the tasks they aren't done.

    Of anybody else nothing is told: another crew's people are not mine to see.
    """
    member = crews.membership_now(store(), person.id)
    mine = {each.id for each in coordinating()}
    if person.id != me().id and (member is None or member.crew.id not in mine):
        return ""
    told = ""
    if people.without_password(store(), [person.id]):
        told += f" {person.name} has not signed in here yet."
    # As for somebody on no rig: a task that their own rig does not have may still be one that they know.
    stands = {each.task.id: each.state for each in hands_on.of_hand(person.id, None)}
    lacking = [each for each in tasks if stands[each] != "done"]
    if lacking:
        told += f" {person.name} is not signed as done on {', '.join(lacking)}."
    return told


def _until(problems: dict[str, str]) -> date | None:
    try:
        until = date.fromisoformat(request.form.get("until", ""))
    except ValueError:
        problems["until"] = "Choose the last day."
        return None
    if not today() <= until <= today() + LONGEST:
        problems["until"] = "Choose a last day from today on, and at most two years ahead."
    return until
