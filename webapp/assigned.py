"""What is asked of whom: the assignments of crew, rig and person put together, for any number of members at once."""

from collections.abc import Sequence

from webapp.at_hand import me, store, zone
from webapp.records import assignments, crews, rotations
from webapp.records.crews import Crew, Membership
from webapp.study.days import study_day
from webapp.study.rotation import Rotation
from webapp.study.standing import Asked, due_day, due_day_of_joiner


def rotation_of(crew: Crew) -> Rotation:
    """A crew's rotation, of which only the days count."""
    return Rotation(crew.days_on, crew.days_off, crew.first_day, 0, 0, crew.nights_from)


class Assigned:
    """All that is assigned now to these members, their crews and their rigs, and what rotation each goes by.

    `as_if` are assignments that are not written down; they are taken as the newest.
    """

    def __init__(self, members: Sequence[Membership], as_if: Sequence[assignments.Assignment] = ()) -> None:
        persons = {each.person.id for each in members}
        crew_ids, rig_ids = {each.crew.id for each in members}, {each.crew.rig.id for each in members}
        self.held = rotations.of_members(store(), members)
        self._of: dict[tuple[str, str], list[assignments.Assignment]] = {}
        for each in (*assignments.running(store(), persons, crew_ids, rig_ids), *as_if):
            self._of.setdefault((each.person or each.crew or each.rig, each.module), []).append(each)

    def to(self, member: Membership, module: str) -> Asked | None:
        """What is asked of a member in a module, its day by the rotation that they go by.

        What is assigned to the person goes before what is assigned to the crew, and that before the rig's; of two for
        the same, the newer one stands. What the crew or the rig was to do before the member joined is due by the end
        of their first hitch there; what was asked of themselves keeps its day.
        """
        rig = member.crew.rig
        for aim in (member.person.id, member.crew.id, rig.id):
            fit = [each for each in self._of.get((aim, module), ()) if each.rig_type in (None, rig.rig_type)]
            if fit:
                newest = fit[-1]
                rotation = self.held[member.person.id].rotation
                told = due = due_day(newest.due_by, newest.due_day, rotation)
                if newest.person is None:
                    due = due_day_of_joiner(told, study_day(member.joined_at, zone()), rotation)
                by_hitch = newest.due_by == "hitch" or due != told
                return Asked(newest.id, due, newest.pass_mark, newest.must_pass, by_hitch)
        return None


def asked_of_me(module: str) -> Asked | None:
    """What is asked of who is asking in a module; None where nothing is, or they are in no crew."""
    member = crews.membership_now(store(), me().id)
    return member and Assigned([member]).to(member, module)
