"""How people stand in all modules: the records read once for many, and handed to the pure part. No view does sums.

A coordinator's rows are of members and of what came at or after `sees_from`; a hand's own row is of everything.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from itertools import islice

from course import Module
from webapp import my_sittings
from webapp.assigned import Assigned
from webapp.at_hand import bank, course, me, store, today, zone
from webapp.records import crews, exams, excuses, standing
from webapp.records.assignments import Assignment
from webapp.records.crews import Membership
from webapp.records.exams import Exam
from webapp.records.excuses import Excuse
from webapp.records.module_results import REFRESHER, Handed, results_of
from webapp.records.standing import Remembered, Since
from webapp.study.days import study_day
from webapp.study.pace import NOT_ENOUGH, Load, Minutes, Pace, added_up, exam_day_fault, minutes_ahead, pace
from webapp.study.rotation import Rotation
from webapp.study.standing import (
    EXCUSED,
    LATE,
    NEED_STUDY,
    NOT_BEGUN,
    PASSED,
    REFRESH,
    REPLACED,
    Asked,
    Result,
    Standing,
)
from webapp.study.standing import standing as standing_of

DONE = (PASSED, EXCUSED, REPLACED)
NOTHING = Remembered(0, 0, 0.0)


@dataclass(frozen=True, slots=True)
class Cell:
    """One person in one module. `left` is the minutes of study left; `pace` is up to the due day, else None."""

    module: Module
    standing: Standing
    asked: Asked | None
    excuse: Excuse | None
    tests: Sequence[Handed]
    left: float
    known: int
    pace: Pace | None = None

    @property
    def state(self) -> str:
        """One word of webapp.study.standing.STATES."""
        return self.standing.state

    @property
    def idle(self) -> bool:
        """Whether nothing of it is asked, and nothing of it is begun: there is no more to say of it."""
        return self.asked is None and self.state == NOT_BEGUN

    @property
    def wont_make_it(self) -> bool:
        """Whether there is too little time for all that is due by this module's day. One that is late is past that."""
        return self.pace is not None and self.pace.verdict == NOT_ENOUGH


@dataclass(frozen=True, slots=True)
class Row:
    """One person: their cells in the order of the modules, their exam, and whether there is time for it.

    `exam_fault` is 'nights' or 'off' where their rotation says that the exam day is no day tour on the rig;
    `own_rotation` says that it is not their crew's.
    """

    membership: Membership
    cells: Mapping[str, Cell]
    exam: Exam | None
    exam_pace: Pace | None
    exam_fault: str | None
    own_rotation: bool

    @property
    def late(self) -> int:
        """In how many modules somebody is late."""
        return sum(each.state == LATE for each in self.cells.values())

    @property
    def wont_make(self) -> int:
        """How many due days can't be met."""
        return sum(each.wont_make_it for each in self.cells.values())

    @property
    def misses_exam(self) -> bool:
        """Whether there is too little time for what the exam asks for."""
        return self.exam_pace is not None and self.exam_pace.verdict == NOT_ENOUGH

    @property
    def after_exam(self) -> list[Cell]:
        """What is still to be passed and has its day only after the exam; nothing once the exam is past."""
        if self.exam_pace is None:
            return []
        return [
            each
            for each in self.cells.values()
            if each.asked and each.state in NEED_STUDY and each.asked.due > self.exam.day
        ]

    def to_do(self, all_of_it: bool = False) -> list[Cell]:
        """What is assigned and still to be passed or refreshed, the first day first; or `all_of_it`, done or not.

        What is to be refreshed is there without an assignment too, and after all that has a day.
        """
        done = () if all_of_it else DONE
        cells = [
            each for each in self.cells.values() if (each.asked or each.state == REFRESH) and each.state not in done
        ]
        return sorted(cells, key=lambda each: each.asked.due if each.asked else date.max)


def rows_of(
    members: Sequence[Membership], without: Collection[str] = (), as_if: Sequence[Assignment] = ()
) -> list[Row]:
    """A row for each of these members, in their order, of what their coordinators may see.

    `without` are the ids of excuses that are taken as ended, `as_if` assignments that are taken as made.
    """
    my_sittings.close_overdue([each.person.id for each in members])
    return _Reading(members, {each.person.id: _since(each.sees_from) for each in members}, without, as_if).rows()


def my_row() -> Row | None:
    """The row of who is asking, of everything they did; None for somebody in no crew."""
    membership = crews.membership_now(store(), me().id)
    return membership and _Reading([membership], {me().id: _since(me().created_at)}).rows()[0]


def my_exam() -> Exam | None:
    """The exam that is set for who is asking, in a crew or in none."""
    return exams.of_people(store(), [me().id]).get(me().id)


