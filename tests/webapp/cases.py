"""The case of tests/bank given to an application, with its items: no test of screens hangs on a shipped case."""

from question_bank.bank import Bank
from tests.bank import cases

CASE = "tried"
TITLES = ("Buoyancy of a mud", "A string in mud", "Which ton", "The load on the hook")


def give_case(app) -> None:
    """Add the case and its items to the application's own."""
    house = app.extensions["pinandbox"]
    house["bank"] = Bank([*house["bank"].values(), *cases.bank().values()])
    house["cases"] = {CASE: cases.case()}
