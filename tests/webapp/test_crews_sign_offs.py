"""The observer: finds the hand and the task, sees what to watch, signs, and withdraws what was wrong."""

import re
from datetime import timedelta

import pytest

from tests.webapp.crews import START, UNTIL, a_crew, a_hand, a_member, a_rig, an_observer
from tests.webapp.page_browser import words_of
from webapp.records import crews, exams, log, rights, sign_offs

DAY = timedelta(days=1)
FORM = re.compile(r'name="id" value="([^"]+)"')
TASKS = ("S-2.3", "S-2.4", "S-4.1")


@pytest.fixture
def crew(house):
    return a_crew(house)


@pytest.fixture
def ines(house, crew):
    return a_member(house, crew).person


@pytest.fixture
def observer(house, crew, ines, hands):
    """Teodor's browser: he may sign TASKS in the crew of Ines."""
    an_observer(house, crew, tasks=TASKS)
    return hands("Teodor Quist")


def form_of(observer, ines, task="S-2.3") -> tuple[str, str]:
    """The address of a task's form, and the id that it was given."""
    address = f"/sign-offs/{ines.id}/{task}"
    return address, FORM.search(observer.get(address).text)[1]


def sign(observer, ines, task="S-2.3", **fields):
    """Open a task's form and send it."""
    address, id = form_of(observer, ines, task)
    return observer.send(address, **{"id": id, "when": "today", "result": "alone"} | fields)


def kept(house, ines):
    return sign_offs.of_people(house, [ines.id])


def test_an_observer_finds_the_hand_the_task_and_what_to_watch(observer, ines, app):
    page = observer.get("/sign-offs").text
    assert "Ines Okoro" in page and "you may sign 3 tasks" in words_of(page)
    tasks = words_of(observer.get(f"/sign-offs/{ines.id}").text)
    assert "S-2.3 Set and pull slips" in tasks and "not seen" in tasks and "S-2.1" not in tasks
    task = words_of(observer.get(f"/sign-offs/{ines.id}/S-2.3").text)
    for point in app.extensions["pinandbox"]["course"].tasks["S-2.3"].points:
        assert point in task
    assert "One fault ends it. Slips go in, or a foot goes on them, while the string moves." in task
    assert "Slips hold a string that stands still." in task
    for words in ("Done alone", "Done with prompts", "Not yet", "Not possible on this rig"):
        assert words in task


def test_the_search_goes_by_any_part_of_the_name(observer, house, crew):
    a_member(house, crew, "Marek Osei-Lund")
    found = words_of(observer.get("/sign-offs?q=OSEI").text)
    assert "Marek Osei-Lund" in found and "Ines Okoro" not in found
    assert "Nobody in your crews has “zz” in the name." in words_of(observer.get("/sign-offs?q=zz").text)


def test_signing_shows_what_was_signed(observer, house, crew, ines):
    page = words_of(observer.follow(sign(observer, ines, result="prompted", note="Feet first.")).text)
    assert "It is signed." in page and "done with prompts" in page and "Feet first." in page
    [one] = kept(house, ines)
    assert (one.task, one.result, one.observed_on, one.note) == ("S-2.3", "prompted", START.date(), "Feet first.")
    assert (one.crew, one.rig, one.observer_name) == (crew.id, crew.rig.id, "Teodor Quist")
    [line] = log.of_crews(house, [crew.id], 5)
    assert line.detail == "S-2.3 Set and pull slips, seen on 2 March 2026: done with prompts. Feet first."


def test_a_form_sent_again_signs_once(observer, house, ines):
    """A double touch, or a resend after the signal was gone, leads to what was signed the first time."""
    address, id = form_of(observer, ines)
    sent = {"id": id, "when": "today", "result": "alone"}
    first, second = observer.send(address, **sent), observer.send(address, **sent | {"result": "not-yet"})
    assert first.location == second.location
    assert [each.result for each in kept(house, ines)] == ["alone"]


