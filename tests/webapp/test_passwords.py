"""Passwords and recovery codes."""

import re

import pytest
from flask import Flask

from webapp import passwords

CHEAP = {"time_cost": 1, "memory_cost": 8, "parallelism": 1}


@pytest.fixture(autouse=True)
def cheap():
    """Hashes that cost next to nothing."""
    app = Flask(__name__)
    app.config["ARGON2"] = CHEAP
    with app.app_context():
        yield


@pytest.mark.parametrize(
    ("password", "part"),
    [
        ("kelly7x", "at least 8"),
        ("x" * 129, "at most 128"),
        ("Marek Osei-Lund", "Your name"),
        ("marekosei-lund", "Your name"),
        ("password", "Too many people"),
        ("PASSWORD1", "Too many people"),
        ("roughneck1", "Too many people"),
        ("qwertyuiop", "Too many people"),
        ("aaaaaaaaaaaa", "Too many people"),
        ("23456789", "Too many people"),
        ("hgfedcba", "Too many people"),
    ],
)
def test_a_refused_password_says_why(password, part):
    problem = passwords.problem_with(password, "Marek Osei-Lund")
    assert part in problem
    assert problem.endswith(".") and "!" not in problem


@pytest.mark.parametrize("password", ["wet pin dry box", "x7" * 64, "шесть слов подряд", "Pa$ssw0rd-of-1", "        a"])
def test_other_passwords_are_taken_without_rules_of_mixture(password):
    assert passwords.problem_with(password, "Marek Osei-Lund") is None


def test_a_password_matches_its_own_hash_only():
    kept = passwords.hash_password("wet pin dry box")
    assert kept.startswith("$argon2id$") and "wet" not in kept
    assert passwords.matches(kept, "wet pin dry box") is True
    for wrong in ("Wet pin dry box", "wet pin dry box ", "", "x" * 10_000):
        assert passwords.matches(kept, wrong) is False
    assert passwords.hash_password("wet pin dry box") != kept


def test_the_last_letter_of_the_longest_password_counts():
    """Nothing is cut off: 128 letters that differ in the last are two passwords."""
    kept = passwords.hash_password("x" * 127 + "y")
    assert passwords.matches(kept, "x" * 127 + "z") is False
    assert passwords.matches(kept, "x" * 127 + "y") is True


def test_one_letter_typed_in_two_ways_is_one_letter():
    assert passwords.matches(passwords.hash_password("café au lait"), "cafe\u0301 au lait") is True


def test_nobodys_password_is_always_wrong():
    """With no such person it takes a real hash to say no, and a spoilt hash is no as well."""
    assert passwords.matches(None, "wet pin dry box") is False
    assert passwords.matches("not a hash", "wet pin dry box") is False


def test_the_usual_cost_and_the_one_that_config_sets():
    """It is argon2id with 19 MiB, two passes, one lane, unless the app's config says otherwise."""
    assert passwords.COST == {"time_cost": 2, "memory_cost": 19_456, "parallelism": 1}
    kept = passwords._hasher_of(**passwords.COST).hash("x")
    assert kept.startswith("$argon2id$v=19$m=19456,t=2,p=1$")
    assert passwords.hash_password("x").startswith("$argon2id$v=19$m=8,t=1,p=1$")


def test_a_recovery_code_reads_the_same_in_any_hand():
    code = passwords.new_recovery_code()
    assert re.fullmatch(r"([2-9A-HJKMNP-TV-Z]{4}-){4}[2-9A-HJKMNP-TV-Z]{4}", code)
    kept = passwords.hash_recovery_code(code)
    for written in (code, code.lower(), code.replace("-", ""), code.replace("-", " "), f" {code.replace('-', '–')}\n"):
        assert passwords.matches_recovery_code(kept, written) is True
    assert passwords.matches_recovery_code(kept, passwords.new_recovery_code()) is False
    assert passwords.matches_recovery_code(kept, "") is False
    assert passwords.matches_recovery_code(None, code) is False


def test_codes_and_passwords_have_no_look_alikes_and_never_repeat():
    codes = {passwords.new_recovery_code() for _ in range(200)}
    words = {passwords.new_password() for _ in range(200)}
    assert len(codes) == len(words) == 200
    assert not set("01OILUoilu") & set("".join(codes | words))
    assert all(passwords.problem_with(word, "Marek") is None for word in words)


def test_the_list_of_common_passwords_holds_none_in_vain():
    """Each is long enough to be refused by the list alone, once, and in the spelling that is compared."""
    lines = passwords.REFUSED.read_text(encoding="utf-8").split("\n")[:-1]
    assert 200 < len(lines) == len(set(lines))
    assert all(len(line) >= passwords.SHORTEST and line == line.casefold() and " " not in line for line in lines)
