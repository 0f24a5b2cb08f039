"""Print how figures compare with bare arithmetic, all in one run: python tests/benchmark.py.

A script, not a test: times differ between machines, ratios much less. Every number of the job is made up.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from estimating.estimate.uncertainty.estimate_ranges import estimate_ranges
from estimating.estimate.uncertainty.ranges import draws_for, simulate, spread
from estimating.estimate.uncertainty.sensitivity import binned_shares, ranked
from estimating.estimate.whatif.break_even import break_even
from estimating.evidence import load_library
from estimating.figures import Figure, evaluate, leaf, leaves, total, work
from estimating.origins import definition
from estimating.rules import SAME, card_of, rule
from estimating.units import Number, convert
from estimating.workbook import estimate_job, read_job

JOBS = Path(__file__).resolve().parent.parent / "notebooks" / "jobs"
LINES = 60
POINTS = 4096
MADE_UP = definition("made up for the benchmark")
BARE = "dimensionless"


@rule("A = l h", "ft**2", MADE_UP, length="ft", height="ft")
def area(*, length: Number, height: Number) -> Number:
    """Return the area of a wall."""
    return length * height


@rule("V = A n / s (1 + w)", "gallon", MADE_UP, area="ft**2", coats=BARE, spread_rate="ft**2/gallon", loss=BARE)
def paint(*, area: Number, coats: Number, spread_rate: Number, loss: Number) -> Number:
    """Return the paint for a wall."""
    return area * coats / spread_rate * (1 + loss)


@rule("t = A n / r k", "hour", MADE_UP, area="ft**2", coats=BARE, rate="ft**2/hour", difficulty=BARE)
def hours(*, area: Number, coats: Number, rate: Number, difficulty: Number) -> Number:
    """Return the hours for a wall."""
    return area * coats / rate * difficulty


@rule("c = t w (1 + b)", "dollar", MADE_UP, time="hour", wage="dollar/hour", burden=BARE)
def labor(*, time: Number, wage: Number, burden: Number) -> Number:
    """Return the cost of the hours."""
    return time * wage * (1 + burden)


@rule("c = V p", "dollar", MADE_UP, volume="gallon", price="dollar/gallon")
def material(*, volume: Number, price: Number) -> Number:
    """Return the cost of the paint."""
    return volume * price


@dataclass(frozen=True)
class Job:
    """The leaves of a made-up job: two tape readings and a surface class a wall, and what the walls share."""

    lengths: Sequence[Figure]
    heights: Sequence[Figure]
    spread_rates: Sequence[Figure]
    rates: Sequence[Figure]
    difficulties: Sequence[Figure]
    coats: Figure
    loss: Figure
    wage: Figure
    burden: Figure
    price: Figure


def _leaf(name: str, value: float, unit: str, share: float) -> Figure:
    return leaf(name, value, unit, MADE_UP, low=value * (1 - share), high=value * (1 + 1.3 * share), key=name)


def made_up_job(lines: int) -> Job:
    """Return a job of so many walls."""
    return Job(
        [_leaf(f"length {n}", 8.0 + n % 11, "ft", 0.01) for n in range(lines)],
        [_leaf(f"height {n}", 96.0 + n % 7, "inch", 0.01) for n in range(lines)],
        [_leaf(f"spread {n}", 300.0 + 25 * n, "ft**2/gallon", 0.12) for n in range(4)],
        [_leaf(f"rate {n}", 120.0 + 40 * n, "ft**2/hour", 0.2) for n in range(8)],
        [_leaf(f"difficulty {n}", 1.0 + n / 10, BARE, 0.1) for n in range(6)],
        leaf("coats", 2.0, BARE, MADE_UP, key="coats"),
        _leaf("loss", 10.0, "percent", 0.3),
        _leaf("wage", 30.0, "dollar/hour", 0.1),
        _leaf("burden", 35.0, "percent", 0.2),
        _leaf("price", 45.0, "dollar/gallon", 0.15),
    )


def line(job: Job, n: int) -> Figure:
    """Return the cost of one wall as a figure."""
    wall = work(area, f"area {n}", length=job.lengths[n], height=job.heights[n])
    volume = work(paint, f"paint {n}", area=wall, coats=job.coats, spread_rate=job.spread_rates[n % 4], loss=job.loss)
    time_ = work(
        hours, f"hours {n}", area=wall, coats=job.coats, rate=job.rates[n % 8], difficulty=job.difficulties[n % 6]
    )
    worked = work(labor, f"labor {n}", time=time_, wage=job.wage, burden=job.burden)
    bought = work(material, f"material {n}", volume=volume, price=job.price)
    return total(f"wall {n}", [worked, bought], unit="dollar")


def price_of(job: Job) -> Figure:
    """Return the cost of the whole job as a figure."""
    return total("job", [line(job, n) for n in range(len(job.lengths))], unit="dollar")


def by_hand(job: Job, value: Callable[[Figure], Number]) -> Number:
    """Return the same cost as price_of, written out as a plain loop."""
    cost: Number = 0.0
    for n in range(len(job.lengths)):
        wall = value(job.lengths[n]) * (value(job.heights[n]) / 12)
        volume = wall * value(job.coats) / value(job.spread_rates[n % 4]) * (1 + value(job.loss) / 100)
        time_ = wall * value(job.coats) / value(job.rates[n % 8]) * value(job.difficulties[n % 6])
        worked = time_ * value(job.wage) * (1 + value(job.burden) / 100)
        cost = cost + (worked + volume * value(job.price))
    return cost


def best(run: Callable[[], object], times: int = 15) -> float:
    """Return the shortest of several runs, in seconds."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        taken.append(time.perf_counter() - start)
    return min(taken)


