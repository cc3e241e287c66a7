"""Ids of records: UUID version 7, so that they sort by the time they were made."""

import secrets
import threading
import time
import uuid
from datetime import datetime

_lock = threading.Lock()
_last = 0


def new_id(moment: datetime | None = None) -> str:
    """A new UUIDv7 for that moment, or for now; always above the one before in this process.

    48 bits of milliseconds come first and 74 random bits after them. Two ids of one millisecond, or a clock that was
    set back, go on counting from the id before.
    """
    global _last
    milliseconds = time.time_ns() // 1_000_000 if moment is None else int(moment.timestamp() * 1000)
    with _lock:
        _last = max(milliseconds << 74 | secrets.randbits(74), _last + 1)
        count = _last
    head, tail = divmod(count, 1 << 62)
    stamp, more = divmod(head, 1 << 12)
    return str(uuid.UUID(int=stamp << 80 | 7 << 76 | more << 64 | 2 << 62 | tail))
