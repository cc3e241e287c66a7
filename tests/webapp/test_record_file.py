"""The record taken along: a JSON file that explains itself, and a table that no spreadsheet takes for formulas."""

import csv
import io
import json
from datetime import date

import pytest

from tests.webapp.conftest import PASSWORD
from tests.webapp.crews import START, a_crew, a_member, an_observer
from tests.webapp.records.samples import attempt, record_all
from tests.webapp.taking_tests import a_test
from webapp.my_file import COLUMNS, WHAT_IT_IS
from webapp.records import decisions, exams, people, rotations, sign_offs
from webapp.records.ids import new_id


@pytest.fixture
def ines(hands, house):
    browser = hands("Ines Okoro")
    browser.id = people.by_name(house, "Ines Okoro").id
    return browser


def the_file(browser) -> dict:
    response = browser.get("/record/file")
    assert response.headers["Content-Disposition"] == 'attachment; filename="pin-and-box-record-2026-03-02.json"'
    return json.loads(response.get_data(as_text=True))


def the_table(browser) -> list[dict[str, str]]:
    response = browser.get("/record/answers.csv")
    assert response.content_type == "text/csv; charset=utf-8"
    return list(csv.DictReader(io.StringIO(response.get_data().decode("utf-8-sig"), newline="")))


def test_a_new_hands_file_is_whole_and_empty(ines):
    found = the_file(ines)
    assert found["version"] == 1 and found["person"]["name"] == "Ines Okoro"
    assert found["settings"]["system"] == "us" and found["settings"]["minutes"] == 15
    assert (found["attempts"], found["sat"], found["sign_offs"], found["rotation"], found["exam"]) == (
        [],
        [],
        [],
        None,
        None,
    )


def test_every_field_is_explained_in_the_file(ines):
    found = the_file(ines)
    assert set(found) - {"what_it_is", "made_at"} == set(found["what_it_is"]) - {"file"}
    assert found["what_it_is"] == WHAT_IT_IS


def test_all_that_was_done_is_in_it(app, ines, house, clock):
    person = people.by_id(house, ines.id)
    crew = a_crew(house)
    a_member(house, crew)
    observer = an_observer(house, crew)
    record_all(house, [attempt(house, ines.id, "units.rating-in-kn", day, seconds=12.5) for day in (1, 0)])
    a_test(house, person, "units", clock(), percent=93)
    ines.send("/lessons/safety/dropped-objects/read", part="why-things-fall")
    rotations.set_own(house, ines.id, 14, 7, date(2026, 3, 4), 8)
    rotations.set_day(house, ines.id, date(2026, 3, 9), 45)
    exams.set_day(house, ines.id, "b", date(2026, 5, 1), ines.id, clock())
    sign_offs.sign(
        house, new_id(clock()), hand=person, task="S-2.4", title="t", crew=crew.id, rig=crew.rig.id,
        observer=observer, result="alone", observed_on=START.date(), note="=1+1", now=clock(),
    )  # fmt: skip
    found = the_file(ines)
    assert [each["study_day"] for each in found["attempts"]] == ["2026-03-02", "2026-03-03"]
    assert found["attempts"][0]["seconds"] == 12.5 and found["attempts"][0]["counts_as"] == "right"
    assert found["sat"] == [
        {
            "kind": "module", "module": "units", "begun_at": "2026-03-02T09:00:00.000000Z",
            "handed_in_at": "2026-03-02T09:00:00.000000Z", "pass_mark": 80, "percent": 93, "passed": True,
        }
    ]  # fmt: skip
    assert [(each["lesson"], each["part"]) for each in found["read"]] == [("safety/dropped-objects", "why-things-fall")]
    assert found["rotation"] == {"days_on": 14, "days_off": 7, "first_day": "2026-03-04", "nights_from": 8}
    assert found["single_days"] == {"2026-03-09": 45.0} and found["exam"] == {"day": "2026-05-01", "paper": "b"}
    assert found["crews"] == [
        {"crew": "Quillwater 7, Crew A", "job": "floorhand", "from": "2026-03-02T09:00:00.000000Z", "until": None}
    ]
    signed = found["sign_offs"][0]
    assert (signed["task"], signed["signed_by"], signed["result"], signed["withdrawn"]) == (
        "S-2.4", "Teodor Quist", "alone", None,
    )  # fmt: skip


def test_what_no_longer_counts_is_there_and_said_not_to(ines, house, clock):
    record_all(house, [attempt(house, ines.id, "units.rating-in-kn"), attempt(house, ines.id, "units.torque-in-kn-m")])
    decisions.append(house, "item-withdrawn", "units.rating-in-kn", "lead", "the key was wrong", clock())
    found = {each["item"]: (each["outcome"], each["counts_as"]) for each in the_file(ines)["attempts"]}
    assert found == {"units.rating-in-kn": ("right", None), "units.torque-in-kn-m": ("right", "right")}


def test_no_secret_and_nobody_else_is_in_it(ines, hands, house):
    hands("Rurik Abara")
    other = people.by_name(house, "Rurik Abara")
    record_all(house, [attempt(house, other.id, typed="rurik wrote this"), attempt(house, ines.id)])
    secrets = [*people.secrets_of(house, ines.id), PASSWORD]
    for address in ("/record/file", "/record/answers.csv"):
        text = ines.get(address).get_data(as_text=True)
        assert not any(secret in text for secret in secrets)
        assert "$argon2" not in text and "rurik" not in text.lower()


FORMULAS = ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", '=HYPERLINK("http://x","y")', "  =1", "-12,5 kN"]


@pytest.mark.parametrize("typed", FORMULAS)
def test_no_cell_is_a_formula(ines, house, typed):
    """The first characters that spreadsheets act on, as OWASP's page on CSV injection lists them (from memory)."""
    record_all(house, [attempt(house, ines.id, typed=typed, read_as=typed)])
    row = the_table(ines)[0]
    assert row["typed"] == row["read_as"] == "'" + typed
    assert not [cell for cell in row.values() if cell.lstrip(" ")[:1] in "=+-@\t\r\n" and cell]


def test_an_ordinary_answer_stands_as_it_was_typed(ines, house, clock):
    record_all(house, [attempt(house, ines.id, "units.rating-in-kn", typed='12,5 "kN"; or so\nnear it')])
    rows = the_table(ines)
    assert tuple(rows[0]) == COLUMNS
    assert rows[0]["typed"] == '12,5 "kN"; or so\nnear it'
    assert rows[0]["title"] == "Plate in short tons, load in kN"
    assert rows[0]["study_day"] == str(clock().date())


def test_an_item_that_left_the_course_is_taken_along_by_its_name(ines, house):
    record_all(house, [attempt(house, ines.id, "units.gone", days=-1)])
    assert [(row["item"], row["title"]) for row in the_table(ines)] == [("units.gone", "")]
    assert the_file(ines)["attempts"][0]["item"] == "units.gone"
    assert ines.get("/record/whole").status_code == 200


def test_more_answers_than_a_page_has_are_all_in_it(ines, house):
    record_all(house, [attempt(house, ines.id, "units.rating-in-kn", days=number / 100) for number in range(120)])
    moments = [each["answered_at"] for each in the_file(ines)["attempts"]]
    assert len(moments) == 120 and moments == sorted(moments)
    assert len(the_table(ines)) == 120
