"""Rig sheets: the numbers of a rig, or those that a hand filled in. Each saving is a new version; none is changed."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from webapp.records.connection import Store
from webapp.records.ids import new_id
from webapp.records.moments import as_moment, as_text


@dataclass(frozen=True, slots=True)
class RigSheet:
    """One version of a sheet: of a rig (`rig` is set), or of a hand (`person` is set).

    `values` are texts with their unit by the fields of a sheet, `notes` say why an unusual one is right. `draws` has
    what was found when it was saved: by item its hash, and by system why it can't be asked with these numbers, or None.
    `for_rig` is the rig that a hand was on when they filled it in. `read_on` is the day on which its numbers of the day
    were read. A hand's sheet without values says that they took theirs back. Names are those of people and rigs.
    """

    id: str
    rig: str | None
    rig_name: str | None
    person: str | None
    person_name: str | None
    version: int
    made_by: str
    made_at: datetime
    checked_by: str | None
    checked_at: datetime | None
    values: Mapping[str, str]
    notes: Mapping[str, str]
    draws: Mapping[str, Mapping[str, str | None]]
    for_rig: str | None
    read_on: date


SHEETS = (
    "select rig_sheets.id, rig_sheets.rig, rigs.name, rig_sheets.person, hand.name, version, maker.name,"
    " rig_sheets.made_at, checker.name, checked_at, body"
    " from rig_sheets join people maker on maker.id = rig_sheets.made_by"
    " left join people checker on checker.id = rig_sheets.checked_by"
    " left join people hand on hand.id = rig_sheets.person left join rigs on rigs.id = rig_sheets.rig"
)


def keep(
    store: Store,
    values: Mapping[str, str],
    notes: Mapping[str, str],
    draws: Mapping[str, Mapping[str, str | None]],
    *,
    system: str,
    by: str,
    now: datetime,
    rig: str | None = None,
    person: str | None = None,
    for_rig: str | None = None,
    read_on: date | None = None,
) -> RigSheet:
    """Keep a new version for a rig or for a person, one of the two (else sqlite3.IntegrityError).

    `read_on` is the date of `now` unless it is told.
    """
    body = {
        "values": dict(values), "notes": dict(notes), "draws": dict(draws), "for_rig": for_rig,
        "read_on": (read_on or now.date()).isoformat(),
    }  # fmt: skip
    sheet_id = new_id(now)
    with store.writing() as db:
        last = db.execute(
            "select max(version) from rig_sheets where rig = ? or person = ?", [rig, person]
        ).fetchone()[0]  # fmt: skip
        db.execute(
            "insert into rig_sheets (id, rig, person, version, system, body, made_by, made_at)"
            " values (?, ?, ?, ?, ?, ?, ?, ?)",
            [sheet_id, rig, person, (last or 0) + 1, system, json.dumps(body, ensure_ascii=False), by, as_text(now)],
        )
    return get(store, sheet_id)


def take_over(store: Store, sheet: RigSheet, rig_id: str, by: str, now: datetime) -> RigSheet:
    """Keep a hand's sheet as the next version of a rig's, checked where it was: the numbers are the same."""
    with store.writing() as db:
        system, checked_by, checked_at = db.execute(
            "select system, checked_by, checked_at from rig_sheets where id = ?", [sheet.id]
        ).fetchone()
        taken = keep(
            store, sheet.values, sheet.notes, sheet.draws, system=system, by=by, now=now, rig=rig_id,
            read_on=sheet.read_on,
        )  # fmt: skip
        db.execute(
            "update rig_sheets set checked_by = ?, checked_at = ? where id = ?", [checked_by, checked_at, taken.id]
        )
    return get(store, taken.id)


def get(store: Store, sheet_id: str) -> RigSheet | None:
    """The sheet with that id, or None."""
    row = store.db.execute(f"{SHEETS} where rig_sheets.id = ?", [sheet_id]).fetchone()
    return row and _sheet(row)


def of_rig(store: Store, rig_id: str) -> list[RigSheet]:
    """All versions of a rig's sheet, the newest first."""
    rows = store.db.execute(f"{SHEETS} where rig_sheets.rig = ? order by version desc", [rig_id])
    return [_sheet(row) for row in rows]


def of_person(store: Store, person_id: str) -> list[RigSheet]:
    """All versions of the sheet that a hand filled in, the newest first."""
    rows = store.db.execute(f"{SHEETS} where rig_sheets.person = ? order by version desc", [person_id])
    return [_sheet(row) for row in rows]


def checked_of_rig(store: Store, rig_id: str) -> RigSheet | None:
    """The newest version of a rig's sheet that somebody has checked, or None."""
    row = store.db.execute(
        f"{SHEETS} where rig_sheets.rig = ? and checked_by is not null order by version desc limit 1", [rig_id]
    ).fetchone()
    return row and _sheet(row)


def newest_of_person(store: Store, person_id: str, rig_id: str | None) -> RigSheet | None:
    """The newest version of a hand's own sheet, or None; None too if that one has no values.

    For a hand who is on a rig, one that was filled in on another rig is none.
    """
    row = store.db.execute(
        f"{SHEETS} where rig_sheets.person = ?"
        " and (? is null or coalesce(json_extract(body, '$.for_rig'), ?) = ?) order by version desc limit 1",
        [person_id, rig_id, rig_id, rig_id],
    ).fetchone()
    newest = row and _sheet(row)
    return newest if newest and newest.values else None


def of_hands(store: Store, crew_ids: list[str], rig_id: str) -> list[RigSheet]:
    """For each hand in these crews the newest own sheet of that rig which their coordinators may see, by name."""
    marks = ", ".join("?" for _ in crew_ids)
    rows = store.db.execute(
        f"{SHEETS} join memberships on memberships.person = rig_sheets.person and memberships.left_at is null"
        f" where memberships.crew in ({marks}) and rig_sheets.made_at >= memberships.sees_from"
        " and coalesce(json_extract(body, '$.for_rig'), ?) = ? order by hand.name, hand.sign_in, version",
        [*crew_ids, rig_id, rig_id],
    )
    newest = {sheet.person: sheet for sheet in map(_sheet, rows)}
    return [sheet for sheet in newest.values() if sheet.values]


def that_counts(store: Store, person_id: str, rig_id: str | None) -> RigSheet | None:
    """The sheet whose numbers a hand is asked with: the rig's newest checked one, else their own newest."""
    checked = checked_of_rig(store, rig_id) if rig_id else None
    return checked or newest_of_person(store, person_id, rig_id)


def mark_checked(store: Store, sheet_id: str, by: str, now: datetime) -> bool:
    """Write down who has held a sheet against the plates; whether it was not checked before."""
    with store.writing() as db:
        changed = db.execute(
            "update rig_sheets set checked_by = ?, checked_at = ? where id = ? and checked_by is null",
            [by, as_text(now), sheet_id],
        )
        return changed.rowcount == 1


def _sheet(row: tuple) -> RigSheet:
    *head, made_at, checked_by, checked_at, body = row
    told = json.loads(body)
    when = as_moment(checked_at) if checked_at else None
    made = as_moment(made_at)
    read_on = date.fromisoformat(told["read_on"]) if "read_on" in told else made.date()
    return RigSheet(
        *head, made, checked_by, when, told["values"], told["notes"], told["draws"], told["for_rig"], read_on
    )