def test_a_touch_too_many_signs_nothing_and_is_told_under_the_title(observer, house, ines):
    """The Back button gives a new form: however often its results are touched, one job is one signature."""
    sign(observer, ines, result="prompted")
    address, id = form_of(observer, ines)
    for _ in range(2):
        told = observer.send(address, id=id, when="today", result="alone")
        words = words_of(told.text)
        assert told.status_code == 422 and FORM.search(told.text)[1] == id
        said, watch = words.index("Nothing new is signed."), words.index("What to watch")
        assert said < watch, "what was refused stands above the form"
    assert "You have signed this task for today: done with prompts" in words
    assert [each.result for each in kept(house, ines)] == ["prompted"]


def test_a_second_job_of_one_day_has_its_own_button(observer, house, ines):
    sign(observer, ines, result="prompted")
    address, id = form_of(observer, ines)
    told = observer.send(address, id=id, when="today", result="alone", note="After the trip.").text
    assert "I saw it a second time today" in told and "counts as one more time done alone" in told
    [second] = [form for form in told.split("<form ") if 'name="once_more" value="yes"' in form.split("</form>")[0]]
    sent = dict(re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', second.split("</form>")[0]))
    assert observer.send(address, **{k: v for k, v in sent.items() if k != "token"}).status_code == 303
    assert observer.send(address, id=id, when="today", result="alone").status_code == 303, "a form signs once"
    assert [(each.result, each.note) for each in kept(house, ines)] == [("alone", "After the trip."), ("prompted", "")]


def test_not_possible_needs_a_reason_that_the_coordinator_reads(observer, house, crew, ines, hands):
    refused = sign(observer, ines, result="not-possible")
    assert refused.status_code == 422 and "Write what this rig lacks for it." in words_of(refused.text)
    assert kept(house, ines) == []
    assert sign(observer, ines, result="not-possible", why_not="No slips on the floor.").status_code == 303
    assert [(each.result, each.note) for each in kept(house, ines)] == [("not-possible", "No slips on the floor.")]
    page = words_of(hands("Rosalind Achterberg").get(f"/crews/{crew.id}/tasks").text)
    assert (
        "Not possible on this rig Ines Okoro , S-2.3 Set and pull slips “No slips on the floor.” Teodor Quist" in page
    )


def test_enter_in_a_field_signs_nothing(observer, house, ines):
    """A browser sends a form by its first button when Enter is hit in a field."""
    address, _ = form_of(observer, ines)
    form = observer.get(address).text.split('<form class="sign"')[1]
    assert form[form.index("<button") :].startswith('<button name="result" value="" hidden>')
    assert sign(observer, ines, result="").status_code == 422 and kept(house, ines) == []


def test_not_yet_has_one_sign_everywhere(observer, ines):
    stroke = "M5.100 14.900 14.900 5.100"
    assert observer.get(f"/sign-offs/{ines.id}").text.count(stroke) == 0
    sign(observer, ines, result="not-yet")
    assert observer.get(f"/sign-offs/{ines.id}").text.count(stroke) == 1
    assert observer.get("/sign-offs/mine").text.count(stroke) == 1


def test_what_was_withdrawn_or_is_of_another_day_is_not_asked_about(observer, ines, clock):
    first = sign(observer, ines).location.partition("?")[0]
    observer.send(f"{first}/withdraw", why="Wrong result.")
    assert sign(observer, ines).status_code == 303
    clock.forward(days=1)
    assert sign(observer, ines).status_code == 303


def test_a_form_that_is_not_ours_or_of_another_task_is_refused(observer, house, ines):
    address, id = form_of(observer, ines)
    assert observer.send(address, id="1 or 1", when="today", result="alone").status_code == 400
    observer.send(address, id=id, when="today", result="alone")
    other = observer.send(f"/sign-offs/{ines.id}/S-2.4", id=id, when="today", result="alone")
    assert other.status_code == 422 and "used for another signature" in other.text
    assert len(kept(house, ines)) == 1


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        pytest.param({"result": ""}, "Touch one of the results.", id="no result"),
        pytest.param({"result": "passed"}, "Touch one of the results.", id="unknown result"),
        pytest.param({"when": ""}, "Choose the day on which you saw it.", id="no day"),
        pytest.param({"when": "other", "day": "soon"}, "Choose the day on which you saw it.", id="day in words"),
        pytest.param({"when": "other", "day": "2026-03-03"}, "This day is still to come.", id="tomorrow"),
        pytest.param({"when": "other", "day": "2026-02-15"}, "more than 14 days ago", id="15 days ago"),
        pytest.param({"when": "other", "day": "2026-02-28"}, "was not in this crew on that day", id="before joining"),
        pytest.param({"note": "x" * 301}, "at most 300 letters", id="long note"),
    ],
)
def test_what_can_not_be_signed_says_why(observer, house, ines, fields, sentence):
    sent = sign(observer, ines, **fields)
    assert sent.status_code == 422 and sentence in words_of(sent.text)
    assert kept(house, ines) == []


