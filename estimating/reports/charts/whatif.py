"""Charts as SVG text: what a job may cost, and two prices along one figure."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from html import escape

import numpy as np

from estimating.estimate.uncertainty.price_risk import PriceRisk
from estimating.estimate.uncertainty.ranges import Array
from estimating.estimate.whatif.compare_methods import Along
from estimating.reports.charts.room_drawing import INK, PAPER
from estimating.reports.format import dollars, number

WIDE, HIGH = 470.0, 260.0
LEFT, RIGHT, BOTTOM = 16.0, 16.0, 40.0
ROW = 17.0  # from one row of labels to the next
LETTER = 6.2  # about the width of one
BINS = 48
TAIL = 0.99  # costs beyond it are too few to be seen
FAINT = "var(--jp-border-color2,#ccc)"
SOFT = "var(--jp-ui-font-color2,#555)"
SAFE = "#7aa6d6"
LOSS = "#d0402b"
COLORS = ("#1565c0", "#c2410c")
DASHES = ("", "7 4")
NAMED = 4  # crossings that are named one by one


@dataclass(frozen=True)
class Scale:
    """Where on the drawing a value stands, along one direction."""

    low: float
    high: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """Return the place of a value; one beyond the scale stands at its end."""
        inside = min(max(value, self.low), self.high)
        return self.start + (inside - self.low) / (self.high - self.low) * (self.end - self.start)

    def ticks(self, most: int = 6) -> list[float]:
        """Return round values within the scale, no more than asked for."""
        least = (self.high - self.low) / most
        power = 10.0 ** math.floor(math.log10(least))
        step = next(size * power for size in (1, 2, 5, 10) if size * power >= least * (1 - 1e-9))
        first = math.ceil(self.low / step - 1e-9)
        return [count * step for count in range(first, math.floor(self.high / step + 1e-9) + 1)]


@dataclass(frozen=True)
class Mark:
    """A value of the horizontal scale that is pointed out: its words, the row they stand in, and its color."""

    value: float
    words: str
    row: int
    color: str = SOFT
    thick: float = 1.0
    before: bool = False  # the words rather end at the line than begin at it


def cost_chart(cost_draws: Array, likely: float, bid: PriceRisk) -> str:
    """Return how often the job costs how much; what a price does not cover is filled in another color."""
    low, median, high, most = (float(each) for each in np.quantile(cost_draws, (0.1, 0.5, 0.9, TAIL)))
    least = float(cost_draws.min())
    reach = max(most - least, 1.0)
    across = Scale(min(least, max(bid.kept, least - reach)), max(most, min(bid.kept, most + reach)), LEFT, WIDE - RIGHT)
    up = Scale(0.0, 1.0, HIGH - BOTTOM, _below(3))
    marks = [
        Mark(bid.kept, f"your price {dollars(bid.kept)}", 0, INK, 2.5, before=across.at(bid.kept) > WIDE / 2),
        Mark(low, f"1 in 10 below {dollars_short(low)}", 1, before=across.at(low) > WIDE / 3),
        Mark(high, f"1 in 10 above {dollars_short(high)}", 1, before=across.at(high) > WIDE * 2 / 3),
        Mark(likely, f"likely {dollars_short(likely)}", 2, INK, before=likely <= median),
        Mark(median, f"half above {dollars_short(median)}", 2, before=likely > median),
    ]
    title = (
        f"How often the job costs how much: likely {dollars(likely)}, in one case of ten below {dollars(low)}, "
        f"in one of ten above {dollars(high)}; a price of {dollars(bid.kept)} is not enough in {bid.chance:.0%}"
    )
    return _svg(
        title,
        _bars(cost_draws, across, up, bid.kept),
        _across(across, dollars_short, "what the job costs"),
        _marked(across, marks),
    )


def _bars(cost_draws: Array, across: Scale, up: Scale, kept: float) -> str:
    edges = np.linspace(across.low, across.high, BINS + 1)
    counts, _ = np.histogram(cost_draws, edges)
    shares = counts / max(counts.max(), 1)
    return "".join(
        _bar(across, up, float(share), left, right, color)
        for share, low, high in zip(shares, edges[:-1], edges[1:], strict=True)
        for left, right, color in ((low, min(high, kept), SAFE), (max(low, kept), high, LOSS))
        if share and right > left
    )


def _bar(across: Scale, up: Scale, share: float, left: float, right: float, color: str) -> str:
    x, y = across.at(left), up.at(share)
    size = f'x="{x:.1f}" y="{y:.1f}" width="{across.at(right) - x + 0.2:.1f}" height="{up.start - y:.1f}"'
    return f'<rect {size} fill="{color}"/>'


@dataclass(frozen=True)
class Axis:
    """How the values of a figure are shown: in what numbers, in what words, and under what title."""

    title: str
    shown: Callable[[float], float]
    said: Callable[[float], str]


def methods_chart(found: Along, names: tuple[str, str], axis: Axis) -> str:
    """Return two prices along one figure, where they cross and where the figure stands now."""
    both = np.concatenate([found.one, found.other])
    room = max(float(np.ptp(both)) * 0.08, 1.0)
    ends = axis.shown(float(found.values[0])), axis.shown(float(found.values[-1]))
    across = Scale(*ends, LEFT + 52, WIDE - RIGHT)
    marks = [*_crossings(found, axis), _place_now(found, axis)]
    top = _below(max(mark.row for mark in marks) + 1)
    up = Scale(float(both.min()) - room, float(both.max()) + room, HIGH - BOTTOM, top)
    lines = "".join(
        _line([axis.shown(float(each)) for each in found.values], costs, across, up, color, dash)
        for costs, color, dash in zip((found.one, found.other), COLORS, DASHES, strict=True)
    )
    title = f"{names[0]} and {names[1]}, price of each along {axis.title}"
    return _svg(
        title,
        _band(found, across, up, axis),
        _up(up, across),
        _across(across, number, axis.title),
        lines,
        _marked(across, marks),
    )


def _crossings(found: Along, axis: Axis) -> Iterator[Mark]:
    """Yield a mark for each crossing; where there are many, only the first and the last have words."""
    for place, value in enumerate(found.at):
        named = len(found.at) <= NAMED or value in (found.at[0], found.at[-1])
        yield Mark(axis.shown(value), axis.said(value) if named else "", 1 + place % 2, LOSS)


def _place_now(found: Along, axis: Axis) -> Mark:
    return Mark(axis.shown(found.figure.value), f"now {axis.said(found.figure.value)}", 0, INK, 2.0)


def key(names: tuple[str, str]) -> str:
    """Return which line stands for which of two methods, as HTML."""
    parts = (
        f'<svg width="34" height="10" aria-hidden="true"><line x1="0" y1="5" x2="34" y2="5" stroke="{color}" '
        f'stroke-width="2.5" stroke-dasharray="{dash}"/></svg> {escape(name)}'
        for name, color, dash in zip(names, COLORS, DASHES, strict=True)
    )
    return f'<p class="pe-small">{" &nbsp; ".join(parts)}</p>'


def _line(values: Sequence[float], costs: Array, across: Scale, up: Scale, color: str, dash: str) -> str:
    points = " ".join(f"{across.at(x):.1f},{up.at(y):.1f}" for x, y in zip(values, costs, strict=True))
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    return f'<polyline points="{points}" fill="none" stroke="{color}" stroke-width="2.5"{dashes}/>'


def _band(found: Along, across: Scale, up: Scale, axis: Axis) -> str:
    low, high = found.figure.low, found.figure.high
    if low is None or high is None or low == high:
        return ""
    x = across.at(axis.shown(low))
    size = f'width="{across.at(axis.shown(high)) - x:.1f}" height="{up.start - up.end:.1f}"'
    return f'<rect x="{x:.1f}" y="{up.end:.1f}" {size} fill="{FAINT}" opacity="0.35"/>'


def _up(up: Scale, across: Scale) -> str:
    return "".join(
        f'<line x1="{across.start:.1f}" y1="{up.at(each):.1f}" x2="{across.end:.1f}" y2="{up.at(each):.1f}" '
        f'stroke="{FAINT}" stroke-width="0.7"/>'
        f'<text x="{across.start - 6:.1f}" y="{up.at(each) + 4:.1f}" text-anchor="end">{dollars_short(each)}</text>'
        for each in up.ticks(5)
    )


def _across(across: Scale, said: Callable[[float], str], axis: str) -> str:
    foot = HIGH - BOTTOM
    ticks = "".join(
        f'<line x1="{across.at(each):.1f}" y1="{foot:.1f}" x2="{across.at(each):.1f}" y2="{foot + 4:.1f}" '
        f'stroke="{SOFT}"/><text x="{across.at(each):.1f}" y="{foot + 16:.1f}" text-anchor="middle">'
        f"{escape(said(each))}</text>"
        for each in across.ticks()
    )
    middle = (across.start + across.end) / 2
    return (
        f'<line x1="{across.start:.1f}" y1="{foot:.1f}" x2="{across.end:.1f}" y2="{foot:.1f}" stroke="{SOFT}"/>{ticks}'
        f'<text x="{middle:.1f}" y="{HIGH - 6:.1f}" text-anchor="middle">{escape(axis)}</text>'
    )


def _below(rows: int) -> float:
    """Return where the drawing may begin under so many rows of words."""
    return 10 + ROW * rows


def _marked(across: Scale, marks: Sequence[Mark]) -> str:
    """Return all the lines and then all the words, so that no line runs through a word."""
    return "".join(_pointer(across.at(each.value), each) for each in marks) + "".join(
        _words(across.at(each.value), each) for each in marks if each.words
    )


def _pointer(x: float, mark: Mark) -> str:
    ends = f'x1="{x:.1f}" y1="{5 + ROW * mark.row:.1f}" x2="{x:.1f}" y2="{HIGH - BOTTOM:.1f}"'
    return f'<line {ends} stroke="{mark.color}" stroke-width="{mark.thick}"/>'


def _words(x: float, mark: Mark) -> str:
    long = LETTER * len(mark.words) + 6
    before = x + long > WIDE or (mark.before and x > long)
    anchor, aside = ("end", -4.0) if before else ("start", 4.0)
    return (
        f'<text x="{x + aside:.1f}" y="{14 + ROW * mark.row:.1f}" text-anchor="{anchor}" fill="{mark.color}" '
        f'stroke="{PAPER}" stroke-width="4" paint-order="stroke">{escape(mark.words)}</text>'
    )


def dollars_short(amount: float) -> str:
    """Return an amount of money for an axis: whole dollars."""
    return f"${amount:,.0f}"


def _svg(title: str, *parts: str) -> str:
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE:.0f} {HIGH:.0f}" width="{WIDE:.0f}" role="img" '
        f'aria-label="{escape(title)}"><title>{escape(title)}</title>'
        f'<g font-size="12" fill="{SOFT}">{"".join(parts)}</g></svg>'
    )
