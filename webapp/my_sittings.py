"""Sittings of who is asking: begun, answered as drafts, handed in once. Any kind of test is sat through these.

Nothing here says whether a draft is right: it is graded when the sitting is handed in, and not before.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from question_bank import Verdict
from webapp import asking
from webapp.at_hand import me, now, store
from webapp.records import attempts, come_back_to, drills, questions, sittings
from webapp.records.attempts import Attempt
from webapp.records.connection import Store
from webapp.records.ids import new_id
from webapp.records.questions import Kept
from webapp.records.sittings import Draft, Sitting
from webapp.study.drawing_up import Askable
from webapp.study.marking import Answered, Mark, mark

HOLDS_BACK = timedelta(hours=24)
"""A sitting that lies open longer keeps no item from being studied any more."""


@dataclass(frozen=True)
class Place:
    """One question of a sitting: where it stands, counted from 1, its draft, and its attempt once it is graded."""

    number: int
    kept: Kept
    lesson: str
    must_pass: bool
    draft: Draft | None
    attempt: Attempt | None
    outcome: str | None
    come_back: bool = False

    @property
    def state(self) -> str:
        """'open', 'unread' where the draft can't be counted as it stands, or 'answered'."""
        if self.draft is None:
            return "open"
        return "unread" if self.draft.given["unread"] else "answered"


@dataclass(frozen=True)
class MySitting:
    """A sitting with its questions in order."""

    sitting: Sitting
    places: tuple[Place, ...]

    def in_state(self, state: str) -> list[Place]:
        """The places that are 'open', 'unread' or 'answered'."""
        return [each for each in self.places if each.state == state]

    @property
    def to_come_back_to(self) -> list[Place]:
        """The places that the hand has marked to come back to."""
        return [each for each in self.places if each.come_back]

    @property
    def has_sheet(self) -> bool:
        """Whether the formula sheet lies open beside it."""
        return self.sitting.body.get("paper", {}).get("sheet", False)

    def seconds_left(self, at: datetime) -> int:
        """Whole seconds to the deadline, 0 at least; only of a sitting with one."""
        return max(0, int((self.sitting.deadline - at).total_seconds()))

    @property
    def mark(self) -> Mark:
        """What it came to, folded from how each question ended. Only of a sitting that is handed in."""
        return _mark(self.sitting, self.sitting.result["outcomes"])


def begin(
    kind: str,
    module: str | None,
    items: Sequence[Askable],
    pass_mark: int,
    must_pass: bool = True,
    deadline: datetime | None = None,
    paper: Mapping[str, Any] | None = None,
) -> str:
    """Draw the questions of a new sitting for who is asking, and keep all of it or none; its id.

    `paper` is what else a practice paper was drawn to: its seed, and the least mark in a module.
    """
    at = now()
    with store().writing():
        id = new_id(at)
        drawn = {each.item: _drawn(each, id) for each in items}
        body = drawn_to(items, drawn, must_pass) | ({"paper": dict(paper)} if paper else {})
        sittings.start(store(), Sitting(id, me().id, kind, module, pass_mark, body, at, deadline))
    return id


def _drawn(each: Askable, sitting: str) -> str:
    return asking.ask(each.item, "sitting", drill=sitting, system=each.system, seed=each.seed)


def drawn_to(items: Sequence[Askable], drawn: Mapping[str, str], must_pass: bool) -> dict[str, Any]:
    """The body of a sitting of these items; `drawn` has the question of each."""
    return {
        "items": [
            {"question": drawn[each.item], "item": each.item, "lesson": each.lesson, "must_pass": each.must_pass}
            for each in items
        ],
        "lessons": sorted({each.lesson for each in items}),
        "must_pass": must_pass,
    }


def my_sitting(sitting_id: str) -> MySitting | None:
    """The sitting with that id if it is of who is asking. One whose time is up is handed in first."""
    found = sittings.get(store(), sitting_id)
    if found is None or found.person != me().id:
        return None
    return with_places(by_the_clock(found))


def keep(
    place: Place, given: Any, written: str, fields: dict[str, list[str]], by_itself: bool = False
) -> Verdict | None:
    """Keep an answer as the draft of its question; what is to be said of it before it is graded, or None.

    `fields` are the fields of the form, to be shown again. An answer that can't be counted as it stands is kept too: it
    can be mended until the sitting is handed in. `by_itself`: the page kept it while the hand was still at it.
    """
    at, comma = now(), me().comma
    verdict = place.kept.question.not_read(given, comma)
    body = {
        "given": given,
        "written": written,
        "fields": fields,
        "comma": comma,
        "unread": verdict.message if verdict else "",
        "seconds": _seconds(place, written, at),
        "by_itself": by_itself,
    }
    sittings.keep_draft(store(), Draft(place.kept.id, body, at))
    return verdict or place.kept.question.doubt(given, comma)


