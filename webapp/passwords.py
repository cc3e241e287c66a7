"""Passwords and recovery codes: which are taken, and how they are kept.

Both are kept as argon2id hashes. The cost is set by the app's config key ARGON2, for tests; it is 19 MiB and two passes
otherwise, so that a small machine still signs in a whole crew at shift change.
"""

import functools
import itertools
import secrets
import unicodedata
from pathlib import Path

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError
from flask import current_app, has_app_context

from webapp import codes

SHORTEST = 8
LONGEST = 128
COST = {"time_cost": 2, "memory_cost": 19_456, "parallelism": 1}

PASSWORD_LETTERS = 12
RECOVERY_LETTERS = 20

REFUSED = Path(__file__).with_name("refused_passwords.txt")


def problem_with(password: str, name: str) -> str | None:
    """The sentence that says why this password can't be taken by that person, or None if it can."""
    if len(password) < SHORTEST:
        return f"Use at least {SHORTEST} characters. Three or four words in a row are easy to keep in mind."
    if len(password) > LONGEST:
        return f"Use at most {LONGEST} characters."
    if _bare(password) == _bare(name):
        return "Your name can't be your password: it is the first thing that others try."
    if _bare(password) in _refused() or _is_run(password):
        return "Too many people use this password. Choose another: three or four words in a row are good."
    return None


def hash_password(password: str) -> str:
    """The argon2id hash to keep."""
    return _hasher().hash(_same_on_every_keyboard(password))


def matches(kept_hash: str | None, password: str) -> bool:
    """Whether the password belongs to the kept hash. For None (no such person) it is False after the same time."""
    hasher = _hasher()
    try:
        hasher.verify(kept_hash or _nobodys_hash(hasher), _same_on_every_keyboard(password[: LONGEST + 1]))
    except (VerificationError, InvalidHashError):
        return False
    return kept_hash is not None


def new_password() -> str:
    """A random password that is easy to type, for the demo and for a reset by whoever runs the server."""
    return codes.in_groups(codes.random_letters(PASSWORD_LETTERS)).lower()


def new_recovery_code() -> str:
    """A random recovery code, such as 7KQM-2XWD-9HTR-VB4C-Z3NP: shown once, then only its hash is kept."""
    return codes.in_groups(codes.random_letters(RECOVERY_LETTERS))


def hash_recovery_code(code: str) -> str:
    """The hash of a recovery code to keep."""
    return hash_password(codes.bare(code))


def matches_recovery_code(kept_hash: str | None, code: str) -> bool:
    """Whether the code belongs to the kept hash; capitals, spaces and dashes make no difference."""
    return matches(kept_hash, codes.bare(code))


def _hasher() -> PasswordHasher:
    cost = current_app.config.get("ARGON2", COST) if has_app_context() else COST
    return _hasher_of(**cost)


@functools.cache
def _hasher_of(time_cost: int, memory_cost: int, parallelism: int) -> PasswordHasher:
    return PasswordHasher(time_cost=time_cost, memory_cost=memory_cost, parallelism=parallelism)


@functools.cache
def _nobodys_hash(hasher: PasswordHasher) -> str:
    return hasher.hash(secrets.token_hex(16))


def _same_on_every_keyboard(text: str) -> str:
    """One spelling for letters that keyboards send in two ways (é as one sign or as e and an accent)."""
    return unicodedata.normalize("NFC", text)


def _bare(text: str) -> str:
    return "".join(unicodedata.normalize("NFKC", text).casefold().split())


def _is_run(password: str) -> bool:
    """Whether it is one character over and over, or each the next of the one before: aaaaaaaa, 34567890, hgfedcba."""
    steps = {ord(right) - ord(left) for left, right in itertools.pairwise(password)}
    return len(steps) == 1 and steps <= {-1, 0, 1}


@functools.cache
def _refused() -> frozenset[str]:
    return frozenset(REFUSED.read_text(encoding="utf-8").split())
