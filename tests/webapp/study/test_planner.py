"""Today's plan: its order, its reasons, and what it leaves out."""

from datetime import date, timedelta

import pytest

from webapp.study.aim import Aim
from webapp.study.looking_ahead import Outlook, look_ahead, look_ahead_unseen
from webapp.study.memory import State, recall
from webapp.study.merit import merit
from webapp.study.planner import plan_today
from webapp.study.rotation import Rotation, every_day
from webapp.study.sitting import ASKED, CLOSED, NO_TIME, NOT_READ, RESTS
from webapp.study.worth import Offer, Section

TODAY = date(2026, 3, 2)
READ = {"units/1", "kelly/1", "loads/1"}
DAILY = Aim(every_day(15))


def offer(name: str, kind: str = "numeric", seconds: float = 60.0) -> Offer:
    """An item of the module that its name begins with: 'units-a' is of units."""
    module = name.split("-")[0]
    return Offer(name, f"{module}/1", Section(module, kind), seconds)


def fade(days_to_ninety: float, ago: int) -> State:
    return State(days_to_ninety, 5.0, TODAY - timedelta(ago))


def picked(plan) -> list[str]:
    return [pick.item for pick in plan.picks]


def test_what_has_faded_comes_by_how_near_it_is_to_being_forgotten_and_what_is_known_rests():
    offers = [offer("units-a"), offer("kelly-b"), offer("loads-c"), offer("units-kept")]
    memory = {"units-a": fade(10, 20), "kelly-b": fade(10, 60), "loads-c": fade(10, 35), "units-kept": fade(100, 2)}
    plan = plan_today(offers, memory, READ, DAILY, TODAY)
    assert picked(plan) == ["kelly-b", "loads-c", "units-a"]
    assert [pick.recall for pick in plan.picks] == [recall(memory[item], TODAY) for item in picked(plan)]
    assert plan.left_out == {"units-kept": RESTS}


def test_the_gain_is_what_recall_gains_on_the_exam_s_day_for_a_second():
    """By hand from the outlook: 0.30 to 0.50 in 66 + 0.7 × 30 = 87 s; with a second one, right by 0.8, 0.62 in 87 + 72.

    (0.50 − 0.30) / 87 = 0.0022989; (0.62 − 0.30) / 159 = 0.0020126. At first sight 18 s more, and 0.8 of it.
    """
    assert merit(Outlook(0.3, 0.3, 0.5, 0.62, 0.8), 60) == pytest.approx(0.2 / 87)
    assert merit(Outlook(0.3, 0.3, 0.4, 0.62, 0.8), 60) == pytest.approx(0.32 / 159)
    assert merit(Outlook(0.3, 0.3, 0.5, 0.62, 0.8), 60, True) == pytest.approx(0.8 * 0.2 / 105)


def test_a_quick_item_comes_before_a_slow_one_that_gains_the_same():
    offers = [offer("units-slow", seconds=90.0), offer("kelly-quick", seconds=30.0)]
    memory = {each.item: fade(5, 20) for each in offers}
    assert picked(plan_today(offers, memory, READ, DAILY, TODAY)) == ["kelly-quick", "units-slow"]


def test_what_the_exam_weighs_more_comes_first():
    offers = [offer("units-light"), offer("kelly-heavy")]
    memory = {each.item: fade(20, 60) for each in offers}
    worth = {Section("units", "numeric"): 0.5, Section("kelly", "numeric"): 1.5}
    plan = plan_today(offers, memory, READ, Aim(every_day(15), TODAY + timedelta(10), worth), TODAY)
    assert picked(plan) == ["kelly-heavy", "units-light"]


def test_a_weak_section_gains_worth_as_the_rule_says():
    """By hand: of the mean recall 0.35 half of 0.70 lacks, so 0.5 is added; the item of a sound section has none."""
    from webapp.study.worth import more_for_weak

    assert more_for_weak(0.35) == pytest.approx(0.5)
    assert more_for_weak(0.0) == 1.0
    assert more_for_weak(0.7) == more_for_weak(0.95) == 0.0


def test_a_weak_section_comes_first_and_says_so():
    """Two items alike; what else is in the module of one was answered today and will soon be gone."""
    sound = [offer(f"units-{number}") for number in range(5)]
    weak = [offer(f"kelly-{number}") for number in range(5)]
    memory = {each.item: fade(400, 30) for each in sound} | {each.item: fade(0.2, 0) for each in weak}
    memory |= {"units-0": fade(5, 25), "kelly-0": fade(5, 25)}
    worth = {Section("units", "numeric"): 0.3, Section("kelly", "numeric"): 0.3}
    plan = plan_today(
        [*sound, *weak], memory, READ, Aim(every_day(15), TODAY + timedelta(20), worth), TODAY, minutes=60
    )
    reasons = {pick.item: pick.reason for pick in plan.picks}
    assert picked(plan).index("kelly-0") < picked(plan).index("units-0")
    assert (reasons["kelly-0"], reasons["units-0"]) == ("weak module", "fading")


