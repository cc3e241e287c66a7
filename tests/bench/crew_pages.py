"""What the pages of a coordinator cost beside a plain read of the same rows, and whether any reads all that grows.

    python -m tests.bench.crew_pages FILE [PEOPLE] [ATTEMPTS]

FILE is made by tests.bench.big_house where it is not there: 300 people and a million attempts unless told otherwise.
A page is timed whole, from request to bytes, as the coordinator of all crews; the read beside it fetches the rows that
the page is made of with plain selects by index, one after the other, and does nothing with them. Both run in turn, by
processor time, and the best of the rounds stands. The bar is twice the read.

Then every statement of both pages, of Today and of Record is looked at: none may read all of attempts or memory.
"""

import sys
import time
from collections.abc import Callable
from pathlib import Path

from argon2 import PasswordHasher

from tests.bench import big_house
from tests.bench.query_plans import full_scans, statements_of
from tests.webapp.conftest import CHEAP, PASSWORD
from tests.webapp.page_browser import TOKEN
from webapp import create_app
from webapp.records.connection import Store
from webapp.serving import keep_for_good

BAR = 2.0
ROUNDS = 9
COORDINATOR = "Rosalind Achterberg"
GROWING = ("attempts", "memory")
IN_ALL = ("memory", "parts_read", "sittings", "excuses", "exams", "memberships")
OF_ONE = ("attempts", "memory", "parts_read", "sittings", "excuses", "exams", "memberships", "sign_offs")


def make(path: Path, number: int, attempts: int) -> None:
    """The file, unless it is there."""
    if path.exists():
        return
    store = Store(path)
    store.migrate()
    big_house.fill(store, number, attempts, PasswordHasher(**CHEAP).hash(PASSWORD))
    store.close()


def rows_behind(conn, tables: tuple[str, ...], people: list[str]) -> int:
    """Fetch all rows of these people in these tables, and what is assigned; how many they are."""
    marks = ", ".join("?" for _ in people)
    found = 0
    for table in tables:
        found += len(conn.execute(f"select * from {table} where person in ({marks})", people).fetchall())
    return found + len(conn.execute("select * from assignments").fetchall())


def best(rounds: int, *jobs: Callable[[], object]) -> list[float]:
    """The least seconds of processor time of each job, all run in turn."""
    least = [float("inf")] * len(jobs)
    for _ in range(rounds):
        for at, job in enumerate(jobs):
            began = time.process_time()
            job()
            least[at] = min(least[at], time.process_time() - began)
    return least


def signed_in(app, name: str):
    """A browser of that hand. It looks at no page, so that only the page is timed."""
    browser = app.test_client()
    token = TOKEN.search(browser.get("/sign-in").text)[1]
    sent = browser.post("/sign-in", data={"token": token, "name": name, "password": PASSWORD})
    assert sent.status_code == 303, sent.text
    return browser


def timed(name: str, browser, page: str, conn, tables: tuple[str, ...], people: list[str]) -> bool:
    """Time a page beside the read of its rows and print both; whether it keeps to the bar."""
    size, rows = len(_got(browser, page)), rows_behind(conn, tables, people)
    plain, whole = best(ROUNDS, lambda: rows_behind(conn, tables, people), lambda: _got(browser, page))
    print(
        f"{name}: {whole * 1000:.0f} ms, {size / 1000:.0f} kB; plain read of its {rows:,} rows"
        f" {plain * 1000:.0f} ms; ratio {whole / plain:.2f}, bar {BAR}"
    )
    return whole <= BAR * plain


def main() -> None:
    path, number, attempts = Path(sys.argv[1]), *(int(each) for each in [*sys.argv[2:], "300", "1000000"][:2])
    make(path, number, attempts)
    app = create_app({"DATABASE": str(path), "CLOCK": lambda: big_house.START, "ARGON2": CHEAP})
    keep_for_good()  # as the server does
    conn = app.extensions["pinandbox"]["store"].db.conn
    people = [id for (id,) in conn.execute("select person from memberships where left_at is null order by person")]
    one = conn.execute(
        "select person from attempts where person in (select person from memberships) group by person"
        " order by count(*) desc limit 1"
    ).fetchone()[0]
    (all_attempts,) = conn.execute("select count(*) from attempts").fetchone()
    browser = signed_in(app, COORDINATOR)
    print(f"{len(people)} people, {all_attempts:,} attempts.")
    kept = [
        timed("matrix of all crews", browser, "/crews/all", conn, IN_ALL, people),
        timed("one person's page", browser, f"/people/{one}", conn, OF_ONE, [one]),
    ]
    hand = signed_in(app, conn.execute("select name from people where id = ?", [one]).fetchone()[0])
    with statements_of(conn) as seen:
        for page in ("/crews/all", f"/people/{one}"):
            _got(browser, page)
        for page in ("/today", "/record", "/record/attempts"):
            _got(hand, page)
    scans = full_scans(conn, seen, GROWING)
    print(f"{len(seen)} statements, {len(scans)} read all of {' or '.join(GROWING)}.", *scans, sep="\n")
    sys.exit(0 if all(kept) and not scans else 1)


def _got(browser, page: str) -> str:
    response = browser.get(page)
    assert response.status_code == 200, f"{page}: {response.status_code}"
    return response.text


if __name__ == "__main__":
    main()
