"""The glossary: every word that a lesson lists, in our own short words, readable in both systems."""

import pytest

PART_ONE = {
    "decanewton", "dropped object", "line of fire", "pinch point", "point", "red zone", "secondary retention",
    "short ton", "tether", "tonne", "mass", "weight", "force", "kilonewton", "klbf", "exclusion zone", "stop-work",
}  # fmt: skip


def test_it_holds_the_words_of_the_lessons(the_course):
    assert set(the_course.glossary) >= PART_ONE
    for lesson in the_course.lessons:
        for word in lesson.terms:
            assert the_course.glossary[word].lesson == lesson.id, "a word belongs to the one lesson that lists it"


def test_it_is_in_alphabetical_order(the_course):
    words = list(the_course.glossary)
    assert words == sorted(words, key=str.casefold)
    assert [each.term for each in the_course.glossary.values()] == words
    assert len({each.slug for each in the_course.glossary.values()}) == len(words)


def test_an_unknown_word_is_a_key_error(the_course):
    with pytest.raises(KeyError):
        the_course.glossary["no such word"]


def test_meanings_are_short_and_keep_the_notation(the_course, stray_quantities):
    for term in the_course.glossary.values():
        assert len(term.meaning.split()) <= 32, term.term
        assert stray_quantities(term.meaning) == [], term.term


def test_a_meaning_is_shown_in_the_hands_own_system(the_course):
    point = the_course.glossary["point"]
    assert "40 klbf (177.9 kN)" in point.meaning_in("us").replace("178 kN", "177.9 kN")
    assert point.meaning_in("metric").index("kN") < point.meaning_in("metric").index("klbf")
    assert "907,2 kg" in the_course.glossary["short ton"].meaning_in("metric", comma=True)
