"""What changes a crew: each change with its line in the log, in one transaction. Each needs a request."""

from collections.abc import Collection
from datetime import date, datetime

from webapp.at_hand import me, now, store
from webapp.records import crews, log, people, rights, slips
from webapp.records.crews import Crew, Membership, Rig
from webapp.records.people import Person
from webapp.records.rights import Right
from webapp.records.slips import Slip

RIG_TYPES = {"kelly": "kelly", "top-drive": "top drive"}
"""The types of rig, as they are said."""


class NotPossible(ValueError):
    """It can't be done as things stand. The message says why, and what to do first."""


def add_rig(name: str, rig_type: str) -> Rig:
    """Add a rig. Raises crews.NameInUse."""
    with store().writing():
        rig = crews.add_rig(store(), name, rig_type, me().id, now())
        _note("rig made", f"{rig.name} is a {RIG_TYPES[rig_type]} rig.")
    return rig


def add_crew(rig: Rig, name: str, rotation: dict[str, int | date | None]) -> Crew:
    """Add a crew; who makes it coordinates it. `rotation` is as crews.add_crew takes it. Raises crews.NameInUse."""
    with store().writing():
        crew = crews.add_crew(store(), rig, name, **rotation, by=me().id, now=now())
        rights.give(store(), me().id, crew.id, "coordinator", me().id, now())
        _note("crew made", f"{crew.full_name}: {said(crew)}.", crew)
    return crew


def set_rotation(crew: Crew, rotation: dict[str, int | date | None]) -> None:
    """Set a crew's rotation anew."""
    with store().writing():
        crews.change_rotation(store(), crew.id, **rotation)
        _note("rotation changed", f"It was {said(crew)}. It is {said(crews.crew(store(), crew.id))}.", crew)


def said(crew: Crew) -> str:
    """A rotation in words: '14 days on, 14 off, from 2 March 2026, nights from day 8'."""
    nights = f"nights from day {crew.nights_from}" if crew.nights_from else "days only"
    first = crew.first_day
    return f"{crew.days_on} days on, {crew.days_off} off, from {first.day} {first:%B %Y}, {nights}"


def close(crew: Crew) -> None:
    """Close a crew: its people leave it, its slips end."""
    with store().writing():
        for each in crews.members(store(), [crew.id]):
            crews.leave(store(), each.id, "The crew was closed.", now())
        slips.revoke_all(store(), crew.id, now())
        crews.close(store(), crew.id, now())
        _note("crew closed", f"{crew.full_name} is closed.", crew)


def name_coordinator(crew: Crew, person: Person, of_the_house: bool) -> None:
    """Let somebody coordinate a crew, and make rigs and crews if `of_the_house`. Raises NotPossible."""
    with store().writing():
        if person.id in {each.person.id for each in coordinators(crew)}:
            raise NotPossible(f"{person.known_as} coordinates this crew already.")
        rights.give(store(), person.id, crew.id, "coordinator", me().id, now())
        if of_the_house and not rights.is_coordinator(store(), person.id):
            rights.make_coordinator(store(), person.id, me().id, now())
        more = " They may make rigs and crews." if of_the_house else ""
        _note("coordinator named", f"{person.known_as} coordinates {crew.full_name}.{more}", crew, person)


def end_coordinator(crew: Crew, right_id: str) -> None:
    """End somebody's right to coordinate a crew. Raises NotPossible for the last one, and for one that is not there."""
    with store().writing():
        there = {each.id: each for each in coordinators(crew)}
        if right_id not in there:
            raise NotPossible("That person does not coordinate this crew any more.")
        if len(there) == 1:
            raise NotPossible("A crew needs a coordinator. Name another first.")
        rights.end(store(), right_id, now())
        person = there[right_id].person
        _note("coordinator ended", f"{person.known_as} no longer coordinates {crew.full_name}.", crew, person)


def coordinators(crew: Crew) -> list[Right]:
    """Who coordinates a crew now."""
    return [each for each in rights.in_crew(store(), crew.id, "coordinator") if each.ended_at is None]


def make_slip(crew: Crew, most_uses: int, until: datetime, last_day: date) -> Slip:
    """Make a slip by which hands join a crew."""
    with store().writing():
        slip = slips.make(store(), crew.id, me().id, now(), until, most_uses)
        _note("slip made", f"A slip for {most_uses} to join by, up to {last_day.day} {last_day:%B %Y}.", crew)
    return slip


def revoke(crew: Crew, slip: Slip) -> None:
    """End a slip before its day."""
    with store().writing():
        slips.revoke(store(), slip.id, now())
        _note("slip ended", f"A slip ends early; {slip.uses} of {slip.most_uses} have used it.", crew)


def take_in(crew: Crew, person: Person, slip: Slip, job: str, share: bool) -> None:
    """Put somebody who holds a slip into its crew; `share` lets its coordinators see what they did before.

    Raises NotPossible where the slip no longer works, or they are in a crew.
    """
    with store().writing():
        there = crews.membership_now(store(), person.id)
        if there:
            same = there.crew.id == crew.id
            raise NotPossible(
                "You are in this crew already." if same else f"You are in {there.crew.full_name}. Leave it first."
            )
        if not slips.use(store(), slip, person.id, now()):
            raise NotPossible("This slip does not work any more. Ask your coordinator for another.")
        crews.join(store(), person, crew.id, job, now(), person.created_at if share else now())
        seen = "shares what they did before" if share else "is seen from today on"
        log.note(store(), person.id, "joined", f"By a slip; {seen}.", now(), crew.id, person.id)


def first_sign_in(
    slip: Slip, person: Person, password_hash: str, code_hash: str, settings: dict[str, str | bool | int]
) -> None:
    """Give somebody who was put in a crew the password that they chose by their slip. Raises NotPossible."""
    with store().writing():
        # Who has a password since, by whoever runs the server, must not lose it to an old piece of paper.
        waits = people.without_password(store(), [person.id])
        if not waits or not slips.use(store(), slip, person.id, now()):
            raise NotPossible("This slip does not work any more. Ask your coordinator for another.")
        people.set_password(store(), person.id, password_hash)
        people.set_recovery(store(), person.id, code_hash)
        people.change_settings(store(), person.id, **settings)
        log.note(store(), person.id, "joined", "Signs in for the first time.", now(), slip.crew, person.id)


def slips_anew(crew: Crew, hands: Collection[Person], until: datetime) -> None:
    """New slips for the first sign-in of these; those they had end."""
    with store().writing():
        for each in hands:
            slips.revoke_all(store(), crew.id, now(), each.id)
            slips.make(store(), crew.id, me().id, now(), until, person=each.id)
            _note("slip made", f"A slip for the first sign-in of {each.known_as}.", crew, each)


def leave(membership: Membership, why: str) -> None:
    """End a membership: by a coordinator, or by the hand. What the hand did stays theirs."""
    with store().writing():
        crews.leave(store(), membership.id, why, now())
        slips.revoke_all(store(), membership.crew.id, now(), membership.person.id)
        told = f"{membership.person.known_as} leaves {membership.crew.full_name}: {why}"
        _note("left", told, membership.crew, membership.person)


def share_all(membership: Membership) -> None:
    """Let the crew's coordinators see all that the hand who is asking ever did."""
    with store().writing():
        crews.share_from(store(), membership.id, me().created_at)
        _note("shared", "Shares what they did before they joined.", membership.crew, me())


def _note(what: str, detail: str, crew: Crew | None = None, about: Person | None = None) -> None:
    log.note(store(), me().id, what, detail, now(), crew and crew.id, about and about.id)
