"""Nobody is shown British spelling, or a word this house has put away."""

import pytest
from words import PUT_AWAY, RULES, problems


def test_every_word_shown_is_one_of_ours() -> None:
    """Labels, messages, tables, notebooks with what they print, demo jobs, README and changelog."""
    assert problems() == []


@pytest.mark.parametrize("text", ["the colour of the mould", "not here", "a piece of work", "Putting back", "grey"])
def test_a_word_put_away_is_noticed(text: str) -> None:
    """The rules find what they are for, whatever its case."""
    assert any(rule.search(text) for rule in RULES)


def test_each_word_put_away_has_another_in_its_place() -> None:
    """A rule says what to write instead."""
    assert all(PUT_AWAY.values())
