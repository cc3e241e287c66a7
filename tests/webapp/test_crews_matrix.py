"""The matrix of people and modules, as their coordinator meets it; and what it never shows."""

import re
from datetime import date, timedelta

import pytest

from tests.webapp.crews import START, a_crew, a_member, a_rig
from tests.webapp.page_browser import words_of
from tests.webapp.records.samples import attempt, record_all
from tests.webapp.taking_tests import a_test, knows, reads
from webapp.records import assignments, exams, excuses

ROSALIND = "Rosalind Achterberg"
DAY = timedelta(1)
NOT_ASKED = "– not assigned"
"""A cell of which there is nothing to say; the words are for who has it read out."""


def assigned(house, module, crew, due=date(2026, 3, 15), **more):
    """That module to that crew by that day."""
    terms = {"rig_type": None, "due_by": "date", "due_day": due, "pass_mark": 80, "must_pass": True} | more
    new = assignments.new(module, "crew", crew.id, made_by=crew_coordinator(house, crew), made_at=START, **terms)
    assignments.add(house, new)
    return new


def crew_coordinator(house, crew):
    (person,) = house.db.execute("select person from rights where crew = ? and kind = 'coordinator'", [crew.id])
    return person[0]


def row_of(page, name):
    """{module number: words of the cell} of one person, with 'exam' and 'name'."""
    rows = re.findall(r"<tr>(.*?)</tr>", page.text, re.DOTALL)
    (row,) = [each for each in rows if f">{name}</a>" in each]
    cells = [words_of(each) for each in re.findall(r"<t[hd].*?>(.*?)</t[hd]>", row, re.DOTALL)]
    return {"name": cells[0], "exam": cells[1]} | {number: cell for number, cell in enumerate(cells[2:], start=1)}


@pytest.fixture
def crew(house):
    return a_crew(house)


def test_an_empty_crew_says_so(hands, crew):
    page = hands(ROSALIND).get(f"/crews/{crew.id}")
    assert "Nobody is in this crew yet" in words_of(page.text)


def test_each_state_stands_in_its_cell_in_words(app, hands, house, crew, clock):
    """Assigned a hitch ago: one passed, one failed, one only read, one not touched, one excused."""
    person = a_member(house, crew).person
    for module in ("units", "kelly", "safety", "masts", "hoisting", "loads"):
        assigned(house, module, crew)
    clock.forward(days=3)
    a_test(house, person, "units", clock(), percent=86)
    a_test(house, person, "kelly", clock(), percent=60)
    reads(app, house, person, "hoisting", clock())
    excuses.add(house, person.id, crew_coordinator(house, crew), clock(), module="masts", why="The mast stays up.")
    excuses.add(
        house, person.id, crew_coordinator(house, crew), clock(), module="loads", instead="the yard", why="No rig."
    )
    row = row_of(hands(ROSALIND).get(f"/crews/{crew.id}"), "Ines Okoro")
    assert row[1] == "passed" and row[2].startswith("on the way by 15 Mar")
    assert row[10].startswith("not begun by 15 Mar") and row[6].startswith("on the way")
    assert (row[5], row[8], row[3]) == ("excused", "replaced", NOT_ASKED)
    clock.forward(days=13)
    page = hands(ROSALIND).get(f"/crews/{crew.id}")
    row = row_of(page, "Ines Okoro")
    assert (row[1], row[2], row[10]) == ("passed", "late since 15 Mar", "late since 15 Mar")
    assert "Late in something: 1" in words_of(page.text)
    clock.forward(days=370)
    assert row_of(hands(ROSALIND).get(f"/crews/{crew.id}"), "Ines Okoro")[1] == "refresh"


def test_nothing_from_before_joining_is_shown(app, hands, house, crew, clock):
    """Tests, reading and memory of the hand's own time before the crew stay theirs."""
    clock.forward(days=20)
    seen_from = clock()
    person = a_member(house, crew, sees_from=seen_from).person
    before = START + 2 * DAY
    a_test(house, person, "units", before, percent=100)
    reads(app, house, person, "kelly", before)
    knows(app, house, person, "hoisting", before)
    row = row_of(hands(ROSALIND).get(f"/crews/{crew.id}"), "Ines Okoro")
    assert {row[number] for number in range(1, 11)} == {NOT_ASKED}
    page = words_of(hands(ROSALIND).get(f"/people/{person.id}").text)
    assert "Nothing is answered yet" in page and "passed on" not in page and "Latest answers" not in page
    a_test(house, person, "units", clock(), percent=100)
    knows(app, house, person, "hoisting", clock() + DAY)
    row = row_of(hands(ROSALIND).get(f"/crews/{crew.id}"), "Ines Okoro")
    assert (row[1], row[2], row[6]) == ("passed", NOT_ASKED, "on the way")


