"""Charts of a review as SVG text: a rate and its records, where actuals fell, bias by task, learning job by job."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from html import escape

from estimating.learning.backtest import Tried
from estimating.learning.calibration import Bias
from estimating.learning.rates import Observed
from estimating.reports.charts.room_drawing import INK, PAPER
from estimating.reports.charts.whatif import FAINT, SOFT, Scale
from estimating.reports.format import number

WIDE = 660.0
ROW = 19.0
LABEL = 250.0  # room for the words before a row
INSIDE, OUTSIDE, BEFORE, AFTER = "#1565c0", "#c2410c", "#8a8a8a", "#1565c0"
REACH = 2.6  # where actuals fell is drawn so far, in halves of the range on either side of its middle
BINS = 26
RATIOS = (0.25, 0.33, 0.5, 0.67, 0.8, 1, 1.25, 1.5, 2, 3, 4)  # marked on the scale of bias
TASKS = 14  # the furthest from 1 are drawn


def rate_chart(published: Sequence[float], yours: Sequence[float], records: Sequence[float], unit: str) -> str:
    """Return a published range over the range it would give way to, with what the records came to as dots between.

    published and yours are low, likely and high; everything is in one unit, on a logarithmic scale.
    """
    every = [*published, *yours, *records]
    across = Scale(math.log(min(every) * 0.94), math.log(max(every) * 1.06), LABEL - 130, WIDE - 16)
    dots = "".join(
        f'<circle cx="{across.at(math.log(each)):.1f}" cy="{1.5 * ROW + 4:.1f}" r="4" fill="{OUTSIDE}" opacity="0.6"/>'
        for each in records
    )
    rows = (
        _range_row("in the tables", published, 0, across, BEFORE),
        _label("your records", 1),
        dots,
        _range_row("yours", yours, 2, across, AFTER),
    )
    title = f"In the tables {_span(published)} {unit}, yours {_span(yours)} {unit}, {len(records)} records"
    ticks = Scale(math.exp(across.low), math.exp(across.high), 0, 1).ticks(6)
    return _svg(title, 3 * ROW + 44, *rows, _axis(across, ticks, 3 * ROW + 8, unit))


def _span(ends: Sequence[float]) -> str:
    return f"{number(ends[1])} ({number(ends[0])} to {number(ends[2])})"


def _label(words: str, row: int, end: float = LABEL - 144) -> str:
    return f'<text x="{end:.1f}" y="{ROW * (row + 0.5) + 8:.1f}" text-anchor="end">{escape(words)}</text>'


def _range_row(words: str, ends: Sequence[float], row: int, across: Scale, color: str) -> str:
    low, likely, high = (across.at(math.log(each)) for each in ends)
    y = ROW * (row + 0.5) + 4
    return (
        f"{_label(words, row)}"
        f'<line x1="{low:.1f}" y1="{y:.1f}" x2="{high:.1f}" y2="{y:.1f}" stroke="{color}" stroke-width="7" '
        f'stroke-linecap="round" opacity="0.55"/>'
        f'<line x1="{likely:.1f}" y1="{y - 7:.1f}" x2="{likely:.1f}" y2="{y + 7:.1f}" stroke="{INK}" stroke-width="2"/>'
    )


def _axis(across: Scale, ticks: Iterable[float], foot: float, title: str) -> str:
    marks = "".join(
        f'<line x1="{x:.1f}" y1="{foot:.1f}" x2="{x:.1f}" y2="{foot + 4:.1f}" stroke="{SOFT}"/>'
        f'<text x="{x:.1f}" y="{foot + 16:.1f}" text-anchor="middle">{number(each)}</text>'
        for each in ticks
        if across.low <= math.log(each) <= across.high
        for x in [across.at(math.log(each))]
    )
    middle = (across.start + across.end) / 2
    return (
        f'<line x1="{across.start:.1f}" y1="{foot:.1f}" x2="{across.end:.1f}" y2="{foot:.1f}" stroke="{SOFT}"/>{marks}'
        f'<text x="{middle:.1f}" y="{foot + 31:.1f}" text-anchor="middle">{escape(title)}</text>'
    )


def place_in_range(observed: Observed) -> float:
    """Return where an actual fell: -1 at the low end of what was promised, 1 at the high end, in between within it."""
    return 2 * (observed.actual - observed.low) / (observed.high - observed.low) - 1


def held_chart(observed: Iterable[Observed]) -> str:
    """Return how many actuals fell where in their promised range; all ranges are laid over each other."""
    places = [min(max(place_in_range(each), -REACH), REACH) for each in observed]
    across = Scale(-REACH, REACH, 16, WIDE - 16)
    width = 2 * REACH / BINS
    counts = [0] * BINS
    for place in places:
        counts[_bin(place)] += 1
    foot, top = 150.0, 34.0
    up = Scale(0, max(*counts, 1), foot, top)
    bars = "".join(
        _bar(across, up, foot, -REACH + bin_ * width, width, count) for bin_, count in enumerate(counts) if count
    )
    ends = "".join(
        f'<line x1="{across.at(each):.1f}" y1="{top - 8:.1f}" x2="{across.at(each):.1f}" y2="{foot:.1f}" '
        f'stroke="{INK}" stroke-dasharray="4 3"/>'
        f'<text x="{across.at(each):.1f}" y="{top - 14:.1f}" text-anchor="middle">{words}</text>'
        for each, words in ((-1, "low as promised"), (1, "high as promised"))
    )
    base = f'<line x1="16" y1="{foot:.1f}" x2="{WIDE - 16:.1f}" y2="{foot:.1f}" stroke="{SOFT}"/>'
    sides = (
        f'<text x="16" y="{foot + 16:.1f}">took less than the range</text>'
        f'<text x="{WIDE - 16:.1f}" y="{foot + 16:.1f}" text-anchor="end">took more than the range</text>'
    )
    within = sum(-1 <= each <= 1 for each in places)
    title = f"{within} of {len(places)} actuals fell between the low and the high that was promised"
    return _svg(title, foot + 26, bars, base, ends, sides)


def _bin(place: float) -> int:
    """Return the bar a place is counted in; either end of the range counts as inside, as it does in the count."""
    at = round((place + REACH) / (2 * REACH) * BINS, 9)
    return min(max(math.ceil(at) - 1 if place > 0 else math.floor(at), 0), BINS - 1)


def _bar(across: Scale, up: Scale, foot: float, start: float, width: float, count: int) -> str:
    x, y = across.at(start), up.at(count)
    color = INSIDE if -1 <= start + width / 2 <= 1 else OUTSIDE
    size = f'width="{across.at(start + width) - x - 1:.1f}" height="{foot - y:.1f}"'
    return f'<rect x="{x:.1f}" y="{y:.1f}" {size} fill="{color}"/>'


def bias_chart(biases: Sequence[Bias]) -> str:
    """Return actual over promised by task, the furthest from 1 first, with what the true one may be."""
    drawn = biases[:TASKS]
    ends = [each for bias in drawn for each in (bias.low, bias.ratio, bias.high) if each is not None]
    low, high = max(min([0.7, *ends]), 0.25), min(max([1.4, *ends]), 4.0)
    across = Scale(math.log(low), math.log(high), LABEL + 10, WIDE - 16)
    rows = "".join(_bias_row(bias, row, across) for row, bias in enumerate(drawn))
    foot = ROW * len(drawn) + 8
    one = across.at(0.0)
    even = f'<line x1="{one:.1f}" y1="2" x2="{one:.1f}" y2="{foot:.1f}" stroke="{INK}" stroke-dasharray="4 3"/>'
    said = ", ".join(f"{each.group} {each.ratio:.2f}" for each in drawn)
    title = "times what was estimated"
    return _svg(f"Actual over estimated: {said}", foot + 38, even, rows, _axis(across, RATIOS, foot, title))


def _bias_row(bias: Bias, row: int, across: Scale) -> str:
    y = ROW * (row + 0.5) + 4
    words = f"{bias.group.replace('_', ' ')}, n = {bias.n}"
    line = (
        f'<line x1="{across.at(math.log(bias.low)):.1f}" y1="{y:.1f}" x2="{across.at(math.log(bias.high)):.1f}" '
        f'y2="{y:.1f}" stroke="{INSIDE}" stroke-width="3" opacity="0.45"/>'
        if bias.low is not None and bias.high is not None
        else ""
    )
    dot = (
        f'<circle cx="{across.at(math.log(bias.ratio)):.1f}" cy="{y:.1f}" r="4.5" fill="{INSIDE}" '
        f'stroke="{PAPER}" stroke-width="1"/>'
    )
    return f"{_label(words, row, LABEL)}{line}{dot}"


def learning_chart(tried: Sequence[Tried]) -> str:
    """Return how far off the published and the learned rates were, job by job, in the order the jobs were finished."""
    jobs: dict[tuple[str, str], list[Tried]] = {}
    for each in tried:
        jobs.setdefault((each.observed.done_on.isoformat(), each.observed.job), []).append(each)
    off = [
        (_typical(each.off_before for each in lines), _typical(each.off_after for each in lines))
        for lines in jobs.values()
    ]
    foot = 130.0
    up = Scale(1.0, max(1.1, *(each for pair in off for each in pair)) * 1.02, foot, 14)
    across = Scale(0, max(len(off) - 1, 1), 60, WIDE - 110)
    lines = "".join(
        _series([pair[place] for pair in off], across, up, color, words)
        for place, (color, words) in enumerate(((BEFORE, "as published"), (AFTER, "as learned")))
    )
    steps = "".join(
        f'<line x1="60" y1="{up.at(each):.1f}" x2="{WIDE - 110:.1f}" y2="{up.at(each):.1f}" stroke="{FAINT}"/>'
        f'<text x="54" y="{up.at(each) + 4:.1f}" text-anchor="end">× {number(each)}</text>'
        for each in up.ticks(4)
    )
    days = [day for day, _ in jobs]
    foot_words = (
        f'<text x="60" y="{foot + 18:.1f}">{days[0]}</text>'
        f'<text x="{WIDE - 110:.1f}" y="{foot + 18:.1f}" text-anchor="end">{days[-1] if len(days) > 1 else ""}</text>'
    )
    title = f"How far off rates were on {len(jobs)} jobs, each judged by what earlier jobs had taught"
    return _svg(title, foot + 26, steps, lines, foot_words)


def _typical(factors: Iterable[float]) -> float:
    logs = [math.log(each) for each in factors]
    return math.exp(sum(logs) / len(logs))


def _series(values: Sequence[float], across: Scale, up: Scale, color: str, words: str) -> str:
    points = [(across.at(place), up.at(value)) for place, value in enumerate(values)]
    line = " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
    dots = "".join(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4" fill="{color}"/>' for x, y in points)
    x, y = points[-1]
    return (
        f'<polyline points="{line}" fill="none" stroke="{color}" stroke-width="2"/>{dots}'
        f'<text x="{x + 10:.1f}" y="{y + 4:.1f}" fill="{color}">{words}</text>'
    )


def _svg(title: str, high: float, *parts: str) -> str:
    words = escape(title)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE:.0f} {high:.0f}" width="{WIDE:.0f}" role="img" '
        f'aria-label="{words}"><title>{words}</title><g font-size="12" fill="{SOFT}">{"".join(parts)}</g></svg>'
    )
