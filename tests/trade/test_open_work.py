"""Boards with gaps, uprights, lattice and stairs: plain geometry, worked by hand beside the rules."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.trade import open_work
from estimating.trade.walls import ladder_sets

INCH = 1 / 12
sizes = st.floats(0.02, 2.0)


def test_a_code_gives_the_balusters_of_a_level_railing() -> None:
    """Buxton, Maine, R-21: no more than 4 in clear. Ten feet of 1 1/2 in balusters are 120 / 5.5 = 21.8, so 22."""
    assert open_work.uprights(length=10.0, width=1.5 * INCH, gap=4 * INCH) == 22
    assert open_work.uprights(length=11.0, width=1.5 * INCH, gap=4 * INCH) == 24  # a whole number stays itself


def test_boards_without_a_gap_are_their_plan() -> None:
    """And 5 1/2 in boards 1/2 in apart, coated 1/4 in down each edge, are 6 in of skin on 6 in of plan."""
    assert open_work.gapped_boards_factor(width=5.5, gap=0.0, edge=0.0) == 1
    assert open_work.gapped_boards_factor(width=5.5, gap=0.5, edge=0.25) == pytest.approx(1)


def test_pickets_show_their_edges() -> None:
    """3 1/2 in pickets 3/4 in thick, 2 1/2 in apart: (2 · 3.5 + 2 · 0.75) / 6 = 1.417 of the face, both sides."""
    found = open_work.fence_boards_factor(width=3.5, gap=2.5, thickness=0.75, faces=2.0)
    assert found == pytest.approx(8.5 / 6)


def test_one_baluster_is_four_sides() -> None:
    """1 1/2 in square and 3 ft long: 4 · 0.125 · 3 = 1.5 ft²."""
    area = open_work.upright_area(count=1.0, width=0.125, thickness=0.125, height=3.0)
    assert area == pytest.approx(1.5)


def test_a_field_of_lattice_counted_strip_by_strip() -> None:
    """One pitch of each layer: 4 in by 4 in with strips of 1 in by 1/4 in.

    Two strips of 4 in each have 2 · (1 + 1/4) · 4 = 10 in² of skin; their crossing hides 1 in² of each. 18 of 16 in².
    """
    assert open_work.lattice_factor(strip=1.0, thickness=0.25, opening=3.0) == pytest.approx(18 / 16)


def test_lattice_stays_below_what_is_paid_for_it() -> None:
    """IS 1200 (Part 15) and old painters' rules pay trellis twice, all over: for its difficulty as well as its skin."""
    ordinary = open_work.lattice_factor(strip=1.5, thickness=0.25, opening=2.75)
    assert 1 < ordinary < 2


@given(sizes, sizes, sizes)
def test_a_wider_gap_never_adds_skin(width: float, gap: float, edge: float) -> None:
    """To boards, to a fence that has gaps already, or to lattice."""
    wider = gap * 1.5
    for rule in (
        lambda g: open_work.gapped_boards_factor(width=width, gap=g, edge=edge),
        lambda g: open_work.fence_boards_factor(width=width, gap=g, thickness=edge, faces=2.0),
    ):
        assert rule(wider) <= rule(gap)


def test_steps_and_posts() -> None:
    """Five steps 4 ft wide, 10 in deep with 7 in risers: 5 · 4 · 17 / 12 = 28.3 ft²; 42 ft in bays of 6 ft: 7 posts."""
    assert open_work.steps_area(steps=5.0, width=4.0, tread=10 * INCH, riser=7 * INCH) == pytest.approx(28.33, abs=0.01)
    assert open_work.posts(length=42.0, spacing=6.0) == 7


def test_ladders_are_set_for_each_time_a_wall_is_gone_over() -> None:
    """30 ft from sets of 8 ft are four, four times over sixteen."""
    assert ladder_sets(run=30.0, reach=8.0, passes=4.0) == 16
