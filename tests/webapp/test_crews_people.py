"""People by a form and by a file: all or none, two of one name, first slips; leaving; the log; one's own crew."""

import io
import re
from datetime import date, timedelta

import pytest

from tests.webapp.crews import START, a_crew, a_hand, a_member, a_rig, an_observer
from tests.webapp.page_browser import words_of
from webapp.people_file import MOST_LINES
from webapp.records import crews, exams, log, people, slips

HEAD = "name,sign in as,job,units,decimal mark,exam date,paper\n"
GOOD = HEAD + "Joao Wexley,,floorhand,us,point,,\nPriya Dunmore,priya,derrickhand,metric,comma,2026-06-22,b\n"
ONE = {
    "name": "Joao Wexley",
    "sign_in": "",
    "job": "floorhand",
    "system": "us",
    "writes": "point",
    "exam_day": "",
    "paper": "",
}
DAY = timedelta(days=1)


@pytest.fixture
def crew(house):
    return a_crew(house)


@pytest.fixture
def rosalind(crew, hands):
    """The browser of the crew's coordinator."""
    return hands("Rosalind Achterberg")


def names(house, crew) -> list[str]:
    """What the crew's people sign in as."""
    return [each.person.sign_in for each in crews.members(house, [crew.id])]


def counts(house) -> tuple[int, ...]:
    """How many people, memberships, slips and log lines there are."""
    return tuple(
        house.db.execute(f"select count(*) from {table}").fetchone()[0]
        for table in ("people", "memberships", "slips", "log", "exams")
    )


def look(browser, crew, text: str):
    """The file pasted, and looked at."""
    return browser.send(f"/crews/{crew.id}/people/file", text=text)


def faults_on(html: str) -> list[tuple[str, str]]:
    """Line and sentence of each fault on a page."""
    table = re.search(r'<table class="faults">.*?</table>', html, re.DOTALL)
    return re.findall(r'<th scope="row" class="num">(\d+)</th><td>([^<]*)</td>', table[0]) if table else []


def test_one_is_added_by_the_form_and_a_slip_is_printed(rosalind, house, crew):
    added = rosalind.send(f"/crews/{crew.id}/people/new", **ONE | {"exam_day": "2026-05-14", "paper": "a"})
    page = rosalind.follow(added)
    assert "Joao Wexley signs in as Joao Wexley" in words_of(page.text)
    joao = people.by_name(house, "Joao Wexley")
    assert people.without_password(house, [joao.id]) == {joao.id}
    assert crews.membership_now(house, joao.id).sees_from == START
    exam = exams.of_people(house, [joao.id])[joao.id]
    assert (exam.paper, exam.day) == ("a", date(2026, 5, 14))
    [slip] = slips.of_crew(house, crew.id)
    assert (slip.person, slip.most_uses) == (joao.id, 1)
    [line] = log.of_crews(house, [crew.id], 5)
    assert line.detail == "Joao Wexley, floorhand, is added by a form. Exam A on 14 May 2026."


@pytest.mark.parametrize(
    ("changes", "field", "sentence"),
    [
        ({"name": ""}, "name", "Write the name"),
        ({"job": ""}, "job", "Write the job"),
        ({"system": ""}, "system", "Choose the units"),
        ({"writes": ""}, "writes", "Choose how"),
        ({"exam_day": "2026-03-01", "paper": "a"}, "exam_day", "not past"),
        ({"exam_day": "soon", "paper": "a"}, "exam_day", "year-month-day"),
        ({"exam_day": "2026-05-14"}, "exam_day", "Give both, or neither."),
        ({"paper": "a"}, "exam_day", "Give both, or neither."),
        ({"sign_in": "rosalind achterberg"}, "sign_in", "Somebody here signs in as rosalind achterberg."),
    ],
)
def test_what_is_amiss_in_the_form_is_told(rosalind, house, crew, changes, field, sentence):
    before = counts(house)
    page = rosalind.send(f"/crews/{crew.id}/people/new", **ONE | changes)
    assert page.status_code == 422
    assert sentence in words_of(re.search(rf'id="f-{field}-problem">(.*?)</p>', page.text, re.DOTALL)[1])
    assert counts(house) == before


