"""Modules assigned to crew, hand and rig; excuses; exam days; what the hand sees of it; what the log keeps."""

import re
from datetime import date

import pytest

from tests.webapp.crews import START, a_crew, a_hand, a_member, a_rig
from tests.webapp.page_browser import words_of
from tests.webapp.taking_tests import a_test
from tests.webapp.test_crews_matrix import ROSALIND, row_of
from webapp.records import assignments, crews, exams, excuses, log

FIELDS = {"to": "crew", "hitch": "2026-03-15", "must_pass": "yes"}


@pytest.fixture
def crew(house):
    return a_crew(house)


@pytest.fixture
def member(house, crew):
    return a_member(house, crew)


@pytest.fixture
def rosalind(hands, crew):
    return hands(ROSALIND)


def running(house, crew, *persons):
    return assignments.running(house, persons, [crew.id], [crew.rig.id])


def assigns(browser, crew, **fields):
    """Assign, and say yes where the page asks first."""
    sent = browser.send(f"/crews/{crew.id}/assign", **fields)
    asked = re.search(r'name="sure" value="([^"]+)"', sent.text)
    return browser.send(f"/crews/{crew.id}/assign", **fields, sure=asked[1]) if asked else sent


def details(house, crew):
    return [(each.what, each.detail) for each in log.of_crews(house, [crew.id], 20)]


def test_a_module_is_assigned_to_a_crew_by_the_end_of_a_hitch(rosalind, house, crew, member):
    sent = assigns(rosalind, crew, module=["units", "tripping"], **FIELDS)
    words = words_of(rosalind.follow(sent).text)
    assert "It is assigned." in words and "2 modules to Quillwater 7, Crew A by 15 Mar, the end of the hitch" in words
    assert "4 Connections and tripping pass mark 90 %" in words
    units, tripping = running(house, crew)
    assert (units.module, units.due_by, units.due_day, units.pass_mark) == ("units", "hitch", date(2026, 3, 15), 80)
    assert (tripping.pass_mark, tripping.must_pass, tripping.rig_type) == (90, True, None)
    assert row_of(rosalind.get(f"/crews/{crew.id}"), "Ines Okoro")[1].startswith("not begun by 15 Mar")
    assert details(house, crew) == [
        (
            "assigned",
            "Modules 1 Units and the rating plate; 4 Connections and tripping to Quillwater 7, Crew A,"
            " by the end of the hitch of 15 March 2026.",
        )
    ]


def test_all_modules_of_a_paper_in_one_go(rosalind, house, crew):
    page = rosalind.get(f"/crews/{crew.id}/assign?paper=a").text
    ticked = re.findall(r'name="module" value="([^"]+)" checked', page)
    assigns(rosalind, crew, module=ticked, pass_mark="85", due_day="2026-05-01", to="crew", hitch="")
    found = running(house, crew)
    assert len(found) == 10 and {each.pass_mark for each in found} == {85}
    assert {(each.due_by, each.due_day, each.must_pass) for each in found} == {("date", date(2026, 5, 1), False)}


def test_assigned_anew_the_new_day_stands(rosalind, house, crew):
    rosalind.send(f"/crews/{crew.id}/assign", module="units", **FIELDS)
    rosalind.send(f"/crews/{crew.id}/assign", module="units", **FIELDS | {"hitch": "2026-04-12"})
    (now,) = running(house, crew)
    (before,) = assignments.ended(house, [], [crew.id], [])
    assert (now.due_day, before.ended_why) == (date(2026, 4, 12), "assigned anew")


def test_what_is_assigned_to_a_hand_goes_before_what_is_assigned_to_the_crew(rosalind, house, crew, member):
    a_member(house, crew, "Marek Osei")
    rosalind.send(f"/crews/{crew.id}/assign", module="units", **FIELDS)
    person = f"person:{member.person.id}"
    rosalind.send(f"/crews/{crew.id}/assign", module="units", **FIELDS | {"to": person, "hitch": "2026-04-12"})
    rosalind.send(f"/crews/{crew.id}/assign", module="units", **FIELDS | {"to": "rig", "hitch": "2026-05-10"})
    page = rosalind.get(f"/crews/{crew.id}")
    assert "by 12 Apr" in row_of(page, "Ines Okoro")[1] and "by 15 Mar" in row_of(page, "Marek Osei")[1]


