"""Item files: what is refused as a file, and which lines an item's version is the hash of."""

import time

import pytest

from question_bank.bank import load_bank, read_file
from question_bank.errors import BankError
from tests.bank.items import CHOICE, SOUND, item


def test_two_items_of_one_id_are_refused(tmp_path):
    (tmp_path / "units").mkdir()
    for name in ("first.toml", "second.toml"):
        (tmp_path / "units" / name).write_text(CHOICE, encoding="utf-8")
    with pytest.raises(BankError, match=r"same id stands in units/first\.toml"):
        load_bank(tmp_path)


@pytest.mark.parametrize("text", ["[broken", "left = ", "[a]\n[a]\n", 'x = "\\q"'])
def test_a_file_that_is_no_toml_is_refused(text):
    with pytest.raises(BankError, match="TOML") as caught:
        read_file("units/broken.toml", "units", text)
    assert caught.value.file == "units/broken.toml"


@pytest.mark.parametrize(
    "text", ["x = 1\n", "[[which-ton]]\nkind = 'choice'\n", '["with space"]\nkind = "card"\n', "kind = 'card'\n"]
)
def test_a_file_that_is_no_table_of_items_is_refused(text):
    with pytest.raises(BankError):
        read_file("units/odd.toml", "units", text)


def test_a_line_of_a_long_text_is_not_taken_for_the_next_item():
    """Else the text that is kept with a question would break off in the middle."""
    long_why = 'why = """\nLook at the plate.\n[left-over]\nThen at the dial.\n"""\nsource ='
    try:
        found = item(CHOICE, ("source =", long_why))
    except BankError:
        return
    assert found.text.strip().endswith('source = "Definitions of the units"')


@pytest.mark.parametrize("gap", ["\n", "# a note\n", "   \n"])
def test_a_gap_of_many_lines_costs_nothing(gap):
    """Twenty-two blank or commented lines in the middle of an item are read at once; each must not double the time."""
    begin = time.perf_counter()
    item(CHOICE, ("source =", gap * 22 + "source ="))
    assert time.perf_counter() - begin < 0.1


def test_a_comment_above_an_item_belongs_to_no_other():
    """A mended comment must not give the item before it a new version."""
    two = SOUND + "# The plate next.\n" + CHOICE
    first, _ = read_file("units/two.toml", "units", two)
    mended, _ = read_file("units/two.toml", "units", two.replace("The plate next", "Now the plate"))
    assert first.text_hash == mended.text_hash


def test_the_hash_of_an_item_moves_with_its_own_text_only():
    two = SOUND + CHOICE
    first, second = read_file("units/two.toml", "units", two)
    mended_first, mended_second = read_file("units/two.toml", "units", two.replace("Which ton is it?", "Which is it?"))
    assert first.text_hash == mended_first.text_hash and len(first.text_hash) == 16
    assert second.text_hash != mended_second.text_hash
