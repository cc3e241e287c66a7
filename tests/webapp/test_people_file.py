"""A file of people: what spreadsheets save is read, and each fault is told with its line."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.people_file import MOST_LINES, Line, decoded, read

TODAY = date(2026, 3, 2)
HEAD = "name,sign in as,job,units,decimal mark,exam date,paper\n"
MAREK = Line(2, "Marek Osei-Lund", "", "floorhand", "us", False, date(2026, 5, 14), "a")


def faults(text: str) -> list[tuple[int, str]]:
    """Line and sentence of each fault; nobody is read where the head is at fault."""
    return [(each.line, each.sentence) for each in read(text, TODAY)[1]]


@pytest.mark.parametrize(
    "text",
    [
        pytest.param(HEAD + "Marek Osei-Lund,,floorhand,us,point,2026-05-14,a\n", id="commas"),
        pytest.param(HEAD.replace(",", ";") + "Marek Osei-Lund;;floorhand;us;.;2026-05-14;A", id="semicolons"),
        pytest.param(HEAD.replace(",", "\t") + "Marek Osei-Lund\t\tfloorhand\tUS\tPoint\t2026-05-14\ta\n", id="tabs"),
        pytest.param("\ufeff" + HEAD + "Marek Osei-Lund,,floorhand,us,point,2026-05-14,a\n", id="byte order mark"),
        pytest.param((HEAD + "Marek Osei-Lund,,floorhand,us,point,2026-05-14,a\n").replace("\n", "\r\n"), id="CRLF"),
        pytest.param(HEAD + '"Marek  Osei-Lund","","floorhand","us","point","2026-05-14","a"\n', id="all quoted"),
        pytest.param(
            "Paper,JOB,name,Units,Decimal  mark,Exam date\na,floorhand, Marek Osei-Lund ,us,point,2026-05-14",
            id="another order",
        ),
        pytest.param(HEAD + "Marek Osei-Lund,,floorhand,us,point,2026-05-14,a\n,,,,,,\n\n", id="empty lines at end"),
    ],
)
def test_what_a_spreadsheet_saves_is_read(text):
    assert read(text, TODAY) == ([MAREK], [])


def test_a_comma_within_quotes_is_no_column():
    """A hand who writes 12,5 may put the comma itself into the cell."""
    lines, amiss = read(HEAD + '"Osei, Marek",mo7,"driller, relief",metric,",",,\n', TODAY)
    assert (lines, amiss) == ([Line(2, "Osei, Marek", "mo7", "driller, relief", "metric", True)], [])


def test_columns_that_are_not_needed_may_be_left_out():
    lines, amiss = read("name,job,units,decimal mark\nJoao Wexley,floorhand,us,point\n", TODAY)
    assert (lines, amiss) == ([Line(2, "Joao Wexley", "", "floorhand", "us", False)], [])


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        pytest.param(",,floorhand,us,point,,", "There is no name", id="no name"),
        pytest.param("Joao,,,us,point,,", "There is no job", id="no job"),
        pytest.param(
            "Joao,,floorhand,imperial,point,,", "Under ‘units’ stands ‘imperial’. Write us or metric.", id="units"
        ),
        pytest.param("Joao,,floorhand,,point,,", "There is nothing under ‘units’. Write us or metric.", id="no units"),
        pytest.param("Joao,,floorhand,us,dot,,", "Under ‘decimal mark’ stands ‘dot’. Write point or comma.", id="mark"),
        pytest.param("Joao,,floorhand,us,,,", "There is nothing under ‘decimal mark’. Write point", id="no mark"),
        pytest.param("Joao,,floorhand,us,point,14/05/2026,a", "Write it as year-month-day", id="day the other way"),
        pytest.param("Joao,,floorhand,us,point,2026-02-30,a", "Write it as year-month-day", id="no such day"),
        pytest.param("Joao,,floorhand,us,point,20260514,a", "Write it as year-month-day", id="day without dashes"),
        pytest.param("Joao,,floorhand,us,point,2026-03-01,a", "The exam date 2026-03-01 is past.", id="past"),
        pytest.param("Joao,,floorhand,us,point,2026-05-14,c", "Under ‘paper’ stands ‘c’. Write a or b.", id="paper"),
        pytest.param("Joao,,floorhand,us,point,2026-05-14,", "Write both, or neither.", id="day without paper"),
        pytest.param("Joao,,floorhand,us,point,,b", "Write both, or neither.", id="paper without day"),
        pytest.param("x" * 61 + ",,floorhand,us,point,,", "at most 60 letters", id="long name"),
        pytest.param("Joao,,floorhand,us,point,,,more", "There are 8 cells, and 7 columns", id="cell too many"),
        pytest.param("Joao\x07,,floorhand,us,point,,", "can't be shown", id="control sign"),
    ],
)
def test_a_fault_is_told_with_its_line(line, sentence):
    """Lines before and after are still read, so that all faults are told at once."""
    good = "Wen Castellane,,motorhand,us,point,,\n"
    lines, amiss = read(HEAD + good + line + "\n" + good, TODAY)
    assert [each.number for each in lines] == [2, 4]
    [fault] = amiss
    assert fault.line == 3 and sentence in fault.sentence


def test_lines_are_counted_as_an_editor_counts_them():
    """A cell in quotes may hold a line's end, and empty lines count."""
    text = HEAD + '"Wen\nCastellane",,motorhand,us,point,,\n\nJoao,,,us,point,,\n'
    lines, amiss = read(text, TODAY)
    assert lines[0].name == "Wen Castellane"
    assert [each.line for each in amiss] == [5]


@pytest.mark.parametrize(
    ("text", "line", "sentence"),
    [
        pytest.param("", 1, "The file is empty", id="empty"),
        pytest.param(" \n\n", 1, "The file is empty", id="blank"),
        pytest.param(HEAD, 2, "There is nobody below", id="head alone"),
        pytest.param("Marek,floorhand,us,point\n", 1, "There is no column 'name'", id="no head"),
        pytest.param(HEAD.replace("paper", "board"), 1, "The column 'board' is not known", id="unknown column"),
        pytest.param(HEAD.replace("paper", "Name"), 1, "The column 'name' stands twice", id="column twice"),
        pytest.param(HEAD + 'Joao,,"floorhand,us,point,,\n', 2, "Mend the quotes", id="open quote"),
    ],
)
def test_what_is_no_file_of_people_is_told(text, line, sentence):
    found = faults(text)
    assert any(at == line and sentence in words for at, words in found), found
    assert read(text, TODAY)[0] == []


def test_five_hundred_are_taken_and_one_more_is_not():
    body = [f"Hand {number},,floorhand,us,point,,\n" for number in range(MOST_LINES + 1)]
    assert len(read(HEAD + "".join(body[:-1]), TODAY)[0]) == MOST_LINES
    assert faults(HEAD + "".join(body)) == [(502, "This is more than 500 people. Send the rest as another file.")]


def test_bytes_that_are_not_utf_8_are_told():
    assert decoded("\ufeffJoão".encode()) == "João"
    with pytest.raises(ValueError, match="save it as 'CSV UTF-8'"):
        decoded("João".encode("cp1252"))


@given(st.text(max_size=300))
def test_any_text_is_read_or_told(text):
    """Never an exception; and who is read has all that a person needs."""
    lines, amiss = read(HEAD + text, TODAY)
    assert lines or amiss
    assert all(each.name and each.job and each.system in ("us", "metric") for each in lines)
