"""Three hundred seeded slips of the pen in the text of shipped items with numbers: how many does the check refuse?

Each change is one that an author could make: an operator, a unit, a factor, a sign, another given, arguments swapped,
an end of a grid, a worked value, a mark of a dial, a name. The changed item is read and checked with 20 seeds. Run it:

    python tests/bank/mutants.py
"""

import random
import re
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[2]))

from question_bank import BankError, load_bank
from question_bank.bank import read_file
from question_bank.check import check_item
from question_bank.formulas import all_formulas
from question_bank.units import register_of, registers, unit

HOW_MANY = 300
SEED = 1
DRAWS = 20
QUOTED = r'"([^"]*)"'
QUANTITY = re.compile(r'"(−?-?[\d,.]+) ([^"\s]+)"')
ENDS = re.compile(r'"(−?[\d,.]+) ?([^"]*)"')
GRID = re.compile(r'(\bfrom|\bto|\bstep) = ([\d.]+)|\bunit = "([^"]+)" }')
LISTED = re.compile(r"\bvalues = \[([\d., ]+)\]")
WORD = re.compile(r"[a-z_A-Z][\w]*")


@dataclass(frozen=True)
class Change:
    """One slip: what sort it is, the item's text before and after, and the line that changed."""

    item: str
    sort: str
    text: str
    before: str
    after: str


@dataclass(frozen=True)
class Spot:
    """A place in an item's text and what may wrongly stand there."""

    sort: str
    start: int
    end: int
    instead: str


def spots(text: str) -> Iterator[Spot]:
    """Every slip that this item's text allows."""
    at = 0
    for line in text.splitlines(keepends=True):
        for sort, start, end, instead in _in_line(line, text):
            if line[start:end] != instead:
                yield Spot(sort, at + start, at + end, instead)
        at += len(line)


def _in_line(line: str, text: str) -> Iterator[tuple[str, int, int, str]]:
    if line.startswith("formula ="):
        yield from _in_formulas(line, text)
    elif line.startswith(("check =", "gives =")):
        yield from _in_quantities(line)
        yield from _in_worked_reading(line)
    elif line.startswith(("from =", "to =", "mark =", "numbered =", "reads =", "taken_for =")):
        yield from _in_dial(line)
    elif " = { " in line and GRID.search(line) and ("from =" in line or "values =" in line):
        yield from _in_grid(line)
    elif line.startswith(("unit =", "tolerance =", "plausible =", "asks =", "stem =", "register =")):
        yield from _in_field(line)
    if " = " in line and not line.startswith("["):
        yield ("name of a field", 0, line.index(" = "), line[: line.index(" = ")] + "s")


def _in_formulas(line: str, text: str) -> Iterator[tuple[str, int, int, str]]:
    own = re.findall(r"^(\w+) = \{ (?:register|label|us)", text, re.MULTILINE)
    for quoted in re.finditer(QUOTED, line):
        base, inside = quoted.start(1), quoted[1]
        for sign in re.finditer(r" ([*/+-]) ", inside):
            for other in "*/+-":
                yield ("operator", base + sign.start(1), base + sign.end(1), other)
        for power in re.finditer(r"\*\* (\d)", inside):
            yield ("power", base + power.start(1), base + power.end(1), str(int(power[1]) + 1))
        for number in re.finditer(r"\b\d+(?:\.\d+)?\b", inside):
            for other in _other_numbers(number[0]):
                yield ("factor", base + number.start(), base + number.end(), other)
        for word in WORD.finditer(inside):
            for sort, other in _other_words(word[0], own):
                yield (sort, base + word.start(), base + word.end(), other)
        for call in re.finditer(r"\((\w+), (\w+)\)", inside):
            yield ("arguments swapped", base + call.start(), base + call.end(), f"({call[2]}, {call[1]})")
        yield ("sign", base, base + len(inside), f"-({inside})" if " " in inside else f"-{inside}")
        yield ("half of it", base, base + len(inside), f"({inside} + {inside}) / 3")


