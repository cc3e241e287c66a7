"""What holds for every page: read with the standard library's parser, each fault told with its cure."""

from collections import Counter
from html.parser import HTMLParser
from itertools import pairwise

VOID = frozenset("area base br col embed hr img input link meta source track wbr".split())  # noqa: SIM905
FIELDS = ("input", "select", "textarea")
REFERENCES = ("for", "form", "popovertarget", "aria-labelledby", "aria-describedby", "aria-controls")
HEADINGS = ("h1", "h2", "h3", "h4", "h5", "h6")


class Page(HTMLParser):
    """One page as the checks need it: its elements in order, their texts, and what each stands in."""

    def __init__(self, html: str):
        super().__init__()
        self.elements: list[dict] = []
        self._open: list[dict] = []
        self.doctype = ""
        self.feed(html)
        self.close()

    def handle_decl(self, decl: str) -> None:
        self.doctype = decl

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = {"tag": tag, "at": dict(attrs), "text": "", "in": list(self._open), "line": self.getpos()[0]}
        self.elements.append(element)
        if tag not in VOID:
            self._open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self._open.pop()

    def handle_endtag(self, tag: str) -> None:
        while self._open and self._open.pop()["tag"] != tag:
            pass

    def handle_data(self, data: str) -> None:
        for element in self._open:
            element["text"] += data

    def all(self, *tags: str) -> list[dict]:
        """The elements with one of these tags."""
        return [each for each in self.elements if each["tag"] in tags]

    def ids(self) -> list[str]:
        return [each["at"]["id"] for each in self.elements if "id" in each["at"]]


def faults_in(html: str) -> list[str]:
    """What is wrong with a page, each as a sentence that tells the cure. None for a page that is as it should be."""
    page = Page(html)
    return [
        *_of_the_whole(page),
        *_of_headings(page),
        *_of_fields(page),
        *_of_forms(page),
        *_of_references(page),
        *_of_what_is_refused(page),
    ]


def _words(element: dict) -> str:
    return " ".join(element["text"].split())


def _of_the_whole(page: Page):
    if page.doctype.lower() != "doctype html":
        yield "The page does not begin with <!doctype html>. Extend base.html or bare.html."
    if not [each for each in page.all("html") if each["at"].get("lang")]:
        yield "<html> has no lang. Extend base.html or bare.html."
    for name, count in Counter(page.ids()).items():
        if count > 1:
            yield f"The id {name!r} stands {count} times. Give each its own: add the question's id or the part's slug."
    main = [each for each in page.elements if "main" in each["at"].get("class", "").split()]
    if len(main) > 1:
        words = ", ".join(_words(each) for each in main)
        yield f"There are {len(main)} main buttons ({words}). Keep one, and make the others quiet."


def _of_headings(page: Page):
    first = page.all("h1")
    if len(first) != 1:
        yield f"There are {len(first)} h1. Each page has one: use head(title) of parts/page.html once."
        return
    title = _words(page.all("title")[0]) if page.all("title") else ""
    if not title.startswith(_words(first[0])):
        yield f"The title {title!r} does not begin with the h1 {_words(first[0])!r}. Set `title` and use it for both."
    levels = [int(each["tag"][1]) for each in page.all(*HEADINGS)]
    for one, other in pairwise(levels):
        if other > one + 1:
            yield f"An h{other} follows an h{one}. Do not leave out a level of headings."


def _of_fields(page: Page):
    labelled = {each["at"]["for"] for each in page.all("label") if each["at"].get("for")}
    for each in page.all(*FIELDS):
        at = each["at"]
        if at.get("type") == "hidden":
            continue
        inside = any(outer["tag"] == "label" and _words(outer) for outer in each["in"])
        if not (inside or at.get("id") in labelled or at.get("aria-label") or at.get("aria-labelledby")):
            yield f"Line {each['line']}: the field {at.get('name')!r} has no label. Put a <label for=its id> before it."
    for each in page.all("button", "summary", "a"):
        if not _words(each) and not each["at"].get("aria-label"):
            yield f"Line {each['line']}: a <{each['tag']}> has no words. Write some, in class unseen if need be."


def _of_forms(page: Page):
    for form in page.all("form"):
        at = form["at"]
        method = at.get("method", "").lower()
        if not at.get("action") or method not in ("get", "post"):
            yield f"Line {form['line']}: a form lacks action or method. Write both."
        inside = [each for each in page.elements if form in each["in"]]
        if method == "post" and not [each for each in inside if each["at"].get("name") == "token"]:
            yield f"Line {form['line']}: the POST form to {at.get('action')} has no token. Put {{{{ token() }}}} in it."
        if method == "get" and [each for each in inside if each["at"].get("name") == "token"]:
            yield f"Line {form['line']}: a GET form would put its token into the address. Take {{{{ token() }}}} out."
        if [outer for outer in form["in"] if outer["tag"] == "form"]:
            yield f"Line {form['line']}: a form stands inside another. Close the outer one first."


def _of_references(page: Page):
    ids = set(page.ids())
    for each in page.elements:
        for name in REFERENCES:
            for wanted in each["at"].get(name, "").split():
                if wanted not in ids:
                    yield f"Line {each['line']}: {name}={wanted!r} leads to no id on the page. Mend one of the two."
        href = each["at"].get("href", "") or ""
        if each["tag"] == "a" and href.startswith("#") and href[1:] not in ids:
            yield f"Line {each['line']}: the link {href} leads to no id on the page. Mend one of the two."


def _of_what_is_refused(page: Page):
    """The content security policy lets neither inline style nor inline script through."""
    for each in page.elements:
        where = f"Line {each['line']}: <{each['tag']}>"
        if "style" in each["at"] or each["tag"] == "style":
            yield f"{where} has inline style, which browsers will not apply here. Give it a class in site.css."
        if [name for name in each["at"] if name.startswith("on")]:
            yield f"{where} has an inline handler, which browsers will not run here. Put it into a file of static/."
        if each["tag"] == "script" and not each["at"].get("src"):
            yield f"{where} is inline, which browsers will not run here. Put it into a file of static/."
        if each["at"].get("href", "").startswith("javascript:"):
            yield f"{where} leads to a script. Use a button and a file of static/."
