"""The bank: every item file read, each item compiled and checked for its form. Its sums are question_bank.check's."""

import re
import tomllib
from collections.abc import Iterator, Mapping
from decimal import Decimal
from pathlib import Path

from question_bank.errors import BankError
from question_bank.item import Item, ItemText
from question_bank.kinds import ITEMS
from question_bank.kinds.wrong_line import WrongLineItem

FOLDER = Path(__file__).with_name("items")
HEADER = re.compile(r"\[+([a-z0-9-]+)(?:\.[^\]]*)?\]+")


class Bank(Mapping[str, Item]):
    """Items by id, in the order of their files."""

    def __init__(self, items: list[Item]):
        self._items = {each.id: each for each in items}

    def __getitem__(self, item_id: str) -> Item:
        return self._items[item_id]

    def __iter__(self) -> Iterator[str]:
        return iter(self._items)

    def __len__(self) -> int:
        return len(self._items)

    def of_lesson(self, lesson: str) -> list[Item]:
        """The items of a lesson, in order."""
        return [each for each in self.values() if each.lesson == lesson]


def load_bank(folder: Path = FOLDER) -> Bank:
    """Read every item below `folder`. Raises BankError, which names file, item and field."""
    items: list[Item] = []
    for path in sorted(folder.glob("*/*.toml")):
        items += read_file(f"{path.parent.name}/{path.name}", path.parent.name, path.read_text(encoding="utf-8"))
    seen: dict[str, str] = {}
    for each in items:
        if each.id in seen:
            raise BankError(each.file, each.id, "", f"the same id stands in {seen[each.id]}. Give one of them another.")
        seen[each.id] = each.file
    return resolved(items)


def resolved(items: list[Item]) -> Bank:
    """The bank of these items, those that are made from another one tied to it. Raises BankError."""
    bank = Bank(items)
    for each in items:
        if isinstance(each, WrongLineItem):
            each.find_source(bank)
    return bank


def read_file(file: str, module: str, text: str) -> list[Item]:
    """The items of one file's text. `file` is for messages; ids are '<module>.<table name>'."""
    try:
        table = tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        raise BankError(file, "-", "-", f"this can't be read as TOML: {error}.") from None
    texts = _texts(text)
    for name, row in table.items():
        if name not in texts or not isinstance(row, Mapping):
            raise BankError(
                file, name, "", "this is no item. An item is a table like [fast-line-pull], its name in a-z, 0-9 and -."
            )
    return [_item(ItemText(file, f"{module}.{name}", texts[name], row)) for name, row in table.items()]


def _item(source: ItemText) -> Item:
    kind = source.table.get("kind")
    if not isinstance(kind, str) or kind not in ITEMS:
        raise BankError(source.file, source.id, "kind", f"{kind!r} is not a kind. Kinds are {', '.join(ITEMS)}.")
    return ITEMS[kind](source)


def _texts(text: str) -> dict[str, str]:
    """The lines of each item, its own tables with it: what its version is the hash of.

    A header inside a text of several lines is no header; comments after an item belong to what follows.
    """
    found: dict[str, list[str]] = {}
    name, within_text = None, False
    for line in text.splitlines():
        header = None if within_text else HEADER.fullmatch(line.split("#")[0].strip())
        name = header[1] if header else name
        within_text ^= (line.count('"""') + line.count("'''")) % 2 == 1
        if name is not None:
            found.setdefault(name, []).append(line)
    return {name: _without_end("\n".join(lines)) for name, lines in found.items()}


def _without_end(text: str) -> str:
    """The text without the comments and blank lines at its end."""
    lines = text.strip().splitlines()
    while lines and lines[-1].lstrip()[:1] in ("", "#"):
        lines.pop()
    return "\n".join(lines) + "\n"
