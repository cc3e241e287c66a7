"""One person's page, and moving a hand to another crew."""

import re
from datetime import date, timedelta

import pytest

from tests.webapp.crews import START, a_crew, a_hand, a_member, a_rig
from tests.webapp.page_browser import words_of
from tests.webapp.records.samples import attempt, record_all
from tests.webapp.taking_tests import a_test
from tests.webapp.test_crews_matrix import ROSALIND, assigned, crew_coordinator, row_of
from webapp.records import assignments, attempts, crews, exams, excuses, log, sign_offs, slips


@pytest.fixture
def crew(house):
    return a_crew(house)


@pytest.fixture
def other(house):
    """A crew of another rig that works the weeks between."""
    crew = a_crew(house, a_rig(house, "Quillwater 12", "top-drive"), "Crew B")
    crews.change_rotation(house, crew.id, 14, 14, date(2026, 3, 16), 8)
    return crews.crew(house, crew.id)


def a_slip(app):
    """An item of the bank with a known mistake: (item, mistake, title)."""
    bank = app.extensions["pinandbox"]["bank"]
    item = next(each for each in bank.values() if each.kind == "numeric" and each.mistakes)
    return item.id, item.mistakes[0].name, item.mistakes[0].title


def test_the_page_tells_how_a_hand_stands_and_what_comes_again(app, hands, house, crew, clock):
    person = a_member(house, crew).person
    assigned(house, "units", crew)
    item, mistake, title = a_slip(app)
    wrong = {"outcome": "wrong", "mistake": mistake, "seconds": 60.0}
    record_all(house, [attempt(house, person.id, item, days, **wrong) for days in (0, 1, 8)])
    clock.forward(days=9)
    a_test(house, person, "units", clock(), percent=73, missed=["units.x"])
    a_test(house, person, "units", clock() + timedelta(hours=1), percent=93)
    words = words_of(hands(ROSALIND).get(f"/people/{person.id}").text)
    assert "Ines Okoro" in words and "today on the rig, on nights" in words
    assert "93 %, passed" in words and "73 %, not passed, 1 must-pass question wrong" in words
    assert "passed on 11 Mar" in words and "to be refreshed from 11 Mar 2027" in words
    assert f"{title} 3 times" in words
    assert "9 Mar 1 1" in words and "2 Mar 2 2" in words  # weeks from Monday: answers and minutes
    assert words.index("Wrong") > words.index("Latest answers")


def test_five_mistakes_stand_open_with_their_lesson_and_nobody_is_called_you(app, hands, house, crew):
    """Seven items with a wrong option taken twice: it is the hand who chose, and not who reads."""
    person = a_member(house, crew).person
    bank = app.extensions["pinandbox"]["bank"]
    asked = [each for each in bank.values() if each.kind == "choice" and each.lesson.startswith("kelly/")]
    for item in asked[:7]:
        wrong = {
            "outcome": "wrong",
            "mistake": next(f"option-{each.key}" for each in item.options if each.key != item.right),
        }
        record_all(house, [attempt(house, person.id, item.id, days, **wrong) for days in (0, 1)])
    page = hands(ROSALIND).get(f"/people/{person.id}").text
    mistakes = page[page.index('id="mistakes"') : page.index('id="time"')]
    first, others = mistakes.split("<details")
    assert first.count("2 times") == 5 and others.count("2 times") == 2 and "The other 2" in others
    assert first.count("Chose: ") == 5 and "You chose" not in page
    assert first.count('href="/lessons/') == 5 and "Lesson " in words_of(first)
    assert '<a href="#mistakes">' in page[: page.index("<h2")]


def test_minutes_that_nobody_has_set_are_not_said_to_be_set(hands, house, crew):
    person = a_member(house, crew).person
    rosalind, address = hands(ROSALIND), f"/people/{person.id}"
    assert "15 minutes a day, set by the hand" in words_of(rosalind.get(address).text)
    with house.writing() as db:
        db.execute("update people set password_hash = '' where id = ?", [person.id])
    words = words_of(rosalind.get(address).text)
    assert "not signed in yet; counted with 15 minutes a day" in words and "set by the hand" not in words


