"""The matrix: the people of a crew, or of all my crews, and how each stands in each module."""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from urllib.parse import urlencode

from flask import Blueprint, abort, render_template, request

from webapp.allowed import coordinating, my_crew
from webapp.at_hand import course, store, today
from webapp.records import crews
from webapp.records.crews import Crew
from webapp.standings import DONE, Row, rows_of
from webapp.study.standing import STATES

views = Blueprint("matrix", __name__)

WONT = "won't make it"
MISSES = "misses the exam"
FILTERS = ("state", "job", "days", "rig", "crew", "module")
MOST_DAYS = 400


@dataclass(frozen=True)
class Chosen:
    """What the address asks for: the filters, empty where there is none, and the order of the rows."""

    state: str
    job: str
    days: str
    rig: str
    crew: str
    module: str
    sort: str

    @property
    def filters(self) -> dict[str, str]:
        """The filters that are set."""
        return {name: value for name in FILTERS if (value := getattr(self, name))}

    def sorted_by(self, sort: str) -> str:
        """The query of the same page in another order."""
        return "?" + urlencode(self.filters | {"sort": sort})


@views.get("/crews/<crew_id>")
def of_crew(crew_id: str) -> str:
    """One crew of mine."""
    crew = my_crew(crew_id)
    return _page([crew], "Modules", crew)


@views.get("/crews/all")
def of_all() -> str:
    """All my crews in one table."""
    if not coordinating():
        abort(404)
    return _page(coordinating(), "All my crews", None)


def _page(of: Sequence[Crew], title: str, crew: Crew | None) -> str:
    chosen = _chosen()
    everybody = rows_of(crews.members(store(), [each.id for each in of]))
    rows = [row for row in everybody if _fits(row, chosen)]
    rows.sort(key=_order(chosen.sort))
    return render_template(
        "crews/matrix.html",
        title=title,
        crew=crew,
        crews=of,
        rows=rows,
        everybody=len(everybody),
        counts=_counts(rows),
        chosen=chosen,
        states=(*STATES, WONT, MISSES),
        jobs=sorted({row.membership.job for row in everybody}),
        rigs={each.rig.id: each.rig.name for each in of},
        modules=course().modules,
    )


def _chosen() -> Chosen:
    """As the address says; a number of days that is none asks for nothing."""
    said = {name: request.args.get(name, "").strip() for name in (*FILTERS, "sort")}
    days = said["days"]
    if not (days.isascii() and days.isdecimal() and int(days[:4]) <= MOST_DAYS):
        said["days"] = ""
    return Chosen(**said)


def _fits(row: Row, chosen: Chosen) -> bool:
    member = row.membership
    if chosen.job not in ("", member.job) or chosen.rig not in ("", member.crew.rig.id):
        return False
    if chosen.crew not in ("", member.crew.id):
        return False
    if chosen.days and not _exam_within(row, int(chosen.days)):
        return False
    return not chosen.state or _in_state(row, chosen.state, chosen.module)


def _exam_within(row: Row, days: int) -> bool:
    return row.exam is not None and today() <= row.exam.day <= today() + timedelta(days)


def _in_state(row: Row, state: str, module: str) -> bool:
    """Whether somebody is in that state in the module, or in any where none is asked for."""
    cells = [each for id, each in row.cells.items() if module in ("", id)]
    if state == WONT:
        return any(each.wont_make_it for each in cells)
    if state == MISSES:
        return row.misses_exam
    return any(each.state == state and not each.idle for each in cells)


def _order(sort: str) -> Callable[[Row], tuple]:
    """The key of an order: 'name' unless the address says 'exam', 'late' or a module's id."""

    def by_name(row: Row) -> tuple:
        person = row.membership.person
        return (person.name.casefold(), person.sign_in.casefold())

    if sort == "exam":
        return lambda row: (row.exam.day if row.exam else date.max, *by_name(row))
    if sort == "late":
        return lambda row: (-row.late, not row.misses_exam, -row.wont_make, *by_name(row))
    if sort in {each.id for each in course().modules}:
        return lambda row: (row.cells[sort].idle, STATES.index(row.cells[sort].state), *by_name(row))
    return by_name


def _counts(rows: list[Row]) -> dict[str, int]:
    """How many are late, will not make a day, miss the exam, have one ahead, have passed all that is asked of them."""
    found = Counter(late=0, wont=0, misses=0, exam=0, done=0)
    for row in rows:
        asked = [each for each in row.cells.values() if each.asked]
        found["late"] += bool(row.late)
        found["wont"] += bool(row.wont_make)
        found["misses"] += row.misses_exam
        found["exam"] += row.exam is not None and row.exam.day >= today()
        found["done"] += bool(asked) and all(each.state in DONE for each in asked)
    return found