def test_a_module_for_another_type_of_rig_is_not_asked_here(rosalind, house, crew, member):
    rosalind.send(f"/crews/{crew.id}/assign", module="top-drive", rig_type="top-drive", **FIELDS)
    assert row_of(rosalind.get(f"/crews/{crew.id}"), "Ines Okoro")[3] == "– not assigned"
    assert "only on a top drive rig" in words_of(rosalind.get(f"/crews/{crew.id}/assign").text)


def test_a_whole_rig_only_by_who_has_all_its_crews(hands, rosalind, house, crew):
    assert "every crew of Quillwater 7" in words_of(rosalind.get(f"/crews/{crew.id}/assign").text)
    a_crew(house, crew.rig, "Crew B", coordinator="Tilda Marsh")
    page = rosalind.get(f"/crews/{crew.id}/assign")
    assert "every crew of Quillwater 7" not in words_of(page.text)
    sent = rosalind.send(f"/crews/{crew.id}/assign", module="units", **FIELDS | {"to": "rig"})
    assert sent.status_code == 422 and running(house, crew) == []


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"module": []}, "Tick at least one module"),
        ({"module": ["no-such"]}, "Tick at least one module"),
        ({"to": ""}, "Choose the crew, or one of its people."),
        ({"to": "person:stranger"}, "Choose the crew, or one of its people."),
        ({"hitch": "", "due_day": "2026-03-01"}, "That day is past."),
        ({"hitch": "", "due_day": "soon"}, "Write a day as year-month-day"),
        ({"hitch": "2026-03-14"}, "Write a day as year-month-day"),
        ({"pass_mark": "49"}, "from 50 to 100"),
        ({"pass_mark": "²"}, "from 50 to 100"),
        ({"rig_type": "spinner"}, "Choose the rigs it is for."),
    ],
)
def test_what_cant_be_taken_is_told_and_nothing_is_assigned(rosalind, house, crew, changes, sentence):
    sent = rosalind.send(f"/crews/{crew.id}/assign", **{"module": ["units"]} | FIELDS | changes)
    assert sent.status_code == 422 and sentence in words_of(sent.text)
    assert running(house, crew) == []


def test_an_assignment_ends_with_a_reason_and_stays_in_the_records(hands, rosalind, house, crew):
    rosalind.send(f"/crews/{crew.id}/assign", module="units", **FIELDS)
    (found,) = running(house, crew)
    address = f"/crews/{crew.id}/assignments/{found.id}/end"
    sent = rosalind.send(address, why="  ")
    assert sent.status_code == 422 and "Write why it ends" in words_of(sent.text)
    other = a_crew(house, a_rig(house, "Quillwater 12"), coordinator="Tilda Marsh")
    assert hands("Tilda Marsh").send(f"/crews/{other.id}/assignments/{found.id}/end", why="mine").status_code == 404
    assert "ended" in words_of(rosalind.follow(rosalind.send(address, why="The rig is stacked.")).text)
    assert running(house, crew) == []
    (ended,) = assignments.ended(house, [], [crew.id], [])
    assert ended.ended_why == "The rig is stacked."
    assert details(house, crew)[0] == (
        "assignment ended",
        "Module 1 Units and the rating plate, assigned to Quillwater 7, Crew A: The rig is stacked.",
    )


def test_what_was_assigned_in_one_go_ends_in_one_go(rosalind, house, crew, member):
    assigns(rosalind, crew, module=["units", "kelly", "masts"], **FIELDS)
    rosalind.send(f"/crews/{crew.id}/assign", module="hoisting", **FIELDS | {"hitch": "2026-05-10"})
    page = rosalind.get(f"/crews/{crew.id}/assign").text
    assert "3 modules to Quillwater 7, Crew A" in words_of(page) and "End all 3" in page and "End all 1" not in page
    units = next(each for each in running(house, crew) if each.module == "units")
    address = f"/crews/{crew.id}/assignments/{units.id}/end"
    sent = rosalind.send(address, all="yes", why="")
    assert (
        sent.status_code == 422 and f'id="f-why-all-{units.id}-problem"' in sent.text and len(running(house, crew)) == 4
    )
    assert "It is no longer assigned." in words_of(
        rosalind.follow(rosalind.send(address, all="yes", why="Stacked.")).text
    )
    assert [each.module for each in running(house, crew)] == ["hoisting"]
    assert details(house, crew)[0] == (
        "assignment ended",
        "Modules 1 Units and the rating plate; 2 Kelly rigs: the rotating system; 5 Masts, derricks and substructures,"
        " assigned to Quillwater 7, Crew A: Stacked.",
    )


