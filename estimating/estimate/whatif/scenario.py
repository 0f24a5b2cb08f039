"""Scenarios: a job and a few named changes to it, and what differs between two of them."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import Enum
from itertools import zip_longest
from typing import Any, TypeAlias

from estimating.errors import InputError, Location
from estimating.estimate.pricing.build_up import Estimate
from estimating.estimate.pricing.lines import Line, Section

Plain: TypeAlias = Mapping[str, Any]  # a job as a file or a form gives it
Changes: TypeAlias = Mapping[Location, Any]


class Absent(Enum):
    """The value of a place that a job does not have: a row taken away, a figure that is the table's own."""

    ABSENT = "nothing"


ABSENT = Absent.ABSENT


@dataclass(frozen=True)
class Scenario:
    """A name, and what is set where in the job it belongs to."""

    name: str
    changes: Changes

    def of(self, plain: Plain) -> dict[str, Any]:
        """Return the job with the changes of this scenario."""
        return apply(plain, self.changes)


def changes_between(before: Plain, after: Plain) -> dict[Location, Any]:
    """Return what has to be set where to make one job of another; ABSENT where something is taken away.

    Rows are compared by their place: one taken out of the middle moves those after it up, and ends as one taken away.
    """
    return dict(_changes((), before, after))


def _changes(path: Location, before: Any, after: Any) -> Iterator[tuple[Location, Any]]:
    if isinstance(before, Mapping) and isinstance(after, Mapping):
        for name in dict.fromkeys([*before, *after]):
            yield from _changes((*path, name), before.get(name, ABSENT), after.get(name, ABSENT))
    elif isinstance(before, list) and isinstance(after, list):
        for place, (old, new) in enumerate(zip_longest(before, after, fillvalue=ABSENT)):
            yield from _changes((*path, place), old, new)
    elif before != after:
        yield path, after


def apply(plain: Plain, changes: Changes) -> dict[str, Any]:
    """Return a job with changes made to it; the one given stays as it was.

    Raises InputError, naming the place, where the job has no such place.
    """
    changed = {name: _copy(value) for name, value in plain.items()}
    for path, value in changes.items():
        if value is not ABSENT:
            _put(_parent(changed, path), path, _copy(value))
    for path in reversed([path for path, value in changes.items() if value is ABSENT]):
        parent = _parent(changed, path)
        if value_at(parent, path[-1:]) is ABSENT:
            raise _no_place(path)
        del parent[path[-1]]
    return changed


def _copy(value: Any) -> Any:
    """Return a copy that shares no part with what it is of, nor one part with another."""
    if isinstance(value, Mapping):
        return {name: _copy(each) for name, each in value.items()}
    return [_copy(each) for each in value] if isinstance(value, list) else value


def value_at(plain: Any, path: Location) -> Any:
    """Return what stands at a place of a job; ABSENT where there is no such place."""
    for step in path:
        try:
            plain = plain[step]
        except (KeyError, IndexError, TypeError):
            return ABSENT
    return plain


def _parent(plain: dict[str, Any], path: Location) -> Any:
    parent = value_at(plain, path[:-1])
    if not path or not isinstance(parent, dict | list):
        raise _no_place(path)
    return parent


def _put(parent: Any, path: Location, value: Any) -> None:
    place = path[-1]
    if isinstance(parent, dict) and isinstance(place, str):
        parent[place] = value
    elif isinstance(parent, list) and isinstance(place, int) and 0 <= place <= len(parent):
        parent[place : place + 1] = [value]
    else:
        raise _no_place(path)


def _no_place(path: Location) -> InputError:
    return InputError(" · ".join(map(str, path)) or "job", path, "a place that this job has", path)


@dataclass(frozen=True)
class LineChange:
    """A line of the price that is not the same in two estimates; None where one has no such line."""

    before: Line | None
    after: Line | None

    @property
    def line(self) -> Line:
        """The line as it is after, or as it was where there is none any more."""
        found = self.after or self.before
        if found is None:
            raise InputError("line", None, "a line before or after")
        return found

    @property
    def change(self) -> Decimal:
        """What it adds to the price, to the cent; the changes of all lines add up to the change of the price."""
        return _cost(self.after) - _cost(self.before)


def line_changes(before: Estimate, after: Estimate) -> list[LineChange]:
    """Return the lines that differ in words, quantity or cost, in the order of the price; those at no cost do not."""
    olds, news = _by_place(before.lines), _by_place(after.lines)
    pairs = [LineChange(olds.get(place), news.get(place)) for place in dict.fromkeys([*olds, *news])]
    order = [*Section]
    differing = [pair for pair in pairs if not _same(pair.before, pair.after)]
    return sorted(differing, key=lambda pair: order.index(pair.line.section))


def _by_place(lines: Sequence[Line]) -> dict[tuple[str, ...], Line]:
    """Return the lines by section, key and room; those that share all three are told apart by their order."""
    seen: Counter[tuple[str, ...]] = Counter()
    found: dict[tuple[str, ...], Line] = {}
    for line in lines:
        place = (str(line.section), line.key, line.room)
        seen[place] += 1
        found[(*place, str(seen[place]))] = line
    return found


def _same(before: Line | None, after: Line | None) -> bool:
    if before is None or after is None:
        return False
    if not (before.cost or after.cost):  # a tax at nothing is the same, whatever it is taken of
        return True
    quantities = (before.quantity.value, after.quantity.value)
    alike = math.isclose(*quantities, rel_tol=1e-9) or all(map(math.isnan, quantities))
    return alike and before.cost == after.cost and before.item == after.item


def _cost(line: Line | None) -> Decimal:
    return line.cost if line else Decimal("0.00")
