"""The range of a job holds what the learning supposes: jobs drawn from its own world fall inside eight times in ten."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import numpy as np
import numpy.typing as npt
import pytest
from places import JOBS

from estimating.estimate.pricing.build_up import Estimate
from estimating.estimate.uncertainty.estimate_ranges import CORRELATED_GROUPS, estimate_ranges
from estimating.estimate.uncertainty.ranges import even_points, lay_out, lots
from estimating.estimate.uncertainty.rule_limits import rule_limits
from estimating.evidence import Row, load_library
from estimating.figures import Figure, StandingTree, leaves
from estimating.learning.rates import Parts
from estimating.learning.scores import measure_of, per_amount, value_at
from estimating.workbook import estimate_job, read_job

TRIED = 4000
PARTS = Parts()
Array = npt.NDArray[np.float64]


def _scores(rows: list[Row], chance: np.random.Generator) -> dict[str, Array]:
    """Return how many spreads more effort each row takes: contractor, task and row, job and line, each a normal."""

    def drawn(share: float) -> Array:
        return share**0.5 * chance.normal(size=TRIED)

    contractor_and_job = drawn(PARTS.all_work + PARTS.crew + PARTS.job)
    tasks = {row.keys[0]: drawn(PARTS.task) for row in rows}
    alone = PARTS.row + PARTS.product + PARTS.line
    return {row.key: contractor_and_job + tasks[row.keys[0]] + drawn(alone) for row in rows}


def _rates(
    estimate: Estimate, drawn: Mapping[Figure, Array], limits: Mapping[Figure, tuple[float, float]]
) -> Mapping[Figure, Array]:
    """Return the rates of hours that the estimate rests on, as the contractors of that world turn out to work."""
    library, chance = load_library(), np.random.default_rng(77)
    figures = [each for each in drawn if each.key.startswith("production/") and library.has(each.key)]
    rows = {each.key: library.named(each.key) for each in figures}
    hours = {
        key: row for key, row in rows.items() if 0 < row.low < row.likely < row.high and measure_of(row) == "hours"
    }
    scores = _scores([*hours.values()], chance)
    found = {}
    for figure in figures:
        if figure.key in hours:
            row = hours[figure.key]
            sign = -1 if per_amount(row) else 1
            values = np.array([value_at(sign * each, row) for each in scores[figure.key]])
            found[figure] = np.clip(values, *limits.get(figure, (-np.inf, np.inf)))
    return found


@pytest.mark.parametrize("path", sorted(JOBS.glob("*.toml")), ids=lambda path: path.stem)
def test_jobs_of_the_learnings_own_world_fall_inside(path: Path) -> None:
    """Of 4,000 jobs 77 to 83 % take hours within the range of the hours, and cost within that of the cost."""
    estimate = estimate_job(read_job(path)).estimate
    sure, targets = estimate_ranges(estimate), [estimate.cost, estimate.hours]
    limits = rule_limits(targets)
    layout = lay_out(leaves(targets), groups=CORRELATED_GROUPS, limits=limits)
    others = layout.draws(even_points(lots(layout.width), TRIED, 99))
    world = _rates(estimate, others, limits)
    cost, hours = StandingTree(targets).at({**others, **world})
    assert len(world) > 5
    for took, stated in ((cost, sure.cost), (hours, sure.hours)):
        inside = np.mean((stated.low <= np.asarray(took)) & (np.asarray(took) <= stated.high))
        assert 0.77 <= inside <= 0.83
