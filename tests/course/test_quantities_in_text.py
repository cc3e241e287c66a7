"""Quantities in our own text: one notation, filled in for the hand who reads."""

import pytest

from question_bank.quantities_in_text import fill


@pytest.mark.parametrize(
    ("text", "us", "metric"),
    [
        ("{{286 klbf}}", "286 klbf (1,272 kN)", "1,272 kN (286 klbf)"),
        ("{{286 klbf -> t}}", "286 klbf (129.7 t)", "129.7 t (286 klbf)"),
        ("{{490 J}}", "361.4 ft·lbf (490 J)", "490 J (361.4 ft·lbf)"),
        ("{{360 ft·lbf -> J}}", "360 ft·lbf (488.1 J)", "488.1 J (360 ft·lbf)"),
        ("{{360 ft·lbf -> N·m}}", "360 ft·lbf (488.1 N·m)", "488.1 N·m (360 ft·lbf)"),
        ("{{=4.448 N}} a {{=2,000}}", "4.448 N a 2,000", "4.448 N a 2,000"),
        ("{{=35 °}} {{35 °}}", "35° 35°", "35° 35°"),
        ("{{10.2 %}}", "10.2 %", "10.2 %"),
        ("{{=31.42 ft | 9.58 m}}", "31.42 ft", "9.58 m"),
        ("{{=31.42 | 9.58}}", "31.42", "9.58"),
        ("no quantity", "no quantity", "no quantity"),
    ],
)
def test_it_is_shown_in_both_systems(text, us, metric):
    assert (fill(text, "us"), fill(text, "metric")) == (us, metric)


def test_a_hand_who_writes_12_5_reads_a_comma():
    assert fill("{{2,204.6 lbf}}", "us", comma=True) == "2\N{NARROW NO-BREAK SPACE}204,6 lbf (9,807 kN)"


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("{{286 klbs}}", "'klbs' is not a unit"),
        ("{{=286 klbs}}", "'klbs' is not a unit"),
        ("{{3 klbf -> tx}}", "'tx' is not a unit"),
        ("{{klbf}}", "no number that can be read"),
        ("{{1,00 m}}", "no number that can be read"),
        ("{{}}", "no number"),
        ("{{3 klbf -> m}}", "measure different things"),
        ("{{3}}", "has no unit"),
        ("{{3 m", "not closed"),
        ("3 m}}", "not closed"),
        ("{{=3 m -> ft}}", "takes no companion"),
        ("{{31.42 ft | 9.58 m}}", "needs an '='"),
        ("{{=31.42 ft | 9.58 m | 9 m}}", "two sides"),
        ("{{=9.58 m | 31.42 ft}}", "US side first"),
        ("{{=31.42 ft | 9.85 m}}", "not one quantity"),
        ("{{=31.42 ft | 9.58 kg}}", "different things"),
        ("{{=31.42 ft | m}}", "no number that can be read"),
    ],
)
def test_a_fault_is_a_sentence(text, problem):
    with pytest.raises(ValueError, match=problem.replace("(", r"\(")) as caught:
        fill(text, "us")
    assert str(caught.value).endswith(".")


def test_an_unknown_system_is_refused():
    with pytest.raises(ValueError, match="'imperial' is not a system"):
        fill("{{3 m}}", "imperial")
