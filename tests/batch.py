"""Price many open jobs again from a terminal, with ranges: time and memory by how many there are.

    python tests/batch.py            50, 100 and 200 jobs, each count in a process of its own

Times hang on the machine; what counts is that they and the memory do not grow faster than the jobs.
"""

from __future__ import annotations

import copy
import random
import resource
import subprocess
import sys
import tempfile
import time
from datetime import date
from pathlib import Path
from typing import Any

import tomli_w
from places import JOBS

from estimating.business import main
from estimating.job.file import plain_job
from estimating.records.jobs_folder import set_state
from estimating.units import read_length
from estimating.workbook import read_job

DEMOS = ("alder_row_sitting_room", "birch_lane_upstairs", "mill_end_addition", "quarry_lane_study")
COUNTS = (50, 100, 200)


def many_jobs(folder: Path, count: int, seed: int = 7) -> None:
    """Write so many jobs into a folder: the smaller demo jobs with rooms of other lengths, all drafts or sent."""
    chance = random.Random(seed)
    demos = [plain_job(read_job(JOBS / f"{name}.toml")) for name in DEMOS]
    for number in range(count):
        job = varied(demos[number % len(demos)], chance)
        (folder / f"job_{number:03d}.toml").write_text(tomli_w.dumps(job), encoding="utf-8")
        if number % 2:
            set_state(folder, f"job_{number:03d}", "sent", date(2026, 3, 2))


def varied(demo: dict[str, Any], chance: random.Random) -> dict[str, Any]:
    """Return a demo job with every room up to a fifth longer."""
    job = copy.deepcopy(demo)
    for room in job["rooms"]:
        room["shape"]["length"] = f"{read_length(room['shape']['length']).value * chance.uniform(1, 1.2):.2f} ft"
    return job


def timed(count: int) -> None:
    """Price so many jobs again and print what it took."""
    with tempfile.TemporaryDirectory() as name:
        many_jobs(Path(name), count)
        begun = time.perf_counter()
        main(["reprice", name, "--own", "business/wage=31", "--own", "prices/wall_paint/five=240"])
        taken = time.perf_counter() - begun
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{count} jobs: {taken:.1f} s, {1000 * taken / count:.0f} ms a job, {most:.0f} MB at most", file=sys.stderr)


if __name__ == "__main__":
    if len(sys.argv) > 1:
        timed(int(sys.argv[1]))
    else:
        for each in COUNTS:
            subprocess.run([sys.executable, __file__, str(each)], stdout=subprocess.DEVNULL, check=True)
