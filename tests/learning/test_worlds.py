"""Learning in worlds whose truth is known to the tests only; `python tests/worlds.py` prints them all."""

import pytest
from worlds import tried


def test_total_hours_alone_teach_the_pace() -> None:
    """Three jobs of which only the total was written down bring the next total's error to 0.11, and stay honest."""
    before, after = tried("totals only", 3, contractors=300)
    assert before.total > 0.17
    assert after.total <= 0.11
    assert 0.75 <= after.inside <= 0.85  # single lines: a little wide, since a total says nothing of them apart


def test_a_slip_of_the_pen_moves_no_rate() -> None:
    """A line ten times too long costs at most 0.01 of error."""
    plain, slip = (tried(world, 3, contractors=60)[1] for world in ("plain", "one slip"))
    assert slip.total - plain.total <= 0.01
    assert slip.line - plain.line <= 0.01


def test_in_a_plain_world_the_error_comes_near_its_floor_and_the_range_stays_honest() -> None:
    """After five jobs a line is told nearly as well as its own scatter allows, 0.12."""
    before, after = tried("plain", 5, contractors=80)
    assert after.line <= 0.14 < before.line
    assert 0.74 <= after.inside <= 0.86


@pytest.mark.parametrize("jobs", [10])
def test_a_crew_is_told_from_another(jobs: int) -> None:
    """Two crews half as fast again: the next job of one is told better by saying which."""
    before, after = tried("two crews", jobs, contractors=40)
    assert after.total < before.total / 2
