"""A lesson's file: TOML front matter between +++ lines, then Markdown in parts that each start with '## '.

Nothing is turned into HTML here; reading_room.py does that when a page is asked for.
"""

import re
from dataclasses import dataclass
from pathlib import Path

from course.errors import CourseError
from course.fields import Fields

FENCE = "+++"
HEADING = "## "
FIELDS = {"title", "number", "minutes", "terms", "cautions", "figure", "sources"}


@dataclass(frozen=True)
class PartText:
    """One part as written: its Markdown without the heading, and the line of the file where that starts."""

    slug: str
    title: str
    line: int
    markdown: str


@dataclass(frozen=True)
class LessonFile:
    """What one file says, before the outline puts it in its place."""

    path: Path
    title: str
    number: str
    minutes: int
    terms: tuple[str, ...]
    cautions: tuple[str, ...]
    figure: str
    sources: tuple[str, ...]
    parts: tuple[PartText, ...]
    front: Fields


def read_lesson_file(path: Path) -> LessonFile:
    """Read one lesson's file. Raises CourseError with its line."""
    lines = path.read_text(encoding="utf-8").splitlines()
    if not lines or lines[0].strip() != FENCE:
        raise CourseError(path, 1, f"a lesson starts with a line {FENCE}, then its title and the rest in TOML.")
    closing = next((at for at, line in enumerate(lines[1:], start=1) if line.strip() == FENCE), None)
    if closing is None:
        raise CourseError(path, 1, f"the front matter is not closed. Put a line {FENCE} under it.")
    front = Fields(path, "\n".join(lines[1:closing]), before=1)
    front.only(FIELDS)
    sources = front.texts("sources")
    if not sources:
        raise front.fault("sources", "the sources are empty. Name them, or write 'common practice, no source'.")
    return LessonFile(
        path=path,
        title=front.text("title"),
        number=front.text("number"),
        minutes=front.minutes("minutes"),
        terms=front.texts("terms"),
        cautions=front.texts("cautions"),
        figure=front.text("figure"),
        sources=sources,
        parts=_parts(path, lines[closing + 1 :], first=closing + 2),
        front=front,
    )


def _parts(path: Path, lines: list[str], first: int) -> tuple[PartText, ...]:
    """Cut at the '## ' lines. `first` is the number of the first of these lines in the file."""
    headings = [at for at, line in enumerate(lines) if line.startswith(HEADING)]
    before = [at for at, line in enumerate(lines[: headings[0] if headings else None]) if line.strip()]
    if before or not headings:
        at = first + (before[0] if before else 0)
        raise CourseError(path, at, "text stands before the first part. Each part starts with a line '## Its title'.")
    parts: dict[str, PartText] = {}
    for at, end in zip(headings, [*headings[1:], len(lines)], strict=True):
        part = _part(path, lines[at:end], first + at)
        if part.slug in parts:
            raise CourseError(path, first + at, f"two parts are called {part.title!r}. Name one of them otherwise.")
        parts[part.slug] = part
    return tuple(parts.values())


def _part(path: Path, lines: list[str], line: int) -> PartText:
    title = lines[0].removeprefix(HEADING).strip()
    slug = re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-")
    text = "\n".join(lines[1:]).rstrip()
    if not slug or not text.strip():
        raise CourseError(path, line, "this part has no title or no text. Give it both.")
    return PartText(slug, title, line + 1, text)