def test_reasons():
    offers = [offer("units-new"), offer("units-card", "card"), offer("kelly-old")]
    memory = {"kelly-old": fade(20, 60)}
    worth = {Section("units", "numeric"): 1.2, Section("kelly", "numeric"): 2.0}

    def reasons(aim: Aim) -> dict[str, str]:
        return {pick.item: pick.reason for pick in plan_today(offers, memory, READ, aim, TODAY).picks}

    far, near = (Aim(every_day(15), TODAY + timedelta(days), worth) for days in (30, 5))
    assert reasons(far) == {
        "units-new": "new, and worth much in the exam", "units-card": "new", "kelly-old": "fading",
    }  # fmt: skip
    assert reasons(near)["kelly-old"] == "last days"
    assert reasons(DAILY)["units-new"] == "new"


def test_new_items_come_in_course_order_of_lessons_read():
    offers = [offer("units-a"), offer("units-b"), offer("units-c")]
    assert picked(plan_today(offers, {}, {"units/1"}, DAILY, TODAY)) == ["units-a", "units-b", "units-c"]
    plan = plan_today(offers, {}, set(), DAILY, TODAY)
    assert plan.picks == [] and set(plan.left_out.values()) == {NOT_READ}


def test_an_item_fades_whether_or_not_its_lesson_was_read():
    assert picked(plan_today([offer("units-a")], {"units-a": fade(1, 30)}, set(), DAILY, TODAY)) == ["units-a"]


def test_memory_of_an_item_that_is_no_longer_offered_is_left_alone():
    assert picked(plan_today([offer("units-a")], {"gone": fade(1, 30)}, set(), DAILY, TODAY)) == []


def test_a_module_opens_when_enough_of_the_one_before_is_in_the_plan():
    """By hand: 20 items, 15 % of them are 3. The second module's come after three of the first, and not before."""
    offers = [*(offer(f"units-{number}") for number in range(20)), offer("kelly-a", "choice", 20.0)]
    worth = {Section("units", "numeric"): 0.1, Section("kelly", "choice"): 10.0}
    plan = plan_today(offers, {}, READ, Aim(every_day(15), TODAY + timedelta(30), worth), TODAY)
    assert picked(plan).index("kelly-a") == 3
    short = plan_today(offers, {}, READ, Aim(every_day(2), TODAY + timedelta(30), worth), TODAY)
    assert short.left_out["kelly-a"] == CLOSED


@pytest.mark.parametrize(
    ("minutes", "spent", "picks"), [(3, 0, 3), (2.5, 0, 3), (3, 60, 2), (3, 179, 1), (3, 180, 0), (3, 900, 0)]
)
def test_the_plan_stops_when_the_minutes_are_used(minutes, spent, picks):
    offers = [offer(f"units-{letter}") for letter in "abcdef"]
    plan = plan_today(offers, {}, READ, DAILY, TODAY, minutes, seconds_spent=spent)
    assert len(plan.picks) == picks
    assert list(plan.left_out.values()) == [NO_TIME] * (6 - picks)


def test_the_minutes_are_those_of_the_rotation():
    """On the rig 2 minutes, off it 4: that many items of a minute."""
    offers = [offer(f"units-{letter}") for letter in "abcdef"]
    aim = Aim(Rotation(14, 14, TODAY - timedelta(7), 2, 4))
    assert len(plan_today(offers, {}, READ, aim, TODAY).picks) == 2
    assert len(plan_today(offers, {}, READ, aim, TODAY + timedelta(7)).picks) == 4


def test_what_was_asked_today_keeps_its_place_and_the_rest_does_not_move():
    offers = [offer(f"{module}-{letter}") for module in ("kelly", "units") for letter in "abc"]
    whole = picked(plan_today(offers, {}, READ, DAILY, TODAY))
    plan = plan_today(offers, {}, READ, DAILY, TODAY, asked={whole[0], whole[2]})
    assert picked(plan) == [whole[1], *whole[3:]]
    assert plan.left_out == {whole[0]: ASKED, whole[2]: ASKED}


def test_an_item_answered_today_is_not_asked_again():
    plan = plan_today([offer("units-a")], {"units-a": fade(0.1, 0)}, READ, DAILY, TODAY)
    assert plan.left_out == {"units-a": ASKED}


def test_a_hand_who_knows_more_at_first_sight_gains_less_from_new_items():
    """What the first answers have shown is used: the rest of the rule gives a known item the less to gain."""
    poor, good = (look_ahead_unseen("numeric", chance, 30) for chance in (0.2, 0.8))
    assert poor.after_one - poor.as_it_is > good.after_one - good.as_it_is
    seen = look_ahead(3.0, 5.0, 30, 30)
    offers, memory = [offer("units-new"), offer("kelly-old")], {"kelly-old": fade(3.0, 30)}
    first = {chance: picked(plan_today(offers, memory, READ, Aim(every_day(9), first={"numeric": chance}), TODAY))
             for chance in (0.02, 0.95)}  # fmt: skip
    assert merit(seen, 60) > 0
    assert first[0.95] == ["kelly-old", "units-new"]
    assert first[0.02] == ["units-new", "kelly-old"]