def test_too_little_time_is_told_with_its_numbers_before_anything_is_assigned(rosalind, house, crew, member):
    """15 minutes a day to tomorrow are 30; the yes that is sent holds for just what was asked."""
    fields = {"module": ["units"], "to": "crew", "hitch": "", "due_day": "2026-03-03"}
    sent = rosalind.send(f"/crews/{crew.id}/assign", **fields)
    words = words_of(sent.text)
    assert sent.status_code == 422 and "Nothing is assigned yet." in words and running(house, crew) == []
    assert "1 of 1 won’t make it." in words
    assert re.search(r"Ines Okoro needs [0-9½]+ (minutes|hours), has 30 minutes until 3 Mar", words)
    fits = re.search(r"It fits for everybody by (\d+) Mar\.", words)
    sure = re.search(r'name="sure" value="([^"]+)"', sent.text)[1]
    changed = rosalind.send(f"/crews/{crew.id}/assign", **fields | {"module": ["units", "kelly"]}, sure=sure)
    assert changed.status_code == 422 and running(house, crew) == []
    on_that_day = rosalind.send(f"/crews/{crew.id}/assign", **fields | {"due_day": f"2026-03-{int(fits[1]):02}"})
    assert on_that_day.status_code == 303 and len(running(house, crew)) == 1
    day_before = fields | {"due_day": f"2026-03-{int(fits[1]) - 1:02}"}
    assert rosalind.send(f"/crews/{crew.id}/assign", **day_before).status_code == 422
    assert rosalind.send(f"/crews/{crew.id}/assign", **fields, sure=sure).status_code == 303


def test_by_hitch_it_fits_by_the_end_of_a_hitch(rosalind, house, crew, member):
    """All of paper A does not fit into one hitch of a quarter of an hour a day."""
    page = rosalind.get(f"/crews/{crew.id}/assign?paper=a").text
    ticked = re.findall(r'name="module" value="([^"]+)" checked', page)
    words = words_of(rosalind.send(f"/crews/{crew.id}/assign", module=ticked, **FIELDS).text)
    fits = re.search(r"It fits for everybody by ([^.]+)\.", words)[1]
    assert fits in {"12 Apr", "10 May", "7 Jun", "5 Jul"}, "the last days of the hitches from 2 March on"


def test_nobody_without_minutes_is_promised_a_day(rosalind, house, crew):
    a_hand(house, "Anselm Tovar", minutes=0)
    a_member(house, crew, "Anselm Tovar")
    words = words_of(rosalind.send(f"/crews/{crew.id}/assign", module="units", **FIELDS).text)
    assert "for any day of the next two years: Anselm Tovar." in words and "It fits" not in words
    a_member(house, crew, "Ines Okoro")
    day = {"hitch": "", "due_day": "2026-03-03"}
    words = words_of(rosalind.send(f"/crews/{crew.id}/assign", module="units", **FIELDS | day).text)
    assert re.search(r"It fits for the others by \d+ Mar\. Too few minutes a day .*: Anselm Tovar\.", words)


def test_one_can_look_first_and_nothing_is_assigned(rosalind, house, crew, member):
    sent = rosalind.send(f"/crews/{crew.id}/assign", module="units", look="yes", **FIELDS | {"hitch": "2026-05-10"})
    assert sent.status_code == 200 and "It fits. Ines Okoro has the most to do: needs" in words_of(sent.text)
    assert running(house, crew) == [] and 'value="units" checked' in sent.text


def test_the_module_of_the_other_type_of_rig_is_asked_about(rosalind, house, crew):
    """A crew without people: only the rig can be a reason to ask."""
    sent = rosalind.send(f"/crews/{crew.id}/assign", module="top-drive", **FIELDS)
    assert sent.status_code == 422
    assert "3 Top drives is about top drive rigs. Quillwater 7 is none." in words_of(sent.text)
    assert rosalind.send(f"/crews/{crew.id}/assign", module="kelly", **FIELDS).status_code == 303
    only = rosalind.send(f"/crews/{crew.id}/assign", module="top-drive", rig_type="top-drive", **FIELDS)
    assert only.status_code == 303