def test_on_paper_stand_the_name_the_done_tasks_and_a_place_to_sign(hands, house, crew):
    person = a_member(house, crew).person
    for number, (task, observer) in enumerate((("S-2.4", "Teodor Quist"), ("S-2.3", "Teodor Quist"))):
        sign_offs.sign(
            house, f"01-{number}", hand=person, task=task, title=task, crew=crew.id, rig=crew.rig.id,
            observer=a_hand(house, observer), result=("alone", "not-yet")[number], observed_on=START.date(), note="",
            now=START,
        )  # fmt: skip
    page = hands(ROSALIND).get(f"/people/{person.id}").text
    printed = re.findall(r'<tr>\s*<th scope="row">(S-[0-9.]+) ', page)
    assert "Pin & Box · Ines Okoro, floorhand, Quillwater 7, Crew A · 2 Mar 2026" in words_of(page)
    assert "Seen and agreed" in page and "S-2.3" in page and "S-2.3" not in printed
    assert printed == ["S-2.4"]


def test_the_page_says_which_versions_a_test_asked(hands, house, crew):
    """Item and hash of its text, as the question's own row has them."""
    from tests.webapp.records.samples import ask

    person = a_member(house, crew).person
    test = a_test(house, person, "units", START)
    ask(house, person.id, "units.rating-in-kn", "sitting", drill=test)
    assert "units.rating-in-kn 00112233aabbccdd" in words_of(hands(ROSALIND).get(f"/people/{person.id}").text)


def test_time_and_mistakes_from_before_joining_stay_the_hands_own(app, hands, house, crew):
    """The attempts of the days before count neither in weeks, nor in mistakes, nor among the latest."""
    person = a_member(house, crew, sees_from=START + timedelta(5)).person
    item, mistake, title = a_slip(app)
    wrong = {"outcome": "wrong", "mistake": mistake}
    record_all(house, [attempt(house, person.id, item, days, **wrong) for days in (0, 1, 2, 6)])
    words = words_of(hands(ROSALIND).get(f"/people/{person.id}").text)
    assert title not in words and "2 Mar 1 1" in words and "3 times" not in words
    since = START + timedelta(5)
    assert [each.answers for each in attempts.by_day(house, person.id, since)] == [1]
    assert [each.count for each in attempts.mistakes_of(house, person.id, since)] == [1]
    assert len(attempts.of_person(house, person.id, 9, since=since)) == 1


def test_who_has_left_is_no_longer_seen(hands, house, crew):
    member = a_member(house, crew)
    rosalind = hands(ROSALIND)
    assert rosalind.get(f"/people/{member.person.id}").status_code == 200
    crews.leave(house, member.id, "Gone to another house.", START)
    for page in ("", "/exam", "/excuse", "/transfer"):
        assert rosalind.get(f"/people/{member.person.id}{page}").status_code == 404


def test_moving_tells_first_what_still_counts_and_what_changes(hands, house, crew, other, clock):
    person = a_member(house, crew).person
    assigned(house, "kelly", crew)
    assigned(house, "top-drive", other, rig_type="top-drive", due_by="hitch", due_day=date(2026, 3, 2))
    own = assignments.new(
        "hoisting", "person", person.id, rig_type=None, due_by="hitch", due_day=date(2026, 3, 2), pass_mark=80,
        must_pass=True, made_by=crew_coordinator(house, crew), made_at=START,
    )  # fmt: skip
    assignments.add(house, own)
    excuses.add(house, person.id, own.made_by, START, module="loads", why="Not yet.")
    exams.set_day(house, person.id, "a", date(2026, 3, 4), own.made_by, START)
    a_test(house, person, "units", clock())
    page = hands(ROSALIND).get(f"/people/{person.id}/transfer?crew={other.id}")
    words = words_of(page.text)
    assert "1 Units and the rating plate: passed" in words
    assert "2 Kelly rigs: the rotating system now not begun, by 15 Mar, pass mark 80 % then not begun, not" in words
    assert "3 Top drives now not begun, not assigned then not begun, by 29 Mar" in words
    assert "6 Hoisting machinery now not begun, by 15 Mar, pass mark 80 % then not begun, by 29 Mar" in words
    assert "With Quillwater 12, Crew B that day is off the rig." in words
    assert (
        "S-3.1" in words
        and "S-2.1" in words
        and words.index("S-3.1") < words.index("Not asked for") < words.index("S-2.1")
    )