def test_what_was_done_earlier_on_the_day_of_joining_is_not_shown(app, hands, house, crew, clock):
    """Alone at nine, in the crew at noon: a test, parts read, answers and mistakes of the morning stay the hand's."""
    clock.forward(hours=3)
    person, rosalind = a_member(house, crew, sees_from=clock()).person, hands(ROSALIND)
    bank = app.extensions["pinandbox"]["bank"]
    first, second = [id for id in bank if id.startswith("hoisting.")][:2]
    wrong = {"outcome": "wrong", "mistake": "any"}
    record_all(house, [attempt(house, person.id, first, at, **wrong) for at in (0, 0.01)])
    record_all(house, [attempt(house, person.id, second)])
    a_test(house, person, "units", START, percent=100)
    reads(app, house, person, "kelly", START)
    fresh = a_member(house, crew, "Marek Osei", sees_from=clock()).person
    assert row_of(rosalind.get(f"/crews/{crew.id}"), "Ines Okoro") | {"name": ""} == row_of(
        rosalind.get(f"/crews/{crew.id}"), "Marek Osei"
    ) | {"name": ""}
    page = rosalind.get(f"/people/{person.id}")
    assert facts_of(page) == facts_of(rosalind.get(f"/people/{fresh.id}"))
    assert "Nothing is answered yet" in words_of(page.text) and "Latest answers" not in words_of(page.text)
    record_all(house, [attempt(house, person.id, second, 0.126)])
    row = row_of(rosalind.get(f"/crews/{crew.id}"), "Ines Okoro")
    assert (row[1], row[2], row[6]) == (NOT_ASKED, NOT_ASKED, "on the way")
    assert facts_of(rosalind.get(f"/people/{person.id}"))["6"][0] == "1"
    reads(app, house, person, "top-drive", clock())
    assert row_of(rosalind.get(f"/crews/{crew.id}"), "Ines Okoro")[3] == "on the way"


def facts_of(page):
    """{module number: (known, left)} of a person's page."""
    return {
        number: (known, words_of(left))
        for number, known, left in re.findall(
            r'<th scope="row">(\d+) .*?data-head="Known">(\d+)</td>.*?data-head="Left">(.*?)</td>', page.text, re.DOTALL
        )
    }


def test_what_cant_be_studied_in_time_is_warned_of(hands, house, crew):
    """A module due tomorrow: 30 minutes are less than its lessons; one due in two hitches is not."""
    person = a_member(house, crew).person
    assigned(house, "units", crew, due=START.date() + DAY)
    page = hands(ROSALIND).get(f"/crews/{crew.id}")
    cell = row_of(page, "Ines Okoro")[1]
    assert cell.startswith("not begun by 3 Mar won’t make it needs ") and cell.endswith(", has 30 minutes")
    assert "Won’t make a day: 1 . Misses the exam: 0 ." in words_of(page.text)
    words = words_of(hands(ROSALIND).get(f"/people/{person.id}").text)
    assert "there are only 30 minutes until then" in words
    assigned(house, "units", crew, due=START.date() + 60 * DAY)
    assert row_of(hands(ROSALIND).get(f"/crews/{crew.id}"), "Ines Okoro")[1] == "not begun by 1 May"


def test_what_is_late_has_to_be_done_by_the_next_day_too(hands, house, crew, clock):
    """Safety alone fits into the days that are left; with all of the top drives, late since yesterday, it does not."""
    a_member(house, crew)
    with house.writing() as db:
        db.execute("update people set minutes = 60, minutes_off = 60")
    clock.forward(days=1)
    assigned(house, "safety", crew, due=START.date() + 2 * DAY)
    row = row_of(hands(ROSALIND).get(f"/crews/{crew.id}"), "Ines Okoro")
    assert row[10] == "not begun by 4 Mar"
    assigned(house, "top-drive", crew, due=START.date())
    row = row_of(hands(ROSALIND).get(f"/crews/{crew.id}"), "Ines Okoro")
    assert row[3] == "late since 2 Mar" and row[10].startswith("not begun by 4 Mar won’t make it needs")


def test_an_exam_on_nights_and_without_time_is_told(hands, house, crew):
    """Day 68 of the demo's crew A is on nights; day 62 is the last day tour before it."""
    person = a_member(house, crew).person
    coordinator = crew_coordinator(house, crew)
    exams.set_day(house, person.id, "a", START.date() + 68 * DAY, coordinator, START)
    row = row_of(hands(ROSALIND).get(f"/crews/{crew.id}"), "Ines Okoro")
    assert "9 May" in row["exam"] and "paper A, on nights" in row["exam"]
    words = words_of(hands(ROSALIND).get(f"/people/{person.id}/exam").text)
    assert "9 May is on nights. The nearest days on day tour: 3 May or 25 May." in words
    exams.set_day(house, person.id, "a", START.date() + 2 * DAY, coordinator, START)
    page = hands(ROSALIND).get(f"/crews/{crew.id}")
    assert "misses the exam needs" in row_of(page, "Ines Okoro")["exam"] and "45 minutes" in page.text
    assert "Won’t make a day: 0 . Misses the exam: 1 ." in words_of(page.text)


