"""What passes a module, and when its lessons are refreshed, until the course's own files say it.

The contractor's rules govern (common practice, no source): 80 % right, 90 % where a slip hurts somebody; slips, tongs,
readiness on trips and the collision devices are refreshed after half a year, everything else after a year.
"""

from course import Module

PASS_MARK = 80
PASS_MARKS = {"tripping": 90, "safety": 90}
MONTHS = 12
MONTHS_OF = {
    "kelly/slips": 6,
    "tripping/make-up-torque": 6,
    "tripping/well-control-readiness": 6,
    "safety/collision-protection": 6,
}


def pass_mark(module: Module) -> int:
    """In percent: how much of the module's test must be right."""
    return PASS_MARKS.get(module.id, PASS_MARK)


def months_of(lesson: str) -> int:
    """After how many months a lesson that was passed by test is refreshed."""
    return MONTHS_OF.get(lesson, MONTHS)
