"""The one error of this wing: something in a course file that its author has to mend."""

from pathlib import Path


class CourseError(Exception):
    """A fault in a course file. The message names the file and the line, says what is wrong and what to do."""

    def __init__(self, path: Path, line: int, problem: str) -> None:
        super().__init__(f"{path.parent.name}/{path.name}, line {line}: {problem}")
        self.path = path
        self.line = line
        self.problem = problem