@pytest.mark.parametrize("day", ["2026-02-15", "2026-02-28"])
def test_a_note_says_why_it_is_signed_late(observer, house, ines, day):
    assert sign(observer, ines, when="other", day=day, note="Was off with no signal.").status_code == 303
    assert str(kept(house, ines)[0].observed_on) == day


def test_fourteen_days_ago_needs_no_note(observer, house, crew, ines, clock):
    clock.forward(days=14)
    assert sign(observer, ines, when="other", day="2026-03-02").status_code == 303
    assert sign(observer, ines, when="other", day="2026-03-01").status_code == 422


def test_the_small_hours_belong_to_the_night_tour_before(observer, house, ines, clock):
    clock.forward(hours=17)
    sign(observer, ines)
    assert str(kept(house, ines)[0].observed_on) == "2026-03-02"


def test_yesterday_is_a_touch(observer, house, ines, clock):
    clock.forward(days=1)
    sign(observer, ines, when="yesterday")
    assert str(kept(house, ines)[0].observed_on) == "2026-03-02"


def test_an_observer_signs_only_what_they_were_given(observer, house, ines, hands, clock):
    assert observer.get(f"/sign-offs/{ines.id}/S-4.2").status_code == 404
    other_crew = a_crew(house, a_rig(house, "Quillwater 12", "top-drive"))
    marek = a_member(house, other_crew, "Marek Osei-Lund").person
    assert observer.get(f"/sign-offs/{marek.id}").status_code == 404
    assert observer.get(f"/sign-offs/{marek.id}/S-2.3").status_code == 404
    address, id = form_of(observer, ines)
    [right] = rights.of_person(house, a_hand(house, "Teodor Quist").id, "observer")
    rights.end(house, right.id, clock())
    assert observer.send(address, id=id, when="today", result="alone").status_code == 404
    assert observer.get("/sign-offs").status_code == 404
    assert kept(house, ines) == []


def test_a_right_ends_with_its_last_day(observer, ines, hands, clock):
    clock.forward(days=(UNTIL - START.date()).days)
    assert hands("Teodor Quist").get(f"/sign-offs/{ines.id}/S-2.3").status_code == 200
    clock.forward(days=1)
    assert hands("Teodor Quist").get(f"/sign-offs/{ines.id}/S-2.3").status_code == 404


def test_an_observer_of_their_own_crew_does_not_sign_for_themselves(observer, house, crew, ines):
    teodor = a_member(house, crew, "Teodor Quist", "derrickhand").person
    assert "derrickhand" not in observer.get("/sign-offs").text
    for address in (f"/sign-offs/{teodor.id}", f"/sign-offs/{teodor.id}/S-2.3"):
        own = observer.get(address)
        assert own.status_code == 404 and "Nobody signs for themselves." in words_of(own.text)


def test_somebody_who_left_the_crew_can_not_be_signed_for(observer, house, ines, clock):
    crews.leave(house, crews.membership_now(house, ines.id).id, "left", clock())
    assert observer.get(f"/sign-offs/{ines.id}/S-2.3").status_code == 404


def test_a_task_that_the_course_no_longer_has_is_not_there(house, crew, ines, hands):
    an_observer(house, crew, tasks=("S-99.9",))
    browser = hands("Teodor Quist")
    assert browser.get(f"/sign-offs/{ines.id}/S-99.9").status_code == 404
    assert "or is still in the course" in words_of(browser.get(f"/sign-offs/{ines.id}").text)