def test_a_hand_is_told_what_is_assigned_and_what_is_late(hands, rosalind, house, crew, member, clock):
    rosalind.send(f"/crews/{crew.id}/assign", module=["units", "kelly"], **FIELDS)
    exams.set_day(house, member.person.id, "a", date(2026, 5, 3), a_hand(house, ROSALIND).id, START)
    ines = hands("Ines Okoro")
    words = words_of(ines.get("/today").text)
    assert "Assigned to you" in words and "1 Units and the rating plate pass mark 80 % not begun 15 Mar" in words
    assert "Exam: paper A on 3 May." in words
    clock.forward(days=14)
    a_test(house, member.person, "units", clock(), percent=95)
    words = words_of(ines.get("/today").text)
    assert "2 Kelly rigs: the rotating system pass mark 80 % late 15 Mar" in words
    assert "1 Units and the rating plate" not in words
    words = words_of(ines.get("/record").text)
    assert "1 Units and the rating plate pass mark 80 % passed" in words
    assert "system pass mark 80 % late" in words


def test_who_studies_alone_is_told_of_no_assignments(hands):
    assert "Assigned to you" not in words_of(hands("Joao Wexley").get("/today").text)


def test_a_module_is_excused_or_replaced_with_a_reason(rosalind, house, crew, member):
    address = f"/people/{member.person.id}/excuse"
    assigns(rosalind, crew, module=["top-drive", "kelly"], **FIELDS)
    for fields, sentence in (
        ({"what": "module:top-drive", "kind": "excused"}, "Write why"),
        ({"what": "module:no", "kind": "excused", "why": "x"}, "Choose a module or a task."),
        ({"what": "module:kelly", "kind": "replaced", "why": "x"}, "Write what stands in its place"),
        ({"what": "module:kelly", "kind": "excused", "why": "x" * 301}, "at most 300"),
        ({"what": "module:kelly", "why": "x"}, "Choose what happens."),
    ):
        sent = rosalind.send(address, **fields)
        assert sent.status_code == 422 and sentence in words_of(sent.text)
    rosalind.send(address, what="module:top-drive", kind="excused", why="There is none on this rig")
    rosalind.send(address, what="task:S-2.3", kind="replaced", instead="the yard", why="The table is down")
    words = words_of(rosalind.get(address).text)
    assert "3 Top drives is excused." in words and "is replaced by the yard." in words
    assert row_of(rosalind.get(f"/crews/{crew.id}"), "Ines Okoro")[3] == "excused"
    assert ("excused", "3 Top drives: There is none on this rig.") in details(house, crew)
    (of_module,) = [each for each in excuses.running(house, [member.person.id]) if each.module]
    ended = rosalind.send(f"/people/{member.person.id}/excuses/{of_module.id}/end")
    assert "It is asked for again." in words_of(rosalind.follow(ended).text)
    assert row_of(rosalind.get(f"/crews/{crew.id}"), "Ines Okoro")[3].startswith("not begun by")


def test_what_is_left_in_the_field_of_the_other_choice_does_not_count(rosalind, house, member):
    """'It is not asked for' was chosen; 'yard' was written before that."""
    fields = {"what": "module:kelly", "kind": "excused", "instead": "yard", "why": "No kelly here"}
    rosalind.send(f"/people/{member.person.id}/excuse", **fields)
    (kept,) = excuses.running(house, [member.person.id])
    assert (kept.kind, kept.instead) == ("excused", "")


def test_who_joins_later_is_not_late_the_same_day(hands, rosalind, house, crew, clock):
    """Hitches from 2 March: 14 on, 14 off. Due 15 March for the crew; who joins on the 20th has to 12 April."""
    rosalind.send(f"/crews/{crew.id}/assign", module="units", **FIELDS)
    clock.forward(days=18)
    joins = a_hand(house, "Joao Wexley")
    crews.join(house, joins, crew.id, "floorhand", clock())
    a_member(house, crew)
    page = hands(ROSALIND).get(f"/crews/{crew.id}")
    assert row_of(page, "Joao Wexley")[1].startswith("not begun by 12 Apr")
    assert row_of(page, "Ines Okoro")[1] == "late since 15 Mar"


def test_a_second_excuse_takes_the_place_of_the_first(house, member):
    who = member.person.id
    excuses.add(house, who, who, START, module="kelly", why="one")
    excuses.add(house, who, who, START, module="kelly", why="two", instead="the yard")
    excuses.add(house, who, who, START, task="S-2.3", why="three")
    assert [(each.why, each.kind) for each in excuses.running(house, [who])] == [
        ("two", "replaced"),
        ("three", "excused"),
    ]


def test_nobody_elses_excuse_can_be_ended(rosalind, house, crew, member):
    marek = a_member(house, crew, "Marek Osei").person
    theirs = excuses.add(house, marek.id, marek.id, START, module="kelly", why="one")
    assert rosalind.send(f"/people/{member.person.id}/excuses/{theirs}/end").status_code == 404
    assert rosalind.send(f"/people/{member.person.id}/excuses/gone/end").status_code == 404


