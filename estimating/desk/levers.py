"""The biggest price drivers: what each assumption can move, and a slider beside its effect."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from estimating.desk.browser_parts import LeverBoard
from estimating.errors import InputError
from estimating.estimate.pricing.lines import GAIN, Section
from estimating.estimate.uncertainty.ranges import usual_bounds
from estimating.figures import Figure
from estimating.reports.format import number, quantity, spoken_unit
from estimating.reports.panes.bar import Cheap
from estimating.workbook import Outcome

SHOWN = 8
HALF = 100  # steps of a slider on either side of where it starts
UP_TO = 0.6  # of the way to what is possible: where the range of a moved chance ends; judgment
NEARLY = 0.98  # of what is possible: where its slider ends; judgment
DECIDED = ("business/",)  # wage, markup and the like are the contractor's decisions: they are typed, not guessed
Moved = Callable[[str, float], None]


def with_values(outcome: Outcome, moved: Mapping[str, float]) -> Cheap:
    """Return the figures of a job with other values for assumptions; InputError where a rule cannot take one."""
    made, lines = outcome.moved(moved), outcome.estimate.lines
    tax, gain = (
        float(sum(amount for line, amount in zip(lines, made.amounts, strict=True) if line.section in sections))
        for sections in ((Section.SALES_TAX,), GAIN)
    )
    kept = float(made.price) - tax
    return Cheap(float(made.price), made.hours, made.days, gain / kept if kept else 0.0, kept)


def swings(outcome: Outcome) -> Iterator[Swing | None]:
    """Work out, one assumption at a time, how far each can move the price; None where it cannot be told."""
    price = float(outcome.estimate.price)
    for key, leaf in outcome.basis.used().items():
        if leaf.low is None or leaf.high is None or leaf.low == leaf.high or key.startswith(DECIDED):
            continue
        try:
            ends = [with_values(outcome, {key: end}).price - price for end in (leaf.low, leaf.high)]
        except InputError:
            yield None  # a rule holds for less than the range, or the price does not rest on it after all
        else:
            yield Swing(key, leaf, ends[0], ends[1])


@dataclass(frozen=True)
class Swing:
    """How far one assumption moves the price: at its low and at its high, in dollars."""

    key: str
    leaf: Figure
    at_low: float
    at_high: float

    @property
    def size(self) -> float:
        """Half of the way between the two ends (dollars)."""
        return abs(self.at_high - self.at_low) / 2


class Levers:
    """Sliders of the assumptions that move the price most, each with its bar."""

    def __init__(self, moved: Moved) -> None:
        self.leaves: dict[str, Figure] = {}
        self.widget = LeverBoard()
        self.widget.observe(
            lambda change: moved(str(change["new"]["key"]), _short(float(change["new"]["value"]))), names="moved"
        )

    def offer(self, swings: Sequence[Swing]) -> None:
        """Show the largest; a slider under the hand stays where the hand has it."""
        top = sorted(swings, key=lambda swing: -swing.size)
        chosen = top[:SHOWN]
        self.leaves = {each.key: each.leaf for each in chosen}
        largest = max((each.size for each in chosen), default=1.0) or 1.0
        self.widget.rows = [_row(each, largest) for each in chosen]

    def clear(self) -> None:
        """Show none: another job is on the desk."""
        self.widget.rows = []


def _row(swing: Swing, largest: float) -> dict[str, str | float]:
    leaf = swing.leaf
    low, high = leaf.low or 0.0, leaf.high or 0.0
    step = min(max(high - leaf.value, leaf.value - low) * 1.5, abs(leaf.value)) / HALF or 1 / HALF
    return {
        "key": swing.key,
        "name": f"{leaf.name}, {spoken_unit(leaf.unit)}".strip(", "),
        "span": f"{number(low)} to {quantity(high, leaf.unit)}, {leaf.origin.kind}",
        "value": _short(leaf.value),
        "min": _short(leaf.value - HALF * step),
        "max": _short(min(leaf.value + HALF * step, _most(leaf))),
        "step": _short(step),
        "share": round(100 * swing.size / largest),
        "sum": f"±${swing.size:,.0f}",
    }


def _most(leaf: Figure) -> float:
    """Return how far a slider may go: a chance stays a chance."""
    upper = usual_bounds(leaf).upper
    return math.inf if upper is None else max(leaf.value, NEARLY * upper)


def _short(value: float) -> float:
    """Return the value of a slider without the dust that its steps leave: 1.8, not 1.7999999999999998."""
    return float(f"{value:.6g}")


def own_figure(figure: Figure, value: float) -> Mapping[str, object]:
    """Return a moved assumption as the job file keeps it; its range stays in proportion, and below what is possible."""
    own = {"likely": value, "unit": figure.unit, "note": "set at the desk"}
    upper, share = usual_bounds(figure).upper, value / figure.value if figure.value else 1.0
    if upper is None or (figure.high or 0.0) * share < upper:
        return own
    return {**own, "low": (figure.low or 0.0) * share, "high": value + UP_TO * (upper - value)}
