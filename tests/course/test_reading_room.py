"""The notation of lessons, and what a lesson's text can't do to the page."""

import re
from dataclasses import replace
from html.parser import HTMLParser
from urllib.parse import urlsplit

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from course import CourseError, load_course
from course.reading_room import CautionHere, FigureHere, Html, QuestionHere, read_lesson

TAGS = {
    "p", "ul", "ol", "li", "em", "strong", "code", "pre", "blockquote", "hr", "br", "h2", "h3", "h4", "h5", "h6",
    "table", "thead", "tbody", "tr", "th", "td", "a", "span", "button",
}  # fmt: skip
ATTRIBUTES = {
    "href",
    "title",
    "class",
    "id",
    "type",
    "popover",
    "popovertarget",
    "popovertargetaction",
    "aria-label",
    "style",
    "start",
}


class Seen(HTMLParser):
    """Tags, attributes and addresses of a piece of HTML, as a browser would take them."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.attributes: set[str] = set()
        self.links: list[str] = []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag, attributes):
        self.tags.add(tag)
        self.attributes |= {name for name, _ in attributes}
        self.links += [value for name, value in attributes if name == "href"]


@pytest.fixture
def page(small_course):
    """page(text, system="us") -> the blocks of a lesson with that text."""

    def read(text: str, system: str = "us", comma: bool = False):
        lesson = load_course(small_course(text)).lesson("units/first")
        return [block for part in read_lesson(lesson, system, comma) for block in part.blocks]

    return read


def test_a_quantity_is_shown_in_both_systems(page):
    assert page("Lift {{286 klbf}}.")[0].html == '<p>Lift <span class="quantity">286\xa0klbf (1,272\xa0kN)</span>.</p>'
    assert "1,272\xa0kN (286\xa0klbf)" in page("Lift {{286 klbf}}.", "metric")[0].html
    assert "286\xa0klbf (129.7\xa0t)" in page("Lift {{286 klbf -> t}}.")[0].html
    assert ">4.448\xa0N<" in page("It is {{=4.448 N}}.", "metric")[0].html


def test_a_quantity_is_shown_with_the_decimal_comma(page):
    assert ">4,448\xa0N<" in page("It is {{=4.448 N}}.", comma=True)[0].html


def test_a_word_opens_in_place(page):
    html = page("Three [[short ton|short tons]], and [[short ton]].")[0].html
    ids = re.findall(r'popovertarget="([^"]+)"', html)
    assert len(set(ids)) == 2 and [ids.count(each) for each in ids] == [2] * 4, "a button opens it, a cross closes it"
    assert html.count('popovertargetaction="hide"') == html.count('aria-label="Close short ton"') == 2
    way_on = r'<a class="term-more" href="/glossary#short-ton">In the glossary</a>'
    text = rf"<strong>short ton</strong> A mass of 2,000 lb\. {way_on}<button [^>]*>[^<]</button></span>"
    for id in ids:
        assert re.search(rf'<span [^>]*id="{id}"[^>]*popover="auto"[^>]*>{text}', html)
    assert ">short tons</button>" in html and 'type="button"' in html


def test_lines_that_stand_alone_become_blocks(page):
    blocks = page("One.\n\n?[units.hook-load-in-kn]\n![fig three-weights]\n\n!caution C-10\n\nTwo.")
    assert blocks[1:4] == [QuestionHere("units.hook-load-in-kn"), FigureHere("three-weights"), CautionHere("C-10")]
    assert [each.html for each in (blocks[0], blocks[4])] == ["<p>One.</p>", "<p>Two.</p>"]


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>", "a <b onclick='x()'>bold</b> word", "<img src=x onerror=x()>", "<!-- a --> b",
        "<div>\n\n*x*\n\n</div>", "<svg/onload=x()>", "<style>p{}</style>", "<a href='javascript:x()'>x</a>",
    ],
)  # fmt: skip
def test_raw_html_is_shown_as_it_was_typed(page, text):
    html = page(text)[0].html
    assert "&lt;" in html
    assert Seen(html).tags <= {"p", "em"}


@pytest.mark.parametrize(
    "text",
    [
        "[x](javascript:alert(1))", "[x](JaVaScRiPt:alert)", "[x](java&#115;cript:alert)", "[x](&#106;avascript:a)",
        "[x](<java\tscript:a>)", "[x](data:text/html,a)", "[x](vbscript:a)", "[x](//elsewhere.example/a)",
        "[x][a]\n\n[a]: javascript:alert(1)", "[x](mailto:a@b.example)", "[x](\\\\elsewhere)", "[x](ftp://a.example)",
        "<ftp://a.example/x>", "[x]()",
    ],
)  # fmt: skip
def test_a_link_with_another_scheme_is_refused(page, text):
    with pytest.raises(CourseError, match=r"01-first\.md, line \d+: the link to .* is refused") as caught:
        page("First.\n\n" + text)
    assert caught.value.line in (15, 17), "the line is where the address or its link stands"


@pytest.mark.parametrize("address", ["https://a.example/b?c=1#d", "http://a.example", "/a#b", "../units/x", "#part"])
def test_a_plain_link_works(page, address):
    assert Seen(page(f"See [this]({address}).")[0].html).links == [address]


@settings(max_examples=300, deadline=None)
@given(
    st.lists(
        st.sampled_from(
            ["<", ">", '"', "'", "[", "]", "(", ")", "!", "*", "`", "&#106;", "&", "javascript:", "script", "onerror=",
             " x ", "\\", "\n", "\n\n", "[a]: ", "<a href=", "[[short ton]]", "{{1 klbf}}", "https://a.example/", "//",
             "    ", "|", "{: onclick=x }"]
        ),
        max_size=14,
    ).map("".join)
)  # fmt: skip
def test_nothing_typed_in_a_lesson_makes_a_live_tag(text):
    """Whatever a lesson's text holds, the page has our tags and plain links, or the lesson is refused."""
    lesson = _lesson_with(text)
    try:
        (part,) = read_lesson(lesson, "us")
        html = "".join(each.html for each in part.blocks if isinstance(each, Html))
    except CourseError:
        return
    seen = Seen(html)
    assert seen.tags <= TAGS
    assert seen.attributes <= ATTRIBUTES
    for link in seen.links:
        address = urlsplit(re.sub(r"[\x00-\x20]", "", link))
        assert (address.scheme, address.netloc) in {("", ""), ("http", "a.example"), ("https", "a.example")}, link


