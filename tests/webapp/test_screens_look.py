"""The style sheet keeps to the look: its colours, their contrast, nothing from elsewhere, no words but ours."""

import re
from pathlib import Path

import pytest

WEBAPP = Path(__file__).parents[2] / "webapp"
CSS = (WEBAPP / "static" / "site.css").read_text(encoding="utf-8")
TEMPLATES = sorted((WEBAPP / "templates").rglob("*.html"))
COLOUR = re.compile(r"--([a-z0-9-]+): (#[0-9a-f]{3,6});")

DAY = {
    "paper": "#faf8f3", "raised": "#ffffff", "ink": "#1c1f22", "quiet": "#54595e", "rule": "#8a8f94",
    "accent": "#0a5a63", "on-accent": "#ffffff", "right": "#1f6a3b", "close": "#7d5200", "wrong": "#a1282b",
    "caution": "#fff1c9", "caution-ink": "#4a3300",
}  # fmt: skip
NIGHT = {
    "paper": "#121518", "raised": "#1b2024", "ink": "#ece8e0", "quiet": "#a9afb4", "rule": "#6e757b",
    "accent": "#7cc6ce", "on-accent": "#06282c", "right": "#86cfa0", "close": "#e5b860", "wrong": "#f0918f",
    "caution": "#3a2e10", "caution-ink": "#fce7b0",
}  # fmt: skip

# What stands on what, and the contrast it needs: 4.5 for words, 3 for what only has to be seen.
ON = [
    *((word, "paper", 4.5) for word in ("ink", "quiet", "accent", "right", "close", "wrong")),
    *((word, "raised", 4.5) for word in ("ink", "quiet", "accent", "right", "close", "wrong")),
    *((word, "accent-wash", 4.5) for word in ("ink", "quiet", "accent")),
    ("on-accent", "accent", 4.5),
    ("caution-ink", "caution", 4.5),
    ("rule", "paper", 3.0),
    ("rule", "raised", 3.0),
    ("ink", "fig-1", 4.5),
    ("ink", "fig-2", 4.5),
    ("accent", "fig-1", 3.0),
]  # fmt: skip


def block(selector: str) -> dict[str, str]:
    """The colours set in the first rule with that selector."""
    return dict(COLOUR.findall(re.search(re.escape(selector) + r" \{(.*?)\}", CSS, re.DOTALL)[1]))


def contrast(one: str, other: str) -> float:
    """The ratio of WCAG 2.2, 1 to 21."""
    bright, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (bright + 0.05) / (dark + 0.05)


def luminance(colour: str) -> float:
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_the_contrast_is_computed_as_the_standard_does():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)


def test_day_and_night_have_the_colours_of_the_look():
    assert block(":root").items() >= DAY.items()
    assert block(":root.night").items() >= NIGHT.items()


def test_a_night_that_is_chosen_is_the_night_of_the_device():
    assert block(":root.night") == block("  :root:not(.day)")
    assert block(":root.night").keys() == block(":root").keys()


@pytest.mark.parametrize("selector", [":root", ":root.night"])
@pytest.mark.parametrize(("word", "ground", "least"), ON)
def test_what_is_read_stands_out(selector, word, ground, least):
    colours = block(selector)
    assert contrast(colours[word], colours[ground]) >= least


def test_colours_are_named_once_and_used_by_name():
    """Outside the tokens and the print sheet no colour is written out."""
    tokens_end = CSS.index("/* ---- Ground")
    paper = CSS.index("/* ---- Paper")
    assert re.findall(r"#[0-9a-fA-F]{3,8}\b(?![\w-]*\s*\{)", CSS[tokens_end:paper]) == []
    assert re.findall(r"\b(?:rgb|hsl)a?\(", CSS[tokens_end:paper]) == []


def test_every_token_used_is_there_and_every_one_there_is_used():
    named = set(re.findall(r"(--[a-z0-9-]+):", CSS))
    used = set(re.findall(r"var\((--[a-z0-9-]+)", CSS))
    assert used == named, f"Only named: {named - used}. Only used: {used - named}."


def test_nothing_is_fetched_from_elsewhere():
    for path in (*TEMPLATES, *(WEBAPP / "static").iterdir()):
        text = path.read_text(encoding="utf-8")
        found = re.findall(r"(?:src|href|url\(|import)\W{0,3}(https?:)?//", text)
        assert found == [], f"{path.name} fetches from elsewhere. Keep everything in static/."
    assert "@import" not in CSS and "@font-face" not in CSS


def test_no_outline_is_taken_away_from_what_can_be_focused():
    """`main` is only a place to skip to, and the frame of a choice shows the focus of the field in it."""
    rules = re.findall(r"([^{}]+)\{[^{}]*outline: none", CSS)
    assert [rule.strip() for rule in rules] == ["main:focus", ".choice input:focus-visible"]


def test_motion_is_short_and_stops_where_asked():
    assert {int(each) for each in re.findall(r"(\d+)ms", CSS)} == {120}
    assert "prefers-reduced-motion: reduce" in CSS and "@keyframes" not in CSS


def test_every_class_in_a_template_is_in_the_style_sheet():
    styled = set(re.findall(r"\.([a-z][a-z0-9-]*)", CSS))
    used: dict[str, str] = {}
    for path in TEMPLATES:
        for names in re.findall(r'class="([^"]*)"', path.read_text(encoding="utf-8")):
            plain = re.sub(r"\{\{.*?\}\}|\{%.*?%\}", " ", names)
            used |= {name: path.name for name in re.findall(r"(?<![\w-])[a-z][a-z0-9-]*[a-z0-9](?![\w-])", plain)}
    assert {name: where for name, where in used.items() if name not in styled} == {}


def words_in(template: Path) -> str:
    """What of a template is shown as it stands."""
    not_shown = r"\{#.*?#\}|\{%.*?%\}|\{\{.*?\}\}|<[^>]*>"
    return re.sub(not_shown, " ", template.read_text(encoding="utf-8"), flags=re.DOTALL)


@pytest.mark.parametrize("word", ["due", "overdue", "streak", "deck", "review", "reviews", "points", "badge"])
def test_words_that_are_not_ours_are_on_no_page(word):
    for path in TEMPLATES:
        text = words_in(path)
        assert not re.search(rf"\b{word}\b", text, re.IGNORECASE), f"{path.name} says {word!r}. Use our own word."


def test_nobody_is_shouted_at():
    for path in TEMPLATES:
        text = words_in(path)
        assert "!" not in text, f"{path.name} has an exclamation mark."
