"""Rules of the trade as plain functions, each with its formula, its units, its bounds and its source beside it."""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import wraps
from typing import Any, TypeVar, cast

from estimating.bounds import Bound, read_bound
from estimating.errors import EvidenceError
from estimating.origins import Origin
from estimating.units import Number

R = TypeVar("R", bound=Callable[..., Any])
SAME = "same"  # the unit of the first figure given; the others are converted to it


@dataclass(frozen=True)
class RuleCard:
    """What a rule says of itself: how it is written, in which units and bounds, and where it comes from."""

    formula: str
    unit: str
    arguments: Mapping[str, str]
    rest: str | None  # the unit of any further keyword arguments; None where there are none
    origin: Origin
    bounds: Mapping[str, Bound]
    rest_bound: Bound | None = None

    def __str__(self) -> str:
        source = f"{self.origin}. {self.origin.note}" if self.origin.note else str(self.origin)
        parts = {
            "Formula": [self.formula],
            "Arguments": list(self._takes()),
            "Answer": [_unit_words(self.unit)],
            "Source": [source],
        }
        return "\n".join(f"{title}:\n" + "\n".join(f"    {line}" for line in lines) for title, lines in parts.items())

    def _takes(self) -> Iterator[str]:
        for name, unit in self.arguments.items():
            yield _said(name, unit, self.bounds.get(name))
        if self.rest is not None:
            yield _said("any further ones", self.rest, self.rest_bound)


def _unit_words(unit: str) -> str:
    return "the unit of the first argument" if unit == SAME else unit


def _said(name: str, unit: str, bound: Bound | None) -> str:
    return f"{name} ({_unit_words(unit)})" + (f": {bound.words}" if bound else "")


def rule(formula: str, unit: str, origin: Origin, *, rest: str | None = None, **arguments: str) -> Callable[[R], R]:
    """Register a pure function as a rule: its bounds are checked before it runs, and help() prints its card.

    formula: display text, in the words or letters of its source.
    unit: the unit of the answer. arguments: the unit of each argument by name, and behind a comma what it may be, as
    in `length="ft, 0 or more"`, `share="dimensionless, 0 to 1"`, `pressure="psi, more than 0"`.
    rest: the same for any number of further keyword arguments (sums, schedules).
    """
    units = {name: _unit(text) for name, text in arguments.items()}
    bounds = {name: bound for name, text in arguments.items() if (bound := _bound(text))}
    card = RuleCard(formula, unit, units, _unit(rest) if rest else None, origin, bounds, _bound(rest) if rest else None)

    def register(function: R) -> R:
        checked = _checked(function, card)
        checked.card = card  # type: ignore[attr-defined]
        checked.__doc__ = f"{inspect.cleandoc(function.__doc__ or '')}\n\n{card}"
        return checked

    return register


def _unit(text: str) -> str:
    return text.partition(", ")[0]


def _bound(text: str) -> Bound | None:
    unit, _, words = text.partition(", ")
    return read_bound(words, unit) if words else None


def _checked(function: R, card: RuleCard) -> R:
    """Return the function behind a look at its arguments; a plain number takes the short way through."""
    bounds = tuple((name, bound.least, bound.most, bound) for name, bound in card.bounds.items())
    further, named = card.rest_bound, card.arguments
    if not bounds and not further:
        return function

    @wraps(function)
    def checked(**given: Number) -> Any:
        for name, least, most, bound in bounds:
            value = given.get(name, least)  # one that is missing is named by the function itself
            if not (isinstance(value, float) and least <= value <= most) and not bound.holds(value):
                raise bound.refuse(name, value)
        if further:
            for name, value in given.items():
                if name not in named and not further.holds(value):
                    raise further.refuse(name, value)
        return function(**given)

    return cast(R, checked)


def card_of(function: Callable[..., Any]) -> RuleCard:
    """Return the card of a rule.

    Raises EvidenceError for a function that was never registered, naming it.
    """
    card = getattr(function, "card", None)
    if not isinstance(card, RuleCard):
        name = getattr(function, "__name__", repr(function))
        raise EvidenceError(f"{name} is no rule: register it with a formula, units and a source")
    return card
