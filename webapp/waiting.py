"""What waits in crews for their coordinator: signatures to decide on, people who need something."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from webapp import hands_on
from webapp.allowed import coordinating
from webapp.at_hand import store
from webapp.records import crews, people
from webapp.records.crews import Crew
from webapp.standings import rows_of


@dataclass(frozen=True, slots=True)
class Waiting:
    """What waits in one crew. All but `decisions` count people; `people` are all of the crew."""

    crew: Crew
    people: int
    decisions: int
    late: int
    misses: int
    wont: int
    not_signed_in: int

    @property
    def anything(self) -> bool:
        """Whether anything waits."""
        return bool(self.decisions or self.late or self.misses or self.wont or self.not_signed_in)


def in_my_crews() -> list[Waiting]:
    """What waits in each crew that who is asking coordinates."""
    return waiting_in(coordinating())


def waiting_in(mine: Sequence[Crew]) -> list[Waiting]:
    """What waits in each of these crews, in their order; read for all of them at once."""
    if not mine:
        return []
    members = crews.members(store(), [each.id for each in mine])
    found = {each.id: Counter() for each in mine}
    crew_of = {each.person.id: each.crew.id for each in members}
    for row in rows_of(members):
        found[row.membership.crew.id].update(
            people=1, late=bool(row.late), misses=row.misses_exam, wont=bool(row.wont_make)
        )
    for group in hands_on.waiting_groups(hands_on.of_members(members)):
        found[crew_of[group[0].person]]["decisions"] += 1
    for person in people.without_password(store(), list(crew_of)):
        found[crew_of[person]]["not_signed_in"] += 1
    kinds = ("people", "decisions", "late", "misses", "wont", "not_signed_in")
    return [Waiting(crew, **{kind: int(found[crew.id][kind]) for kind in kinds}) for crew in mine]
