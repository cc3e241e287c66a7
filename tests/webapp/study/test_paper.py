"""Practice papers drawn to their blueprint: invariants over any bank, and the two papers on ours."""

import functools
from collections import Counter
from statistics import mean

import pytest
from hypothesis import given
from hypothesis import strategies as st

from course import load_blueprints, load_course
from course.blueprint import asked_chances, module_questions, over_kinds
from question_bank import load_bank
from webapp.study.drawing_up import SELF_MARKED, Askable
from webapp.study.paper import OTHER, Demand, ModuleDemand, draw_paper, module_of

BANK, COURSE = load_bank(), load_course()
PAPERS = load_blueprints(COURSE)
KINDS = ("choice", "numeric", "order", "match", "part", "gauge", "estimate", "find-the-wrong-line", "card")
SEEDS = st.integers(0, 2**31 - 1)


@functools.cache
def demand_of(name, rig_type=None, items=None):
    """A blueprint's demand of these items, ours if none are given."""
    paper, sizes = PAPERS[name], Counter((module_of(each.lesson), each.kind) for each in items or ours())
    modules = {
        module: ModuleDemand(
            questions,
            tuple(over_kinds(paper, questions, {kind: n for (of, kind), n in sizes.items() if of == module})),
        )
        for module, questions in module_questions(paper, rig_type).items()
    }
    return Demand(modules, paper.must_pass.questions, paper.must_pass.one_each, paper.must_pass.may)


@functools.cache
def ours():
    """Our items, as the web application hands them over."""
    return tuple(Askable(item.id, item.lesson, item.kind, item.must_pass) for item in BANK.values())


def full_bank():
    """Six items of each kind in every lesson, the first of them must-pass: more than any paper asks."""
    return tuple(
        Askable(f"{lesson.id}-{kind}-{at}", lesson.id, kind, at == 0)
        for lesson in COURSE.lessons
        for kind in KINDS
        for at in range(6)
    )


@st.composite
def banks(draw):
    """Any bank of the course's lessons, from nothing to plenty, and what the last paper asked of it."""
    lessons = [each.id for each in COURSE.lessons]
    rows = draw(st.lists(st.tuples(st.sampled_from(lessons), st.sampled_from(KINDS), st.integers(0, 4)), max_size=160))
    items = tuple(Askable(f"item-{at}", lesson, kind, must == 0) for at, (lesson, kind, must) in enumerate(rows))
    seen = draw(st.sets(st.sampled_from([each.item for each in items]))) if items else set()
    return items, seen


names, rigs = st.sampled_from(sorted(PAPERS)), st.sampled_from([None, "kelly", "top-drive"])


def askable(items):
    return [each for each in items if each.kind not in SELF_MARKED]


@given(banks(), names, rigs, SEEDS)
def test_counts_by_module_are_as_the_blueprint_or_all_there_is(bank, name, rig, seed):
    items, seen = bank
    demand = demand_of(name, rig, items)
    paper = draw_paper(items, demand, seed, "us", seen)
    there = Counter(module_of(each.lesson) for each in askable(items))
    drawn = Counter(module_of(each.lesson) for each in paper)
    wanted = {module: min(of.questions, there[module]) for module, of in demand.modules.items()}
    assert {module: drawn[module] for module in wanted} == wanted
    assert len(paper) == sum(wanted.values())


@given(banks(), names, SEEDS)
def test_no_item_twice_and_no_card(bank, name, seed):
    items, seen = bank
    paper = draw_paper(items, demand_of(name, None, items), seed, "us", seen)
    assert len({each.item for each in paper}) == len(paper)
    assert {each.item for each in paper} <= {each.item for each in askable(items)}


@given(banks(), names, SEEDS)
def test_must_pass_items_are_there_one_of_each_lesson(bank, name, seed):
    """Each lesson that has one gives one, and what is missing is made up from the lessons that may give more."""
    items, seen = bank
    demand = demand_of(name, None, items)
    paper = draw_paper(items, demand, seed, "us", seen)
    must = Counter(each.lesson for each in paper if each.must_pass)
    have = {each.lesson for each in askable(items) if each.must_pass}
    assert {lesson: must[lesson] for lesson in demand.one_each} == {
        lesson: int(lesson in have) for lesson in demand.one_each
    }
    assert set(must) <= {*demand.one_each, *demand.may} and must.total() <= demand.must_pass
    lacking = set(demand.one_each) - have
    spare = sum(each.must_pass and each.lesson in demand.may for each in askable(items))
    room = sum(of.questions for module, of in demand.modules.items() if module in {"tripping", "hoisting"})
    if room >= demand.must_pass:
        assert must.total() == min(demand.must_pass, demand.must_pass - len(lacking) + spare)