def test_a_second_of_one_name_is_offered_another_to_sign_in_as(rosalind, house, crew):
    """And both lists show what tells them apart."""
    rosalind.send(f"/crews/{crew.id}/people/new", **ONE)
    page = rosalind.send(f"/crews/{crew.id}/people/new", **ONE | {"job": "driller"})
    assert page.status_code == 422
    assert "There is a Joao Wexley already: floorhand, Quillwater 7, Crew A." in words_of(page.text)
    offered = re.search(r'name="sign_in"[^>]*value="([^"]*)"', page.text)[1]
    assert offered == "Joao Wexley 2"
    added = rosalind.send(f"/crews/{crew.id}/people/new", **ONE | {"job": "driller", "sign_in": offered})
    sheet = words_of(rosalind.follow(added).text)
    assert "signs in as Joao Wexley 2" in sheet
    listed = words_of(rosalind.get(f"/crews/{crew.id}/people").text)
    assert "Joao Wexley floorhand" in listed and "Joao Wexley (Joao Wexley 2) driller" in listed


def test_who_has_the_name_in_another_crew_is_not_told(rosalind, house, crew):
    """That somebody signs in with it, and no more."""
    other = a_crew(house, a_rig(house, "Quillwater 12", "top-drive"), "Crew B", coordinator="Tilda Marsh")
    a_member(house, other, "Joao Wexley", "toolpusher")
    page = words_of(rosalind.send(f"/crews/{crew.id}/people/new", **ONE).text)
    assert "somebody here already who signs in as Joao Wexley" in page
    assert "toolpusher" not in page.replace("value toolpusher", "") and "Quillwater 12" not in page


def test_a_file_is_shown_before_anybody_is_added(rosalind, house, crew):
    before = counts(house)
    page = look(rosalind, crew, GOOD)
    assert page.status_code == 200 and counts(house) == before
    words = words_of(page.text)
    assert "Add 2 people and print their slips" in words
    assert "Priya Dunmore signs in as priya derrickhand metric 12,5 22 Jun paper B" in words


def test_a_file_is_sent_as_a_spreadsheet_saves_it(rosalind, house, crew):
    """With a byte order mark and semicolons; what the preview holds is then added."""
    data = ("\ufeff" + GOOD.replace(",", ";").replace("\n", "\r\n")).encode()
    sent = {"token": rosalind.token, "file": (io.BytesIO(data), "people.csv")}
    page = rosalind.post(f"/crews/{crew.id}/people/file", data=sent)
    held = re.search(r'<textarea name="text" hidden[^>]*>\n(.*?)</textarea>', page.text, re.DOTALL)[1]
    added = rosalind.send(f"/crews/{crew.id}/people/file/add", text=held)
    assert re.findall(r'slip-name">([^<]+)<', rosalind.follow(added).text) == ["Joao Wexley", "Priya Dunmore"]
    assert names(house, crew) == ["Joao Wexley", "priya"]
    assert [each.what for each in log.of_crews(house, [crew.id], 9)] == ["added", "added"]
    assert people.by_name(house, "priya").comma


def test_two_bad_lines_of_twelve_add_nobody(rosalind, house, crew):
    """Both are told with their lines; mended in the page, all twelve are added."""
    lines = [f"Hand {number},,floorhand,us,point,,\n" for number in range(12)]
    lines[3], lines[8] = "Hand 3,,floorhand,imperial,point,,\n", "Hand 8,,,us,point,,\n"
    before = counts(house)
    page = look(rosalind, crew, HEAD + "".join(lines))
    assert page.status_code == 422
    assert [line for line, _ in faults_on(page.text)] == ["5", "10"]
    assert "10 people without a fault" in words_of(page.text)
    assert rosalind.send(f"/crews/{crew.id}/people/file/add", text=HEAD + "".join(lines)).status_code == 422
    assert counts(house) == before
    mended = (HEAD + "".join(lines)).replace("imperial", "metric").replace("Hand 8,,,", "Hand 8,,driller,")
    assert look(rosalind, crew, mended).status_code == 200
    assert rosalind.send(f"/crews/{crew.id}/people/file/add", text=mended).status_code == 303
    assert len(names(house, crew)) == 12


def test_two_of_one_name_in_a_file_sign_in_apart(rosalind, house, crew):
    a_member(house, crew, "Sam Hill", "driller")
    text = HEAD + 2 * "Sam Hill,,floorhand,us,point,,\n" + "Sam Hill,sam hill 3,floorhand,us,point,,\n"
    page = look(rosalind, crew, text)
    words = words_of(page.text)
    assert "There is a Sam Hill already: driller, Quillwater 7, Crew A. This one will sign in as Sam Hill 2." in words
    assert "take the line out and give them a slip" in words
    rosalind.send(f"/crews/{crew.id}/people/file/add", text=text)
    assert names(house, crew) == ["Sam Hill", "Sam Hill 2", "Sam Hill 4", "sam hill 3"]


