"""Every number of the demo jobs in the order they come, to hold a re-lay of the house to: no name stands in it.

Write the stored snapshot anew:  python tests/relay/snapshot.py > tests/relay/snapshot.json
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from estimating.workbook import estimate_job, read_job

JOBS = Path(__file__).resolve().parents[2] / "notebooks" / "jobs"


def numbers_of(path: Path) -> dict[str, Any]:
    """Return price, cost, hours, days, gallons, every line and every way's price of one job."""
    outcome = estimate_job(read_job(path))
    estimate = outcome.estimate
    return {
        "price": str(estimate.price),
        "cost": round(estimate.cost.value, 6),
        "hours": round(estimate.hours.value, 6),
        "days": round(estimate.schedule.days.value, 6),
        "elapsed": round(estimate.schedule.elapsed.value, 6),
        "gallons": round(estimate.gallons, 6),
        "lines": [[str(line.section)[:3], round(line.quantity.value, 6), str(line.cost)] for line in estimate.lines],
        "methods": [[str(option.price) for option in each.options] for each in outcome.comparisons],
        "reasons": [[len(plan.findings), len(plan.cautions)] for choice in outcome.choices for plan in choice.plans],
    }


if __name__ == "__main__":
    found = {path.stem: numbers_of(path) for path in sorted(JOBS.glob("*.toml"))}
    print(json.dumps(found, indent=1))