def test_my_own_signature_is_withdrawn_with_a_reason(observer, house, ines):
    one = sign(observer, ines).location.partition("?")[0]
    assert observer.send(f"{one}/withdraw", why=" ").status_code == 422
    page = words_of(observer.follow(observer.send(f"{one}/withdraw", why="Mixed up two hands.")).text)
    assert "It is withdrawn." in page and "Mixed up two hands." in page
    assert kept(house, ines)[0].withdrawn.who == "Teodor Quist"
    assert "withdrawn" in words_of(observer.get("/sign-offs/mine").text)


def test_another_observers_signature_is_not_there(observer, house, crew, ines, hands):
    one = sign(observer, ines).location.partition("?")[0]
    an_observer(house, crew, "Hettie Quarles", TASKS)
    hettie = hands("Hettie Quarles")
    assert hettie.get(one).status_code == 404
    assert hettie.send(f"{one}/withdraw", why="Not so.").status_code == 404
    assert kept(house, ines)[0].counts
    assert "You have signed nothing yet." in words_of(hettie.get("/sign-offs/mine").text)


def test_what_somebody_typed_is_shown_as_text(observer, house, ines):
    page = observer.follow(sign(observer, ines, note="<b>bold</b>")).text
    assert "&lt;b&gt;bold" in page and "<b>bold" not in page


def test_the_hand_sees_each_task_with_result_rig_and_who_signed(observer, house, ines, hands):
    sign(observer, ines, note="Lifted with the legs.")
    one = sign(observer, ines, "S-2.4", result="not-yet").location.partition("?")[0]
    observer.send(f"{one}/withdraw", why="It was Marek.")
    browser = hands("Ines Okoro")
    # By hand: 47 tasks, less the 5 of top drives.
    assert "0 of 42 tasks are done" in words_of(browser.get("/record").text)
    page = words_of(browser.get("/record/tasks").text)
    assert "S-2.3 Set and pull slips 1 of 2 done alone done alone 2 Mar" in page
    assert "Quillwater 7, seen by Teodor Quist. “Lifted with the legs.”" in page
    assert "Withdrawn by Teodor Quist, 2 Mar 2026: It was Marek." in page


def test_somebody_in_no_crew_has_no_tasks_in_the_record(hands):
    browser = hands("Marek Osei-Lund")
    assert "Hands-on tasks" not in browser.get("/record").text
    assert "You are in no crew" in browser.get("/record/tasks").text


def test_an_exam_that_asks_for_fewer_tasks_says_so(house, ines, hands, clock):
    """Counted in tasks.toml: of the 42 that a kelly rig has, 28 have a number for paper A."""
    exams.set_day(house, ines.id, "a", START.date() + 60 * DAY, ines.id, clock())
    page = words_of(hands("Ines Okoro").get("/record").text)
    assert "0 of 28 tasks for paper A are done" in page
    assert "14 more tasks are not asked for paper A." in page


def test_who_left_the_crew_keeps_tasks_signatures_and_exam(observer, house, ines, hands, clock):
    sign(observer, ines)
    exams.set_day(house, ines.id, "a", START.date() + 60 * DAY, ines.id, clock())
    crews.leave(house, crews.membership_now(house, ines.id).id, "left", clock())
    browser = hands("Ines Okoro")
    tasks = words_of(browser.get("/record/tasks").text)
    assert "nobody can sign for you now" in tasks and "seen by Teodor Quist" in tasks
    for page in ("/record", "/today"):
        assert "Your exam Paper A on 1 May." in words_of(browser.get(page).text)
    assert "/record/tasks" in browser.get("/record").text


def test_who_left_without_a_signature_keeps_the_list(house, ines, hands, clock):
    crews.leave(house, crews.membership_now(house, ines.id).id, "left", clock())
    browser = hands("Ines Okoro")
    assert "Each task, and who signed it" in browser.get("/record").text
    assert "S-2.3 Set and pull slips not seen" in words_of(browser.get("/record/tasks").text)
