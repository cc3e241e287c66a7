"""Cases of who is asking: begun, gone on with, and shown again. All parts are drawn at once and answered in order."""

import secrets
from dataclasses import dataclass

from question_bank import Case
from webapp.at_hand import me, now, store
from webapp.records import attempts, case_runs, questions
from webapp.records.attempts import Attempt
from webapp.records.case_runs import CaseRun
from webapp.records.ids import new_id
from webapp.records.questions import Kept


@dataclass(frozen=True)
class Taken:
    """One part of a run: its question, the hand's attempt or None, its right result by name, its stem with blanks."""

    kept: Kept
    attempt: Attempt | None
    result: list[str] | None
    on_paper: str


@dataclass(frozen=True)
class Known:
    """One row of what is known: a shared given (part None), or the right result of an earlier part."""

    label: str
    text: str
    part: int | None


@dataclass(frozen=True)
class MyCase:
    """One run with its parts in order."""

    run: CaseRun
    parts: tuple[Taken, ...]

    @property
    def answered(self) -> int:
        """How many parts are answered."""
        return sum(part.attempt is not None for part in self.parts)

    @property
    def right(self) -> int:
        """How many parts were answered rightly."""
        return sum(part.attempt is not None and part.attempt.outcome == "right" for part in self.parts)

    @property
    def open(self) -> Kept | None:
        """The first question that is not answered; None when all are."""
        return next((part.kept for part in self.parts if part.attempt is None), None)

    def place(self, kept: Kept) -> int:
        """Which part that question is, counted from 1."""
        return 1 + [part.kept.id for part in self.parts].index(kept.id)

    def known_before(self, place: int) -> list[Known]:
        """What stands on top of that part: the shared givens, and the right results of the parts before it."""
        given = [Known(label, text, None) for label, text in self.run.givens]
        found = [
            Known(*part.result, at)
            for at, part in enumerate(self.parts[: place - 1], start=1)
            if part.result is not None
        ]
        return given + found

    @property
    def known(self) -> list[Known]:
        """What is known by now: the givens, and the results of the parts that are answered."""
        return self.known_before(self.place(self.open) if self.open else len(self.parts) + 1)


def my_case(run_id: str | None) -> MyCase | None:
    """The run with that id if it is of who is asking; another's does not exist for them."""
    run = run_id and case_runs.get(store(), run_id)
    return _with_parts(run) if run and run.person == me().id else None


def open_cases() -> dict[str, MyCase]:
    """By the case's id: the run to go on with. A run that was begun afresh over stands for the ones before it."""
    found = {name: _with_parts(run) for name, run in case_runs.newest(store(), me().id).items()}
    return {name: each for name, each in found.items() if each.open is not None}


def begin(case: Case) -> MyCase:
    """Draw a case for who is asking, in their system, and keep the run and its questions, all or none."""
    person, at = me(), now()
    drawn = case.draw(secrets.randbelow(2**31), person.system)
    run = CaseRun(
        new_id(at),
        person.id,
        case.id,
        at,
        case.title,
        drawn.story,
        [list(each) for each in drawn.givens],
        [each.result and list(each.result) for each in drawn.parts],
        [each.on_paper for each in drawn.parts],
    )
    with store().writing():
        case_runs.keep(store(), run)
        for part, asked in zip(case.parts, drawn.parts, strict=True):
            questions.keep(store(), asked.question, person.id, "case", at, drill=run.id, text=part.item.text)
    return _with_parts(run)


def _with_parts(run: CaseRun) -> MyCase:
    kept = questions.of_drill(store(), run.id)
    rows = zip(kept, run.results, run.on_paper, strict=True)
    return MyCase(run, tuple(Taken(each, attempts.get(store(), each.id), *rest) for each, *rest in rows))