@given(banks(), names, SEEDS)
def test_what_the_last_paper_asked_comes_only_where_its_module_has_nothing_else(bank, name, seed):
    items, seen = bank
    paper = draw_paper(items, demand_of(name, None, items), seed, "us", seen)
    asked = {each.item for each in paper}
    flagged = {each.item for each in items if each.must_pass}
    for module in {module_of(each.lesson) for each in paper}:
        again = {each.item for each in paper if module_of(each.lesson) == module} & seen - flagged
        left = [each for each in askable(items) if module_of(each.lesson) == module and each.item not in asked]
        assert not again or all(each.item in seen | flagged for each in left)


@given(banks(), names, SEEDS, st.sampled_from(["us", "metric"]))
def test_one_numeric_in_ten_is_in_the_other_system(bank, name, seed, system):
    items, seen = bank
    paper = draw_paper(items, demand_of(name, None, items), seed, system, seen)
    other = [each for each in paper if each.system == OTHER[system]]
    numerics = sum(each.kind == "numeric" for each in paper)
    assert {each.kind for each in other} <= {"numeric"}
    assert abs(len(other) - numerics / 10) <= 0.5
    assert {each.system for each in paper} <= {"us", "metric"}


@given(banks(), names, SEEDS)
def test_the_same_seed_draws_the_same_paper(bank, name, seed):
    items, seen = bank
    demand = demand_of(name, None, items)
    assert draw_paper(items, demand, seed, "us", seen) == draw_paper(items, demand, seed, "us", seen)


@pytest.mark.parametrize("name", sorted(PAPERS))
@pytest.mark.parametrize("items", [ours, full_bank])
def test_kinds_come_on_average_as_often_as_the_plan_expects(name, items):
    """`asked_chances` is what the study plan goes by. Must-pass places and whole numbers bend a paper a little."""
    items = items()
    sizes = Counter((module_of(each.lesson), each.kind) for each in items)
    chances = asked_chances(PAPERS[name], sizes)
    demand = demand_of(name, None, items)
    expected, drawn = Counter(), [draw_paper(items, demand, seed, "us") for seed in range(60)]
    for (_, kind), n in sizes.items():
        expected[kind] += chances[_, kind] * n
    for kind in KINDS:
        asked = mean(sum(each.kind == kind for each in paper) for paper in drawn)
        assert asked == pytest.approx(expected[kind], abs=2.5), kind


@pytest.mark.parametrize("name", sorted(PAPERS))
def test_with_a_full_bank_two_papers_after_each_other_share_no_item(name):
    items = full_bank()
    demand = demand_of(name, "kelly", items)
    for seed in range(20):
        first = {each.item for each in draw_paper(items, demand, seed, "us")}
        second = draw_paper(items, demand, seed + 100, "us", first)
        flagged = {each.item for each in items if each.must_pass}
        assert first & {each.item for each in second} <= flagged
        assert sum(each.must_pass for each in second) == PAPERS[name].must_pass.questions


@pytest.mark.parametrize(
    ("name", "rig", "kelly", "top_drive"),
    [
        ("derrickhand", None, 6, 5),
        ("derrickhand", "kelly", 8, 3),
        ("derrickhand", "top-drive", 3, 8),
        ("assistant-driller", "kelly", 11, 4),
        ("assistant-driller", "top-drive", 4, 11),
    ],
)
def test_seven_in_ten_of_the_own_rig_type(name, rig, kelly, top_drive):
    """By hand: 7/10 of 6 + 5 is 7.7, up to 8; 7/10 of 5 + 10 is 10.5, up to 11."""
    found = module_questions(PAPERS[name], rig)
    assert (found["kelly"], found["top-drive"]) == (kelly, top_drive)
    assert sum(found.values()) == PAPERS[name].questions
