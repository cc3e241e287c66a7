"""Prints at the end of a run how many published figures were met, those from memory apart."""

from tests.published.trade_table import BY_HAND, MEMORY, ROWS, SEEN


def pytest_terminal_summary(terminalreporter):
    """One line for what is counted, one for what is not."""
    met = {
        report.nodeid.split("[")[-1].rstrip("]")
        for report in terminalreporter.stats.get("passed", [])
        if "test_trade_table.py::test_a_printed" in report.nodeid or "::test_a_remembered" in report.nodeid
    }
    if not met:
        return
    ids = {known: [row.id for row in ROWS if row.known == known] for known in (SEEN, BY_HAND, MEMORY)}
    count = {known: f"{len(met & set(row_ids))} of {len(row_ids)}" for known, row_ids in ids.items()}
    terminalreporter.write_line(
        f"Published figures met: {count[SEEN]} seen on a page, {count[BY_HAND]} worked out by hand."
    )
    terminalreporter.write_line(f"Not counted, {count[MEMORY]} met, from memory: {', '.join(ids[MEMORY])}.")
