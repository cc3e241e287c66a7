"""No page reads all of the attempts or all of the memory: both grow by every answer of everybody in the house."""

import pytest

from tests.bench.query_plans import full_scans, statements_of
from tests.webapp.test_routes import NAMES, _answers, known  # noqa: F401  (a fixture)

GROWING = ("attempts", "memory")


@pytest.mark.parametrize("who", ["owner", "own_observer", "own_coordinator"])
def test_no_page_reads_all_of_what_grows(hands, known, house, who):  # noqa: F811
    owner, ids = known
    browser = owner if who == "owner" else hands(NAMES[who])
    conn = house.db.conn
    with statements_of(conn) as seen:
        for _ in _answers(browser, ids):
            pass
    assert len(seen) > 50
    assert full_scans(conn, seen, GROWING) == []


@pytest.mark.parametrize(
    "statement",
    [
        "select * from attempts",
        "select count(*) from memory",
        "select a.id from attempts as a join questions on questions.id = a.id",
        "select item from memory where back_on > '2026-03-02'",
        "select max(answered_at) from attempts",
        "select person, count(*) from counted group by person",
        "select id from attempts where item = 'x' order by person",
    ],
)
def test_a_statement_that_does_is_found(house, statement):
    assert full_scans(house.db.conn, [statement], GROWING) == [statement]


@pytest.mark.parametrize(
    "statement",
    [
        "select * from attempts where id = 'x'",
        "select * from counted where person = 'x' order by answered_at desc limit 3",
        "select item from memory where person in ('x', 'y')",
        "select * from people",
        "insert into memory values ('a', 'b', 1.0, 1.0, '2026-03-02', '2026-03-03')",
        "delete from memory where person = 'x' and item = 'y'",
        "pragma user_version",
    ],
)
def test_one_that_goes_by_an_index_is_let_pass(house, statement):
    assert full_scans(house.db.conn, [statement], GROWING) == []
