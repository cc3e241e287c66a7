"""The notation of lessons inside a line: quantities, glossary words and links, as an extension of the Markdown library.

    {{286 klbf}}  {{286 klbf -> t}}  {{=4.448 N}}     see question_bank/quantities_in_text.py
    [[short ton]]  [[short ton|short tons]]           the glossary word, opened in place
    [text](https://…)  [text](/glossary)              http, https and relative addresses; nothing else

Raw HTML is no part of it: it is shown as the characters that were written.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from xml.etree.ElementTree import Element, SubElement

from markdown import Markdown
from markdown.extensions import Extension
from markdown.inlinepatterns import InlineProcessor
from markdown.treeprocessors import Treeprocessor
from markdown.util import AtomicString

from course.glossary import Glossary
from question_bank.quantities_in_text import MARK, fill, shown

TERM = re.compile(r"\[\[([^\[\]|]+)(?:\|([^\[\]|]+))?\]\]")
ADDRESS = re.compile(r"https?://[\w.-]+(?::\d+)?(?:/[\w./~%?#=+,-]*)?|(?!//)[\w./~%?#=+,-]+", re.ASCII)
NOT_OURS = {"preprocessors": ["html_block"], "inlinePatterns": ["html", "entity", "automail"]}
BETWEEN = re.compile(r"(?<=\d) (?=\S)")
NO_BREAK = "\N{NO-BREAK SPACE}"
GLOSSARY = "/glossary"
"""Where the words stand in a row; each entry there leads back to its lesson."""


@dataclass(frozen=True)
class Reader:
    """For whom a text is written out: the system, the decimal mark, and the ids already used on the page."""

    system: str
    comma: bool
    numbers: Iterator[int]


class LinkRefused(ValueError):
    """A link to an address that lessons may not use. `address` is as the library read it."""

    def __init__(self, address: str) -> None:
        super().__init__(f"the link to {address!r} is refused. Use an http, https or relative address.")
        self.address = address


class Notation(Extension):
    """Adds the notation to one Markdown object, which must not be used for a second text."""

    def __init__(self, reader: Reader, glossary: Glossary) -> None:
        super().__init__()
        self.reader, self.glossary = reader, glossary

    def extendMarkdown(self, md: Markdown) -> None:
        for registry, names in NOT_OURS.items():
            for name in names:
                getattr(md, registry).deregister(name)
        md.inlinePatterns.register(_Quantity(self.reader), "quantity", 186)
        md.inlinePatterns.register(_Word(self.reader, self.glossary), "glossary word", 185)
        md.treeprocessors.register(_Links(md), "addresses of links", -10)


class _Quantity(InlineProcessor):
    def __init__(self, reader: Reader) -> None:
        super().__init__(MARK.pattern)
        self.reader = reader

    def handleMatch(self, m: re.Match, data: str) -> tuple[Element, int, int]:
        element = Element("span", {"class": "quantity"})
        text = shown(m[1], self.reader.system, self.reader.comma)
        element.text = AtomicString(BETWEEN.sub(NO_BREAK, text))
        return element, m.start(), m.end()


class _Word(InlineProcessor):
    """A button and its note. They are one span, so that no space comes between the word and the comma after it."""

    def __init__(self, reader: Reader, glossary: Glossary) -> None:
        super().__init__(TERM.pattern)
        self.reader, self.glossary = reader, glossary

    def handleMatch(self, m: re.Match, data: str) -> tuple[Element, int, int]:
        term = self.glossary[m[1]]
        id = f"term-{term.slug}-{next(self.reader.numbers)}"
        both = Element("span", {"class": "term-in-text"})
        button = SubElement(both, "button", {"type": "button", "class": "term", "popovertarget": id})
        button.text = AtomicString(m[2] or m[1])
        note = SubElement(both, "span", {"popover": "auto", "id": id, "class": "term-note"})
        word = SubElement(note, "strong")
        word.text = AtomicString(term.term)
        word.tail = AtomicString(f" {term.meaning_in(self.reader.system, self.reader.comma)} ")
        more = SubElement(note, "a", {"class": "term-more", "href": f"{GLOSSARY}#{term.slug}"})
        more.text = AtomicString("In the glossary")
        # The browser opens and closes the note by itself, without scripts.
        close = SubElement(
            note,
            "button",
            {"type": "button", "class": "term-close", "popovertarget": id, "popovertargetaction": "hide"},
        )
        close.set("aria-label", f"Close {term.term}")
        close.text = AtomicString("\N{MULTIPLICATION SIGN}")
        return both, m.start(), m.end()


class _Links(Treeprocessor):
    """Allows an address only if each of its characters is plain: nothing encoded can hide another scheme."""

    def run(self, root: Element) -> None:
        for link in root.iter("a"):
            if not ADDRESS.fullmatch(link.get("href") or ""):
                raise LinkRefused(link.get("href") or "")


def fault_in(line: str, glossary: Glossary) -> str | None:
    """What is wrong with the notation in one line of Markdown, as a sentence; None if nothing is."""
    try:
        fill(line, "us")
    except ValueError as error:
        return str(error)
    for found in TERM.finditer(line):
        if found[1] not in glossary:
            return f"{found[1]!r} is not in the glossary. Add it to its module's words.toml, or mend its spelling."
    rest = TERM.sub("", line)
    if "[[" in rest or "]]" in rest:
        return "a glossary word is not closed. Write it on one line, like [[short ton]] or [[short ton|short tons]]."
    if line.startswith("|") and any(found[2] for found in TERM.finditer(line)):
        return "a glossary word in a table can't have another form: its bar would part two cells. Use [[short ton]]."
    return None
