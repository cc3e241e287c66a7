"""Who may see and do what in a crew. Each function gives what was asked for, or ends the request.

What somebody may not see is not there for them: 404, and not 403, so that nobody learns who is in which crew.
"""

from collections.abc import Iterable

from flask import abort, g

from webapp.at_hand import me, store, today
from webapp.records import crews, rights
from webapp.records.crews import Crew, Membership
from webapp.records.rights import Right


def coordinating() -> list[Crew]:
    """The open crews that who is asking coordinates; asked once a request."""
    if "coordinating" not in g:
        g.coordinating = crews.crews_with_right(store(), me().id, "coordinator", today()) if me() else []
    return g.coordinating


def observing() -> list[Crew]:
    """The open crews in which who is asking may sign tasks today; asked once a request."""
    if "observing" not in g:
        g.observing = crews.crews_with_right(store(), me().id, "observer", today()) if me() else []
    return g.observing


def way_to_crews() -> tuple[str, str] | None:
    """Word and address of the page from which who is asking works with crews; None for who doesn't."""
    if me() is None:
        return None
    if coordinating() or rights.is_coordinator(store(), me().id):
        return "Crews", "/crews"
    return ("Sign-offs", "/sign-offs") if observing() else None


def house_coordinator() -> None:
    """Goes on only for a coordinator of this house."""
    if not rights.is_coordinator(store(), me().id):
        abort(404)


def my_crew(crew_id: str) -> Crew:
    """The crew with that id, if who is asking coordinates it."""
    return next((each for each in coordinating() if each.id == crew_id), None) or abort(404)


def my_member(person_id: str) -> Membership:
    """The membership that somebody has now, if who is asking coordinates that crew."""
    membership = crews.membership_now(store(), person_id)
    if membership is None or membership.crew.id not in {each.id for each in coordinating()}:
        abort(404)
    return membership


def my_crew_on(rig_id: str, rather: str = "") -> Crew:
    """A crew on that rig that who is asking coordinates; the one with the id `rather`, if it is one of them."""
    return _on_rig(coordinating(), rig_id, rather)


def crew_i_work_with_on(rig_id: str, rather: str = "") -> Crew:
    """A crew on that rig that who is asking coordinates, or in which they may sign tasks today; `rather` as above."""
    return _on_rig(crews_i_work_with(), rig_id, rather)


def _on_rig(of: Iterable[Crew], rig_id: str, rather: str) -> Crew:
    found = sorted((each for each in of if each.rig.id == rig_id), key=lambda each: each.id != rather)
    return next(iter(found), None) or abort(404)


def crews_i_work_with() -> list[Crew]:
    """The open crews that who is asking coordinates, or in which they may sign tasks today; each once."""
    return list({each.id: each for each in (*coordinating(), *observing())}.values())


def hand_i_work_with(person_id: str) -> Membership:
    """Somebody else's membership, in a crew that who is asking coordinates or in which they may sign tasks today."""
    membership = crews.membership_now(store(), person_id)
    mine = {each.id for each in crews_i_work_with()}
    if membership is None or membership.crew.id not in mine or person_id == me().id:
        abort(404)
    return membership


def not_for_myself(person_id: str) -> None:
    """Goes on for everybody but oneself, and says why. Whoever asks learns nothing of another."""
    if me() and person_id == me().id:
        abort(404, "Nobody signs for themselves. Another observer of your crew watches you and signs.")


def my_right_to_sign(person_id: str, task: str) -> tuple[Membership, Right]:
    """Somebody's membership, and the right by which who is asking may sign that task of theirs today."""
    not_for_myself(person_id)
    membership = crews.membership_now(store(), person_id)
    if membership is None:
        abort(404)
    for right in rights.of_person(store(), me().id, "observer"):
        if right.crew == membership.crew.id and task in right.tasks and right.holds_on(today()):
            return membership, right
    abort(404)