def _other_words(word: str, own: list[str]) -> Iterator[tuple[str, str]]:
    if word in own:
        yield from (("wrong given", each) for each in own if each != word)
        yield ("given twice", f"({word} + {word})")
    elif word in all_formulas():
        yield from (("wrong formula", each) for each in all_formulas() if each != word)
    elif word == "gravity":
        yield ("unit in a formula", "m_per_s2")
    else:
        try:
            found = unit(word.replace("ft_per_s", "ft/s").replace("m_per_s", "m/s").replace("mass_", ""))
        except ValueError:
            return
        yield from (("unit in a formula", each.name) for each in registers()[found.register].units.values())


def _in_quantities(line: str) -> Iterator[tuple[str, int, int, str]]:
    sort = "worked value" if line.startswith("check") else "mistake's value"
    for found in QUANTITY.finditer(line):
        for other in _other_numbers(found[1]):
            yield (sort, found.start(1), found.end(1), other)
        for other in _other_units(found[2]):
            yield (f"unit of the {sort}", found.start(2), found.end(2), other)


def _in_grid(line: str) -> Iterator[tuple[str, int, int, str]]:
    for found in GRID.finditer(line):
        if found[3]:
            for other in _other_units(found[3]):
                yield ("unit of a grid", found.start(3), found.end(3), other)
        elif found[1] == "step":
            yield from (("step of a grid", found.start(2), found.end(2), each) for each in ("0", f"{found[2]}7"))
        else:
            for other in (f"{float(found[2]) * by:g}" for by in (10, 1.1, 0.5, 0)):
                yield ("end of a grid", found.start(2), found.end(2), other)
    for listed in LISTED.finditer(line):
        values = list(re.finditer(r"[\d.]+", listed[1]))
        for place, value in enumerate(values):
            factors = (10, 1.1, 0.5) if place in (0, len(values) - 1) else (10, 0.1)
            for by in factors:
                start, end = (listed.start(1) + each for each in value.span())
                yield ("value of a list", start, end, f"{float(value[0]) * by:g}")


def _in_dial(line: str) -> Iterator[tuple[str, int, int, str]]:
    """Numbers of a dial: its ends, its marks, what is read on it. A wrong worth may be any but the right one."""
    name = line.split(" ")[0]
    if name == "taken_for":
        found = re.search(r"\d+(?:\.\d+)?", line)
        yield from (("wrong worth of a space", *found.span(), each) for each in ("0", f"-{found[0]}"))
        return
    for found in re.finditer(r"\d+(?:\.\d+)?", line):
        for other in (f"{float(found[0]) * by:g}" for by in (10, 1.1, 0.5, 0)):
            yield (f"{name} of a dial", found.start(), found.end(), other)


def _in_worked_reading(line: str) -> Iterator[tuple[str, int, int, str]]:
    for found in re.finditer(r"(after|before|marks|way) = (\d+(?:\.\d+)?)", line):
        for other in (f"{float(found[2]) * by:g}" for by in (10, 1.1, 0.5)):
            yield ("worked reading", found.start(2), found.end(2), other)


def _in_field(line: str) -> Iterator[tuple[str, int, int, str]]:
    field = line.split(" ")[0]
    if field == "unit":
        for found in re.finditer(QUOTED, line):
            yield from (("asked unit", found.start(1), found.end(1), each) for each in _other_units(found[1]))
    if field == "plausible":
        low, high = ENDS.findall(line)
        turned = f'["{" ".join(high).strip()}", "{" ".join(low).strip()}"]'
        yield ("plausible range", line.index("["), line.index("]") + 1, turned)
        start, lowest = line.index(low[0]), float(low[0].replace(",", "").replace("−", ""))
        yield ("plausible range", start, start + len(low[0]), f"{lowest * 100:g}")
    if field == "tolerance" and (number := re.search(r"0\.\d+", line)):
        yield from (("tolerance", *number.span(), each) for each in ("0", "0.9", f"-{number[0]}"))
    if field == "asks":
        found = re.search(QUOTED, line)
        yield ("what is asked", *found.span(1), "answer")
    if field == "stem":
        for found in re.finditer(r"\{\w+\}", line):
            yield ("blank in the stem", *found.span(), f"{found[0][:-2]}}}")
            yield ("blank in the stem", *found.span(), found[0][:-1])
            yield ("given left out of the stem", *found.span(), "it")
            for other in re.finditer(r"\{\w+\}", line[found.end() :]):
                between = line[found.end() : found.end() + other.start()]
                swapped = f"{other[0]}{between}{found[0]}"
                yield ("givens swapped in the stem", found.start(), found.end() + other.end(), swapped)
    if field == "register":
        found = re.search(QUOTED, line)
        yield from (("register", *found.span(1), each) for each in ("load", "torque", "mass"))


