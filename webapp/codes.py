"""Codes that one person writes down and another types: on a slip, in a set-up address, for getting back in.

Capitals, spaces and dashes make no difference to any of them. Of slips and set-up addresses only `hashed` is kept.
"""

import hashlib
import hmac
import re
import secrets

# No 0 and O, no 1, I and L, no U beside V: a code is written down by hand and read by another.
LETTERS = "23456789ABCDEFGHJKMNPQRSTVWXYZ"
GROUP = 4
SLIP_LENGTH = 12
SET_UP_LENGTH = 16


def random_letters(number: int) -> str:
    """So many letters that nobody can guess."""
    return "".join(secrets.choice(LETTERS) for _ in range(number))


def set_up_code() -> str:
    """A random code for a set-up address, in groups."""
    return in_groups(random_letters(SET_UP_LENGTH))


def slip_code(key: bytes, slip_id: str) -> str:
    """The code of a slip, in groups: the same whenever it is asked for, so that a slip can be printed again.

    It is worked out from the server's key, so that nobody without that key can tell the code of an id.
    """
    number = int.from_bytes(hmac.digest(key, f"slip {slip_id}".encode(), "sha256"))
    letters = []
    for _ in range(SLIP_LENGTH):
        number, place = divmod(number, len(LETTERS))
        letters.append(LETTERS[place])
    return in_groups("".join(letters))


def in_groups(code: str) -> str:
    """7KQM2XWD as 7KQM-2XWD."""
    return "-".join(code[at : at + GROUP] for at in range(0, len(code), GROUP))


def bare(code: str) -> str:
    """A code as typed, without what makes no difference."""
    return re.sub(r"[\s\-\u2010-\u2015]", "", code).upper()


def hashed(code: str) -> str:
    """What is kept of a code. It has too many letters for trying them all, so a plain hash will do."""
    return hashlib.sha256(bare(code).encode()).hexdigest()
