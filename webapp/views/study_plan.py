"""The hand's own plan: when they are on the rig, how many minutes a day has, and the day of the exam."""

from dataclasses import dataclass
from datetime import date

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.at_hand import me, now, store, today
from webapp.records import crews, exams, people, rotations
from webapp.views.entry import NOT_TAKEN

views = Blueprint("study_plan", __name__)

LONGEST_DAY = 240
LONGEST_HITCH = 120
MOST_SINGLE_DAYS = 60
PAPERS = [("a", "Paper A", "floorhand to derrickhand"), ("b", "Paper B", "derrickhand to assistant driller")]
DONE = {
    "plan": "Your plan is saved.",
    "exam": "Your exam day is saved.",
    "day": "That day is saved.",
    "day-gone": "That day goes by the rotation again.",
}


@dataclass
class Form:
    """What a form sent, and what is wrong with it, by field."""

    problems: dict[str, str]

    def text(self, name: str) -> str:
        """The field without spaces around it."""
        return request.form.get(name, "").strip()

    def whole(self, name: str, least: int, most: int, sentence: str) -> int:
        """A whole number in that range; else `sentence` is the problem."""
        typed = self.text(name)
        if typed.isascii() and typed.isdecimal() and len(typed) <= 4 and least <= int(typed) <= most:
            return int(typed)
        self.problems[name] = sentence
        return least

    def day(self, name: str) -> date | None:
        """A day as a browser's field of dates sends it, or typed as 2026-03-14."""
        try:
            return date.fromisoformat(self.text(name))
        except ValueError:
            self.problems[name] = "Write a day as year-month-day, such as 2026-03-14."
            return None


@views.get("/settings/plan")
def show() -> str:
    """Rotation, minutes, single days and exam. `done` in the address tells which form was just taken."""
    return _page(_as_kept(), {}, DONE.get(request.args.get("done", "")))


@views.post("/settings/plan")
def save() -> Response | tuple[str, int]:
    """Keep the rotation and the minutes of a day on and a day off."""
    form = Form({})
    minutes = form.whole("minutes", 1, LONGEST_DAY, f"Write whole minutes, from 1 to {LONGEST_DAY}.")
    rotates = form.text("rotation")
    if rotates not in ("own", "crew", "none"):
        form.problems["rotation"] = "Choose one of them."
    if rotates == "none":
        minutes_off = minutes
    else:
        minutes_off = form.whole("minutes_off", 0, LONGEST_DAY, f"Write whole minutes, from 0 to {LONGEST_DAY}.")
    hitch = _read_hitch(form) if rotates == "own" else None
    if form.problems:
        return _page(_as_kept() | request.form.to_dict(), form.problems), NOT_TAKEN
    with store().writing():
        people.change_settings(store(), me().id, minutes=minutes, minutes_off=minutes_off)
        if hitch:
            rotations.set_own(store(), me().id, *hitch)
        elif rotates == "none" and crews.membership_now(store(), me().id):
            # A hand of a crew who goes by no rotation: every day is a day on.
            rotations.set_own(store(), me().id, 1, 0, today(), None)
        else:
            rotations.forget_own(store(), me().id)
    return redirect(url_for(".show", done="plan"), 303)


@views.post("/settings/plan/exam")
def exam() -> Response | tuple[str, int]:
    """Keep the day of the exam and its paper; no day is no exam."""
    form = Form({})
    paper = form.text("paper")
    if paper not in exams.PAPERS:
        form.problems["paper"] = "Choose the paper that you will sit."
    day = form.day("exam_day") if form.text("exam_day") else None
    if day is not None and day < today():
        form.problems["exam_day"] = "That day is past. Write a day to come, or leave it empty."
    if form.problems:
        return _page(_as_kept() | request.form.to_dict(), form.problems), NOT_TAKEN
    exams.set_day(store(), me().id, paper, day, me().id, now())
    return redirect(url_for(".show", done="exam"), 303)


@views.post("/settings/plan/day")
def single_day() -> Response | tuple[str, int]:
    """Keep the minutes of one day, or let the rotation decide about it again."""
    form = Form({})
    day = form.day("day")
    if form.text("forget"):
        if day:
            rotations.forget_day(store(), me().id, day)
        return redirect(url_for(".show", done="day-gone"), 303)
    minutes = form.whole("day_minutes", 0, LONGEST_DAY, f"Write whole minutes, from 0 to {LONGEST_DAY}.")
    if day is not None and day < today():
        form.problems["day"] = "That day is past."
    if sum(each >= today() for each in rotations.single_days(store(), me().id)) >= MOST_SINGLE_DAYS:
        form.problems["day"] = f"There are {MOST_SINGLE_DAYS} single days already. Take one away first."
    if form.problems:
        return _page(_as_kept() | request.form.to_dict(), form.problems), NOT_TAKEN
    rotations.set_day(store(), me().id, day, minutes)
    return redirect(url_for(".show", done="day"), 303)


def _read_hitch(form: Form) -> tuple[int, int, date | None, int | None]:
    on = form.whole("days_on", 1, LONGEST_HITCH, f"Write whole days, from 1 to {LONGEST_HITCH}.")
    off = form.whole("days_off", 0, LONGEST_HITCH, f"Write whole days, from 0 to {LONGEST_HITCH}.")
    first = form.day("first_day")
    nights = None
    if form.text("nights_from") and "days_on" not in form.problems:
        nights = form.whole("nights_from", 1, on, f"Write a day of the hitch, from 1 to {on}, or leave it empty.")
    return on, off, first, nights


def _as_kept() -> dict[str, str]:
    """The forms as the records have them."""
    own = rotations.own(store(), me())
    exam = exams.of_people(store(), [me().id]).get(me().id)
    in_crew = crews.membership_now(store(), me().id) is not None
    every_day = own is not None and own[:2] == (1, 0)
    hitch = own if own and not every_day else None
    return {
        "minutes": str(me().minutes),
        "minutes_off": str(me().minutes_off),
        "rotation": "own" if hitch else "crew" if in_crew and not every_day else "none",
        "days_on": str(hitch[0]) if hitch else "",
        "days_off": str(hitch[1]) if hitch else "",
        "first_day": hitch[2].isoformat() if hitch else "",
        "nights_from": str(hitch[3]) if hitch and hitch[3] else "",
        "exam_day": exam.day.isoformat() if exam else "",
        "paper": exam.paper if exam else "a",
    }


def _page(typed: dict[str, str], problems: dict[str, str], done: str | None = None) -> str:
    single = {day: minutes for day, minutes in rotations.single_days(store(), me().id).items() if day >= today()}
    return render_template(
        "study_plan.html",
        typed=typed,
        problems=problems,
        done=done,
        membership=crews.membership_now(store(), me().id),
        single_days=single,
        papers=PAPERS,
    )
