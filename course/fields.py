"""Fields of a TOML text, each checked as it is taken, so that a fault is told with its file and line."""

import re
import tomllib
from pathlib import Path

from course.errors import CourseError

AT_LINE = re.compile(r"\(at line (\d+), column \d+\)")


class Fields:
    """A table of `path`. `text` is the TOML; `before` is how many lines of the file stand above it."""

    def __init__(self, path: Path, text: str, before: int = 0) -> None:
        self.path = path
        self._lines = text.splitlines()
        self._before = before
        try:
            self.values = tomllib.loads(text)
        except tomllib.TOMLDecodeError as error:
            found = AT_LINE.search(str(error))
            line = int(found[1]) if found else len(self._lines)
            reason = AT_LINE.sub("", str(error)).strip()
            raise CourseError(path, before + line, f"this can't be read as TOML: {reason}.") from None

    def only(self, known: set[str]) -> None:
        """Raises CourseError for the first field that isn't known: a misspelt one would go unread."""
        for name in self.values:
            if name not in known:
                listed = ", ".join(sorted(known))
                raise self.fault(name, f"{name!r} is not a field of this file. Its fields are {listed}.")

    def text(self, name: str) -> str:
        """A text that isn't empty."""
        value = self._value(name)
        if not isinstance(value, str) or not value.strip():
            raise self.fault(name, f"{name!r} must be a text in quotes, and not empty.")
        return value

    def minutes(self, name: str) -> int:
        """A whole number from 1 to 60: a lesson is one sitting."""
        return self.whole(name, 1, 60, "minutes")

    def whole(self, name: str, least: int, most: int, of: str) -> int:
        """A whole number of something, such as "minutes", between two limits that are both allowed."""
        value = self._value(name)
        if type(value) is not int or not least <= value <= most:
            raise self.fault(name, f"{name!r} must be a whole number of {of} from {least} to {most}.")
        return value

    def texts(self, name: str) -> tuple[str, ...]:
        """A list of texts, perhaps empty, none of them twice."""
        value = self._value(name)
        if not isinstance(value, list) or any(not isinstance(each, str) or not each for each in value):
            raise self.fault(name, f'{name!r} must be a list of texts, like ["one", "two"].')
        if len(set(value)) < len(value):
            raise self.fault(name, f"{name!r} names something twice.")
        return tuple(value)

    def fault(self, name: str, problem: str) -> CourseError:
        """The error for that field, at the line where it stands (the first line if it is missing)."""
        return CourseError(self.path, self.line_of(name), problem)

    def line_of(self, name: str) -> int:
        """Line of the file where the field or table of that name starts; the first line if it is missing."""
        start = re.compile(rf"\s*\[?\"?{re.escape(name)}\"?\s*[\]=]")
        for at, line in enumerate(self._lines, start=self._before + 1):
            if start.match(line):
                return at
        return 1

    def _value(self, name: str):
        if name not in self.values:
            raise CourseError(self.path, 1, f"the field {name!r} is missing. Add it.")
        return self.values[name]
