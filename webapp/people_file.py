"""A file of people, as a spreadsheet saves it: read line by line, each fault with its line. Pure; nothing is kept."""

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

MOST_LINES = 500
LONGEST_NAME = 60
LONGEST_JOB = 40
NEEDED = ("name", "job", "units", "decimal mark")
OTHERS = ("sign in as", "exam date", "paper")
JOBS = (
    "roustabout", "floorhand", "motorhand", "derrickhand", "assistant driller", "driller", "toolpusher", "mechanic",
    "electrician", "trainee",
)  # fmt: skip
"""Offered where a job is asked for; any other may be written."""
UNITS = {"us": "us", "metric": "metric"}
MARKS = {"point": False, ".": False, "comma": True, ",": True}


@dataclass(frozen=True)
class Line:
    """One person of the file. `sign_in` is '' where the file leaves it to us; `exam_day` goes with `paper`."""

    number: int
    name: str
    sign_in: str
    job: str
    system: str
    comma: bool
    exam_day: date | None = None
    paper: str | None = None


@dataclass(frozen=True)
class Fault:
    """What is wrong in which line of the file, as a sentence that says how to mend it."""

    line: int
    sentence: str


def decoded(data: bytes) -> str:
    """The text of a file. Raises ValueError where it is not UTF-8; a byte order mark is taken off."""
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise ValueError(
            "This file is not UTF-8. In the spreadsheet, save it as 'CSV UTF-8' and send it again."
        ) from None


def read(text: str, today: date) -> tuple[list[Line], list[Fault]]:
    """The people in a file, and its faults. Columns are split by comma, semicolon or tab, as the first line has it."""
    rows, faults = _rows(text.removeprefix("\ufeff"))
    if not rows:
        return [], faults or [Fault(1, "The file is empty. Its first line names the columns.")]
    (_, head), *body = rows
    columns = [" ".join(each.casefold().split()) for each in head]
    faults += _faults_of_head(columns)
    if faults:
        return [], faults
    if not body:
        return [], [Fault(2, "There is nobody below the names of the columns.")]
    if len(body) > MOST_LINES:
        return [], [
            Fault(body[MOST_LINES][0], f"This is more than {MOST_LINES} people. Send the rest as another file.")
        ]
    lines = []
    for number, cells in body:
        if len(cells) > len(columns):
            faults.append(
                Fault(
                    number,
                    f"There are {len(cells)} cells, and {len(columns)} columns. Put text with a comma in quotes.",
                )
            )
            continue
        said = dict(zip(columns, [*cells, *[""] * len(columns)], strict=False))
        own = list(_faults_of(said, today))
        faults += [Fault(number, each) for each in own]
        if not own:
            lines.append(_line(number, said))
    return lines, faults


def _rows(text: str) -> tuple[list[tuple[int, list[str]]], list[Fault]]:
    """Each row that is not empty with the number of the line it begins in."""
    first = text.split("\n", 1)[0]
    mark = max(",;\t", key=first.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=mark, strict=True)
    rows, begins = [], 1
    try:
        for cells in reader:
            tidy = [" ".join(cell.split()) for cell in cells]
            if any(tidy):
                rows.append((begins, tidy))
            begins = reader.line_num + 1
    except csv.Error:
        return [], [
            Fault(begins, "A quotation mark is opened and not closed, or stands within a cell. Mend the quotes.")
        ]
    return rows, []


def _faults_of_head(columns: list[str]) -> list[Fault]:
    known = ", ".join((*NEEDED, *OTHERS))
    faults = [
        Fault(1, f"There is no column '{each}'. The columns are: {known}.") for each in NEEDED if each not in columns
    ]
    faults += [
        Fault(1, f"The column '{each}' is not known. The columns are: {known}.")
        for each in columns
        if each and each not in (*NEEDED, *OTHERS)
    ]
    twice = sorted({each for each in columns if columns.count(each) > 1})
    return faults + [Fault(1, f"The column '{each}' stands twice. Take one of them out.") for each in twice]


def _faults_of(said: dict[str, str], today: date) -> Iterator[str]:
    yield from _faults_of_words(said)
    if said["units"].casefold() not in UNITS:
        yield _not_so("units", said["units"], "us or metric")
    if said["decimal mark"].casefold() not in MARKS:
        yield _not_so("decimal mark", said["decimal mark"], "point or comma")
    day, paper = said.get("exam date", ""), said.get("paper", "").casefold()
    if day and day_in(day) is None:
        yield f"Under ‘exam date’ stands ‘{day}’. Write it as year-month-day, such as 2026-05-14."
    elif day and day_in(day) < today:
        yield f"The exam date {day} is past."
    if paper not in ("", "a", "b"):
        yield _not_so("paper", paper, "a or b")
    elif bool(day) != bool(paper):
        yield "An exam has a date and a paper. Write both, or neither."


def _not_so(column: str, text: str, wanted: str) -> str:
    """What to write in a cell that is empty, or has something else."""
    if not text:
        return f"There is nothing under ‘{column}’. Write {wanted}."
    return f"Under ‘{column}’ stands ‘{text}’. Write {wanted}."


def _faults_of_words(said: dict[str, str]) -> Iterator[str]:
    for column, longest in (("name", LONGEST_NAME), ("job", LONGEST_JOB), ("sign in as", LONGEST_NAME)):
        text = said.get(column, "")
        if not text and column != "sign in as":
            yield f"There is no {column}. Write it, or take the line out."
        elif len(text) > longest or not text.isprintable():
            yield f"What stands under '{column}' is too long, or can't be shown. Write at most {longest} letters."


def _line(number: int, said: dict[str, str]) -> Line:
    return Line(
        number,
        said["name"],
        said.get("sign in as", ""),
        known_job(said["job"]),
        UNITS[said["units"].casefold()],
        MARKS[said["decimal mark"].casefold()],
        day_in(said.get("exam date", "")),
        said.get("paper", "").casefold() or None,
    )


def day_in(text: str) -> date | None:
    """The day that a text names as 2026-05-14, or None."""
    try:
        return date.fromisoformat(text.strip()) if len(text.strip()) == len("2026-05-14") else None
    except ValueError:
        return None


def known_job(job: str) -> str:
    """A job as the others write it: 'FLOORHAND' is 'floorhand'; one that is not on the list stays as it is."""
    return job.casefold() if job.casefold() in JOBS else job