def _since(moment: datetime) -> Since:
    return Since(moment, study_day(moment, zone()))


class _Reading:
    """The records of these members, read with one query for each table."""

    def __init__(
        self,
        members: Sequence[Membership],
        people: Mapping[str, Since],
        without: Collection[str] = (),
        as_if: Sequence[Assignment] = (),
    ) -> None:
        self.members = members
        self.today = today()
        ids = list(people)
        self._measure_course()
        self.remembered = standing.remembered(store(), people, self.items, self.today + timedelta(1))
        self.read = standing.minutes_read(store(), people, self.parts)
        self.results = results_of(store(), ids, {id: since.moment for id, since in people.items()})
        self.exams = exams.of_people(store(), ids)
        running = [each for each in excuses.running(store(), ids) if each.id not in without]
        self.excuses = {(each.person, each.module): each for each in running if each.module}
        self.assigned = Assigned(members, as_if)
        self._ahead: dict[object, tuple[Iterator[Minutes], list[Minutes]]] = {}

    def _measure_course(self) -> None:
        """What there is to study: each item's module and seconds, each part's module and minutes, sums by module."""
        self.items, self.parts = {}, {}
        self.whole = {each.id: 0.0 for each in course().modules}
        for item in bank().values():
            module = item.lesson.partition("/")[0]
            seconds = float(item.usual_seconds)
            self.items[item.id] = (module, seconds)
            self.whole[module] += seconds / 60
        for lesson in course().lessons:
            for part in lesson.parts:
                self.parts[lesson.id, part.slug] = (lesson.module, lesson.minutes / len(lesson.parts))
            self.whole[lesson.module] += lesson.minutes

    def rows(self) -> list[Row]:
        return [self._row(each) for each in self.members]

    def _row(self, member: Membership) -> Row:
        held = self.assigned.held[member.person.id]
        rotation = held.rotation
        cells = self._paced(member, rotation, [self._cell(member, each) for each in course().modules])
        exam = self.exams.get(member.person.id)
        left = sum(each.left for each in cells)
        exam_pace = exam and exam.day >= self.today and pace(left, self._minutes_until(member, rotation, exam.day))
        return Row(
            member,
            {each.module.id: each for each in cells},
            exam,
            exam_pace or None,
            exam and exam_day_fault(rotation, exam.day),
            held.is_own,
        )

    def _cell(self, member: Membership, module: Module) -> Cell:
        pair = (member.person.id, module.id)
        asked = self.assigned.to(member, module.id)
        excuse = self.excuses.get(pair)
        tests = self.results[pair].tests if pair in self.results else ()
        remembered, read = self.remembered.get(pair, NOTHING), self.read.get(pair, 0.0)
        begun = bool(remembered.seen or read or tests)
        results = [as_result(each) for each in tests]
        found = standing_of(asked, excuse and excuse.kind, results, module.refreshers, begun, self.today)
        left = self.whole[module.id] - read - remembered.known_seconds / 60 if found.state in NEED_STUDY else 0.0
        return Cell(module, found, asked, excuse, tests, max(0.0, left), remembered.known)

    def _paced(self, member: Membership, rotation: Rotation, cells: list[Cell]) -> list[Cell]:
        """The cells, those that are asked and have a day to come with their pace. What is late has to be done too."""
        loads = [
            Load(each.module.id, each.left, each.asked.due) for each in cells if each.asked and each.state in NEED_STUDY
        ]
        paces = {
            load.module: pace(left, self._minutes_until(member, rotation, load.due))
            for load, left in added_up(loads)
            if load.due >= self.today
        }
        return [replace(each, pace=paces[each.module.id]) if each.module.id in paces else each for each in cells]

    def _minutes_until(self, member: Membership, rotation: Rotation, day: date) -> Minutes:
        """Counted once, day by day, for hands of one crew with the same minutes a day. The day is not past."""
        person = member.person
        by_crew = not self.assigned.held[person.id].is_own and not rotation.exceptions
        key = (member.crew.id, rotation.minutes_on, rotation.minutes_off) if by_crew else person.id
        if key not in self._ahead:
            self._ahead[key] = minutes_ahead(rotation, self.today), []
        more, known = self._ahead[key]
        known.extend(islice(more, max(0, (day - self.today).days + 1 - len(known))))
        return known[(day - self.today).days]


def as_result(handed: Handed) -> Result:
    """A handed-in test as the pure part takes it. A module's own test is of the whole module."""
    day = study_day(handed.at, zone())
    lessons = handed.lessons if handed.kind == REFRESHER else None
    return Result(day, handed.mark, handed.passed, not handed.missed, lessons)
