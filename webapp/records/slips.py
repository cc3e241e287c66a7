"""Sign-on slips: a code on paper by which hands join a crew, or one hand signs in for the first time."""

from dataclasses import dataclass
from datetime import datetime

from webapp import codes
from webapp.records import house
from webapp.records.connection import Store
from webapp.records.ids import new_id
from webapp.records.moments import as_moment, as_text


@dataclass(frozen=True, slots=True)
class Slip:
    """One slip. `person` is whose first sign-in it is for; None for a slip that anybody joins the crew by."""

    id: str
    crew: str
    person: str | None
    most_uses: int
    uses: int
    made_at: datetime
    until: datetime
    revoked_at: datetime | None

    def state(self, now: datetime) -> str:
        """'open', or why it does not work: 'revoked', 'used' up, or 'ended'."""
        if self.revoked_at:
            return "revoked"
        if self.uses >= self.most_uses:
            return "used"
        return "open" if now < self.until else "ended"


SLIPS = (
    "select slips.id, crew, person, most_uses, (select count(*) from slip_uses where slip = slips.id), made_at, until,"
    " revoked_at from slips"
)


def make(
    store: Store, crew_id: str, by: str, now: datetime, until: datetime, most_uses: int = 1, person: str | None = None
) -> Slip:
    """Make a slip. Of its code only a hash is kept; `code_of` works it out again."""
    slip = Slip(new_id(now), crew_id, person, most_uses, 0, now, until, None)
    code_hash = codes.hashed(code_of(store, slip.id))
    with store.writing() as db:
        db.execute(
            "insert into slips (id, code_hash, crew, person, most_uses, made_by, made_at, until)"
            " values (?, ?, ?, ?, ?, ?, ?, ?)",
            [slip.id, code_hash, crew_id, person, most_uses, by, as_text(now), as_text(until)],
        )
    return slip


def code_of(store: Store, slip_id: str) -> str:
    """The code that stands on the slip, in groups."""
    return codes.slip_code(house.server_key(store), slip_id)


def by_code(store: Store, code: str) -> Slip | None:
    """The slip on which that code stands, working or not; None for a code that stands on none."""
    row = store.db.execute(f"{SLIPS} where code_hash = ?", [codes.hashed(code)]).fetchone()
    return row and _slip(row)


def of_crew(store: Store, crew_id: str) -> list[Slip]:
    """All slips of a crew, newest first."""
    rows = store.db.execute(f"{SLIPS} where crew = ? order by made_at desc, slips.id desc", [crew_id])
    return [_slip(row) for row in rows]


def use(store: Store, slip: Slip, person_id: str, now: datetime) -> bool:
    """Use a slip for a person; False, and nothing done, where it does not work any more or they have used it."""
    with store.writing() as db:
        row = db.execute(f"{SLIPS} where slips.id = ?", [slip.id]).fetchone()
        if _slip(row).state(now) != "open":
            return False
        done = db.execute(
            "insert into slip_uses (slip, person, at) values (?, ?, ?) on conflict do nothing",
            [slip.id, person_id, as_text(now)],
        )
    return done.rowcount == 1


def revoke(store: Store, slip_id: str, now: datetime) -> None:
    """End a slip before its day."""
    with store.writing() as db:
        db.execute("update slips set revoked_at = ? where id = ? and revoked_at is null", [as_text(now), slip_id])


def revoke_all(store: Store, crew_id: str, now: datetime, person_id: str | None = None) -> None:
    """End every slip of a crew, or those for one person's first sign-in."""
    with store.writing() as db:
        db.execute(
            "update slips set revoked_at = ? where crew = ? and (? is null or person = ?) and revoked_at is null",
            [as_text(now), crew_id, person_id, person_id],
        )


def follow(store: Store, person_id: str, crew_id: str) -> None:
    """Take a person's slip for their first sign-in, if one is open, to the crew that they are in now."""
    with store.writing() as db:
        db.execute("update slips set crew = ? where person = ? and revoked_at is null", [crew_id, person_id])


def _slip(row: tuple) -> Slip:
    id, crew, person, most_uses, uses, made_at, until, revoked_at = row
    ended = as_moment(revoked_at) if revoked_at else None
    return Slip(id, crew, person, most_uses, uses, as_moment(made_at), as_moment(until), ended)