def test_each_excuse_is_listed_at_a_move_and_asked_again_by_default_on_another_type_of_rig(
    hands, house, crew, other, clock
):
    """A reason such as 'There is no top drive here' must not walk along to a rig that has one."""
    member = a_member(house, crew)
    who, by = member.person.id, crew_coordinator(house, crew)
    drives = excuses.add(house, who, by, START, module="top-drive", why="There is no top drive here.")
    excuses.add(house, who, by, START, module="loads", instead="the yard", why="Done at school.")
    excuses.add(house, who, by, START, task="S-2.3", why="The table is down.")
    assigned(house, "top-drive", other)
    rosalind = hands(ROSALIND)
    address = f"/people/{who}/transfer"
    page = rosalind.get(f"{address}?crew={other.id}")
    words = words_of(page.text)
    assert "3 Top drives Excused. Why: There is no top drive here." in words
    assert "8 Loads and power Replaced by the yard. Why: Done at school." in words
    assert "Why: The table is down." in words and "of another type: top drive, not kelly" in words
    assert page.text.count('value="again" checked') == 3
    assert "3 Top drives now excused, not assigned then not begun, by" in words
    (loads,) = [each for each in excuses.running(house, [who]) if each.module == "loads"]
    kept = {f"excuse-{loads.id}": "keep"}
    assert rosalind.send(address, crew=other.id, why="", **kept).text.count('value="keep" checked') == 1
    sent = rosalind.send(address, crew=other.id, why="Short of hands", **kept)
    assert "The move is made: now in Quillwater 12, Crew B." in words_of(rosalind.follow(sent).text)
    assert [each.module for each in excuses.running(house, [who])] == ["loads"]
    assert excuses.get(house, drives).ended_at is not None
    assert row_of(rosalind.get(f"/crews/{other.id}"), "Ines Okoro")[3].startswith("not begun by")
    told = [each.detail for each in log.of_crews(house, [crew.id], 9) if each.what == "excuse ended"]
    assert "3 Top drives is asked for again." in told and len(told) == 2


def test_on_a_rig_of_the_same_type_an_excuse_holds_unless_it_is_asked_again(hands, house, crew):
    same = a_crew(house, crew.rig, "Crew C")
    member = a_member(house, crew)
    excuses.add(house, member.person.id, crew_coordinator(house, crew), START, module="loads", why="Done at school.")
    rosalind = hands(ROSALIND)
    address = f"/people/{member.person.id}/transfer"
    assert 'value="keep" checked' in rosalind.get(f"{address}?crew={same.id}").text
    rosalind.send(address, crew=same.id, why="Short of hands")
    assert len(excuses.running(house, [member.person.id])) == 1


def test_a_slip_for_the_first_sign_in_goes_along(app, hands, house, crew, other):
    """It is on paper in the hand's pocket."""
    member = a_member(house, crew)
    with house.writing() as db:
        db.execute("update people set password_hash = '' where id = ?", [member.person.id])
    slip = slips.make(
        house, crew.id, crew_coordinator(house, crew), START, START + timedelta(30), person=member.person.id
    )
    rosalind = hands(ROSALIND)
    rosalind.send(f"/people/{member.person.id}/transfer", crew=other.id, why="Short of hands")
    assert "slip ended" not in words_of(rosalind.get(f"/crews/{other.id}/slips").text)
    code = slips.code_of(house, slip.id)
    assert code in words_of(rosalind.get(f"/crews/{other.id}/slips/print").text)
    page = app.test_client().get(f"/slip/{code}")
    assert page.status_code == 200 and "Quillwater 12, Crew B" in words_of(page.text)


