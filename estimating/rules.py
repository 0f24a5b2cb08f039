"""Rules of the trade as plain functions, each with its formula, its units and its source beside it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from estimating.errors import EvidenceError
from estimating.origins import Origin

R = TypeVar("R", bound=Callable[..., Any])
SAME = "same"  # the unit of the first figure given; the others are converted to it


@dataclass(frozen=True)
class RuleCard:
    """What a rule says of itself: how it is written, in which units, and where it comes from."""

    formula: str
    unit: str
    arguments: Mapping[str, str]
    rest: str | None  # the unit of any further keyword arguments; None where there are none
    origin: Origin


def rule(formula: str, unit: str, origin: Origin, *, rest: str | None = None, **arguments: str) -> Callable[[R], R]:
    """Register a pure function as a rule; the function itself is unchanged.

    formula: display text, in the words or letters of its source.
    unit: the unit of the answer. arguments: the unit of each argument, by name.
    rest: the unit of any number of further keyword arguments (sums, schedules).
    """
    card = RuleCard(formula, unit, dict(arguments), rest, origin)

    def register(function: R) -> R:
        function.card = card  # type: ignore[attr-defined]
        return function

    return register


def card_of(function: Callable[..., Any]) -> RuleCard:
    """Return the card of a rule.

    Raises EvidenceError for a function that was never registered, naming it.
    """
    card = getattr(function, "card", None)
    if not isinstance(card, RuleCard):
        name = getattr(function, "__name__", repr(function))
        raise EvidenceError(f"{name} is no rule: register it with a formula, units and a source")
    return card
