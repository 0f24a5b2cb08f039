"""The biggest price drivers: what each assumption can move, and a slider beside its effect."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from estimating.desk.browser_parts import LeverBoard
from estimating.errors import InputError
from estimating.figures import Figure, evaluate, leaves
from estimating.reports.format import number, quantity, spoken_unit
from estimating.reports.panes.bar import Cheap
from estimating.units import cents
from estimating.workbook import Outcome

SHOWN = 8
HALF = 100  # steps of a slider on either side of where it starts
DECIDED = ("business/",)  # wage, markup and the like are the contractor's decisions: they are typed, not guessed
Moved = Callable[[str, float], None]


class Tree:
    """The tree of a priced job, to be worked out again with another value for one assumption."""

    def __init__(self, outcome: Outcome) -> None:
        self.outcome = outcome
        estimate = outcome.estimate
        self.targets = [estimate.hours, estimate.schedule.days, *(line.amount for line in estimate.lines)]
        self.by_key: dict[str, list[Figure]] = defaultdict(list)
        used = outcome.basis.used()
        for leaf in leaves(self.targets):
            if leaf.key in used:
                self.by_key[leaf.key].append(leaf)

    def with_values(self, moved: Mapping[str, float]) -> Cheap:
        """Return the figures with other values for assumptions; InputError where a rule cannot take one."""
        draws = {leaf: value for key, value in moved.items() for leaf in self.by_key[key]}
        hours, days, *amounts = evaluate(self.targets, draws)
        price = sum((cents(float(amount)) for amount in amounts), Decimal(0))
        return Cheap(float(price), float(hours), float(days), self.outcome.estimate.margin)

    def swings(self) -> Iterator[Swing]:
        """Work out, one assumption at a time, how far each can move the price between its low and its high."""
        price = float(self.outcome.estimate.price)
        for key, several in self.by_key.items():
            leaf = several[0]
            if leaf.low is None or leaf.high is None or leaf.low == leaf.high:
                continue
            try:
                ends = [self.with_values({key: end}).price - price for end in (leaf.low, leaf.high)]
            except InputError:
                continue  # a rule holds for less than the range: that end cannot be drawn as a bar
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
        chosen = [each for each in top if not each.key.startswith(DECIDED)][:SHOWN]
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
        "max": _short(leaf.value + HALF * step),
        "step": _short(step),
        "share": round(100 * swing.size / largest),
        "sum": f"±${swing.size:,.0f}",
    }


def _short(value: float) -> float:
    """Return the value of a slider without the dust that its steps leave: 1.8, not 1.7999999999999998."""
    return float(f"{value:.6g}")


def own_figure(figure: Figure, value: float) -> Mapping[str, object]:
    """Return a moved assumption as the job file keeps it."""
    return {"likely": value, "unit": figure.unit, "note": "set at the desk"}
