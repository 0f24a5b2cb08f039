"""The math of a figure as a tree that opens level by level: what it is made of, by which rule, and from where."""

from __future__ import annotations

from html import escape

from estimating.errors import InputError
from estimating.figures import Figure, is_luck
from estimating.reports.exports.explain import explain_method
from estimating.reports.format import UnitSystem, quantity
from estimating.workbook import Outcome

METHOD, PRICE = "method", "price"
DEEPEST = 40


def math_tree(outcome: Outcome, item: str, shown: UnitSystem = UnitSystem.US) -> str:
    """Return the tree of a line by its key, of the price, or why each method is recommended."""
    if item == METHOD:
        told = "\n\n".join(explain_method(each, shown) for each in outcome.comparisons)
        return f'<div class="pe-trail">{escape(told)}</div>'
    if item == PRICE:
        lines = [(line.item + (f", {line.room}" if line.room else ""), line.amount) for line in outcome.estimate.lines]
        return "".join(f'<p class="math-line">{escape(name)} {_value(each, shown)}</p>' for name, each in lines)
    found = [line for line in outcome.estimate.lines if line.key == item]
    if not found:
        raise InputError("show the math", item, "one of the lines of this job")
    return "".join(f"<h3>{escape(line.item)}</h3>{_node(line.amount, '', shown, set(), 0)}" for line in found)


def _value(figure: Figure, shown: UnitSystem) -> str:
    return "" if is_luck(figure) else f"<strong>{escape(quantity(figure.value, figure.unit, shown))}</strong>"


def _node(figure: Figure, called: str, shown: UnitSystem, seen: set[int], deep: int) -> str:
    name = called.replace("_", " ")
    title = escape(
        figure.name if not name or name == figure.name or name.startswith("part ") else f"{name}: {figure.name}"
    )
    head = f"{title} {_value(figure, shown)}"
    if figure.rule is None:
        span = _span(figure, shown)
        return f'<p class="math-leaf">{head} <span class="pe-small">{span}{escape(str(figure.origin))}</span></p>'
    if id(figure) in seen or deep > DEEPEST:
        return f'<p class="math-leaf">{head} <span class="pe-small">as above</span></p>'
    seen.add(id(figure))
    inside = "".join(_node(each, name_, shown, seen, deep + 1) for name_, each in figure.inputs)
    rule = f'<p class="pe-small">{escape(figure.formula)}</p>' if figure.formula else ""
    opened = " open" if deep == 0 else ""
    return f"<details{opened}><summary>{head}</summary>{rule}{inside}</details>"


def _span(figure: Figure, shown: UnitSystem) -> str:
    if figure.low is None or figure.high is None or figure.low == figure.high:
        return ""
    low, high = (escape(quantity(each, figure.unit, shown)) for each in (figure.low, figure.high))
    return f"{low} to {high}; "