def _other_numbers(number: str) -> Iterator[str]:
    """The number a tenth up, a tenth down, tenfold, a tenth of it, and with its first two different digits swapped."""
    value, places = float(number.replace(",", "").replace("−", "-")), 6
    for other in (value * 1.1, value / 1.1, value * 10, value / 10, value * 1.01):
        yield f"{other:.{places}g}" if abs(other) >= 1e-4 and abs(other) < 1e6 else f"{other:f}"
    digits = [at for at, each in enumerate(number) if each.isdigit()]
    swap = next(((one, two) for one, two in pairwise(digits) if number[one] != number[two]), None)
    if swap:
        signs = list(number)
        signs[swap[0]], signs[swap[1]] = signs[swap[1]], signs[swap[0]]
        yield "".join(signs)


def _other_units(symbol: str) -> Iterator[str]:
    """Units that could stand there instead: the rest of its register, and one from outside."""
    yield from (each for each in registers()[register_of(symbol)].units if each != symbol)
    yield "psi" if symbol != "psi" else "ft"


def all_changes() -> list[Change]:
    """Every slip that the shipped items with numbers allow, in the order of their files."""
    found = []
    for item in load_bank().values():
        if item.kind not in ("numeric", "estimate", "gauge"):
            continue
        for spot in spots(item.text):
            changed = item.text[: spot.start] + spot.instead + item.text[spot.end :]
            first, last = item.text.rfind("\n", 0, spot.start) + 1, changed.find("\n", spot.start + len(spot.instead))
            before = item.text[first : item.text.find("\n", spot.end)]
            found.append(Change(item.id, spot.sort, changed, before, changed[first:last]))
    return found


def picked(how_many: int = HOW_MANY, seed: int = SEED) -> list[Change]:
    """So many different slips: each sort in turn, and in it an item of which the fewest are taken.

    So neither a sort with many spots nor an item with many lines crowds out the others.
    """
    picks = random.Random(seed)
    by_sort: dict[str, list[Change]] = {}
    for change in all_changes():
        by_sort.setdefault(change.sort, []).append(change)
    for changes in by_sort.values():
        picks.shuffle(changes)
    taken: list[Change] = []
    of_item: Counter[str] = Counter()
    while len(taken) < how_many and any(by_sort.values()):
        for changes in filter(None, by_sort.values()):
            rarest = min(range(len(changes)), key=lambda at: of_item[changes[at].item])
            taken.append(changes.pop(rarest))
            of_item[taken[-1].item] += 1
    return taken[:how_many]


def refusal(change: Change) -> str | None:
    """Why the changed item is refused, or None where nobody notices. Anything but a BankError is let through."""
    module = change.item.split(".")[0]
    try:
        (item,) = read_file("changed.toml", module, change.text)
        return next((str(each) for each in check_item(item, DRAWS)), None)
    except BankError as error:
        return str(error)


def survivors(changes: list[Change]) -> list[Change]:
    """The changes that nobody notices."""
    return [each for each in changes if refusal(each) is None]


def report(changes: list[Change], left: list[Change]) -> str:
    """The share refused, by sort too, and each survivor with its change."""
    share = 1 - len(left) / len(changes)
    lines = [f"{len(changes) - len(left)} of {len(changes)} changes refused: {share:.1%}"]
    alive = Counter(each.sort for each in left)
    tried = Counter(each.sort for each in changes)
    lines += [f"  {count - alive[sort]:3} of {count:3}  {sort}" for sort, count in tried.items()]
    for each in left:
        lines += [f"survivor: {each.item}, {each.sort}", f"  - {each.before}", f"  + {each.after}"]
    return "\n".join(lines)


if __name__ == "__main__":
    tried = picked()
    print(report(tried, survivors(tried)))
