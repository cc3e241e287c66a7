"""The blueprints of the papers: their arithmetic, and what is said of one that is amiss."""

import re
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from course import CourseError, load_blueprints
from course.blueprint import asked_chances
from course.outline import HERE
from question_bank import load_bank

TEXT = (HERE / "blueprints.toml").read_text(encoding="utf-8")
COUNTS = st.dictionaries(
    st.tuples(
        st.sampled_from(["units", "kelly", "loads", "safety"]),
        st.sampled_from(["choice", "numeric", "order", "card", "gauge", "estimate"]),
    ),
    st.integers(1, 40),
    min_size=1,
)


@pytest.fixture(scope="module")
def papers(the_course):
    return load_blueprints(the_course)


def of_the_bank():
    return Counter((item.lesson.split("/")[0], item.kind) for item in load_bank().values())


def test_the_two_papers(papers, the_course):
    """Counted by hand on the page of the plan: 60 and 80 questions, the must-pass items, no cards."""
    assert {paper.id: paper.questions for paper in papers.values()} == {"derrickhand": 60, "assistant-driller": 80}
    assert [paper.must_pass.questions for paper in papers.values()] == [6, 8]
    for paper in papers.values():
        assert sum(each.questions for each in paper.modules.values()) == paper.questions
        assert set(paper.modules) == {each.id for each in the_course.modules}
        assert all("card" not in row.kinds for row in paper.kinds)


@pytest.mark.parametrize("name", ["derrickhand", "assistant-driller"])
def test_the_bank_s_items_are_asked_as_the_modules_weigh(papers, name):
    """Over the bank as it stands each module gives just its weight of the questions, and no item is asked twice."""
    paper, counts = papers[name], of_the_bank()
    chances = asked_chances(paper, counts)
    for module, share in paper.modules.items():
        questions = sum(chances[each] * counts[each] for each in counts if each[0] == module)
        assert questions == pytest.approx(share.weight * paper.questions)
    assert max(chances.values()) <= 1 + 1e-9


def test_a_module_by_hand(papers):
    """By hand: tripping is 22 % of 60 = 13.2. Choice, numeric and order weigh 45, 20, 10: 7.92, 3.52 and 1.76.
    With 4 choice items 3.92 go over, to numeric and order as 20 to 10: 6.1333 of 20, and 3.0667 of 5.
    """
    counts = {("tripping", "choice"): 4, ("tripping", "numeric"): 20, ("tripping", "order"): 5, ("tripping", "card"): 3}
    assert asked_chances(papers["derrickhand"], counts) == pytest.approx(
        {
            ("tripping", "choice"): 1,
            ("tripping", "numeric"): 6.13333 / 20,
            ("tripping", "order"): 3.06667 / 5,
            ("tripping", "card"): 0,
        },
        abs=1e-5,
    )


@given(COUNTS)
def test_a_paper_never_asks_more_than_there_is(papers, counts):
    for paper in papers.values():
        chances = asked_chances(paper, counts)
        assert set(chances) == set(counts)
        assert all(0 <= chance <= 1 + 1e-9 for chance in chances.values())
        for module, share in paper.modules.items():
            there = sum(n for each, n in counts.items() if each[0] == module and chances[each])
            asked = sum(chances[each] * n for each, n in counts.items() if each[0] == module)
            assert asked == pytest.approx(min(share.weight * paper.questions, there))


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('title = "Floor', 'titel = "Floor', "has just these fields"),
        ("questions = 60", 'questions = "60"', "questions must be a whole number"),
        ("sheet = false", "sheet = 0", "sheet must be true or false"),
        ("pass_mark = 75", "pass_mark = 175", "pass_mark must be a whole number from 1 to 100"),
        ("units = { weight = 8, questions = 5 }", "units = { weight = 9, questions = 5 }", "add up to 1.01"),
        ("units = { weight = 8, questions = 5 }", "units = { weight = 8, questions = 9 }", "not its weight"),
        ("units = { weight = 8, questions = 5 }", "united = { weight = 8, questions = 5 }", "one row for each"),
        ("units = { weight = 8, questions = 5 }", "units = { weight = 8 }", "just these fields: questions, weight"),
        ("{ weight = 45,", "{ weight = 44,", "kinds add up to 0.99"),
        ('of = ["order"]', 'of = ["choice"]', "two rows of kinds"),
        ('of = ["order"]', 'of = ["essay"]', "'essay' in kinds.of is not known"),
        ('"kelly/slips"', '"kelly/slipping"', "must_pass.one_each is not known"),
        ("may = []", 'may = ["kelly/slips"]', "one of may's"),
    ],
)
def test_a_fault_is_told_with_file_and_field(the_course, tmp_path, old, new, says):
    assert old in TEXT
    (tmp_path / "blueprints.toml").write_text(TEXT.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(CourseError, match=re.escape(says)) as caught:
        load_blueprints(the_course, tmp_path)
    assert "blueprints.toml, line " in str(caught.value)
    assert "derrickhand" in str(caught.value)
