"""The checks of pages see what they should: each fault is made once, and told with its cure."""

import pytest

from tests.webapp.page_checks import faults_in

SOUND = """<!doctype html>
<html lang="en"><head><title>Bench · Pin &amp; Box</title><script src="/static/menus.js" defer></script></head>
<body><h1>Bench</h1><h2>Load</h2>
<form action="/send" method="post"><input type="hidden" name="token" value="t">
<label for="a">Number</label><input id="a" name="a"><br><label><input type="radio" name="b"> Yes</label>
<button class="button main">Send</button></form>
<svg viewBox="0 0 1 1"><path d="M0 0"/></svg><a href="#a">Up</a></body></html>"""


def test_a_sound_page_has_no_fault():
    assert faults_in(SOUND) == []


@pytest.mark.parametrize(
    ("was", "becomes", "told"),
    [
        pytest.param("<!doctype html>", "", "does not begin with <!doctype html>", id="doctype"),
        pytest.param(' lang="en"', "", "has no lang", id="lang"),
        pytest.param("<h1>Bench</h1>", "", "There are 0 h1", id="no h1"),
        pytest.param("<h1>Bench</h1>", "<h1>Bench</h1><h1>Bench</h1>", "There are 2 h1", id="two h1"),
        pytest.param("<title>Bench", "<title>Pin", "does not begin with the h1 'Bench'", id="title"),
        pytest.param("<h2>Load</h2>", "<h3>Load</h3>", "An h3 follows an h1", id="headings"),
        pytest.param("<h2>Load</h2>", '<h2 id="a">Load</h2>', "The id 'a' stands 2 times", id="twice the id"),
        pytest.param('<label for="a">Number</label>', "", "the field 'a' has no label", id="label"),
        pytest.param("<label><input", "<label></label><input", "the field 'b' has no label", id="label not around"),
        pytest.param(">Send</button>", "></button>", "a <button> has no words", id="empty button"),
        pytest.param(' action="/send"', "", "lacks action or method", id="action"),
        pytest.param(' method="post"', "", "lacks action or method", id="method"),
        pytest.param('name="token"', 'name="other"', "has no token", id="token"),
        pytest.param('method="post"', 'method="get"', "would put its token into the address", id="token in a GET form"),
        pytest.param("<br>", '<form action="/x" method="get"></form>', "stands inside another", id="form in form"),
        pytest.param('<label for="a">', '<label for="z">', "for='z' leads to no id", id="reference"),
        pytest.param('href="#a"', 'href="#z"', "the link #z leads to no id", id="link"),
        pytest.param("<h2>", '<h2 style="color:red">', "has inline style", id="style"),
        pytest.param("<h2>", "<style>h2{}</style><h2>", "has inline style", id="style element"),
        pytest.param("<h2>", '<h2 onclick="x()">', "has an inline handler", id="handler"),
        pytest.param("<h2>", "<script>x()</script><h2>", "is inline", id="script"),
        pytest.param('href="#a"', 'href="javascript:x()"', "leads to a script", id="script address"),
        pytest.param("<h2>", '<a class="button main" href="/">Go</a><h2>', "There are 2 main", id="main buttons"),
    ],
)
def test_each_fault_is_told(was, becomes, told):
    assert was in SOUND
    faults = faults_in(SOUND.replace(was, becomes, 1))
    assert [each for each in faults if told in each], faults
