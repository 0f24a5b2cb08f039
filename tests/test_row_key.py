"""A row is named by its table and keys; only this type writes the name as text and reads it back."""

import re
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

import estimating
from estimating.row_key import RowKey

WORDS = st.text("abcdefghijklmnopqrstuvwxyz_0123456789 ", min_size=1)
CUT = re.compile(r"""(split|partition|join)\(\s*["']/["']|["']/["']\.join""")


@given(WORDS, st.lists(WORDS, min_size=1, max_size=5))
def test_what_is_written_reads_back(table: str, keys: list[str]) -> None:
    """Text and type are the same name, whatever the words."""
    key = RowKey.of(table, *keys)
    assert RowKey.parse(str(key)) == key
    assert str(key).endswith(key.within_table)


@given(WORDS, st.lists(WORDS, min_size=1, max_size=5), st.integers(0, 5))
def test_a_row_lies_in_every_part_named_by_its_first_keys(table: str, keys: list[str], kept: int) -> None:
    """And in no part of another table, nor in one named by another key."""
    key = RowKey.of(table, *keys)
    assert key.below(RowKey.of(table, *keys[:kept]))
    assert not key.below(RowKey(f"{table}x"))
    assert not key.below(RowKey.of(table, *keys, "more"))


def test_the_last_key_may_hold_the_sign_between_keys_when_the_reader_says_how_many_there_are() -> None:
    """A room is called what the household calls it."""
    assert RowKey.parse("this job/odds/roll/den / study", most=3).keys == ("odds", "roll", "den / study")


def test_no_other_module_cuts_or_joins_the_text_of_a_name() -> None:
    """One place knows what stands between keys."""
    package = Path(estimating.__file__).parent
    found = [path.name for path in sorted(package.rglob("*.py")) if CUT.search(path.read_text("utf-8"))]
    assert not found