def test_a_hand_is_moved_with_what_may_be_seen(hands, house, crew, other, clock):
    shared = START - timedelta(30)
    member = a_member(house, crew, sees_from=shared)
    a_test(house, member.person, "units", START - timedelta(20))
    rosalind = hands(ROSALIND)
    address = f"/people/{member.person.id}/transfer"
    sent = rosalind.send(address, crew=other.id, why=" ")
    assert sent.status_code == 422 and "Write why, in a few words." in words_of(sent.text)
    clock.forward(days=1)
    assert rosalind.send(address, crew=other.id, why="The rig is short of hands").location.endswith("?done=moved")
    now = crews.membership_now(house, member.person.id)
    assert (now.crew.id, now.sees_from, now.joined_at, now.job) == (other.id, shared, clock(), "floorhand")
    assert crews.memberships_of(house, member.person.id)[1].left_why == "The rig is short of hands"
    assert row_of(rosalind.get(f"/crews/{other.id}"), "Ines Okoro")[1] == "passed"
    detail = "From Quillwater 7, Crew A to Quillwater 12, Crew B: The rig is short of hands."
    lines = log.of_crews(house, [crew.id, other.id], 9)
    assert [(each.what, each.detail, each.about) for each in lines] == [("moved", detail, "Ines Okoro")] * 2
    assert {each.crew for each in lines} == {crew.id, other.id}


def test_nobody_is_moved_to_a_crew_of_somebody_else_or_to_their_own(hands, house, crew):
    theirs = a_crew(house, a_rig(house, "Quillwater 20"), coordinator="Tilda Marsh")
    member = a_member(house, crew)
    rosalind = hands(ROSALIND)
    for to in (theirs.id, crew.id, "gone", ""):
        assert rosalind.send(f"/people/{member.person.id}/transfer", crew=to, why="x").status_code == 404
    assert rosalind.get(f"/people/{member.person.id}/transfer?crew={theirs.id}").status_code == 404
    assert "no other crew" in words_of(rosalind.get(f"/people/{member.person.id}/transfer").text)


def forty_answers(app, house, person, days=0):
    items = list(app.extensions["pinandbox"]["bank"].values())[:40]
    record_all(house, [attempt(house, person.id, item.id, days, kind=item.kind) for item in items])


def test_readiness_is_told_with_its_band_where_the_whole_history_may_be_seen(app, hands, house, crew, clock):
    person = a_member(house, crew).person
    exams.set_day(house, person.id, "b", date(2026, 4, 20), person.id, START)
    coordinator = hands(ROSALIND)
    page = f"/people/{person.id}/readiness"
    assert page in coordinator.get(f"/people/{person.id}").text
    assert "Too early to say. There are fewer than 30 answers." in words_of(coordinator.get(page).text)
    forty_answers(app, house, person)
    told = re.search(
        r"About (\d+) % of paper B on 20 Apr. That is if nothing more is studied. In nine of ten cases it is between"
        r" (\d+) % and (\d+) %. The paper is passed with 80 %.",
        words_of(coordinator.get(page).text),
    )
    about, low, high = map(int, told.groups())
    assert low < about < high


def test_readiness_that_would_tell_of_earlier_days_is_not_shown(app, hands, house, crew, clock):
    """One answer before the day from which the coordinator sees, and the mark is theirs no more."""
    person = a_member(house, crew, sees_from=START + timedelta(days=2)).person
    record_all(house, [attempt(house, person.id, "units.torque-in-kn-m", 1)])
    forty_answers(app, house, person, days=3)
    words = words_of(hands(ROSALIND).get(f"/people/{person.id}/readiness").text)
    assert "Not shown. It would tell of what was done before 4 Mar" in words
    assert "Since then: 40 answers, 40 right." in words and "n nine of ten" not in words
