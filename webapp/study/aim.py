"""What a hand studies for, and when: a value that the plan, the readiness and the forecast start from."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from webapp.study.first_sight import PRIOR
from webapp.study.rotation import Rotation
from webapp.study.worth import Section


@dataclass(frozen=True, slots=True)
class Aim:
    """The rotation, the exam's day if it has one, what the exam weighs, and first sights.

    `worth` is by section as `worth.worth_of_sections` gives it; empty, all weigh the same. `first` is the chance by
    kind that an unseen item is answered right, as `first_sight.first_chances` gives it.
    """

    rotation: Rotation
    exam: date | None = None
    worth: Mapping[Section, float] = field(default_factory=dict)
    first: Mapping[str, float] = field(default_factory=lambda: PRIOR)
