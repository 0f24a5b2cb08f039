"""Figures: numbers that remember where they came from.

A leaf figure carries its origin and its low / likely / high. A worked figure carries the rule and the figures that
went into it, so that the likely value, the range and the explanation all come out of one and the same tree.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Generator, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import chain
from typing import Any, TypeAlias, TypeVar

import numpy as np

from estimating.errors import EvidenceError, InputError
from estimating.origins import Kind, Origin, definition
from estimating.rules import SAME, card_of, rule
from estimating.units import OFFSET_UNITS, Number, convert, factor


@dataclass(frozen=True, eq=False, init=False, repr=False)
class Figure:
    """A number in a unit, with its origin and, if it was worked out, the rule and its inputs.

    Equality is identity on purpose: two equal tape readings are two figures, and a figure used twice varies as one.
    low and high are the 10th and 90th percentile of a leaf; both None for a worked figure.
    """

    name: str
    value: float
    unit: str
    origin: Origin
    low: float | None = None
    high: float | None = None
    key: str = ""  # where a leaf can be changed: a field of the job or "table/row"
    rule: Callable[..., Any] | None = None
    inputs: tuple[tuple[str, Figure], ...] = ()

    def __init__(
        self,
        name: str,
        value: float,
        unit: str,
        origin: Origin,
        low: float | None = None,
        high: float | None = None,
        key: str = "",
        rule: Callable[..., Any] | None = None,
        inputs: tuple[tuple[str, Figure], ...] = (),
    ) -> None:
        # A large job is some ten thousand figures: one update takes a third of the time of a frozen class's own init.
        vars(self).update(
            name=name, value=value, unit=unit, origin=origin, low=low, high=high, key=key, rule=rule, inputs=inputs
        )

    def __repr__(self) -> str:
        # Not the tree under it: shared by many, a price would be written out for minutes.
        return f"Figure({self.name!r}, {self.value:.6g} {self.unit})"

    @property
    def formula(self) -> str:
        """The rule as its source writes it; empty for a leaf."""
        return card_of(self.rule).formula if self.rule else ""

    def value_in(self, unit: str) -> float:
        """Return the value as a plain number in a unit; InputError for a unit of another dimension."""
        return self.value if unit == self.unit else float(convert(self.value, self.unit, unit))

    def walk(self) -> Iterator[Figure]:
        """Yield every figure this one rests on, inputs before what uses them, each once."""
        return iter(_in_order([self]))


def leaf(
    name: str,
    value: float,
    unit: str,
    origin: Origin,
    *,
    low: float | None = None,
    high: float | None = None,
    key: str = "",
) -> Figure:
    """Return a figure that was read, measured or looked up.

    Raises EvidenceError without an origin, InputError when low ≤ value ≤ high does not hold.
    """
    if not isinstance(origin, Origin):
        raise EvidenceError(f"{name} has no origin: say where {value} {unit} comes from")
    bottom = value if low is None else low
    top = value if high is None else high
    if not bottom <= value <= top:
        raise InputError(key or name, (low, value, high), "low ≤ likely ≤ high")
    return Figure(name, float(value), unit, origin, float(bottom), float(top), key)


UNDRAWN = math.nan  # the likely value of luck: the dice have not been thrown


def random_draw(name: str) -> Figure:
    """Return an even draw between 0 and 1, for an event that happens or not."""
    return Figure(name, UNDRAWN, "dimensionless", definition("an even draw from 0 to 1"), 0.0, 1.0)


def is_luck(figure: Figure) -> bool:
    """Say whether a leaf is an even draw rather than a measured or looked-up number."""
    return figure.rule is None and math.isnan(figure.value)


def _arguments(rule_: Callable[..., Any], inputs: Iterable[tuple[str, Figure]]) -> list[tuple[str, Figure, str]]:
    card = card_of(rule_)
    first = ""
    wanted = []
    for name, figure in inputs:
        unit = card.arguments.get(name, card.rest)
        if unit is None:
            raise EvidenceError(f"{rule_.__name__} takes no {name}; it takes {', '.join(card.arguments)}")
        if not isinstance(figure, Figure):
            raise EvidenceError(f"{rule_.__name__} · {name}: {figure!r} is a bare number; give a figure with an origin")
        first = first or figure.unit
        wanted.append((name, figure, first if unit == SAME else unit))
    return wanted


def work(rule_: Callable[..., Any], name: str, /, **inputs: Figure) -> Figure:
    """Apply a registered rule to figures; the answer keeps the rule and the figures.

    Raises EvidenceError for a bare number or an unregistered rule, InputError for a unit of the wrong dimension.
    """
    card = card_of(rule_)
    wanted = _arguments(rule_, inputs.items())
    try:
        value = rule_(
            **{
                argument: each.value if each.unit == unit else convert(each.value, each.unit, unit)
                for argument, each, unit in wanted
            }
        )
    except InputError as problem:
        raise InputError(f"{name} · {problem.field}", problem.value, problem.needed) from problem
    unit = wanted[0][2] if card.unit == SAME else card.unit
    return Figure(name, float(value), unit, card.origin, rule=rule_, inputs=tuple(inputs.items()))


def _in_order(targets: Sequence[Figure]) -> Sequence[Figure]:
    if len(targets) > 2:
        return _all_under(targets)
    return list(dict.fromkeys(chain.from_iterable(map(_under, targets))))


@lru_cache(maxsize=8)  # the price of one way is held against that of each other way
def _under(target: Figure) -> Sequence[Figure]:
    return _all_under([target])


def _all_under(targets: Sequence[Figure]) -> Sequence[Figure]:
    order: dict[Figure, None] = {}
    stack: list[tuple[Figure, bool]] = [(figure, False) for figure in reversed(targets)]
    while stack:
        figure, ready = stack.pop()
        if ready:
            order[figure] = None
        elif figure not in order:
            stack.append((figure, True))
            stack.extend((each, False) for _, each in reversed(figure.inputs))
    return list(order)


def leaves(targets: Sequence[Figure]) -> list[Figure]:
    """Return every leaf under the targets, each once, in a settled order."""
    return [figure for figure in _in_order(targets) if figure.rule is None]


T = TypeVar("T")
_Argument: TypeAlias = tuple[str, Figure, str, float | None]  # name, what it takes, unit, factor (None: convert)


def _factor(given: str, wanted: str) -> float | None:
    if given == wanted:
        return 1.0
    return None if given in OFFSET_UNITS or wanted in OFFSET_UNITS else factor(given, wanted)


def _note(arguments: list[_Argument], rule_: Callable[..., Any], figure: Figure) -> None:
    arguments += [(name, each, unit, _factor(each.unit, unit)) for name, each, unit in _arguments(rule_, figure.inputs)]


def _gather(arguments: Iterable[_Argument], known: Mapping[Figure, Number]) -> dict[str, Number]:
    inputs: dict[str, Number] = {}
    for name, each, unit, times in arguments:
        value = known.get(each, each.value)
        if times is None:
            inputs[name] = convert(value, each.unit, unit)
        else:
            inputs[name] = value if times == 1.0 else value * times
    return inputs


def _seen(value: object) -> object:
    return f"{value.min():.4g} to {value.max():.4g}" if isinstance(value, np.ndarray) and value.size else value


def at_once(work: Generator[None, None, T]) -> T:
    """Return the answer of work that can be done a little at a time, all of it now."""
    while True:
        try:
            next(work)
        except StopIteration as done:
            answer: T = done.value
            return answer


class StandingTree:
    """Figures that are worked out again and again with other leaf values: their order and units are settled once."""

    def __init__(self, targets: Sequence[Figure]) -> None:
        # Each worked figure in order, with its rule and room for its arguments: most are never asked for.
        self._targets = tuple(targets)
        self._steps: list[tuple[Figure, Callable[..., Any], list[_Argument]]] = [
            (figure, figure.rule, []) for figure in _in_order(targets) if figure.rule is not None
        ]

    def at(self, draws: Mapping[Figure, Number]) -> list[Number]:
        """Work the targets out with other leaf values: scalars, or arrays of draws of one shape.

        A leaf without an entry in `draws` keeps its likely value, and so does a figure that rests on no leaf with one.
        A worked figure may have an entry too: it then stands as given, whatever its rule would say.
        Raises InputError, naming the figure, when a draw is outside a rule.
        """
        return at_once(self.working(draws))

    def working(self, draws: Mapping[Figure, Number]) -> Generator[None, None, list[Number]]:
        """Work the targets out one figure at a time, for somebody who must not be kept waiting."""
        known = dict(draws)
        for figure, rule_, arguments in self._steps:
            if figure not in draws and any(each in known for _, each in figure.inputs):
                if not arguments:
                    _note(arguments, rule_, figure)
                try:
                    known[figure] = rule_(**_gather(arguments, known))
                except InputError as problem:
                    seen, where = _seen(problem.value), f"{figure.name} · {problem.field}"
                    raise InputError(where, seen, problem.needed) from problem
                yield
        return [known.get(figure, figure.value) for figure in self._targets]


@lru_cache(maxsize=8)  # a price is worked out again and again from one tree, whose order does not change
def _standing(targets: tuple[Figure, ...]) -> StandingTree:
    return StandingTree(targets)


def evaluate(targets: Sequence[Figure], draws: Mapping[Figure, Number]) -> list[Number]:
    """Work the targets out again with other leaf values, in their order; see StandingTree.at."""
    return _standing(tuple(targets)).at(draws)


def evaluating(targets: Sequence[Figure], draws: Mapping[Figure, Number]) -> Generator[None, None, list[Number]]:
    """Work the targets out as `evaluate` does, one figure at a time."""
    return _standing(tuple(targets)).working(draws)


@rule("sum", SAME, definition("addition"), rest=SAME)
def add_up(**parts: Number) -> Number:
    """Return the sum of any number of figures of one dimension, in the unit of the first."""
    total: Number = 0.0
    for part in parts.values():
        total = total + part
    return total


def total(name: str, parts: Sequence[Figure], *, unit: str) -> Figure:
    """Return the sum of figures as a figure; nothing in `unit` when there are none."""
    if not parts:
        return leaf(name, 0.0, unit, Origin(Kind.DEFINITION, place="nothing to add"))
    return work(add_up, name, **{f"part_{place}": part for place, part in enumerate(parts, 1)})