def show(what: str, seconds: float, against: str = "", base: float = 0.0) -> None:
    """Print one line: a time, and how many times the base it is."""
    print(f"{what:<58}{seconds * 1e3:10.3f} ms" + (f"  {seconds / base:6.2f} × {against}" if base else ""))


def on_draws() -> None:
    """Compare figures.evaluate on arrays of draws with the plain NumPy loop."""
    job = made_up_job(LINES)
    price = price_of(job)
    draws = draws_for(leaves([price]), points=POINTS)
    worked = evaluate([price], draws)[0]
    plain = by_hand(job, lambda each: draws.get(each, each.value))
    assert np.allclose(worked, plain, rtol=1e-12), "the two ways must come to the same"
    bare = best(lambda: by_hand(job, lambda each: draws.get(each, each.value)))
    show(f"{LINES} lines × {POINTS} draws, plain NumPy", bare)
    show("  the same through evaluate", best(lambda: evaluate([price], draws)), "plain", bare)
    show("  the same on a tree just built", best(lambda: evaluate([price_of(job)], draws)), "plain", bare)
    show("  drawing the leaves", best(lambda: draws_for(leaves([price]), points=POINTS)), "plain", bare)
    show("  10th, 50th and 90th percentile", best(lambda: spread(worked)), "plain", bare)


def on_likely_values() -> None:
    """Compare building a tree of likely values with plain floats."""
    job = made_up_job(LINES)
    price = price_of(job)
    moved = {job.wage: 33.0}
    bare = best(lambda: by_hand(job, lambda each: each.value))
    show(f"{LINES} lines, likely values, plain floats", bare)
    show("  the same as a tree of figures, built by work", best(lambda: price_of(job)), "plain", bare)
    show("  one leaf moved, through evaluate", best(lambda: evaluate([price], moved)), "plain", bare)


def on_questions() -> None:
    """Time what the desk asks of a job beyond its price."""
    job = made_up_job(LINES)
    price, other = price_of(job), price_of(made_up_job(LINES - 5))
    draws = draws_for(leaves([price]), points=POINTS)
    (worked,) = evaluate([price], draws)
    show(
        f"{len(draws)} leaves ranked from draws already made", best(lambda: binned_shares(draws, np.asarray(worked)), 5)
    )
    show("  the largest 16 in full, with total shares", best(lambda: ranked(price), 5))
    show("  where two ways change places", best(lambda: break_even(price, other, job.wage, low=5, high=90), 5))


def in_batch() -> None:
    """Price 1,000 jobs with ranges: processor time grows with their number and nothing else."""
    first = 0.0
    for count in (250, 500, 1000):
        start = time.process_time()
        for _ in range(count):
            spread(simulate([price_of(made_up_job(LINES))], points=POINTS)[0])
        taken = time.process_time() - start
        first = first or taken / count
        show(f"{count} jobs of {LINES} lines, tree and range", taken)
        show("  one of them", taken / count, "one of the first 250", first)


def bare_rules(target: Figure, draws: Mapping[Figure, Number]) -> Callable[[], Number]:
    """Return a bare loop over the rules under a figure: units settled beforehand, nothing looked up or checked."""
    figures = list(target.walk())
    place = {each: number for number, each in enumerate(figures)}
    calls = [(place[each], each.rule, _doors(each, place)) for each in figures if each.rule is not None]
    start: list[Number] = [draws.get(each, each.value) for each in figures]

    def run() -> Number:
        known = list(start)
        for number, rule_, doors in calls:
            known[number] = rule_(**{name: known[each] * times + shift for name, each, times, shift in doors})
        return known[-1]

    return run


def _doors(figure: Figure, place: Mapping[Figure, int]) -> list[tuple[str, int, float, float]]:
    assert figure.rule is not None
    card = card_of(figure.rule)
    doors = []
    for name, given in figure.inputs:
        wanted = card.arguments.get(name, card.rest or given.unit)
        wanted = figure.inputs[0][1].unit if wanted == SAME else wanted
        shift = float(convert(0.0, given.unit, wanted))
        doors.append((name, place[given], float(convert(1.0, given.unit, wanted)) - shift, shift))
    return doors


def on_real_jobs() -> None:
    """Time every demo job: its likely figure, all ways compared, ranges, and the price tree against its bare rules."""
    load_library()
    for path in sorted(JOBS.glob("*.toml")):
        job = read_job(path)
        outcome = estimate_job(job)
        amount = outcome.estimate.amount
        draws = draws_for(leaves([amount]), points=POINTS)
        likely = best(lambda job=job: estimate_job(job))
        show(f"{path.stem}: {len(job.work)} pieces, {len(outcome.estimate.lines)} lines", likely)
        show(
            "  with every way of every piece", best(lambda job=job: estimate_job(job).comparisons, 5), "likely", likely
        )
        show(
            "  ranges of every line",
            best(lambda outcome=outcome: estimate_ranges(outcome.estimate), 5),
            "likely",
            likely,
        )
        bare = best(bare_rules(amount, draws), 5)
        show(f"  price × {POINTS} draws, its rules in a bare loop", bare)
        show("  the same through evaluate", best(lambda a=amount, d=draws: evaluate([a], d), 5), "bare", bare)


if __name__ == "__main__":
    on_real_jobs()
    on_draws()
    on_likely_values()
    on_questions()
    in_batch()