def _lesson_with(text: str):
    whole = load_course().lesson("units/force-mass-weight")
    return replace(whole, parts=(replace(whole.parts[0], markdown=text or "x"),))


def test_nothing_stays_from_one_text_to_the_next(page):
    """Link definitions, and the numbers of popovers, belong to one text alone."""
    defined = "See [the rule][r] and [[short ton]].\n\n[r]: https://a.example/rule"
    first = page(defined)
    assert Seen(first[0].html).links == ["https://a.example/rule", "/glossary#short-ton"]
    assert page("See [the rule][r].")[0].html == "<p>See [the rule][r].</p>"
    assert page(defined) == first


def test_the_page_is_kept_for_one_lesson_one_system_and_one_mark(the_course):
    lesson = the_course.lesson("units/force-mass-weight")
    pages = [read_lesson(lesson, system, comma) for system in ("us", "metric") for comma in (False, True)]
    assert all(pages[one] != pages[other] for one in range(4) for other in range(one))
    again = read_lesson(lesson, "us", False)
    assert again == pages[0]
    again.clear()
    assert read_lesson(lesson, "us", False) == pages[0], "a caller can't spoil the page that is kept"


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("A [[tong]].", "'tong' is not in the glossary"),
        ("A [[short ton.", "a glossary word is not closed"),
        ("Lift {{286 klbs}}.", "'klbs' is not a unit"),
        ("Lift {{286 klbf}.", "is not closed"),
        ("Lift {{2.2.2 klbf}}.", "no number that can be read"),
        ("Lift {{286}}.", "has no unit"),
        ("Lift {{3 klbf -> m}}.", "measure different things"),
        ("Lift {{=3 klbf -> kN}}.", "takes no companion"),
        ("See ?[units.hook-load-in-kn] now.", "a line that stands alone"),
        ("![fig Three Weights]", "a line that stands alone"),
        ("![a picture](x.png)", "a line that stands alone"),
        ("!caution C-1", "a line that stands alone"),
        ("# A title", "a lesson has its title in the front matter"),
        ("| [[short ton|short tons]] |", "in a table can't have another form"),
    ],
)
def test_a_fault_is_told_with_its_line(page, text, problem):
    with pytest.raises(CourseError) as caught:
        page("First.\n\n" + text)
    assert str(caught.value).startswith("01-units/01-first.md, line 15: ")
    assert problem in str(caught.value)


def test_an_unknown_system_is_refused(page):
    with pytest.raises(ValueError, match="'imperial' is not a system of units"):
        page("Lift {{286 klbf}}.", "imperial")
