"""How learning does in worlds whose truth is known: tables of error and coverage before and after so many jobs.

Print the table:  python tests/worlds.py
A contractor's hours over the published ones, on the log scale: 0.20 the contractor + 0.15 the task (what stays) + 0.10
the job + 0.11 the line (what comes and goes), all standard deviations of normals. Nothing here shares code with the
learning but the two types it takes.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from estimating.evidence import Row
from estimating.learning.rates import Observed, learn
from estimating.origins import Kind, Origin

TODAY = date(2026, 6, 1)
HOURS = 4.0
TASKS = ("roll_ceiling", "roll_wall", "cut_in", "paint_door", "mask_edge", "hang_film", "sand_wall", "patch_hand")
ROWS = [
    Row("production", (task, "hand", "any"), 70.0, 100.0, 140.0, "ft**2/hour", Origin(Kind.INVENTED)) for task in TASKS
]
BY_KEY = {row.key: row for row in ROWS}
WHOLE = (6.6 * HOURS, 8.0 * HOURS, 9.8 * HOURS)  # eight lines of the published spread, alike by 0.4: by simulation
WORLDS = ("plain", "outliers", "one slip", "worst third", "drift", "two crews", "totals only")
JOBS = (3, 5, 10, 20)


@dataclass(frozen=True)
class Outcome:
    """Mean absolute log error of a line and of a job's total, bias of the total, and the share of lines inside."""

    line: float
    total: float
    bias: float
    inside: float


def _past(world: str, jobs: int, chance: np.random.Generator) -> tuple[np.ndarray, np.ndarray]:
    """Return log ratios of the jobs recorded and of the next job, one column a line."""
    stays = 0.20 * chance.normal() + 0.15 * chance.normal(size=len(ROWS))
    many = 3 * jobs if world == "worst third" else jobs
    passing = 0.10 * chance.normal(size=(many + 1, 1)) + 0.11 * chance.normal(size=(many + 1, len(ROWS)))
    logs = stays + passing
    if world == "drift":
        logs -= np.log(1.05) * np.arange(many + 1)[:, None]
    past, coming = logs[:-1], logs[-1]
    if world == "outliers":
        past = past + np.where(chance.random(past.shape) < 0.05, np.log(2.5), 0.0)
    if world == "one slip":
        past[0, 0] += np.log(10)
    if world == "worst third":
        past = past[np.argsort(past.mean(axis=1))[-jobs:]]
    if world == "two crews":
        past = past + np.where(np.arange(len(past)) % 2, 0.25, -0.25)[:, None]
        coming = coming + 0.25
    return past, coming


def _observed(world: str, past: np.ndarray) -> list[Observed]:
    found = []
    for job, logs in enumerate(past):
        day = TODAY - timedelta(days=20 * (len(past) - job))
        if world == "totals only":
            took = float(HOURS * np.exp(logs).sum())
            found.append(Observed(str(job), "whole_job", "hours", *WHOLE, took, day, whole=True))
            continue
        crew = "second" if world == "two crews" and job % 2 else ""
        found += [_line(job, row, HOURS * float(np.exp(log)), day, crew) for row, log in zip(ROWS, logs, strict=True)]
    return found


def _line(job: int, row: Row, took: float, day: date, crew: str) -> Observed:
    low, high = (HOURS * row.likely / each for each in (row.high, row.low))
    task, rate = row.keys[0], {"row": row.key, "assumed": row.likely, "unit": row.unit}
    return Observed(str(job), task, "hours", low, HOURS, high, took, day, crew=crew, **rate)


def tried(world: str, jobs: int, contractors: int = 400, seed: int = 7) -> tuple[Outcome, Outcome]:
    """Return how the next job's hours are told before any record, and after so many recorded jobs."""
    chance = np.random.default_rng(seed)
    before, after = [], []
    for _ in range(contractors):
        past, coming = _past(world, jobs, chance)
        crew = "second" if world == "two crews" else ""
        updates = learn(BY_KEY, _observed(world, past), today=TODAY, wanted=ROWS, crew=crew).updates
        took = np.exp(coming)
        for found, rates in (
            (before, [(r.low, r.likely, r.high) for r in ROWS]),
            (after, [(u.low, u.likely, u.high) for u in updates]),
        ):
            low, likely, high = (100 / np.array(each) for each in zip(*rates, strict=True))
            off = np.log(took / likely)
            total = float(np.log(took.sum() / likely.sum()))
            inside = (high <= took) & (took <= low)
            found.append((np.abs(off).mean(), abs(total), -total, inside.mean()))
    return Outcome(*np.mean(before, axis=0)), Outcome(*np.mean(after, axis=0))


def table() -> str:
    """Return every world after each number of jobs."""
    lines = ["world         jobs   line error      total error     bias after   inside after"]
    for world in WORLDS:
        for jobs in JOBS:
            before, after = tried(world, jobs)
            lines.append(
                f"{world:12}  {jobs:4}   {before.line:.3f} → {after.line:.3f}   {before.total:.3f} → {after.total:.3f}"
                f"   {after.bias:+10.2f}   {after.inside:12.2f}"
            )
    return "\n".join(lines)


if __name__ == "__main__":
    print(table())