@pytest.mark.parametrize(
    ("text", "line", "sentence"),
    [
        (HEAD + 2 * "Sam,sam,driller,us,point,,\n", "3", "Line 2 signs in as sam already."),
        (HEAD + "Sam,ROSALIND achterberg,driller,us,point,,\n", "2", "Somebody here signs in as ROSALIND achterberg."),
    ],
)
def test_a_sign_in_that_is_taken_is_a_fault(rosalind, crew, text, line, sentence):
    page = look(rosalind, crew, text)
    [(at, words)] = faults_on(page.text)
    assert at == line and sentence in words


def test_somebody_takes_a_name_between_the_look_and_the_adding(rosalind, house, crew, monkeypatch):
    """Nobody is added, and it is told."""
    assert look(rosalind, crew, GOOD).status_code == 200
    a_hand(house, "priya")
    before = counts(house)
    page = rosalind.send(f"/crews/{crew.id}/people/file/add", text=GOOD)
    assert page.status_code == 422 and "Somebody here signs in as priya." in words_of(page.text)
    monkeypatch.setattr(people, "by_name", lambda *asked: None)
    page = rosalind.send(f"/crews/{crew.id}/people/file/add", text=GOOD)
    assert page.status_code == 422 and "Somebody took it just now." in words_of(page.text)
    assert counts(house) == before


@pytest.mark.parametrize(
    ("sent", "sentence"),
    [
        ({}, "Choose a file, or paste its lines."),
        ({"text": " \n "}, "Choose a file, or paste its lines."),
        ({"file": (io.BytesIO("João".encode("cp1252")), "people.csv")}, "This file is not UTF-8."),
    ],
)
def test_no_file_and_no_text_is_told(rosalind, crew, sent, sentence):
    rosalind.get(f"/crews/{crew.id}/people/file")
    page = rosalind.post(f"/crews/{crew.id}/people/file", data={"token": rosalind.token, **sent})
    assert page.status_code == 422 and sentence in words_of(page.text)


def test_five_hundred_go_through(rosalind, house, crew):
    """In letters of two bytes each, as a form in parts: more than other forms may hold."""
    lines = [
        f"Фёдор Достоевский младший {number},,помощник бурильщика,metric,comma,2026-06-22,a\n"
        for number in range(MOST_LINES)
    ]
    rosalind.get(f"/crews/{crew.id}/people/file")
    for page, status in (("file", 200), ("file/add", 303)):
        data = {"token": rosalind.token, "text": HEAD + "".join(lines)}
        sent = rosalind.post(f"/crews/{crew.id}/people/{page}", data=data, content_type="multipart/form-data")
        assert sent.status_code == status
    assert len(names(house, crew)) == MOST_LINES


def test_far_too_much_is_refused(rosalind, crew):
    data = f"token={rosalind.token}&text={'x' * 600_000}"
    sent = rosalind.post(f"/crews/{crew.id}/people/file", data=data, content_type="application/x-www-form-urlencoded")
    assert sent.status_code == 413


def test_a_name_in_a_file_is_shown_and_never_run(rosalind, crew):
    page = look(rosalind, crew, HEAD + "</textarea><b>Joao</b>,,floorhand,us,point,,\n")
    assert "<b>Joao</b>" not in page.text and "&lt;/textarea&gt;&lt;b&gt;Joao" in page.text


def test_a_coordinator_lets_somebody_leave_with_a_reason(rosalind, hands, house, crew, clock):
    ines = a_member(house, crew)
    clock.forward(days=1)
    address = f"/crews/{crew.id}/people/{ines.person.id}/leave"
    assert "They keep their record" in words_of(rosalind.get(address).text)
    page = rosalind.send(address, why=" ")
    assert page.status_code == 422 and "Write why they leave" in words_of(page.text)
    listed = words_of(rosalind.follow(rosalind.send(address, why="Contract ended")).text)
    assert "Have left" in listed and "Ines Okoro floorhand 3 Mar Contract ended" in listed
    assert rosalind.get(address).status_code == 404
    assert hands("Ines Okoro").get("/record").status_code == 200
    [line] = log.of_crews(house, [crew.id], 5)
    assert (line.what, line.about) == ("left", "Ines Okoro")
    assert line.detail == "Ines Okoro leaves Quillwater 7, Crew A: Contract ended"


def test_nobody_lets_a_hand_of_another_crew_leave(rosalind, house, crew):
    """Not even by the address of one's own crew."""
    other = a_crew(house, a_rig(house, "Quillwater 12", "top-drive"), "Crew B", coordinator="Tilda Marsh")
    marek = a_member(house, other, "Marek Osei-Lund")
    for address in (crew.id, other.id):
        assert rosalind.send(f"/crews/{address}/people/{marek.person.id}/leave", why="Mine now").status_code == 404
    assert crews.membership_now(house, marek.person.id) is not None


