"""Answers to "why?": the tree under a line, or the choice of a method."""

from __future__ import annotations

from estimating.errors import InputError
from estimating.estimate.whatif.compare import Comparison
from estimating.reports.format import UnitSystem, dollars
from estimating.reports.provenance import trail
from estimating.workbook import Outcome

WAY_WORDS = ("method", "methods", "recommendation")


def explain(outcome: Outcome, item: str, shown: UnitSystem = UnitSystem.US) -> str:
    """Return the math of a line by its key or words, of the price, or of the choice of method for `method`.

    Raises InputError naming the lines there are.
    """
    wanted = item.strip().lower()
    if wanted in WAY_WORDS:
        return "\n\n".join(explain_method(comparison, shown) for comparison in outcome.comparisons)
    lines = outcome.estimate.lines
    found = [line for line in lines if wanted == line.key.lower()] or [
        line for line in lines if wanted and wanted in line.item.lower()
    ]
    if wanted == "price":
        return trail(outcome.estimate.amount, shown)
    if not found:
        names = ", ".join(dict.fromkeys(line.key for line in lines))
        raise InputError("--explain", item, f"method, price, or one of the lines: {names}")
    return "\n\n".join(f"{line.item}: {dollars(line.cost)}\n{trail(line.amount, shown)}" for line in found)


def explain_method(comparison: Comparison, shown: UnitSystem = UnitSystem.US) -> str:
    """Return why a method is recommended, what would overturn it, and the odds it rests on."""
    parts = [f"{comparison.scope}: {comparison.recommended.plan.title} is recommended", *comparison.why]
    parts += [comparison.turning] if comparison.turning else []
    if comparison.decision_figure is not None:
        parts += ["the choice turns on:", trail(comparison.decision_figure, shown)]
    return "\n".join(parts)