def test_a_missed_exam_is_no_missed_day_of_a_module(hands, house, crew):
    ines, marek = (a_member(house, crew, name).person for name in ("Ines Okoro", "Marek Osei"))
    exams.set_day(house, ines.id, "a", START.date() + 2 * DAY, crew_coordinator(house, crew), START)
    day = START.date() + DAY
    own = assignments.new(
        "units", "person", marek.id, rig_type=None, due_by="date", due_day=day, pass_mark=80, must_pass=True,
        made_by=crew_coordinator(house, crew), made_at=START,
    )  # fmt: skip
    assignments.add(house, own)
    rosalind = hands(ROSALIND)
    assert names_on(rosalind.get(f"/crews/{crew.id}?state=misses the exam")) == ["Ines Okoro"]
    assert names_on(rosalind.get(f"/crews/{crew.id}?state=won't make it")) == ["Marek Osei"]
    assert names_on(rosalind.get(f"/crews/{crew.id}?state=not begun&module=units")) == ["Marek Osei"]
    assert names_on(rosalind.get(f"/crews/{crew.id}?sort=units")) == ["Marek Osei", "Ines Okoro"]


def test_modules_with_a_day_after_the_exam_are_told(hands, house, crew):
    person = a_member(house, crew).person
    exams.set_day(house, person.id, "a", START.date() + 30 * DAY, crew_coordinator(house, crew), START)
    assigned(house, "units", crew, due=START.date() + 30 * DAY)
    assert "only after it" not in row_of(hands(ROSALIND).get(f"/crews/{crew.id}"), "Ines Okoro")["exam"]
    assigned(house, "units", crew, due=START.date() + 31 * DAY)
    assert "1 module only after it" in row_of(hands(ROSALIND).get(f"/crews/{crew.id}"), "Ines Okoro")["exam"]


def names_on(page):
    return re.findall(r'<a href="/people/[^"]+">([^<]+)</a>', page.text)


def test_filters_and_orders(hands, house, crew, clock):
    a_member(house, crew, "Ines Okoro")
    marek = a_member(house, crew, "Marek Osei", job="derrickhand").person
    a_member(house, crew, "Abel Quist")
    assigned(house, "units", crew)
    a_test(house, marek, "units", clock(), percent=95)
    exams.set_day(house, marek.id, "b", START.date() + 40 * DAY, crew_coordinator(house, crew), START)
    clock.forward(days=16)
    rosalind = hands(ROSALIND)
    everybody = ["Abel Quist", "Ines Okoro", "Marek Osei"]
    assert names_on(rosalind.get(f"/crews/{crew.id}")) == everybody
    for query, expected in {
        "state=late": ["Abel Quist", "Ines Okoro"],
        "state=late&module=kelly": [],
        "state=passed&module=units": ["Marek Osei"],
        "job=derrickhand": ["Marek Osei"],
        "days=30": ["Marek Osei"],
        "days=3": [],
        "days=x": everybody,
        "sort=exam": ["Marek Osei", "Abel Quist", "Ines Okoro"],
        "sort=units": everybody,
        "sort=late": everybody,
        "sort=nothing": everybody,
    }.items():
        page = rosalind.get(f"/crews/{crew.id}?{query}")
        assert names_on(page) == expected, query
    assert "0 of 3 people fit" in words_of(rosalind.get(f"/crews/{crew.id}?days=3").text)
    assert "state=late&amp;sort=exam" in rosalind.get(f"/crews/{crew.id}?state=late").text


def test_all_my_crews_stand_in_one_table(hands, house, crew):
    other = a_crew(house, a_rig(house, "Quillwater 12", "top-drive"), "Crew B")
    theirs = a_crew(house, a_rig(house, "Quillwater 20"), "Crew C", coordinator="Tilda Marsh")
    a_member(house, crew, "Ines Okoro")
    a_member(house, other, "Marek Osei")
    a_member(house, theirs, "Joao Wexley")
    rosalind = hands(ROSALIND)
    page = rosalind.get("/crews/all")
    assert names_on(page) == ["Ines Okoro", "Marek Osei"] and "Quillwater 12, Crew B" in words_of(page.text)
    assert names_on(rosalind.get(f"/crews/all?rig={other.rig.id}")) == ["Marek Osei"]
    assert names_on(rosalind.get(f"/crews/all?crew={crew.id}")) == ["Ines Okoro"]
    assert hands("Tilda Marsh").get(f"/crews/{crew.id}").status_code == 404
    assert hands("Ines Okoro").get("/crews/all").status_code == 404


def test_two_of_one_name_are_told_apart(hands, house, crew):
    from webapp.records import crews, people

    for sign_in in ("Sam Hill", "Sam Hill 2"):
        plain = {"system": "us", "comma": False, "minutes": 15, "now": START}
        person = people.join(house, "Sam Hill", "hash", "code", sign_in=sign_in, **plain)
        crews.join(house, person, crew.id, "floorhand", START)
    assert "Sam Hill (Sam Hill 2)" in words_of(hands(ROSALIND).get(f"/crews/{crew.id}").text)