def hand_in(sitting: Sitting, at: datetime, by: str = "hand") -> Sitting:
    """Grade every draft and write down what the sitting comes to: once, in one transaction. The sitting as it is then.

    A graded draft becomes an attempt, answered when the draft was kept. What is open or can't be read counts as wrong
    in the mark and is no attempt.
    """
    with store().writing():
        standing = sittings.get(store(), sitting.id)
        if not standing.is_open:
            return standing
        drafts = sittings.drafts_of(store(), sitting.id)
        outcomes = {kept.id: _graded(kept, drafts.get(kept.id)) for kept in questions.of_drill(store(), sitting.id)}
        close(store(), standing, outcomes, at, by)
    return sittings.get(store(), sitting.id)


def close(store: Store, sitting: Sitting, outcomes: Mapping[str, str], at: datetime, by: str) -> None:
    """Write down what a sitting came to; `outcomes` says how each of its questions ended."""
    found = _mark(sitting, outcomes)
    result = {
        "right": found.right,
        "asked": found.asked,
        "percent": found.percent,
        "lessons": [list(each) for each in found.lessons],
        "missed": list(found.missed),
        "low": list(found.low),
        "outcomes": dict(outcomes),
    }
    sittings.close(store, sitting.id, at, by, found.passed, result)


def by_the_clock(sitting: Sitting) -> Sitting:
    """The sitting; handed in at its deadline, with what was kept by then, if that has come."""
    return hand_in(sitting, sitting.deadline, "clock") if sitting.is_overdue(now()) else sitting


def close_overdue(person_ids: Sequence[str]) -> None:
    """Hand in whatever of these people the clock has ended. Call it before results of them are shown."""
    for each in sittings.overdue(store(), person_ids, now()):
        by_the_clock(each)


def held_back() -> set[str]:
    """The items of a sitting that is open and was begun within a day: elsewhere their answers are not shown now."""
    return sittings.items_held_back(store(), me().id, now() - HOLDS_BACK)


def _graded(kept: Kept, draft: Draft | None) -> str:
    """How a question ends; a counted answer is appended as an attempt. Call it in the transaction of handing in."""
    if draft is None:
        return "open"
    verdict = kept.question.grade(draft.given["given"], comma=draft.given["comma"])
    if not verdict.counted:
        return "unread"
    seconds = draft.given["seconds"]
    attempts.record(store(), asking.attempt_of(kept, verdict, draft.given["written"], draft.at, seconds))
    return verdict.outcome


def _seconds(place: Place, written: str, at: datetime) -> float | None:
    """How long the first answer took, from the first showing. To look at it again later is no slowness.

    What the page kept by itself is no answer yet, unless it is just what the hand now sends.
    """
    kept, before = place.kept, place.draft and place.draft.given
    if before and (before["written"] == written or not before.get("by_itself")):
        return before["seconds"]
    return asking.seconds_between(drills.first_shown(store(), kept.id) or kept.drawn_at, at)


def _mark(sitting: Sitting, outcomes: Mapping[str, str]) -> Mark:
    answered = [
        Answered(each["item"], each["lesson"], each["must_pass"], outcomes[each["question"]])
        for each in sitting.body["items"]
    ]
    least = sitting.body.get("paper", {}).get("least", 0)
    return mark(answered, sitting.pass_mark, sitting.body["must_pass"], least)


def with_places(sitting: Sitting) -> MySitting:
    """The sitting with its questions, drafts and attempts."""
    drafts = sittings.drafts_of(store(), sitting.id)
    outcomes = sitting.result["outcomes"] if sitting.result else {}
    marked = come_back_to.of_sitting(store(), sitting.id)
    rows = zip(questions.of_drill(store(), sitting.id), sitting.body["items"], strict=True)
    return MySitting(
        sitting,
        tuple(
            Place(
                number, kept, row["lesson"], row["must_pass"], drafts.get(kept.id),
                attempts.get(store(), kept.id) if outcomes else None, outcomes.get(kept.id), kept.id in marked,
            )
            for number, (kept, row) in enumerate(rows, start=1)
        ),
    )  # fmt: skip
