"""A process to be killed: threads that record attempts and print the id of each one once `record` has returned.

python -m tests.webapp.records.recording RECORDS PERSON PERSON ...
"""

import os
import sys
import threading
from itertools import count

from tests.webapp.records.samples import attempt
from webapp.records import attempts
from webapp.records.connection import Store


def main(path: str, *people: str) -> None:
    """One thread for each person; none of them ends by itself."""
    store = Store(path)
    for person in people:
        threading.Thread(target=_record, args=(store, person), daemon=True).start()
    threading.Event().wait()


def _record(store: Store, person: str) -> None:
    for number in count():
        made = attempt(store, person, f"units.item-{number % 7}", days=number % 40)
        if attempts.record(store, made):
            os.write(1, f"{made.id}\n".encode())


if __name__ == "__main__":
    main(*sys.argv[1:])
