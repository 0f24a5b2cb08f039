"""Draws stay inside what rules allow, however wide a row is; what is known is not drawn; a wider class is wider."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from places import JOBS
from wide_rows import ranged, stops, twice_as_wide

from estimating.estimate.uncertainty.estimate_ranges import CORRELATED_GROUPS
from estimating.estimate.uncertainty.ranges import even_points, fit, lay_out, lots, simulate, usual_bounds
from estimating.estimate.uncertainty.rule_limits import rule_limits
from estimating.evidence import Basis, OwnValue, load_library
from estimating.figures import Figure, StandingTree, is_luck, leaf, leaves, work
from estimating.origins import judgment
from estimating.rules import rule
from estimating.workbook import estimate_job, read_job

POINTS = 17
MADE_UP = judgment("made up for the test")


@rule("1 / (passes - 1)", "dimensionless", MADE_UP, passes="dimensionless, more than 1, at most 3", share="percent")
def _flash(*, passes, share):
    return share / (passes - 1)


@pytest.mark.parametrize("path", sorted(JOBS.glob("*.toml")), ids=lambda path: path.stem)
def test_twice_as_wide_a_row_stops_no_estimate(path: Path) -> None:
    """Every row that a demo job uses is drawn twice as wide, one after the other, beside the draws of all others."""
    estimate = estimate_job(read_job(path)).estimate
    targets = [estimate.amount, estimate.hours, estimate.schedule.days]
    limits = rule_limits(targets)
    layout = lay_out(leaves(targets), groups=CORRELATED_GROUPS, limits=limits)
    points = even_points(lots(layout.width), POINTS, 5)
    drawn, tree = layout.draws(points), StandingTree(targets)
    rows: dict[object, list[Figure]] = {}
    for each in filter(lambda each: not is_luck(each), layout.columns):
        rows.setdefault(each.key or each, []).append(each)
    for alike in rows.values():
        first = alike[0]
        low, high = twice_as_wide(first)
        wide = fit(low, first.value, high, usual_bounds(first)).at(np.clip(points[layout.columns[first]], 0.01, 0.99))
        within = {each: np.clip(wide, *limits.get(each, (-np.inf, np.inf))) for each in alike}
        assert np.isfinite(np.asarray(tree.at({**drawn, **within})[0])).all(), first.name


@pytest.mark.parametrize("job", ["alder_row", "birch_lane", "mill_end", "quarry_lane"])
def test_a_row_of_ones_own_twice_as_wide_stops_no_estimate(job: str) -> None:
    """One row in nine, given as a value of one's own, through planning and ranges; wide_rows.py does them all."""
    (path,) = JOBS.glob(f"{job}*.toml")
    rows = ranged(path)
    few = {key: row for place, (key, row) in enumerate(rows.items()) if place % 9 == 0 or "overlap" in key}
    assert [*stops(path, few)] == []


def test_a_draw_beyond_a_rule_lies_on_its_bound() -> None:
    """A range of 1.2 to 3.4 passes is drawn no lower than above 1 and no higher than 3; others are left alone."""
    passes = leaf("passes", 2.0, "dimensionless", MADE_UP, low=1.2, high=3.4)
    share = leaf("share", 0.5, "dimensionless", MADE_UP, low=0.2, high=0.9)
    flash = work(_flash, "flash", passes=passes, share=share)
    assert rule_limits([flash]).keys() == {passes}
    drawn, worked = simulate([passes, flash], points=512)
    assert 1 < drawn.min() < 1.2
    assert drawn.max() == 3
    assert np.isfinite(worked).all()


def test_what_a_contractor_knows_is_not_drawn() -> None:
    """A wage of one's own has no range and says so; while it is invented it has one; an own rate keeps its range."""
    rate = "production/roll_wall/roll/any"
    library = load_library()
    own = {"business/wage": OwnValue(31, "dollar/hour"), "business/overhead": OwnValue(12, "dollar/hour", 10, 15)}
    basis, plain = Basis(library, own), Basis(library)
    wage = basis.figure("business", "wage")
    assert wage.low == wage.value == wage.high == 31
    assert "not drawn" in wage.origin.place
    assert basis.figure("business", "overhead").high == 15
    invented = plain.figure("business", "wage")
    assert invented.low is not None
    assert invented.low < invented.value
    if library.has(rate):
        mine = Basis(library, {rate: OwnValue(200, "ft**2/hour")}).figure("production", "roll_wall", "roll", "any")
        assert mine.low is not None
        assert mine.low < mine.value


def test_a_row_of_a_wider_class_has_a_wider_range() -> None:
    """By what the table of factors says, on the log scale; the likely value and the row itself stay, and it says so."""
    basis = Basis(load_library())
    by = basis.figure("factors", "nearest_class", "log_range").value
    asked = basis.nearest("coverage", "popcorn_medium", "sealed", "later", "roll")
    row = basis.figure("coverage", "popcorn_medium", "sealed", "any", "any")
    assert asked.value == row.value
    assert asked.key == row.key
    assert asked.low is not None
    assert row.low is not None
    assert np.log(asked.value / asked.low) == pytest.approx(by * np.log(row.value / row.low))
    assert f"{by:g} times as wide" in asked.origin.note
    assert asked is basis.nearest("coverage", "popcorn_medium", "sealed", "first", "roll")


def test_methods_of_one_ceiling_meet_with_the_same_luck() -> None:
    """Where rolling and spraying one ceiling are drawn together, one draw decides for both: no luck is drawn twice."""
    outcome = estimate_job(read_job(JOBS / "alder_row_sitting_room.toml"))
    plans = outcome.choices[0].plans
    roll, spray = (next(each for each in plans if each.method == name) for name in ("roll", "spray"))
    expected = [plan.risks[0].expected for plan in (roll, spray)]
    assert len([each for each in leaves(expected) if is_luck(each)]) == 2
    rolled, sprayed = simulate(expected, points=512)
    assert not ((sprayed > 0) & (rolled == 0)).any()