def test_a_hand_sees_who_sees_what_and_shares_what_came_before(hands, house, crew, clock):
    browser = hands("Ines Okoro")
    clock.forward(days=3)
    crews.join(house, people.by_name(house, "Ines Okoro"), crew.id, "floorhand", clock())
    words = words_of(browser.get("/settings/crew").text)
    assert "Rosalind Achterberg coordinates your crew." in words and "from 5 Mar on" in words
    page = words_of(browser.follow(browser.send("/settings/crew/share")).text)
    assert "from 2 Mar on" in page and "Share what I did before" not in page
    assert crews.membership_now(house, people.by_name(house, "Ines Okoro").id).sees_from == START
    assert [each.what for each in log.of_crews(house, [crew.id], 5)] == ["shared"]


def test_a_hand_leaves_with_a_reason(hands, house, crew):
    a_member(house, crew)
    browser = hands("Ines Okoro")
    looked = words_of(browser.get("/settings/crew/leave").text)
    for said in ("You are still in it.", "What ends", "What is kept", "To come back you need a new slip", "Needed."):
        assert said in looked
    assert browser.send("/settings/crew/leave", why="").status_code == 422
    assert crews.membership_now(house, people.by_name(house, "Ines Okoro").id)
    page = words_of(browser.follow(browser.send("/settings/crew/leave", why="Goes to another rig")).text)
    assert "You have left the crew." in page and "You are in no crew." in page
    assert "Quillwater 7, Crew A 2 Mar: Goes to another rig" in page
    assert browser.send("/settings/crew/leave", why="Again").status_code == 404
    [line] = log.of_crews(house, [crew.id], 5)
    assert (line.who, line.what) == ("Ines Okoro", "left")


def test_what_is_seen_at_joining_holds_for_observers_and_other_hands(hands, house, crew):
    """Observers see name, job, tasks and rig sheet, and not the page of answers; a hand beside sees none of it."""
    ines = a_member(house, crew).person
    a_member(house, crew, "Marek Osei-Lund")
    an_observer(house, crew)
    pages = (f"/people/{ines.id}", f"/sign-offs/{ines.id}", f"/people/{ines.id}/rig-sheet", f"/crews/{crew.id}/people")
    seen = {name: [hands(name).get(page).status_code for page in pages] for name in ("Marek Osei-Lund", "Teodor Quist")}
    assert seen == {"Marek Osei-Lund": [404, 404, 404, 404], "Teodor Quist": [404, 200, 200, 404]}


def test_a_job_that_the_crew_writes_is_offered_first(rosalind, house, crew):
    a_member(house, crew, job="pipe hand")
    page = rosalind.get(f"/crews/{crew.id}/people/new").text
    offered = re.findall(r'<option value="([^"]+)">', page[page.index('<datalist id="jobs">') :])
    assert offered[0] == "pipe hand" and offered.count("floorhand") == 1


def test_the_log_is_read_in_pages_newest_first(rosalind, house, crew):
    who = a_hand(house, "Rosalind Achterberg").id
    for number in range(45):
        log.note(house, who, "told", f"Line {number}.", START + timedelta(minutes=number), crew.id)
    address = f"/crews/{crew.id}/log"
    first = rosalind.get(address).text
    assert re.findall(r"Line \d+", first) == [f"Line {number}" for number in range(44, 4, -1)]
    older = re.search(r'href="([^"]+)">Older lines', first)[1]
    second = rosalind.get(older).text
    assert re.findall(r"Line \d+", second) == [f"Line {number}" for number in range(4, -1, -1)]
    assert "Older lines" not in second
    assert "Nothing is written down yet." not in second


def test_an_observer_and_a_hand_read_no_log(hands, house, crew):
    an_observer(house, crew)
    a_member(house, crew)
    for name in ("Teodor Quist", "Ines Okoro"):
        assert hands(name).get(f"/crews/{crew.id}/log").status_code == 404


@pytest.mark.parametrize("number", [0, 1, 120])
def test_the_list_of_people_stands_with_none_one_and_many(rosalind, house, crew, number):
    for each in range(number):
        a_member(house, crew, f"Hand {each:03}")
    page = rosalind.get(f"/crews/{crew.id}/people")
    assert len(re.findall(r'href="/people/', page.text)) == number
    assert ("Nobody is in this crew yet." in words_of(page.text)) is (number == 0)
