"""The words of the trade, in alphabetical order."""

from itertools import groupby

from flask import Blueprint, render_template

from webapp.access import open_to_all
from webapp.at_hand import course

views = Blueprint("glossary", __name__)


@views.get("/glossary")
@open_to_all
def show() -> str:
    """All terms by their first letter. Prints at 8 points, on as many sides of A4 as it needs."""
    terms = course().glossary.values()
    letters = [(letter, list(words)) for letter, words in groupby(terms, key=lambda term: term.term[0].upper())]
    lessons = {lesson.id: lesson for lesson in course().lessons}
    return render_template("glossary.html", letters=letters, lessons=lessons)
