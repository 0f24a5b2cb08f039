"""Print how time and memory grow with the rooms of a job: python tests/large_jobs.py [rooms ...].

Each room has a textured ceiling, a repaint of the rest and a papered wall: three kinds of work, all methods compared.
A script, not a test: times differ between machines, their growth much less. Every room is made up.
"""

from __future__ import annotations

import resource
import sys
import time
from typing import Any

from estimating.estimate.uncertainty.estimate_ranges import estimate_ranges
from estimating.job.model import Job
from estimating.workbook import build_job, estimate_job

ROOMS = (3, 12, 50, 100, 200)


def a_job(rooms: int) -> Job:
    """Return a made-up job of so many rooms."""
    return build_job(
        {
            "title": f"{rooms} rooms",
            "site": {"year_built": 1996, "asbestos_test": "negative", "lead_test": "negative"},
            "crew": {"people": 3},
            "rooms": [_room(number) for number in range(rooms)],
            "work": [item for number in range(rooms) for item in _work(number)],
        }
    )


def _name(number: int) -> str:
    return f"room {number + 1}"


def _room(number: int) -> dict[str, Any]:
    size = {"length": f"{11 + number % 5} ft", "width": f"{10 + number % 4} ft"}
    return {"name": _name(number), "shape": {"kind": "rectangle", **size}, "height": "8 ft"}


def _work(number: int) -> list[dict[str, Any]]:
    painted = {"painted": "yes", "coats": 2}
    histories = ("primed and painted twice", "primed and painted", "painted once, primer unknown")
    return [
        {
            "kind": "textured_ceiling",
            "room": _name(number),
            "texture": "popcorn",
            "depth": "medium",
            "history": histories[number % 3],
        },
        {"kind": "interior_repaint", "room": _name(number), "walls": painted, "trim": {"painted": "no"}},
    ]


def measured(rooms: int) -> tuple[int, float, float, float]:
    """Return the pieces of work, and seconds for the estimate with all methods compared, its ranges, and the price."""
    job = a_job(rooms)
    start = time.process_time()
    outcome = estimate_job(job)
    assert outcome.comparisons
    priced = time.process_time()
    estimate_ranges(outcome.estimate)
    ranged = time.process_time()
    return len(job.work), priced - start, ranged - priced, float(outcome.estimate.price)


def main(words: list[str]) -> None:
    """Print the table; memory is the most that the process has held so far, the workbook itself among it."""
    print(f"{'rooms':>6}{'pieces':>8}{'price, s':>10}{'a room, ms':>12}{'ranges, s':>11}{'MB':>8}{'dollars':>14}")
    for rooms in [int(each) for each in words] or ROOMS:
        pieces, priced, ranged, price = measured(rooms)
        most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        times = f"{priced:>10.2f}{priced / rooms * 1e3:>12.1f}{ranged:>11.2f}"
        print(f"{rooms:>6}{pieces:>8}{times}{most:>8.0f}{price:>14,.2f}", flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