def test_the_exam_day_is_set_moved_and_taken_away(rosalind, house, crew, member):
    address = f"/people/{member.person.id}/exam"
    sent = rosalind.send(address, paper="", day="2026-02-01")
    assert sent.status_code == 422
    assert "Choose the paper." in words_of(sent.text) and "That day is past." in words_of(sent.text)
    words = words_of(rosalind.follow(rosalind.send(address, paper="b", day="2026-05-09")).text)
    assert "Paper B on 9 May" in words and "9 May is on nights." in words
    rosalind.send(address, paper="b", day="2026-05-02")
    assert "on nights" not in words_of(rosalind.get(address).text)
    assert exams.of_people(house, [member.person.id])[member.person.id].day == date(2026, 5, 2)
    words = words_of(rosalind.follow(rosalind.send(address, paper="b", none="yes")).text)
    assert "As it stands" not in words and exams.of_people(house, [member.person.id]) == {}
    assert [what for what, _ in details(house, crew)] == ["exam day"] * 3


def test_the_free_days_stand_as_buttons(rosalind, house, member):
    """9 May is on nights; the day tours nearest to it are 3 May and 25 May."""
    address = f"/people/{member.person.id}/exam"
    page = rosalind.follow(rosalind.send(address, paper="b", day="2026-05-09")).text
    assert re.findall(r'name="day" value="([^"]+)">Take', page) == ["2026-05-03", "2026-05-25"]
    assert re.search(r'type="hidden" name="paper" value="b"', page)
    rosalind.send(address, paper="b", day="2026-05-03")
    assert ">Take " not in rosalind.get(address).text


def test_an_exam_more_than_a_year_ahead_is_asked_about(rosalind, house, member):
    who, address = member.person.id, f"/people/{member.person.id}/exam"
    sent = rosalind.send(address, paper="a", day="2031-01-01")
    assert sent.status_code == 422 and "more than a year ahead" in words_of(sent.text)
    assert exams.of_people(house, [who]) == {} and 'name="far"' in sent.text
    assert rosalind.send(address, paper="a", day="2031-01-01", far="yes").status_code == 303
    assert exams.of_people(house, [who])[who].day == date(2031, 1, 1)
    assert rosalind.send(address, paper="a", day="2027-03-02").status_code == 303, (
        "a year to the day is not asked about"
    )


def test_days_after_the_exam_are_warned_of_and_brought_forward(rosalind, house, crew, member):
    """For that hand alone, with the mark that was asked."""
    a_member(house, crew, "Marek Osei")
    rosalind.send(
        f"/crews/{crew.id}/assign", module=["units", "kelly"], **FIELDS | {"hitch": "2026-04-12", "pass_mark": "85"}
    )
    who, address = member.person.id, f"/people/{member.person.id}/exam"
    words = words_of(rosalind.follow(rosalind.send(address, paper="a", day="2026-04-03")).text)
    assert "2 modules have their day only after the exam" in words and "Bring forward to 2 Apr" in words
    words = words_of(rosalind.get(f"/people/{who}").text)
    assert "2 modules only after the exam: 1 by 12 Apr, 2 by 12 Apr." in words
    words = words_of(rosalind.follow(rosalind.send(f"{address}/before")).text)
    assert "The days are brought forward" in words and "only after the exam" not in words
    page = rosalind.get(f"/crews/{crew.id}")
    assert "by 2 Apr" in row_of(page, "Ines Okoro")[1] and "by 12 Apr" in row_of(page, "Marek Osei")[1]
    own = assignments.running(house, [who], [], [])
    assert [(each.module, each.pass_mark, each.must_pass) for each in own] == [("units", 85, True), ("kelly", 85, True)]
    assert details(house, crew)[0][1].replace("\N{NO-BREAK SPACE}", " ") == (
        "Modules 1 Units and the rating plate; 2 Kelly rigs: the rotating system to Ines Okoro, by 2 April 2026,"
        " before the exam."
    )
    rosalind.send(f"{address}/before")
    assert len(assignments.running(house, [who], [], [])) == 2, "nothing is left to bring forward"


def test_each_choice_names_what_it_is_for(rosalind, crew, member):
    """A person is chosen from their own page."""
    page = rosalind.get(f"/crews/{crew.id}/assign?person={member.person.id}").text
    assert re.search(rf'value="person:{member.person.id}" selected', page)
