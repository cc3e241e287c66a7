"""The people who study here. There is no e-mail address: a name, a password and a recovery code."""

import itertools
import unicodedata
from collections.abc import Collection
from dataclasses import dataclass, fields
from datetime import datetime

from webapp.records.connection import Store
from webapp.records.ids import new_id
from webapp.records.moments import as_moment, as_text

SETTINGS = ("system", "comma", "minutes", "minutes_off", "free_entry")


class NameTaken(ValueError):
    """Somebody here has that name already; capitals and spacing make no difference."""


@dataclass(frozen=True, slots=True)
class Person:
    """One person. `system` is 'us' or 'metric'; `comma` is True for a hand who writes 12,5. `minutes` are for a day
    on the rig, or for every day where there is no rotation; `minutes_off` for a day off.

    Two hands may have one name. `sign_in` is what one of them types to sign in, and is theirs alone.
    """

    id: str
    name: str
    sign_in: str
    system: str
    comma: bool
    minutes: int
    minutes_off: int
    free_entry: bool
    created_at: datetime

    @property
    def known_as(self) -> str:
        """The name, and beside it what they sign in as where that is another: it tells two of one name apart."""
        return known_as(self.name, self.sign_in)


COLUMNS = ", ".join(f"people.{field.name}" for field in fields(Person))


def from_row(row: tuple) -> Person:
    """A Person from a row of COLUMNS."""
    id, name, sign_in, system, comma, minutes, minutes_off, free_entry, created_at = row
    return Person(id, name, sign_in, system, bool(comma), minutes, minutes_off, bool(free_entry), as_moment(created_at))


def name_key(name: str) -> str:
    """What two spellings of one name have in common: 'marek  OSEI' and 'Marek Osei' are one person."""
    return " ".join(unicodedata.normalize("NFKC", name).casefold().split())


def known_as(name: str, sign_in: str) -> str:
    """A name, and beside it what they sign in as where that is another."""
    return name if name_key(name) == name_key(sign_in) else f"{name} ({sign_in})"


def join(
    store: Store,
    name: str,
    password_hash: str,
    code_hash: str,
    *,
    system: str,
    comma: bool,
    minutes: int,
    now: datetime,
    free_entry: bool = False,
    sign_in: str | None = None,
) -> Person:
    """Add a person. `sign_in` is what they type to sign in, where it is not their name. Raises NameTaken."""
    shown, typed = _tidy(name), _tidy(sign_in or name)
    row = (new_id(now), shown, typed, system, int(comma), minutes, minutes, int(free_entry), as_text(now))
    with store.writing() as db:
        taken = db.execute("select 1 from people where name_key = ?", [name_key(typed)]).fetchone()
        if taken:
            raise NameTaken(f"The name {typed!r} is taken. Add a middle name or a nickname.")
        db.execute(
            "insert into people (id, name, sign_in, system, comma, minutes, minutes_off, free_entry, created_at,"
            " name_key, password_hash, code_hash) values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            [*row, name_key(typed), password_hash, code_hash],
        )
    return from_row(row)


def _tidy(name: str) -> str:
    return " ".join(unicodedata.normalize("NFC", name).split())


def by_id(store: Store, person_id: str) -> Person | None:
    """The person with that id, or None."""
    row = store.db.execute(f"select {COLUMNS} from people where id = ?", [person_id]).fetchone()
    return row and from_row(row)


def by_name(store: Store, name: str) -> Person | None:
    """The person who signs in as that, whatever its capitals and spacing, or None."""
    row = store.db.execute(f"select {COLUMNS} from people where name_key = ?", [name_key(name)]).fetchone()
    return row and from_row(row)


def of_names(store: Store, keys: Collection[str]) -> dict[str, list[Person]]:
    """Who has one of these names (as `name_key` gives them), whatever they sign in as; by that key, oldest first.

    Everybody is read: names have no key of their own, and a house has some hundreds of people.
    """
    found: dict[str, list[Person]] = {}
    for row in store.db.execute(f"select {COLUMNS} from people order by created_at, id"):
        person = from_row(row)
        if (key := name_key(person.name)) in keys:
            found.setdefault(key, []).append(person)
    return found


def change_settings(store: Store, person_id: str, **settings: str | bool | int) -> None:
    """Set any of SETTINGS for a person; the others stay. Raises ValueError for a name that is not a setting."""
    unknown = set(settings) - set(SETTINGS)
    if unknown:
        raise ValueError(f"{', '.join(sorted(unknown))}: no such setting. Settings are {', '.join(SETTINGS)}.")
    with store.writing() as db:
        for name, value in settings.items():
            db.execute(f"update people set {name} = ? where id = ?", [value, person_id])


def secrets_of(store: Store, person_id: str) -> tuple[str, str] | None:
    """The hashes of a person's password and recovery code, or None."""
    return store.db.execute("select password_hash, code_hash from people where id = ?", [person_id]).fetchone()


def free_sign_in(store: Store, name: str, besides: Collection[str] = ()) -> str:
    """What somebody of that name can sign in as: the name, or the first of 'Sam Hill 2', 'Sam Hill 3' … that is free.

    `besides` has the keys of names that are about to be taken.
    """
    name = _tidy(name)
    for number in itertools.count(1):
        offered = name if number == 1 else f"{name} {number}"
        key = name_key(offered)
        if key not in besides and not store.db.execute("select 1 from people where name_key = ?", [key]).fetchone():
            return offered
    raise AssertionError("Numbers do not end.")


def without_password(store: Store, person_ids: Collection[str]) -> set[str]:
    """Who of these has never signed in: they were put in a crew, and their slip is not used yet."""
    marks = ", ".join("?" for _ in person_ids)
    rows = store.db.execute(f"select id from people where password_hash = '' and id in ({marks})", list(person_ids))
    return {id for (id,) in rows}


def set_password(store: Store, person_id: str, password_hash: str) -> None:
    """Set a new password. Every session of the person ends with the old one."""
    with store.writing() as db:
        db.execute("update people set password_hash = ? where id = ?", [password_hash, person_id])
        db.execute("delete from sessions where person = ?", [person_id])


def set_recovery(store: Store, person_id: str, code_hash: str) -> None:
    """Set a new recovery code; the old one no longer works."""
    with store.writing() as db:
        db.execute("update people set code_hash = ? where id = ?", [code_hash, person_id])
