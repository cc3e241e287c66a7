"""Case files: each read, and every name in it looked up in the bank. The sums are question_bank.check_cases's."""

import tomllib
from collections.abc import Mapping
from decimal import Decimal
from pathlib import Path

from question_bank.bank import Bank
from question_bank.case import EARLIER, NAMED, Case, Part
from question_bank.errors import BankError
from question_bank.givens import Given
from question_bank.item_fields import Fields
from question_bank.kinds.numeric_fields import read_givens
from question_bank.kinds.numeric_item import NumericItem

FOLDER = Path(__file__).with_name("cases")
FEWEST_PARTS = 2
KINDS = ("numeric", "choice")
"""The kinds that a sheet of paper can ask and answer."""


def load_cases(bank: Bank, folder: Path = FOLDER) -> dict[str, Case]:
    """Every case below `folder` by its id, which is its file's name. Raises BankError: file, case and field."""
    cases = (
        read_case(f"cases/{path.name}", path.stem, path.read_text(encoding="utf-8"), bank)
        for path in sorted(folder.glob("*.toml"))
    )
    return {each.id: each for each in cases}


def read_case(file: str, case_id: str, text: str, bank: Bank) -> Case:
    """The case of one file's text. Raises BankError."""
    try:
        table = tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        raise BankError(file, case_id, "-", f"this can't be read as TOML: {error}.") from None
    fields = Fields(file, case_id, table)
    fields.only("title", "module", "story", "source", "givens", "parts")
    givens = read_givens(fields)
    parts: list[Part] = []
    for row in fields.tables("parts"):
        parts.append(_part(row, bank, givens, parts))
    if len(parts) < FEWEST_PARTS:
        raise fields.fault("parts", f"a case has {FEWEST_PARTS} parts or more. One alone is an item.")
    case = Case(fields, givens, tuple(parts))
    _check_names(case)
    return case


def _part(row: Fields, bank: Bank, givens: Mapping[str, Given], before: list[Part]) -> Part:
    row.only("item", "given")
    item = bank.get(row.needed("item"))
    if item is None:
        raise row.fault("item", f"there is no item {row.table['item']!r} in the bank. Mend the name.")
    if item.kind not in KINDS:
        raise row.fault("item", f"{item.id} is of the kind {item.kind}. A part is one of {', '.join(KINDS)}.")
    fixed = row.inner("given") if "given" in row.table else Fields(row.file, row.item, {}, row.path)
    if fixed.table and not isinstance(item, NumericItem):
        raise row.fault("given", f"{item.id} is a {item.kind} and has no givens. Leave this out.")
    for name in fixed.table:
        if name not in item.givens:
            raise fixed.fault(name, f"{item.id} has no such given. Its givens are {', '.join(item.givens)}.")
        _check_source(fixed, name, item.givens[name], givens, before)
    return Part(item, {name: fixed.needed(name) for name in fixed.table})


def _check_source(fields: Fields, name: str, given: Given, givens: Mapping[str, Given], before: list[Part]) -> None:
    """What fixes a given: a shared one within its range, or an earlier result of its register."""
    source = fields.needed(name)
    if source in givens:
        register, ends, limit = givens[source].register, givens[source].ends, givens[source].limit
    else:
        item = _earlier(fields, name, source, givens, before)
        register, ends, limit = item.register, [], item.tolerance.side == "down"
    if register != given.register:
        raise fields.fault(name, f"{source!r} is of the register {register}, and this given of {given.register}.")
    if given.limit and not limit:
        raise fields.fault(name, f"this may not be exceeded, and {source!r} is not rounded down. Make it a limit too.")
    if not all(map(given.holds, ends)):
        raise fields.fault(name, f"{source!r} is drawn outside the range that the item draws from. Narrow it.")


def _earlier(fields: Fields, name: str, source: str, givens: Mapping[str, Given], before: list[Part]) -> NumericItem:
    """The item whose result is meant by 'part 2'. Raises BankError."""
    found = EARLIER.fullmatch(source)
    if found is None:
        known = ", ".join(givens)
        raise fields.fault(name, f"{source!r} is no shared given ({known}) and no earlier part (like 'part 1').")
    if not 1 <= int(found[1]) <= len(before):
        raise fields.fault(name, f"{source!r} does not stand before this part.")
    item = before[int(found[1]) - 1].item
    if not isinstance(item, NumericItem):
        raise fields.fault(name, f"{source!r} is a {item.kind}: it has no number to go on with.")
    return item


def _check_names(case: Case) -> None:
    """Each given that the story names is there, and each shared given is used."""
    for name in NAMED.findall(case.story):
        if name not in case.givens:
            raise case.fault("story", f"it names {{{name}}}, which is no given of this case.")
    used = {source for part in case.parts for source in part.given.values()}
    used |= {given.by for name, given in case.givens.items() if given.by and name in used}
    for name in case.givens:
        if name not in used:
            raise case.fault(f"givens {name}", "no part uses it. Take it out, or name it in a part.")
