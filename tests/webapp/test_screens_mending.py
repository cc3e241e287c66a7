"""A form that was refused says so right under the page's title, and speaks of passwords only where it has one."""

import re
from pathlib import Path

import pytest

from tests.webapp.crews import a_crew, a_member
from tests.webapp.page_browser import words_of

TEMPLATES = Path(__file__).parents[2] / "webapp" / "templates"
BOX = re.compile(r"\{\{ mend\(.*\}\}")
WITH_BOX = sorted(each for each in TEMPLATES.rglob("*.html") if BOX.search(each.read_text()))


@pytest.mark.parametrize("template", WITH_BOX, ids=lambda each: each.relative_to(TEMPLATES).as_posix())
def test_the_box_stands_right_under_the_title(template):
    lines = template.read_text().splitlines()
    at = [number for number, line in enumerate(lines) if BOX.search(line)]
    assert len(at) == 1 and "head(" in lines[at[0] - 1], "a box further down is below the first screen"


def test_there_are_forms_to_look_at():
    assert len(WITH_BOX) >= 20


def test_a_refused_exam_day_is_told_under_the_title(hands, house):
    ines = a_member(house, a_crew(house)).person
    sent = hands("Rosalind Achterberg").send(f"/people/{ines.id}/exam", paper="a", day="2020-01-01")
    main = sent.text[sent.text.index("</header>", sent.text.index("<main")) :]
    assert sent.status_code == 422 and main.index('class="mend"') < main.index("<form")
    assert "What you wrote is kept." in words_of(sent.text) and "passwords" not in words_of(sent.text)


def test_a_form_with_a_password_says_that_it_is_not_kept(client):
    sent = client.send("/join", name="")
    assert sent.status_code == 422 and "What you wrote is kept; passwords are not." in words_of(sent.text)


def test_settings_speak_of_passwords_only_where_one_was_asked_for(hands):
    browser = hands("Ines Okoro")
    assert "passwords are not" not in words_of(browser.send("/settings", system="yards").text)
    assert "passwords are not" in words_of(browser.send("/settings/password", present="not it").text)
