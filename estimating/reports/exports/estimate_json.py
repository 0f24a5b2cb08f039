"""The estimate for another program: lines, methods, orders, days and assumptions, every number with its unit."""

from __future__ import annotations

import json
from typing import Any

from estimating.estimate.pricing.lines import Line
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.estimate.uncertainty.price_risk import bid_for, risk_at_price
from estimating.estimate.uncertainty.ranges import Spread
from estimating.estimate.whatif.compare import Comparison, Option
from estimating.figures import Figure
from estimating.reports.documents.time_and_materials import by_time
from estimating.workbook import Outcome

ASKED_RISKS = (0.05, 0.1, 0.2)


def estimate_json(outcome: Outcome, sure: EstimateRanges) -> str:
    """Return the estimate as JSON text."""
    return json.dumps(estimate_dict(outcome, sure), indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def estimate_dict(outcome: Outcome, sure: EstimateRanges) -> dict[str, Any]:
    """Return the estimate as plain values."""
    estimate = outcome.estimate
    return {
        "title": outcome.job.title,
        "invented": outcome.job.invented,
        **_offer(outcome, sure),
        "hours": {**_value(estimate.hours), **_ends(sure.hours)},
        "days": {**_value(estimate.schedule.days), **_ends(sure.days)},
        "lines": [_line(line, sure) for line in estimate.lines],
        "paint": [
            {
                "product": order.product,
                "title": order.title,
                "color": order.color,
                "need": _value(order.need),
                "buy": str(order.containers),
                "leftover": {"value": round(order.leftover, 3), "unit": "gallon"},
            }
            for order in estimate.paint
        ],
        "supplies": [
            {"item": order.title, "need": _value(order.need), "buy": _value(order.count)} for order in estimate.supplies
        ],
        "work": [_comparison(each) for each in outcome.comparisons],
        "questions": [{"field": each.field, "text": each.text, "blocks": each.blocks} for each in outcome.questions],
        "assumptions": {key: _assumption(figure) for key, figure in sorted(outcome.basis.used().items())},
    }


def _offer(outcome: Outcome, sure: EstimateRanges) -> dict[str, Any]:
    """Return the price, which is fixed, and apart from it what the job costs to do."""
    estimate = outcome.estimate
    risked = risk_at_price(estimate, sure.cost_draws, float(estimate.price))
    bids = {f"{chance:.2f}": bid_for(estimate, sure.cost_draws, chance).price for chance in ASKED_RISKS}
    return {
        "price_offered": {"value": str(estimate.price), "fixed": not by_time(outcome), "unit": "dollar"},
        "cost_to_do": {
            "planned": round(estimate.cost.value, 2),
            "mean": round(risked.kept - risked.profit, 2),
            **_money_ends(sure.cost),
            "unit": "dollar",
        },
        "planned_margin": round(estimate.margin, 4),
        "expected_profit": {"value": round(risked.profit, 2), "unit": "dollar"},
        "expected_margin": round(risked.margin, 4),
        "chance_of_loss": round(risked.chance, 4),
        "price_for_chance_of_loss": {chance: round(price, 2) for chance, price in bids.items()},
    }


def _value(figure: Figure) -> dict[str, Any]:
    return _amount(figure.value, figure.unit)


def _amount(value: float, unit: str, digits: int = 4) -> dict[str, Any]:
    return {"value": round(value, digits), "unit": unit}


def _ends(spread: Spread, digits: int = 4) -> dict[str, float]:
    return {"low": round(spread.low, digits), "high": round(spread.high, digits)}


def _money_ends(spread: Spread) -> dict[str, float]:
    return _ends(spread, 2)


def _line(line: Line, sure: EstimateRanges) -> dict[str, Any]:
    return {
        "section": str(line.section),
        "key": line.key,
        "item": line.item,
        "room": line.room,
        "quantity": {**_value(line.quantity), **_ends(sure.quantities[line])},
        "unit_cost": _value(line.unit_cost) if line.unit_cost else None,
        "cost": {"likely": str(line.cost), **_money_ends(sure.amounts[line]), "unit": "dollar"},
        "detail": line.detail,
    }


def _comparison(comparison: Comparison) -> dict[str, Any]:
    return {
        "scope": comparison.scope,
        "recommended": comparison.recommended.plan.method,
        "taken": comparison.taken.plan.method,
        "why": list(comparison.why),
        "turns_on": _value(comparison.decision_figure) if comparison.decision_figure else None,
        "recommended_along": [
            {
                "from": round(each.low, 4),
                "to": round(each.high, 4),
                "method": comparison.options[each.place].plan.method,
            }
            for each in comparison.stretches
        ],
        "methods": [_method(option) for option in comparison.options],
    }


def _method(option: Option) -> dict[str, Any]:
    plan, likely = option.plan, option.likely
    return {
        "method": plan.method,
        "title": plan.title,
        "standing": str(plan.suitability),
        "reasons": [{"standing": str(each.suitability), "text": each.text} for each in plan.findings],
        "hours": _amount(likely.hours, "hour"),
        "days": _amount(likely.days, "dimensionless"),
        "gallons": _amount(likely.gallons, "gallon", 3),
        "cost": _amount(likely.cost, "dollar"),
        "price": {"value": str(option.price), "unit": "dollar"},
        "release_chance": _value(option.chance) if option.chance else None,
        "release_cost": _value(plan.risks[0].cost_if) if plan.risks else None,
        "client_requirements": list(plan.client_requirements),
        "notes": list(plan.notes),
        "cautions": [
            {"title": each.title, "because": each.because, "advice": each.advice, "citation": each.citation}
            for each in plan.cautions
        ],
    }


def _assumption(figure: Figure) -> dict[str, Any]:
    origin = figure.origin
    return {
        "low": figure.low,
        "likely": figure.value,
        "high": figure.high,
        "unit": figure.unit,
        "origin": str(origin.kind),
        "source": origin.source,
        "place": origin.place,
        "note": origin.note,
    }
