"""Every row a demo job uses, one by one twice as wide, through the whole workbook: `python tests/wide_rows.py`.

A row is given as a value of one's own: the likely value it has, and ends twice as far from it on the scale it is drawn
on. The job is estimated anew with it and its ranges are worked out; nothing may stop, and nothing may come out that is
no number. With the start of a job's name, only that job.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Iterator
from pathlib import Path

import numpy as np
from places import JOBS

from estimating.errors import EstimatingError
from estimating.estimate.uncertainty.estimate_ranges import estimate_ranges
from estimating.evidence import OwnValue
from estimating.figures import Figure
from estimating.workbook import estimate_job, read_job

POINTS = 64
WHOLE = {"percent": 100.0, "dimensionless": 1.0}


def twice_as_wide(row: Figure) -> tuple[float, float]:
    """Return ends twice as far from the likely value: on the log scale, or on that of the log odds of a share."""
    assert row.low is not None
    assert row.high is not None
    whole = WHOLE.get(row.unit, math.inf)
    if row.low == 0:
        return 0.0, min(row.value + 2 * (row.high - row.value), whole if row.high <= whole else math.inf)
    if row.high >= whole:
        low, high = (row.value * (end / row.value) ** 2 for end in (row.low, row.high))
        return low, whole if row.high == whole else high
    likely, *ends = (_odds(each, whole) for each in (row.value, row.low, row.high))
    low, high = (likely * (end / likely) ** 2 for end in ends)
    return _share(low, whole), _share(high, whole)


def _odds(value: float, whole: float) -> float:
    return value / (1 - value / whole)


def _share(odds: float, whole: float) -> float:
    return odds / (1 + odds / whole)


def ranged(path: Path) -> dict[str, Figure]:
    """Return the rows with a range that a job uses, by key."""
    used = estimate_job(read_job(path)).basis.used()
    return {key: row for key, row in used.items() if row.low is not None and row.low != row.high}


def stops(path: Path, rows: dict[str, Figure]) -> Iterator[str]:
    """Yield what stops an estimate of a job, or spoils it, when one of its rows is twice as wide."""
    job = read_job(path)
    for key, row in rows.items():
        low, high = twice_as_wide(row)
        try:
            made = estimate_job(job, own={key: OwnValue(row.value, row.unit, low, high)}).estimate
            drawn = estimate_ranges(made, points=POINTS).cost_draws
        except EstimatingError as problem:
            yield f"{path.stem} · {key} {low:.4g} to {high:.4g}: {problem}"
        else:
            if not np.isfinite(drawn).all():
                yield f"{path.stem} · {key}: a cost that is no number"


def main(start: str = "") -> str:
    """Return how many rows were made wider, and what stopped."""
    lines = []
    for path in sorted(JOBS.glob(f"{start}*.toml")):
        rows = ranged(path)
        found = [*stops(path, rows)]
        lines += [f"{path.stem:<28}{len(rows):>5} rows, {len(found)} stop", *found]
    return "\n".join(lines)


if __name__ == "__main__":
    print(main(*sys.argv[1:2]))
