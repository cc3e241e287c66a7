"""What grading says of an answer."""

from dataclasses import dataclass

COUNTED = ("right", "close", "wrong")
NOT_COUNTED = ("unreadable", "other-dimension", "ask-back")


@dataclass(frozen=True)
class Verdict:
    """`outcome` is one of COUNTED or NOT_COUNTED; `mistake` names a known wrong way; `read_as` is what was read."""

    outcome: str
    message: str = ""
    mistake: str | None = None
    read_as: str = ""

    @property
    def counted(self) -> bool:
        """Whether this answer is an attempt. What is not counted leaves the question open."""
        return self.outcome in COUNTED
