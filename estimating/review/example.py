"""An invented history, to show what a review is before there are records of one's own.

Ten jobs that nobody did, eight of them finished, with days and a seed that never change. It goes into a file of its
own, never into the contractor's.
"""

from __future__ import annotations

import os
import tempfile
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime
from importlib.resources import files
from pathlib import Path
from types import MappingProxyType

import numpy as np

from estimating.estimate.uncertainty.estimate_ranges import estimate_ranges
from estimating.job.model import Job
from estimating.records.actuals import (
    Actual,
    Release,
    SurfaceTest,
    add_actual,
    add_release,
    add_test_outcome,
)
from estimating.records.own import make_folder
from estimating.records.sent import SentEstimate
from estimating.records.store import Records, open_records
from estimating.review.parse_actuals import measured_lines
from estimating.review.release_terms import terms_of
from estimating.review.sending import WHOLE, record_as_sent
from estimating.workbook import build_job, estimate_job

NAME = "invented_history.sqlite"
TODAY = date(2026, 6, 1)  # the day on which the invented history is looked back on
SEED = 20260601
ALIKE = files("estimating.review").joinpath("example_job.toml").read_text(encoding="utf-8")
TIMED = 0.25  # hours; nobody times what is shorter, so most of it is left as not known


@dataclass(frozen=True)
class Past:
    """One invented job: its room in feet, what was known of the ceiling, how it was done, and what came of it."""

    title: str
    length: float
    width: float
    history: str
    method: str
    sent: date
    done: date | None = None
    released: float = 0.0  # ft**2
    mending: float = 0.0  # hours


JOBS = (
    Past(
        "Bedroom ceiling, 3 Larch Court",
        12,
        11,
        "primed and painted twice",
        "roll",
        date(2025, 2, 3),
        date(2025, 2, 20),
    ),
    Past(
        "Hall ceiling, 8 Weir Street",
        18,
        6,
        "painted once, primer unknown",
        "roll",
        date(2025, 3, 10),
        date(2025, 3, 28),
        2.5,
        4.5,
    ),
    Past(
        "Living room ceiling, 21 Tern Close", 20, 14, "looks unpainted", "spray", date(2025, 4, 22), date(2025, 5, 15)
    ),
    Past(
        "Dining room ceiling, 5 Mallow Rise",
        14,
        12,
        "painted once, primer unknown",
        "spray",
        date(2025, 6, 2),
        date(2025, 6, 19),
    ),
    Past(
        "Bedroom ceiling, 40 Sorrel Lane", 13, 12, "looks unpainted", "seal_roll", date(2025, 8, 11), date(2025, 9, 4)
    ),
    Past(
        "Family room ceiling, 17 Heron Way",
        22,
        16,
        "primed and painted twice",
        "spray",
        date(2025, 10, 6),
        date(2025, 10, 30),
    ),
    Past(
        "Study ceiling, 2 Fold Yard",
        11,
        9,
        "painted once, primer unknown",
        "roll",
        date(2026, 1, 12),
        date(2026, 1, 29),
    ),
    Past("Landing ceiling, 9 Quern Place", 15, 7, "looks unpainted", "seal_roll", date(2026, 3, 2), date(2026, 3, 26)),
    Past("Sitting room ceiling, 6 Osier Walk", 17, 13, "painted once, primer unknown", "roll", date(2026, 5, 11)),
    Past("Bedroom ceiling, 31 Teasel Road", 14, 12, "looks unpainted", "seal_roll", date(2026, 5, 20)),
)

# How this invented contractor differs from the tables, by task: hours or gallons over those promised.
HABITS: Mapping[str, float] = MappingProxyType(
    {
        "roll_ceiling": 1.40,
        "cut_in": 1.20,
        "hang_film": 1.35,
        "mask_edge": 1.15,
        "unmask": 0.70,
        "dust_ceiling": 0.80,
        "protect_floor": 0.70,
        "ceiling_flat": 1.15,
    }
)
OTHER_HABIT = 1.05
OF_JOB, OF_LINE = 0.07, 0.12  # how far a job, and a line of it, strays from habit: standard deviation of the logarithm


def invented_history(path: Path) -> Path:
    """Return the path of the invented history, made there when it is not; a file that is there is left as it is."""
    if path.exists():
        return path
    make_folder(path)
    with tempfile.TemporaryDirectory(dir=path.parent, prefix=".invented-") as aside:
        whole = Path(aside) / path.name
        with open_records(whole) as records:
            _fill(records)
        os.replace(whole, path)
    return path


def _fill(records: Records) -> None:
    random_draw = np.random.default_rng(SEED)
    for past in JOBS:
        outcome = estimate_job(_job(past))
        at = datetime(past.sent.year, past.sent.month, past.sent.day, 12, tzinfo=UTC)
        sent = record_as_sent(records, past.title, outcome, estimate_ranges(outcome.estimate), at).estimate
        if past.done is not None:
            _finish(records, sent, past, past.done, random_draw)


def _finish(records: Records, sent: SentEstimate, past: Past, done: date, random_draw: np.random.Generator) -> None:
    """Put down what an invented job took: habit, times what is of this job, times what is of this line."""
    of_job = float(np.exp(random_draw.normal(0.0, OF_JOB)))
    hours = 0.0
    for line in measured_lines(sent):
        took = (
            line.likely * HABITS.get(line.task, OTHER_HABIT) * of_job * float(np.exp(random_draw.normal(0.0, OF_LINE)))
        )
        if line.line == WHOLE:
            continue
        hours += took if line.measure == "hours" else 0.0
        if line.measure == "gallons" or line.likely >= TIMED:
            add_actual(
                records, _actual(sent, line.line, line.task, line.measure, took, done, line.surface, line.product)
            )
    add_actual(records, _actual(sent, WHOLE, "whole_job", "hours", hours, done))
    add_test_outcome(records, SurfaceTest(sent.job.name, "dry rub", "clean", past.sent, "over the door"))
    for terms in terms_of(sent):
        if terms.method == past.method:
            release = (past.released, past.mending, done, terms.work)
            held = (terms.history, terms.method, terms.odds, terms.area)
            kept = Release(sent.job.name, *held, *release, share=terms.share, sound=terms.sound)
            add_release(records, kept)


def _actual(
    sent: SentEstimate,
    line: str,
    task: str,
    measure: str,
    took: float,
    done: date,
    surface: str = "",
    product: str = "",
) -> Actual:
    rounded = round(took * 20) / 20 if measure == "hours" else round(took, 2)  # a clock is read to three minutes
    return Actual(sent.id, line, task, measure, rounded, done, surface, product, "invented for the demo")


def _job(past: Past) -> Job:
    """Return the job every invented one is like, with the room, the history and the method of this one."""
    plain = tomllib.loads(ALIKE)
    room, item = plain["rooms"][0], plain["work"][0]
    room["name"] = item["room"] = past.title.split(" ceiling")[0].lower()
    room["shape"] = {"kind": "rectangle", "length": f"{past.length:g} ft", "width": f"{past.width:g} ft"}
    item |= {"history": past.history, "method": past.method}
    return build_job({**plain, "title": past.title})
