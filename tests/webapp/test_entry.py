"""What the fields of an answer form say, put together as a hand would write it on a pad."""

import pytest
from werkzeug.datastructures import MultiDict

from question_bank.reading import AnswerError, read_quantity
from webapp.views.entry import moved, typed_text

TABLE = [
    ({"number": "44,600", "unit": "lbf"}, "44,600 lbf"),
    ({"number": "44.6 kip", "unit": "lbf"}, "44.6 kip"),
    ({"number": "30", "unit": "ft", "inches": "6"}, "30 ft 6 in"),
    ({"number": "", "unit": "ft", "inches": "6"}, "0 ft 6 in"),
    ({"number": "30", "unit": "ft", "inches": "0"}, "30 ft"),
    ({"number": "9.23", "unit": "ft", "inches": "0"}, "9.23 ft"),
    ({"number": "30", "unit": "ft", "inches": ""}, "30 ft"),
    ({"number": "", "unit": "lbf", "inches": ""}, ""),
    ({"free": "30' 6", "number": "7", "unit": "lbf"}, "30' 6"),
    ({"number": "17½", "unit": "in"}, "17½ in"),
]


@pytest.mark.parametrize("fields, text", TABLE)
def test_fields_become_one_text(fields, text):
    assert typed_text(MultiDict(fields)) == text


@pytest.mark.parametrize(
    "fields", [{"number": "3", "unit": "ft", "inches": "-2"}, {"number": "0.94", "unit": "m", "inches": "3"}]
)
def test_inches_that_make_no_sense_are_never_dropped_in_silence(fields):
    with pytest.raises(AnswerError) as caught:
        read_quantity(typed_text(MultiDict(fields)), "ft")
    assert caught.value.outcome == "unreadable"


@pytest.mark.parametrize(
    "up, down, order",
    [("2", None, "2134"), (None, "2", "1324"), ("1", None, "1234"), (None, "4", "1234"), ("9", None, "1234")],
)
def test_a_step_moves_one_place_and_no_further(up, down, order):
    assert moved(list("1234"), up, down) == list(order)
